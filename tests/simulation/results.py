"""Kept results by layout, and shares taken out of them."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, NamedTuple

from tests.simulation.layout import CASES, LAYOUTS, Layout
from tests.simulation.rules import Rule
from tests.simulation.run import Result


class Asked(StrEnum):
    """What is asked of a rule."""

    UNFAVOURABLE = "unfavourable"
    FAVOURABLE = "favourable"
    DOUBLED = "doubled"


class Share(NamedTuple):
    """A share of units, its Monte Carlo standard error, and what it is of."""

    value: float
    error: float
    layout: Layout
    cases: int


@dataclass(frozen=True)
class Results:
    """Results of every layout, as they are kept."""

    kept: dict[str, Any]

    def of(self, layout: Layout) -> Result:
        """Return the result of one layout."""
        wanted = (layout.k, layout.tau, layout.rate)
        listed: list[Result] = self.kept["layouts"]
        return next(one for one in listed if (one["k"], one["tau"], one["rate"]) == wanted)

    def share(
        self,
        layout: Layout,
        cases: int,
        asked: Asked,
        rule: Rule = Rule.TOOL,
        *,
        little: bool = False,
    ) -> Share:
        """Return a share; with ``little``, over the reviews that saw next to no spread."""
        measures = self.of(layout)[f"{rule}_{cases}{'_little' if little else ''}"]
        name = "doubled"
        if asked is not Asked.DOUBLED:
            name = "more" if (asked is Asked.UNFAVOURABLE) == (layout.rate < 0.5) else "fewer"
        mean, error = measures[name]
        return Share(mean, error, layout, cases)

    def shares(
        self, layouts: Iterable[Layout], asked: Asked, rule: Rule = Rule.TOOL
    ) -> list[Share]:
        """Return the shares of several layouts, at each number of cases."""
        return [self.share(one, cases, asked, rule) for one in layouts for cases in CASES]


def layouts(
    *,
    k: Iterable[int] | None = None,
    tau: Iterable[float] | None = None,
    rate: Iterable[float] | None = None,
) -> list[Layout]:
    """Return the layouts with these numbers of studies, true spreads and typical rates."""

    def is_among(value: float, wanted: Iterable[float] | None) -> bool:
        return wanted is None or value in wanted

    return [
        one
        for one in LAYOUTS
        if is_among(one.k, k) and is_among(one.tau, tau) and is_among(one.rate, rate)
    ]
