"""Tables of patient types, kept small without losing anything.

A patient's type is a value of every attribute, and the number of types is the product of the
numbers of values: thousands for a plan with a few complications. But a line of a unit file speaks
of two or three attributes. Draw the attributes as points, join those that some line or rule of the
plan ties together, and fill in edges until the graph is chordal. Then one table for each clique is
enough, if tables that share attributes agree on them. Whole-number tables that agree can always be
put together, patient by patient: those who look alike in what two tables share are paired off in
any order, and every line keeps its sum. So nothing is gained or lost against the full product.

Source: Lauritzen, Graphical Models, Oxford 1996, chapter 2 (decomposable graphs; from memory).
"""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from itertools import combinations, product
from math import prod

from evsyn.extraction.flow.attributes import Attributes
from evsyn.extraction.flow.sets import GROUP, LEVEL, STAGE, Cases
from evsyn.extraction.flow.structure import impossible
from evsyn.extraction.unit import Unit

Graph = dict[str, set[str]]


@dataclass(frozen=True, slots=True)
class Table:
    """The types that differ in a few attributes.

    Parameters
    ----------
    attributes : tuple of str
        The attributes, in order of name.
    cells : tuple of tuple of str
        Values of the attributes, one tuple a cell; cells that cannot be are left out.
    parent : int or None
        Place in the list of the table it must agree with; the last table has none.
    shared : tuple of str
        The attributes on which the two must agree.
    """

    attributes: tuple[str, ...]
    cells: tuple[tuple[str, ...], ...]
    parent: int | None
    shared: tuple[str, ...]


class TooManyTypesError(Exception):
    """Raised when the tables would hold more cells than can be searched."""


def spoken_of(said: Iterable[Cases], attributes: Attributes) -> list[str]:
    """Return the attributes that some sets hang on, with those these hang on in turn."""
    found = {STAGE}.union(*(cases.attributes for cases in said))
    waiting = sorted(found)
    while waiting:
        name = waiting.pop()
        step = attributes.plan.course.steps.get(name)
        above = {step.within} - set(attributes.plan.flow) if step is not None else set()
        if name.startswith(LEVEL) and attributes.groups:
            above = {GROUP}
        waiting += above - found
        found |= above
    return sorted(found)


def tables(
    said: Collection[Cases], unit: Unit, attributes: Attributes, most: int
) -> tuple[Table, ...]:
    """Return the tables in which every set of cases can be counted.

    Parameters
    ----------
    said : collection of Cases
        The sets that lines and rules count.
    unit : Unit
        The unit's figures.
    attributes : Attributes
        What can be told of a case.
    most : int
        Number of cells above which there is no searching.

    Raises
    ------
    TooManyTypesError
        If there would be more than ``most`` cells.
    """
    names = spoken_of(said, attributes)
    forbidden = [one for name in names for one in impossible(name, unit, attributes)]
    sizes = {name: len(attributes.values(name)) for name in names}
    graph: Graph = {name: set() for name in names}
    for cases in (*said, *forbidden):
        _join(graph, cases.attributes)
    cliques = _cliques(graph, sizes)
    if sum(prod(sizes[name] for name in clique) for _, clique in cliques) > most:
        raise TooManyTypesError
    order = {name: place for place, (name, _) in enumerate(cliques)}
    made = []
    for name, clique in cliques:
        shared = clique - {name}
        parent = min((order[other] for other in shared), default=order[name] + 1)
        made.append(
            Table(
                tuple(sorted(clique)),
                tuple(_cells(clique, forbidden, attributes)),
                parent if parent < len(cliques) else None,
                tuple(sorted(shared)),
            )
        )
    return tuple(made)


def _join(graph: Graph, names: Iterable[str]) -> None:
    for one, other in combinations(names, 2):
        graph[one].add(other)
        graph[other].add(one)


def _cliques(graph: Graph, sizes: Mapping[str, int]) -> list[tuple[str, frozenset[str]]]:
    """Take the attributes out one by one, the cheapest first, each with its neighbours."""
    left = {name: set(others) for name, others in graph.items()}
    found = []
    while left:
        name = min(left, key=lambda one: (prod(sizes[n] for n in (one, *left[one])), one))
        others = left.pop(name)
        _join(left, others)
        for other in others:
            left[other].discard(name)
        found.append((name, frozenset({name, *others})))
    return found


def _cells(
    clique: frozenset[str], forbidden: Iterable[Cases], attributes: Attributes
) -> Iterable[tuple[str, ...]]:
    names = sorted(clique)
    here = [
        [(names.index(name), values) for name, values in cases.allowed]
        for cases in forbidden
        if cases.attributes <= clique
    ]
    for cell in product(*map(attributes.values, names)):
        if not any(all(cell[place] in values for place, values in one) for one in here):
            yield cell
