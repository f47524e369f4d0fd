"""How the numbers were made, in two sentences."""

from evsyn.extraction.plan import Plan
from evsyn.wording.numbers import counted

_BETWEEN = {
    "dersimonian_laird": "DerSimonian-Laird, cut at zero",
    "restricted_ml": "restricted maximum likelihood",
}

_STUDY_INTERVALS = {
    "clopper_pearson": "exact (Clopper-Pearson) intervals",
    "wilson": "Wilson score intervals",
    "mid_p": "mid-P intervals",
    "jeffreys": "Jeffreys intervals",
}

SLIDE_CAPTION = "A pooled value is the median setting."


def method_sentence(plan: Plan, tests: int) -> str:
    """Say how the rows were made and how many tests of difference were run.

    Parameters
    ----------
    plan : Plan
        The plan.
    tests : int
        Number of tests of difference between levels in this output.
    """
    level = f"{100 * plan.pooling.level:g}%"
    between = _BETWEEN[plan.pooling.between]
    said = (
        f"Method: log-odds of each study, half an event added only where a study has 0% or 100%; "
        f"headline, random effects with {between}, ordinary {level} interval. Beside it restricted "
        "maximum likelihood with floored Hartung-Knapp, and the exact binomial-normal model with t "
        "limits on studies less one. The exact model is read where a study has fewer than 5 "
        "events or non-events, where there are fewer than 20 in all, or below 5% or above 95%. "
        f"Study intervals: {_STUDY_INTERVALS[plan.pooling.study_interval]}. A pooled value is the "
        "median setting; the beta-binomial one is a mean over settings. A range for a new setting "
        "uses t on studies less one."
    )
    if not tests:
        return said
    return (
        f"{said} {counted(tests, 'test', 'tests')} of difference between levels; the more tests, "
        "the more likely that one looks different by chance."
    )


def figure_caption(plan: Plan) -> str:
    """Say how the rows and summaries of a figure were made."""
    level = f"{100 * plan.pooling.level:g}%"
    return (
        f"Study rows: {_STUDY_INTERVALS[plan.pooling.study_interval]}, {level}. Headline: random "
        f"effects on log-odds, {_BETWEEN[plan.pooling.between]}, ordinary interval. A pooled value "
        "is the median setting; the range for a new setting uses t on studies less one."
    )
