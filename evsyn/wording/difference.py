"""Words for a test of difference between levels."""

import math
from collections.abc import Mapping

from evsyn.pooling.difference import Difference
from evsyn.pooling.strata_test import Contrast, StrataTest
from evsyn.wording.numbers import counted, probability

#: Tests of difference inside a sentence.
METHODS = {
    "exact_likelihood_ratio": "exact model, one spread, likelihood ratio",
    "restricted_ml_hartung_knapp_floor": "restricted ML, one spread, floored Hartung-Knapp",
}

#: What every comparison of levels must say of itself.
BETWEEN_STUDIES = "Levels are compared between studies: era, centre and case mix move with them."


def difference_sentence(difference: Difference, levels: Mapping[str, str]) -> str:
    """Say whether levels differ, by how much, and how far that can be trusted.

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
    parts = [contrast_words(contrast, levels) for contrast in test.differences]
    said = (
        f"Odds compared (1 is no difference): {'; '.join(part for part in parts if part)}. Test "
        "of difference "
        f"({METHODS[test.method]}): F {test.statistic:.2f} on {test.df1} and {test.df2} degrees "
        f"of freedom, P {probability(test.p)}"
    )
    if difference.q_between is not None:
        said += f"; papers would print Q-between, P {probability(difference.q_between.p)}"
    said += "."
    if is_at_odds(test):
        said += (
            " The limits (t) and P (likelihood ratio or F) come by two routes and part at the edge "
            "here: lean on neither."
        )
    if test.exploratory:
        said += " Exploratory: fewer than five studies in a level, or fewer than ten in all."
    if difference.shared:
        number = counted(len(difference.shared), "study stands", "studies stand")
        said += f" {number} in more than one level."
    return f"{said} {BETWEEN_STUDIES}"


def is_at_odds(test: StrataTest) -> bool:
    """Tell whether the one interval of two levels and P fall on different sides."""
    if len(test.differences) != 1 or math.isnan(test.differences[0].estimate):
        return False
    (only,) = test.differences
    return (only.low > 0 or only.high < 0) != (test.p < 1 - test.level)


def contrast_words(contrast: Contrast, levels: Mapping[str, str]) -> str:
    """Give the odds of two levels compared; empty where they do not exist."""
    if math.isnan(contrast.estimate):
        return ""
    ratio, low, high = (math.exp(x) for x in (contrast.estimate, contrast.low, contrast.high))
    return (
        f"{levels[contrast.first]} against {levels[contrast.second]} {ratio:.2f} "
        f"({low:.2f} to {high:.2f})"
    )
