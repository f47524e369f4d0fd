"""What a comparison of levels shows where there is no difference, in sentences."""

import math

from evsyn.calibration.result import Calibration, LevelGap, Line, StrataCalibration
from evsyn.wording.calibration import in_100, sizes_words
from evsyn.wording.numbers import counted

TEST_HEADINGS = ("Row", "Odds ratio of", "Shown", "P below 0.05", "No test")
TEST_NAMES = {
    Line.HEADLINE: "Headline by level, Q-between",
    Line.RESTRICTED_ML: "Restricted ML, one tau",
    Line.EXACT: "Exact model, one tau",
    Line.READING: "As the tool would quote",
}
TEST_LEGEND = (
    "Shown: geometric mean of the odds ratio; the true one is 1. P below 0.05 and No test: per "
    "cent; 5 is what a fair test gives. Under each number its simulation error."
)
#: An odds ratio shown for nothing that is worth a sentence, on either side of 1.
WORTH_SAYING = 1.05


def levels_sentence(found: Calibration) -> str:
    """Say which levels were drawn alike."""
    levels = "; ".join(f"{name}: {sizes_words(sizes)}" for name, sizes in found.layout.levels)
    return (
        "Levels compared, all drawn from the same truth, so that any difference is made by the "
        f"method: {levels}."
    )


def difference_sentences(found: Calibration) -> str:
    """Say what difference the headline shows for nothing, and what the quoted test does."""
    printed, quoted = (
        next(one for one in found.strata if one.line is line)
        for line in (Line.HEADLINE, Line.READING)
    )
    widest = max(printed.gaps, key=lambda gap: abs(gap.log_odds_ratio.value))
    same = next(
        gap for gap in quoted.gaps if (gap.first, gap.second) == (widest.first, widest.second)
    )
    told = (
        f"With no true difference, the headline shows on average an odds ratio of "
        f"{ratio(widest)} of '{widest.first}' against '{widest.second}', and its test falls below "
        f"0.05 in {in_100(printed.rejected)} of 100 reviews, where 5 would be fair. "
        f"{_quoted(quoted, same)}"
    )
    if abs(widest.log_odds_ratio.value) < math.log(WORTH_SAYING):
        return told
    return f"{told} A printed difference of this size between such levels may be of this make."


def _quoted(quoted: StrataCalibration, same: LevelGap) -> str:
    if math.isnan(quoted.rejected.value):
        return "The tool would quote no test."
    return f"The test the tool would quote: {ratio(same)}, and {in_100(quoted.rejected)} of 100."


def ratio(gap: LevelGap) -> str:
    """Write the odds ratio a line shows."""
    value = gap.log_odds_ratio.value
    return "not estimated" if math.isnan(value) else f"{math.exp(value):.2f}"


def left_out_sentence(small: tuple[str, ...], shared: int) -> str:
    """Say which levels were too small to compare, and how many studies stand in several."""
    told = []
    if small:
        told.append(f"Not compared, having fewer than three studies: {', '.join(small)}.")
    if shared:
        stand = "stands" if shared == 1 else "stand"
        told.append(
            f"{counted(shared, 'study', 'studies')} of the review {stand} in more than one level, "
            "and each part was drawn as a study of its own."
        )
    return " ".join(told)
