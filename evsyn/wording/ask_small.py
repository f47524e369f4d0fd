"""Words for whether small studies differ from large ones."""

import math
from collections.abc import Iterator

from scipy.special import expit

from evsyn.pooling.regression import Regression, RegressionStatus
from evsyn.pooling.small_asked import (
    LEAST_SIZES_APART,
    LEAST_STUDIES,
    MOST_I2,
    SMALL_TAU2,
    NoSmallTest,
    SmallComparison,
    SmallShares,
)
from evsyn.wording.numbers import cell, counted, percent, probability

CAUTION = (
    "Lopsided is not the same as publication bias: small studies may differ in era, centre, "
    "patients and how they count, and chance alone makes some. What was looked for and not "
    "published is better judged from what is known to be missing."
)
NEVER_EGGER = (
    "Egger's test is not asked of single proportions: the standard error of log-odds hangs on the "
    "rate itself, so that they look lopsided without any bias (Hunter JP et al. J Clin Epidemiol "
    "2014;67:897-903)."
)
HOW = (
    "Log-odds are regressed on one over the size. The weighted line gives each study a weight by "
    "its size, so that weights do not hang on the result (after Peters JL et al. JAMA "
    "2006;295:676-680, which treats two arms); a study at 0% or 100% gets half an event more. "
    "Where events are few that half makes its P too small, and none is given. The exact model "
    "takes the counts as they are."
)
_TESTS = {
    "harbord": "Harbord's test (Stat Med 2006;25:3443-3457)",
    "peters": "Peters' test (JAMA 2006;295:676-680)",
}


def small_heading(label: str, group: str) -> str:
    """Say what is asked."""
    return f"{label}, {group}: do small studies differ?"


def headings(asked: SmallShares) -> tuple[str, str, str, str, str]:
    """Return the headings of the table of lines, with the sizes rates are given at."""
    small, large = _ends(asked)
    return ("Line", f"% at a total of {small:,}", f"% at {large:,}", "df", "P")


def small_sentences(asked: SmallShares) -> Iterator[str]:
    """Yield what the lines say of small studies, or why none is drawn."""
    if asked.reason is not None:
        yield _refused(asked.reason, asked.pooled.answer.k)
        return
    p, df = _read(asked)
    small, large = _ends(asked)
    at_small, at_large = _rates(asked)
    by = "the exact model" if asked.reads_exact else "the weighted line"
    yield (
        f"Of {counted(asked.pooled.answer.k, 'study', 'studies')}, {by} gives "
        f"{percent(at_small)} at the smallest total ({small:,}) and {percent(at_large)} at the "
        f"largest ({large:,}). Test that size makes no difference: P {probability(p)}, on {df:.0f} "
        "degrees of freedom. Exploratory."
    )
    doubts = tuple(_doubts(asked))
    if doubts:
        yield f"Hardly to be trusted here: {' and '.join(doubts)}."
    yield CAUTION


def _doubts(asked: SmallShares) -> Iterator[str]:
    if asked.i2 > MOST_I2:
        yield (
            f"the studies differ much for other reasons (I2 {100 * asked.i2:.0f}%, above "
            f"{100 * MOST_I2:.0f}%)"
        )
    if asked.sizes_apart < LEAST_SIZES_APART:
        yield (
            f"the sizes are much alike (the largest {asked.sizes_apart:.1f} times the smallest, "
            f"below {LEAST_SIZES_APART:.0f})"
        )


def line_rows(asked: SmallShares) -> list[tuple[str, str, str, str, str]]:
    """Return each line: rates at the smallest and the largest size, df and P."""
    rows: list[tuple[str, str, str, str, str]] = []
    small, large = _ends(asked)
    line, exact = asked.line, asked.exact
    if exact is not None and exact.status is RegressionStatus.FITTED:
        rows.append(
            (
                f"Exact model{' - read this' if asked.reads_exact else ''}",
                _exact_cell(exact, small),
                _exact_cell(exact, large),
                str(exact.df),
                probability(exact.p),
            )
        )
    if line is not None:
        at = [100 * float(expit(line.other + line.tested / size)) for size in (small, large)]
        rows.append(
            (
                f"Weighted by size{'' if asked.reads_exact else ' - read this'}",
                f"{at[0]:.1f}",
                f"{at[1]:.1f}",
                f"{line.df:.0f}",
                "none" if math.isnan(line.p) else probability(line.p),
            )
        )
    return rows


def _exact_cell(exact: Regression, size: int) -> str:
    at = exact.at([1 / size])
    return cell(*(float(expit(one)) for one in (at.centre, at.low, at.high)))


def comparison_sentences(asked: SmallComparison) -> Iterator[str]:
    """Yield what the test of a comparison says of small studies, or why there is none."""
    if asked.reason is not None:
        yield _refused(asked.reason, asked.k)
        return
    line = asked.line
    assert line is not None
    what = "intercept" if line.method == "harbord" else "slope on one over the size"
    yield (
        f"{_TESTS[line.method]} over {counted(line.k, 'study', 'studies')}, of odds ratios: "
        f"{what} {line.tested:.2f} (standard error {line.se:.2f}), 0 if size makes no difference; "
        f"P {probability(line.p)} on {line.df:.0f} degrees of freedom. Exploratory."
    )
    if line.method == "peters":
        odds_ratio = math.exp(line.other)
        yield f"By the line a study of endless size would show an odds ratio of {odds_ratio:.2f}."
    yield which_sentence(asked)
    yield CAUTION


def which_sentence(asked: SmallComparison) -> str:
    """Say by what rule the one test was named."""
    said = (
        f"One test is asked, by a rule fixed beforehand: Harbord's where the spread of log odds "
        f"ratios is small (tau2 below {SMALL_TAU2}), else Peters'; here tau2 is {asked.tau2:.2f}."
    )
    if asked.tau2 >= SMALL_TAU2:
        said += " With so much spread no test of this kind is good."
    return said


def _refused(reason: NoSmallTest, k: int) -> str:
    if reason is NoSmallTest.TOO_FEW:
        have = counted(k, "study has", "studies have")
        return (
            f"Not tested: {have} a usable count, and {LEAST_STUDIES} are wanted. With fewer the "
            "test sees little, and a lopsided plot is easily chance (Sterne JAC et al. BMJ "
            "2011;343:d4002)."
        )
    return f"Not tested: {reason}."


def _ends(asked: SmallShares) -> tuple[int, int]:
    totals = asked.pooled.answer.total
    return min(totals), max(totals)


def _read(asked: SmallShares) -> tuple[float, float]:
    if asked.reads_exact:
        assert asked.exact is not None
        return asked.exact.p, asked.exact.df
    assert asked.line is not None
    return asked.line.p, asked.line.df


def _rates(asked: SmallShares) -> tuple[float, float]:
    small, large = (asked.rate_at(size) for size in _ends(asked))
    return small, large
