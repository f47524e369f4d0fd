"""Words on the drawing of a regression on one number."""

from evsyn.cells.covariates import Covariate, Kind
from evsyn.wording.ask_regress import covariate_words, number_words
from evsyn.wording.numbers import count

NOTHING_TO_DRAW = (
    "There is no line to draw: a drawing needs one number to regress on, and a model that was "
    "made. Ask without -o to read why."
)
AXIS_STARTS = "axis starts at {start}%, not at 0"
SMALL_NOTHING = "Nothing was tested, so there is no line to draw. Ask without -o to read why."
ONE_POOL = "A drawing shows one pool. Give one --level, or none."
_ACROSS = {
    Kind.YEAR: "Year of publication",
    Kind.RECRUITED: "Middle of recruitment",
    Kind.SIZE: "Total of the study (logarithmic)",
}
_CAPTION = (
    "Each bubble is a study, its area by its total. The line is the rate of a typical setting by "
    "{model}, its shade the {level:.0%} limits, which may leave the plot. Studies without a name "
    "found no room for it. {caution}"
)
_SMALL_CAPTION = (
    "Each bubble is a study, its area by its total. The line is log-odds on one over the size, by "
    "{model}. Studies without a name found no room for it. {caution}"
)
_SMALL_MODELS = {
    True: (
        "the exact binomial-normal model, its shade the {level:.0%} limits, which may leave the "
        "plot"
    ),
    False: "least squares weighted by size, without limits",
}
_MODELS = {True: "the exact binomial-normal model", False: "the two-step model"}


def up_words(events: str, population: str) -> str:
    """Return the words over the axis of rates."""
    return f"{events[:1].upper()}{events[1:]}, per 100 {population}"


def across_words(covariate: Covariate) -> str:
    """Return the words of the axis below."""
    return _ACROSS.get(covariate.kind, covariate.label)


def bubble_title(label: str, covariate: Covariate) -> str:
    """Return the title."""
    return f"{label} by {covariate_words(covariate)}"


def bubble_caption(*, is_exact: bool, level: float, caution: str) -> str:
    """Say how the drawing is to be read."""
    return _CAPTION.format(model=_MODELS[is_exact], level=level, caution=caution)


def small_caption(*, is_exact: bool, level: float, caution: str) -> str:
    """Say how the drawing of small studies is to be read."""
    model = _SMALL_MODELS[is_exact].format(level=level)
    return _SMALL_CAPTION.format(model=model, caution=caution)


def bubble_said(label: str, covariate: Covariate, value: float, events: int, total: int) -> str:
    """Return a study in words: its value and its count."""
    if covariate.kind is Kind.SIZE:
        return f"{label}, {count(events, total)}"
    return f"{label}, {number_words(covariate, value)}, {count(events, total)}"
