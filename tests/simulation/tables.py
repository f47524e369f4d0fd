"""Results as Markdown tables, in per cent."""

from collections.abc import Iterable, Iterator

from scipy import special

from tests.simulation.layout import CASES, RATES, SPREADS, STUDIES, Layout
from tests.simulation.results import Asked, Results, Share, layouts
from tests.simulation.rules import Rule

RULE_NAMES = {
    Rule.TOOL: "the verdict",
    Rule.PLUG_IN: "spread as estimated",
    Rule.SAME_RATE: "one rate for all",
    Rule.FIXED: "one rate for all, taken as known",
}

#: With fewer such reviews than this their mean is not shown.
FEWEST_REVIEWS = 20

#: The typical rate around which spreads are shown.
MIDDLE_RATE = 0.074


def percent(share: float) -> str:
    """Write a share in per cent, without the sign."""
    return f"{100 * share:.1f}"


def span(shares: Iterable[Share | float]) -> str:
    """Write the lowest and highest of some shares in per cent; empty where there is none."""
    values = [one.value if isinstance(one, Share) else one for one in shares]
    if not values:
        return ""
    return f"{percent(min(values))} to {percent(max(values))}"


def rate_name(rate: float) -> str:
    """Write a typical rate."""
    return f"{100 * rate:g}%"


def table(head: list[str], rows: Iterable[list[str]]) -> str:
    """Write a Markdown table, numbers to the right."""
    lines = [head, ["---:"] * len(head), *rows]
    return "\n".join(f"| {' | '.join(cells)} |" for cells in lines)


def by_studies(results: Results, asked: Asked) -> str:
    """Lowest and highest share over rates and cases, by studies and true spread."""
    return table(
        ["studies", *(f"spread {tau:g}" for tau in SPREADS)],
        (
            [str(k), *(span(results.shares(layouts(k=[k], tau=[tau]), asked)) for tau in SPREADS)]
            for k in STUDIES
        ),
    )


def by_rule(results: Results, asked: Asked) -> str:
    """Four rules side by side: lowest and highest share, by true spread."""
    return table(
        ["spread", *RULE_NAMES.values()],
        (
            [f"{tau:g}", *(span(results.shares(layouts(tau=[tau]), asked, rule)) for rule in Rule)]
            for tau in SPREADS
        ),
    )


def by_layout(results: Results, asked: Asked) -> str:
    """Every layout with its error: studies and spread down, typical rate and cases across."""

    def cell(layout: Layout, cases: int) -> str:
        share = results.share(layout, cases, asked)
        return f"{percent(share.value)} ({percent(share.error)})"

    columns = [(rate, cases) for rate in RATES for cases in CASES]
    return table(
        ["studies", "spread", *(f"{rate_name(rate)}, {cases} cases" for rate, cases in columns)],
        (
            [str(k), f"{tau:g}", *(cell(Layout(k, tau, rate), cases) for rate, cases in columns)]
            for k in STUDIES
            for tau in SPREADS
        ),
    )


def spreads() -> str:
    """What a spread means, and the settings above twice the typical risk; this is exact."""

    def row(tau: float) -> list[str]:
        places = special.logit(MIDDLE_RATE) + tau * special.ndtri([0.025, 0.975])
        middle = span(special.expit(places).tolist())
        at_rates = [Layout(STUDIES[0], tau, rate) for rate in RATES]
        return [f"{tau:g}", middle, *(percent(one.share_beyond) for one in at_rates)]

    return table(
        [
            "spread",
            f"middle 95% of settings around {rate_name(MIDDLE_RATE)}",
            *(f"above twice the risk, {rate_name(rate)}" for rate in RATES),
        ],
        map(row, SPREADS),
    )


def next_to_no_spread(results: Results) -> str:
    """Reviews that saw next to no spread: how many do, and whom two rules flag on one side."""
    head = ["studies", "spread", "reviews", RULE_NAMES[Rule.PLUG_IN], RULE_NAMES[Rule.TOOL]]
    return table(head, _rows_of_little(results))


def shares_of_little(results: Results, among: Iterable[Layout], rule: Rule) -> list[Share]:
    """Return what a rule flags on the unfavourable side where enough reviews saw no spread."""
    return [
        results.share(one, cases, Asked.UNFAVOURABLE, rule, little=True)
        for one in among
        if results.of(one)["saw_little_spread"] >= FEWEST_REVIEWS
        for cases in CASES
    ]


def _rows_of_little(results: Results) -> Iterator[list[str]]:
    for k in STUDIES:
        for tau in SPREADS:
            among = layouts(k=[k], tau=[tau])
            seen = [results.of(one) for one in among]
            often = [one["saw_little_spread"] / one["reviews"] for one in seen]
            flags = [
                span(shares_of_little(results, among, rule)) for rule in (Rule.PLUG_IN, Rule.TOOL)
            ]
            yield [str(k), f"{tau:g}", span(often), *flags]
