"""The words of the count strip: which counts ordinary new units see, and where ours lies."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from evsyn.audit.comparable import Differs
from evsyn.audit.reasons import Caveat, Reason
from evsyn.audit.standardised import Standardisation, Standardised
from evsyn.audit.standing import Standing
from evsyn.audit.verdict import Limits, Verdict
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import Unit
from evsyn.terms import Better
from evsyn.wording.audit_caveats import reason_sentences
from evsyn.wording.audit_unknown import NO_FOLLOW_UP
from evsyn.wording.audit_verdict import FAVOURABLE, UNFAVOURABLE
from evsyn.wording.chances import range_words
from evsyn.wording.numbers import count, counted, percent
from evsyn.wording.page import PageWords
from evsyn.wording.standardised import refused_sentences
from evsyn.wording.verdict import VERDICT_WORDS

WITHHELD = "own count withheld"
NOT_ALL_KNOWN = "No comparison: not every outcome is known."

#: Under every strip; what follows depends on what is drawn.
STRIP_CAPTION = (
    "An ordinary new unit differs from the studies as they differ from each other. At most 2.5% of "
    "ordinary units lie at or beyond a bar; within the range means not shown to differ, and no "
    "more. Numbers over columns are rounded; each strip has its own height."
)
STRIP_CAPTION_SHORT = (
    "At most 2.5% of ordinary units lie at or beyond a bar. Within: not shown to differ, no more."
)

_NO_VERDICT = {
    Reason.FEW_STUDIES: "Unreliable, no verdict: five studies are the least.",
    Reason.NO_SPREAD: "No verdict: how far units differ could not be estimated.",
    Reason.TOO_FEW_CASES: "No verdict: so few cases allow none either way.",
    Reason.WINDOW: "No verdict: the windows differ and could explain what is seen.",
}
UNRELIABLE = "unreliable, no verdict"

_BESIDE = {
    Differs.WINDOWS: "windows differ",
    Differs.BASES_MIXED: "denominators differ",
    Caveat.SPREAD_GUESSED: "the spread is a rough guess",
    Caveat.SPREAD_NEAR_NOTHING: "a larger spread is taken than was seen",
}
_BOTH_DIFFER = "windows, denominators differ"


@dataclass(frozen=True, slots=True)
class StripWords(PageWords):
    """Headings and legend of the count strip; each can be replaced."""

    counts: str = "Count of the unit"
    columns: str = "of 100 ordinary new units, how many see each number"
    column: str = "ordinary new units with as many cases"
    unjudged: str = "the same, from too few studies to be relied on"
    beyond: str = "the same, beyond the range"
    average: str = "if every unit shared the typical rate"
    unit: str = "ours"
    bracket: str = "ours is one of these"
    bar: str = "where the range ends"


def own_words(possible: Sequence[int], total: int | None) -> str:
    """Say our count as far as it is told.

    Examples
    --------
    >>> own_words((3,), 27), own_words((8, 9, 10, 11, 12), 40), own_words((), 40)
    ('ours: 3 of 27', 'ours: between 8 and 12 of 40', 'own count withheld')
    """
    if not possible or total is None:
        return WITHHELD
    if len(possible) == 1:
        return f"ours: {count(possible[0], total)}"
    return f"ours: {between(possible, total)}"


def between(possible: Sequence[int], total: int) -> str:
    """Say that a count is one of several, as ``between 8 and 12 of 40``."""
    return f"between {min(possible):,} and {count(max(possible), total)}"


def of_hundred(chance: float) -> str:
    """Write a chance as a number of 100 units, for the top of a column.

    Examples
    --------
    >>> of_hundred(0.263), of_hundred(0.0009), of_hundred(0.0), of_hundred(0.997)
    ('26', '<1', '', '>99')
    """
    if chance <= 0:
        return ""
    number = int(100 * chance + 0.5)
    if number == 100 and chance < 1:
        return ">99"
    return str(number) if number else "<1"


def more_words(limits: Limits, total: int) -> str:
    """Say from which count on the verdict is 'more', or that there is no such count."""
    if limits.first_more is None:
        said = "none possible" if limits.high == total else "not said, the windows differ"
        return f"more: {said}"
    reach = f"{'' if limits.first_more == total else 'from '}{limits.first_more:,}"
    often = f"({percent(limits.chance_more)} of ordinary units)"
    return f"{reach}: {VERDICT_WORDS[Verdict.MORE]} {often}"


def fewer_words(limits: Limits) -> str:
    """Say up to which count the verdict is 'fewer', or that there is no such count."""
    if limits.last_fewer is None:
        said = "none possible" if limits.low == 0 else "not said, the windows differ"
        return f"fewer: {said}"
    reach = f"{'' if limits.last_fewer == 0 else 'up to '}{limits.last_fewer:,}"
    often = f"({percent(limits.chance_fewer)} of ordinary units)"
    return f"{reach}: {VERDICT_WORDS[Verdict.FEWER]} {often}"


def not_drawn_words(first: int, last: int, total: int, below: float, above: float) -> str:
    """Say which counts are not drawn, and how many ordinary units see them; empty where all are.

    Parameters
    ----------
    first, last : int
        Lowest and highest count drawn.
    total : int
        Number of cases.
    below, above : float
        Chances of a lower and of a higher count.
    """
    parts = []
    if first > 0:
        parts.append(f"{first - 1:,}{' or fewer' if first > 1 else ''}, {percent(below)}")
    if last < total:
        parts.append(f"{last + 1:,}{' or more' if last + 1 < total else ''}, {percent(above)}")
    return f"not drawn: {'; '.join(parts)} of ordinary units" if parts else ""


def size_words(standing: Standing, k: int) -> str:
    """Say how many cases are set against how many studies, and what to bear in mind."""
    said = f"{counted(standing.total, 'case', 'cases')} against {counted(k, 'study', 'studies')}"
    return "; ".join([said, *beside_words(standing)])


def whole_size_words(standing: Standing, found: Standardised, plan: Plan) -> str:
    """Say how many cases of what case mix are set against how many levels."""
    cases = counted(standing.total, "case", "cases")
    said = f"{cases} against {counted(len(found.levels), 'level', 'levels')} with their case mix"
    said += f" by {_by(found, plan)}"
    told = [_BESIDE[item] for item in _BESIDE if any(item in x.differs for x in found.levels)]
    return "; ".join([said, *told])


def _by(found: Standardised, plan: Plan) -> str:
    """Name the strata of a case mix."""
    return " and ".join(plan.strata[name].label.lower() for name in found.strata)


def short_size_words(standing: Standing, k: int) -> str:
    """Say the same on a slide."""
    said = f"{counted(standing.total, 'case', 'cases')}, {counted(k, 'study', 'studies')}"
    return _briefly([said, *beside_words(standing)])


def short_whole_size_words(standing: Standing, found: Standardised, plan: Plan) -> str:
    """Say the same of a whole on a slide."""
    said = f"{counted(standing.total, 'case', 'cases')}, case mix by {_by(found, plan)}"
    told = [_BESIDE[item] for item in _BESIDE if any(item in x.differs for x in found.levels)]
    return _briefly([said, *told])


def _briefly(parts: list[str]) -> str:
    both = {_BESIDE[Differs.WINDOWS], _BESIDE[Differs.BASES_MIXED]}
    if both <= set(parts):
        parts = [part for part in parts if part not in both]
        parts.insert(1, _BOTH_DIFFER)
    return "; ".join(parts)


def beside_words(standing: Standing) -> list[str]:
    """Say in a few words what to bear in mind of a comparison."""
    found = standing.differs + standing.caveats
    return [words for item, words in _BESIDE.items() if item in found]


def no_comparison_words(
    standing: Standing, plan: Plan, whole: Standardisation | None = None, *, is_exact: bool
) -> str:
    """Say why nothing is compared, with both counts where ours may be told.

    Parameters
    ----------
    standing : Standing
        A count without a comparison.
    plan : Plan
        The plan, for its words.
    whole : Standardisation, optional
        Of a whole: why it is not set against what its own case mix would give.
    is_exact : bool
        Whether our count is told as it is; if not, nothing said depends on it.
    """
    if standing.reason is Reason.NO_FOLLOW_UP:
        return NO_FOLLOW_UP
    said = reason_sentences(standing, plan)
    if standing.mix:
        said = said[:-1]
    if whole is not None:
        said[0] = refused_sentences(whole, plan)[0]
    if is_exact:
        return " ".join(said)
    found = standing.benchmark
    if found is None or found.events is None or found.total is None or not found.k:
        return said[0]
    studies = counted(found.k, "study", "studies together")
    return f"{said[0]} {studies}: {count(found.events, found.total)}."


def verdict_words(found: Iterable[Verdict], limits: Limits, better: Better) -> str:
    """Say the verdict, if it is the same for every count that ours may be."""
    verdicts = set(found)
    reach = range_words(limits)
    if not verdicts:
        return f"The range of ordinary new units is {reach}."
    if len(verdicts) > 1 or Verdict.NONE in verdicts:
        return (
            f"The range of ordinary new units is {reach}; the verdict is told inside the unit only."
        )
    (verdict,) = verdicts
    said = f"{VERDICT_WORDS[verdict].capitalize()} of {reach}"
    unwelcome = verdict.unfavourable(better)
    if unwelcome is None:
        return f"{said}."
    return f"{said}: {UNFAVOURABLE if unwelcome else FAVOURABLE}."


def no_verdict_words(reason: Reason, limits: Limits) -> str:
    """Say why there is no verdict, and the range all the same."""
    why = _NO_VERDICT.get(reason, _NO_VERDICT[Reason.WINDOW])
    return f"{why} The range would be {range_words(limits)}."


def heights_words(first: int, chances: Sequence[float]) -> str:
    """Say how many of 100 ordinary new units see each count, for those who cannot see columns.

    Examples
    --------
    >>> heights_words(0, (0.6, 0.39, 0.01, 0.001))
    'of 100 ordinary new units 60 see 0, 39 see 1, 1 see 2'
    """
    seen = [
        f"{of_hundred(chance)} see {first + i:,}"
        for i, chance in enumerate(chances)
        if chance >= 0.005
    ]
    return f"of 100 ordinary new units {', '.join(seen)}"


def strip_title(label: str, single: str, ours: str) -> str:
    """Return the title of a page of strips.

    Parameters
    ----------
    label : str
        The outcome; empty where several are shown.
    single, ours : str
        The level and our count in words, where there is one strip; else empty.
    """
    if single:
        return f"{label}, {single[:1].lower()}{single[1:]}; {ours}, among ordinary new units"
    return f"{label + ': o' if label else 'O'}ur counts among those of ordinary new units"


def strip_subtitle(unit: Unit, plan: Plan, placed: Sequence[Standing], *, is_dated: bool) -> str:
    """Say whose counts are shown, of when, and what was counted if that is the same for all."""
    when = f", {unit.period.from_} to {unit.period.to}" if is_dated else ""
    said = f"{unit.label}{when}."
    kinds = {(s.outcome, s.basis, s.window) for s in placed}
    if len(kinds) > 1:
        return said
    ((outcome, basis, window),) = kinds
    among = plan.denominators.get(basis, basis)
    during = f", {plan.windows[window].label}" if window in plan.windows else ""
    return f"{said} Number of {plan.outcomes[outcome].events} in {among}{during}."
