"""What the results come to, in sentences."""

from collections.abc import Iterator
from textwrap import fill

from evsyn.audit.verdict import TAIL
from tests.simulation.layout import CASES, Layout
from tests.simulation.results import Asked, Results, Share, layouts
from tests.simulation.rules import Rule
from tests.simulation.tables import percent, rate_name, shares_of_little, span

#: Typical rates whose unfavourable side is rare: a doubled risk stays below 15%.
RARE = (0.03, 0.074, 0.93)
FEW_STUDIES, HARDLY_ANY, MUCH = (5, 7, 9), (0.0, 0.05), (0.6,)
SOME = (0.3, 0.6, 0.9)
BAD, GOOD, DOUBLED = Asked.UNFAVOURABLE, Asked.FAVOURABLE, Asked.DOUBLED


def in_short(results: Results) -> str:
    """Return the sentences as a Markdown list."""
    return "\n".join(
        fill(f"- {sentence}", 118, subsequent_indent="  ", break_on_hyphens=False)
        for sentence in _sentences(results)
    )


def _sentences(results: Results) -> Iterator[str]:
    everywhere = layouts()
    bad, good = results.shares(everywhere, BAD), results.shares(everywhere, GOOD)
    both = max(one.value + other.value for one, other in zip(bad, good, strict=True))
    yield (
        f"The verdict aims at no more than {percent(TAIL)}% of ordinary units a side. In practice "
        f"it flags {span(bad)}% of them on the unfavourable side and {span(good)}% on the "
        f"favourable one; on both together at most {percent(both)}%."
    )
    few = results.shares(layouts(k=FEW_STUDIES, tau=HARDLY_ANY), BAD)
    yield (
        f"With 5 to 9 studies of settings that hardly differ (spread 0 or 0.05) it flags "
        f"{span(few)}% on the unfavourable side. So few studies cannot show that settings agree, "
        "and the range stays wide."
    )
    over = [one for one in bad if one.value > TAIL]
    yield (
        f"It passes {percent(TAIL)}% on the unfavourable side in {len(over)} of {len(bad)} "
        f"combinations of layout and cases, {_most_of(over)}; most, {_place(max(bad))}."
    )
    known, known_good = (
        results.shares(layouts(tau=MUCH), side, Rule.FIXED) for side in (BAD, GOOD)
    )
    yield (
        f"If the pooled rate were taken as known, and as that of every unit, {span(known)}% of "
        f"ordinary units would be flagged on the unfavourable side where the spread is 0.6, and "
        f"{span(known_good)}% on the favourable one."
    )
    rare = results.shares(layouts(rate=RARE, tau=SOME), DOUBLED)
    rare_flat = results.shares(layouts(rate=RARE, tau=HARDLY_ANY), DOUBLED)
    yield (
        "A unit at twice the typical risk, where that risk is 3% to 7.4%, is noticed with a chance "
        f"of {span(rare)}% if settings differ (spread 0.3 or more), and of {span(rare_flat)}% if "
        "they hardly do."
    )
    common = results.shares(layouts(rate=[0.30], tau=SOME), DOUBLED)
    common_flat = results.shares(layouts(rate=[0.30], tau=HARDLY_ANY), DOUBLED)
    yield (
        "Where the risk is 30%, to double it is a far larger step, and the chances are "
        f"{span(common)}% and {span(common_flat)}%."
    )
    often = [
        results.share(Layout(30, tau, 0.074), cases, DOUBLED)
        for tau in (0.6, 0.9)
        for cases in CASES
    ]
    at_20, at_80, wider_20, wider_80 = (percent(one.value) for one in often)
    yield (
        f"More cases help little where settings differ much: at 7.4%, with 30 studies and spread "
        f"0.6, the chance of noticing is {at_20}% with 20 cases and {at_80}% with 80; with spread "
        f"0.9, {wider_20}% and {wider_80}%."
    )
    among = layouts(k=FEW_STUDIES, tau=MUCH)
    plain, tool = (shares_of_little(results, among, rule) for rule in (Rule.PLUG_IN, Rule.TOOL))
    yield (
        "Where 5 to 9 studies happened to see next to no spread although it is 0.6, the spread as "
        f"estimated would flag {span(plain)}% of ordinary units on the unfavourable side; the "
        f"verdict, which then takes a larger plausible spread, flags {span(tool)}%."
    )


def _most_of(over: list[Share]) -> str:
    many = sum(one.cases == 80 for one in over)
    return f"{many} of them with 80 cases"


def _place(share: Share) -> str:
    layout = share.layout
    return (
        f"{percent(share.value)}% (standard error {percent(share.error)}), with {layout.k} "
        f"studies, spread {layout.tau:g}, a typical rate of {rate_name(layout.rate)} and "
        f"{share.cases} cases"
    )


def errors(results: Results) -> str:
    """Say how large the Monte Carlo error is at most."""
    flags = [one.error for side in (BAD, GOOD) for one in results.shares(layouts(), side)]
    doubled = [one.error for one in results.shares(layouts(), DOUBLED)]
    seen = [results.of(one) for one in layouts()]
    exact = sum(one["read_exact"] for one in seen)
    none = sum(one["read_nothing"] for one in seen)
    reviews = sum(one["reviews"] for one in seen)
    return fill(
        f"Reviews: {results.kept['replications']:,} of each of the {len(seen)} layouts, "
        f"{reviews:,} in all, seed {results.kept['seed']}. The exact model was read in "
        f"{exact:,} and another row in {reviews - exact - none:,}; {none:,} had no row to read and "
        "so flag nothing. The largest Monte Carlo standard error of a share of "
        f"ordinary units is {percent(max(flags))} points, of a doubled risk "
        f"{percent(max(doubled))} points.",
        118,
        break_on_hyphens=False,
    )
