"""The words of a performance funnel around the range of ordinary new units."""

from collections.abc import Sequence

from evsyn.audit.verdict import Limits, Verdict
from evsyn.terms import Better
from evsyn.wording.audit_verdict import FAVOURABLE, UNFAVOURABLE
from evsyn.wording.funnel import NOT_OF_STUDIES
from evsyn.wording.numbers import counted, percent
from evsyn.wording.strip import fewer_words, more_words
from evsyn.wording.verdict import VERDICT_WORDS

_BAND = (
    "Band: at each number of cases, the counts of ordinary new units, at most 2.5% of them beyond "
    "either edge; it is stepped half way to the first count outside. No wider band is drawn, since "
    "a pool does not tell how often the rarest counts occur. Within the range means not shown to "
    "differ, and no more."
)
_BAND_SHORT = (
    "At most 2.5% of ordinary new units lie beyond either edge. Within: not shown to differ."
)


def beyond_words(verdict: Verdict) -> str:
    """Name a verdict that lies outside the range; empty for others."""
    return VERDICT_WORDS[verdict] if verdict in (Verdict.MORE, Verdict.FEWER) else ""


def beyond_sentence(verdict: Verdict, better: Better) -> str:
    """Say a verdict and what to do."""
    unwelcome = verdict.unfavourable(better)
    if unwelcome is None:
        return VERDICT_WORDS[verdict]
    return f"{VERDICT_WORDS[verdict]}; {UNFAVOURABLE if unwelcome else FAVOURABLE}"


def range_subtitle(
    k: int,
    total: int | None,
    rate: float,
    beside: Sequence[str],
    *,
    typical: str,
    is_judged: bool,
) -> str:
    """Say what the funnel is drawn around.

    Parameters
    ----------
    k, total : int
        Studies and their cases.
    rate : float
        Rate of a typical setting, or the mean over settings.
    beside : sequence of str
        What to bear in mind.
    typical : str
        Name of that rate.
    is_judged : bool
        Whether a verdict can be given.
    """
    among = "" if total is None else f" with {total:,} cases"
    said = (
        f"Around what {counted(k, 'study', 'studies')}{among} say of ordinary new units: "
        f"{typical} {percent(rate)}"
    )
    if not is_judged:
        said += "; unreliable, no verdict"
    return f"{'; '.join([said, *beside])}."


def range_caption() -> str:
    """Say what the band is."""
    return f"{_BAND} {NOT_OF_STUDIES}"


def short_range_caption() -> str:
    """Say the same on a slide."""
    return f"{_BAND_SHORT} {NOT_OF_STUDIES}"


def range_from(total: int, limits: Limits, *, better: Better) -> str:
    """Say at which counts one unit would lie outside the range."""
    sides = [more_words(limits, total), fewer_words(limits)]
    if better is Better.MORE:
        sides.reverse()
    return f"With {counted(total, 'case', 'cases')}, {'; '.join(sides)}."
