"""What the page prints of each pool: tables, sentences, forests, and the unit's own part."""

import re
from functools import cache

from tests.reporting.outlets.bands import bands, svg_words
from tests.reporting.outlets.made import Lines, keys_of, stratum_of
from tests.reporting.outlets.printed import digits, of_cells, of_sentence
from tests.reporting.page.made import content, review
from tests.reporting.page.made import page as written
from tests.reporting.page.read_html import Node, parsed


@cache
def page(name: str) -> Node:
    return parsed(written(name))


def page_tables(name: str) -> Lines:
    """Yield the rows of the tables of the page, first those of the answer in one screen."""
    root = page(name)
    outcomes = {words.label: one for one, words in review(name).plan.outcomes.items()}
    strata = {declared.label: one for one, declared in review(name).plan.strata.items()}
    for shown in root.by_id("answer").all("table"):
        outcome, stratum = outcomes.get(shown.all("caption")[0].text), None
        for first, *cells in _rows(shown):
            if outcome is None:
                whole = keys_of(name, outcomes[first], None)
                yield whole["all studies"], _page_cells([first, *cells])
                continue
            label, is_named, group = first.rpartition(": ")
            stratum = strata[label] if is_named else stratum
            yield keys_of(name, outcome, stratum)[group.lower()], _page_cells([group, *cells])
    for outcome in review(name).plan.outcomes:
        section = root.by_id(f"outcome-{outcome}")
        tables = [t for t in section.all("table") if t.attributes["class"] == "answers"]
        assert len(tables) == len(strata)
        for shown in tables:
            found = strata[shown.all("caption")[0].text.partition(": ")[2]]
            for cells in _rows(shown):
                yield keys_of(name, outcome, found)[cells[0].lower()], _page_cells(cells)


def _rows(node: Node) -> list[list[str]]:
    return [[c.text for c in row.all("th", "td")] for row in node.all("tbody")[0].all("tr")]


def _page_cells(cells: list[str]) -> dict[str, str]:
    return of_cells(*cells[1:5]) | {"range": digits(cells[5])}


def page_sentences(name: str) -> Lines:
    """Yield the sentences of the page, over all studies and by level."""
    root = page(name)
    for item in content(name).outcomes:
        section = root.by_id(f"outcome-{item.name}")
        head = f"{item.overall.sentence.partition(':')[0]}:"
        said = [p.text for p in section.all("p") if p.text.startswith(head)]
        yield f"{item.name}/overall", of_sentence(said[0])
        for stratum in item.strata:
            folds = [
                n
                for n in section.all("details")
                if n.attributes["id"] == f"said-{item.name}-by-{stratum.name}"
            ]
            points = [point.text for fold in folds for point in fold.all("li")]
            pooled = [a for a in stratum.answers if a.pooled.answer.k]
            for answered, said in zip(pooled, points, strict=bool(folds)):
                yield answered.question.key, of_sentence(said)


def drawings(figure: Node) -> list[Node]:
    """Return the drawing for wide screens and the one for narrow ones, each whole."""
    found = [n for n in figure.all("div") if n.attributes.get("class") in {"wide", "narrow"}]
    assert found
    return found


def forests(root: Node, outcome: str) -> list[Node]:
    """Return the figures of an outcome's forests: that which stands first, then the folded."""
    names = re.compile(rf"forest-{outcome}(-by-.+)?")
    return [f for f in root.all("figure") if names.fullmatch(f.attributes.get("id", ""))]


def page_forests(name: str) -> Lines:
    """Yield the bands of the forests of the page, the wide and the narrow ones."""
    root = page(name)
    for outcome in review(name).plan.outcomes:
        drawn = [d for shown in forests(root, outcome) for d in drawings(shown)]
        for words in map(svg_words, drawn):
            stratum = stratum_of(name, [text for role, text in words if role == "band"])
            yield from bands(words, keys_of(name, outcome, stratum)).items()
