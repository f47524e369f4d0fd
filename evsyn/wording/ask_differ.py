"""Words for whether levels of a stratum differ, and for two strata crossed."""

import math
from collections.abc import Mapping, Sequence

from evsyn.pooling.crossed import Crossed
from evsyn.pooling.differ import RobustPair
from evsyn.pooling.difference import Difference
from evsyn.pooling.regressed import Regressed
from evsyn.pooling.robust import Robust
from evsyn.pooling.strata_test import Contrast, StrataTest
from evsyn.pooling.strata_two_step import QBetween
from evsyn.terms import UNPLACED
from evsyn.wording.difference import BETWEEN_STUDIES, METHODS, is_at_odds
from evsyn.wording.numbers import counted, probability

PAIR_HEADINGS = ("Compared", "Odds ratio (95%)", "Log-odds apart (95%)")
ROBUST_HEADINGS = ("Compared, robust", "Odds ratio (95%)", "df", "P")
FORM_HEADINGS = ("Test that no level differs", "Statistic", "df", "P", "")
TERM_HEADINGS = ("Level against level", "Odds ratio (95%)", "P")
KEY = (
    "Odds ratio: 1 is no difference; the first level over the second. Log-odds apart: the same as "
    "a difference of natural logarithms. Levels with fewer than three studies are shown and not "
    "tested. Where a stratum has more than two levels, each pair counts as a test as well."
)
ROBUST_KEY = (
    "Robust: two-step, with standard errors that allow for several rows of one study (CR2); df are "
    "Satterthwaite's. Below 4 of them the reference itself is not to be trusted: no P is given, "
    "and nothing should be read from the limits."
)
CROSSED_KEY = (
    "Both strata stand in one exact model: each odds ratio is at the same level of the other "
    "stratum."
)


def differ_heading(label: str, stratum: str) -> str:
    """Say what is asked."""
    return f"{label} by {stratum.lower()}: do the levels differ?"


def crossed_heading(label: str, first: str, second: str) -> str:
    """Say what is crossed."""
    return f"{label}: {first.lower()} crossed with {second.lower()}"


def differ_sentence(difference: Difference, levels: Mapping[str, str]) -> str:
    """Say what the quoted test found, and how far it can be trusted.

    Parameters
    ----------
    difference : Difference
        The test, or why there is none.
    levels : mapping
        Words of each level.
    """
    test = difference.test
    if test is None:
        return f"No test of difference: {difference.reason}."
    listed = _listed([levels[name] for name in test.levels])
    said = [
        f"Between {listed}, the test of difference gives P {probability(test.p)} "
        f"({METHODS[test.method]})."
    ]
    if is_at_odds(test):
        said.append(
            "The limits (t) and P come by two routes and part at the edge here: lean on neither."
        )
    if test.exploratory:
        said.append("Exploratory: fewer than five studies in a level, or fewer than ten in all.")
    if difference.shared:
        number = counted(len(difference.shared), "study stands", "studies stand")
        said.append(f"{number} at more than one level; see the robust lines.")
    return " ".join([*said, BETWEEN_STUDIES])


def aside_sentence(
    difference: Difference, levels: Mapping[str, str], held: Mapping[str, int]
) -> str:
    """Say which levels take no part in a test, and why; empty where all do.

    Parameters
    ----------
    difference : Difference
        The test.
    levels : mapping
        Words of each level.
    held : mapping of str to int
        Studies at each level.
    """
    test = difference.test
    if test is None:
        return ""
    aside = [
        f"{words} ({counted(held[name], 'study', 'studies')}, fewer than three)"
        for name, words in levels.items()
        if name != UNPLACED and name not in test.levels
    ]
    if held.get(UNPLACED):
        number = counted(held[UNPLACED], "study", "studies")
        aside.append(f"{levels[UNPLACED]} ({number}, at no one level)")
    return f"Not in the test: {'; '.join(aside)}." if aside else ""


def pair_row(contrast: Contrast, levels: Mapping[str, str]) -> tuple[str, str, str]:
    """Return one pair of levels compared."""
    label = f"{levels[contrast.first]} / {levels[contrast.second]}"
    if math.isnan(contrast.estimate):
        return label, "does not exist", "a level without events, or without non-events"
    apart = f"{contrast.estimate:.2f} ({contrast.low:.2f} to {contrast.high:.2f})"
    return label, ratio(contrast.estimate, contrast.low, contrast.high), apart


def robust_row(pair: RobustPair, levels: Mapping[str, str]) -> tuple[str, str, str, str]:
    """Return one pair compared by the robust route."""
    return (
        f"{levels[pair.first]} / {levels[pair.second]}",
        *robust_cells(pair.estimate, pair.low, pair.high, pair.df, pair.p),
    )


def robust_cells(
    estimate: float, low: float, high: float, df: float, p: float
) -> tuple[str, str, str]:
    """Return a robust line: odds ratio, degrees of freedom, P; no P where those are too few."""
    if math.isnan(df):
        return "one study alone tells it", "-", "none given"
    written = "none given" if math.isnan(p) else probability(p)
    return ratio(estimate, low, high), f"{df:.1f}", written


def fitted_robust_cells(line: Robust, at: int) -> tuple[str, str, str]:
    """Return the robust line of one coefficient of a fit."""
    parts = (line.beta, line.low, line.high, line.df, line.p)
    return robust_cells(*(float(part[at]) for part in parts))


def form_row(test: StrataTest, *, quoted: bool) -> tuple[str, str, str, str, str]:
    """Return one form of the test of difference."""
    method = METHODS[test.method]
    return (
        f"{method[0].upper()}{method[1:]}",
        f"F {test.statistic:.2f}",
        f"{test.df1} and {test.df2}",
        probability(test.p),
        "read this" if quoted else "",
    )


def q_row(between: QBetween) -> tuple[str, str, str, str, str]:
    """Return the comparison that papers print."""
    return (
        "Q-between, as papers print",
        f"Q {between.q:.2f}",
        str(between.df),
        probability(between.p),
        "",
    )


def crossed_sentence(crossed: Crossed, words: Sequence[Mapping[str, str]]) -> str:
    """Say whether what one stratum goes with depends on the other, or why it cannot be told.

    Parameters
    ----------
    crossed : Crossed
        The crossed model.
    words : sequence of mapping
        Words of the levels, of the first and of the second stratum.
    """
    said = []
    if crossed.short:
        listed = "; ".join(f"{words[0][one]} with {words[1][two]}" for one, two in crossed.short)
        said.append(f"Left out of the model, with fewer than three studies: {listed}.")
    if crossed.main is None:
        return " ".join([*said, f"No model of both strata: {crossed.reason}.", BETWEEN_STUDIES])
    if crossed.interaction is None:
        said.append(f"No test of interaction: {crossed.reason}.")
    else:
        found = crossed.interaction
        said.append(
            "Test of interaction, that a difference in the one stratum is the same at each level "
            f"of the other (likelihood ratio): F {found.statistic:.2f} on {found.df1} and "
            f"{found.df2} degrees of freedom, P {probability(found.p)}. With few "
            "studies it finds only large interactions."
        )
    if crossed.main.shared:
        number = counted(len(crossed.main.shared), "study stands", "studies stand")
        said.append(f"{number} in more than one crossing; see the robust lines.")
    return " ".join([*said, BETWEEN_STUDIES])


def term_label(term: tuple[int, str, str], words: Sequence[Mapping[str, str]]) -> str:
    """Return a coefficient of the crossed model in words."""
    axis, level, against = term
    return f"{words[axis][level]} / {words[axis][against]}"


def term_rows(main: Regressed, labels: Sequence[str]) -> list[tuple[str, str, str]]:
    """Return each coefficient of the exact model beside its intercept."""
    return [
        (label, ratio(one.estimate, one.low, one.high), probability(one.p))
        for label, one in zip(labels, main.exact.coefficients[1:], strict=True)
    ]


def robust_term_rows(main: Regressed, labels: Sequence[str]) -> list[tuple[str, str, str, str]]:
    """Return each coefficient by the robust route; none where each study gives one row."""
    line = main.robust
    if line is None:
        return []
    return [(label, *fitted_robust_cells(line, at)) for at, label in enumerate(labels, start=1)]


def ratio(estimate: float, low: float, high: float) -> str:
    """Write a difference of log-odds as an odds ratio with its limits.

    Examples
    --------
    >>> ratio(0.0, -0.5, 0.5)
    '1.00 (0.61 to 1.65)'
    """
    return f"{_odds(estimate)} ({_odds(low)} to {_odds(high)})"


def _odds(log_odds: float) -> str:
    if log_odds > math.log(1000):
        return "over 1,000"
    value = math.exp(log_odds)
    return f"{value:.2f}" if value >= 0.01 else "under 0.01"


def _listed(words: Sequence[str]) -> str:
    return f"{', '.join(words[:-1])} and {words[-1]}"
