"""Options that belong to some models only: no choice may be ignored in silence."""

from collections.abc import Iterable

from evsyn.effects.arguments import as_level, known_word
from evsyn.pooling.between_study import ESTIMATORS, NO_SPREAD
from evsyn.pooling.summary_interval import INTERVALS

BETWEEN, INTERVAL = "dersimonian_laird", "ordinary"


def checked_between(
    model: str, between: str, interval: str, level: float, *, models: Iterable[str]
) -> str:
    """Return the estimator a model uses, or what stands for none.

    Parameters
    ----------
    model, between, interval, level
        As the caller gave them.
    models : iterable of str
        Models the function offers, ``random`` among them.

    Raises
    ------
    ValueError
        If a word or the level is not known, or an estimator or interval of the random-effects
        model is asked of another.
    """
    known_word("model", model, models)
    known_word("between", between, ESTIMATORS)
    known_word("interval", interval, INTERVALS)
    as_level(level)
    if model == "random":
        return between
    for name, given, default in (("between", between, BETWEEN), ("interval", interval, INTERVAL)):
        if given != default:
            raise ValueError(f"{name} belongs to model 'random'; it does nothing in {model!r}")
    return NO_SPREAD
