"""The sentences of a talk: short titles, and what is said of limits and of the search."""

from collections.abc import Sequence

from evsyn.extraction.plan import Plan
from evsyn.extraction.review import Review
from evsyn.pooling.answer import PoolAnswer, Row, Show
from evsyn.pooling.difference import Difference, NoTest
from evsyn.pooling.disputed import DisputedStudy, Variant
from evsyn.terms import Source, TextRead
from evsyn.wording.numbers import count, counted, percent, span
from evsyn.wording.pocket_strata import difference_verdict
from evsyn.wording.pooled import TOO_WIDE, too_wide_to_quote

LIMITS_TITLE = "What these studies cannot tell"
NO_APPRAISAL = "No risk of bias is judged here, and no certainty is rated."
NO_SEARCH_TITLE = "No search was made: chosen papers"
NO_SEARCH = "The papers were chosen, not searched for: others may exist that say otherwise."
INDEX_TITLE = "Backup slides: every study, and the references"
INDEX_BACK = "Back to the list."
OTHERS_IN_BACKUP = "Not shown here, only in the backup slides: {labels}."
OUTSIDE_TITLE = "What may be told outside of {unit}"
CLOSING_TITLE = "How to read the unit's counts"
ALL_STUDIES = "all studies"
OUR_COUNTS = "our counts"
#: Parts what is spoken in the notes from what stands behind it.
FOR_QUESTIONS = "For questions:"
DISPUTED_KEY = (
    "If one count were disputed: the row to read with so many events fewer or more, its total "
    "held, and with the study left out; what moves it most stands first."
)
#: Parts of a talk, as programs list them and slides are headed.
PART_START, PART_EVIDENCE = "Start", "The evidence"
PART_REFERENCES, PART_BACKUP = "References", "Backup"
TAKE_HOME = "To take home"


def answer_title(
    label: str, answer: PoolAnswer, stratum: str = "", difference: Difference | None = None
) -> str:
    """Say the answer to one outcome in a line, and whether the levels drawn under it differ.

    Parameters
    ----------
    label : str
        The outcome, as ``Perforation``.
    answer : PoolAnswer
        Its answer over all studies.
    stratum : str
        The stratum whose levels are drawn, as ``Intent``; empty for none.
    difference : Difference, optional
        The test between those levels, or why there is none.
    """
    said = f"{label}: {_answer_words(answer)}"
    if not stratum or difference is None:
        return said
    return f"{said}; by {stratum.lower()}: {_verdict(difference)}"


def _answer_words(answer: PoolAnswer) -> str:
    studies = counted(answer.k, "study", "studies")
    match answer.show:
        case Show.NOTHING:
            return "no study here reports it"
        case Show.REFUSED:
            return f"counts of {studies}, not pooled"
    seen = f"{count(sum(answer.events), sum(answer.total))} in {studies}"
    reading = answer.reading
    if not answer.show.pooled:
        return f"{seen}, not pooled"
    if reading is None:
        return f"{seen}; no pooled row can be read"
    if too_wide_to_quote(answer):
        return f"{seen}, {TOO_WIDE}"
    row = reading.pooled
    kind = "on average" if reading.row is Row.BETA_BINOMIAL else "typically"
    return f"{kind} {percent(row.estimate)} ({span(row.low, row.high)}), {seen}"


def _verdict(difference: Difference) -> str:
    """Say whether levels differ, inside a title."""
    test = difference.test
    if test is None:
        few = difference.reason is NoTest.TOO_FEW
        return "cannot be compared" if few else "not compared"
    said = difference_verdict(test)
    exploratory = "; exploratory" if test.exploratory else ""
    return f"{said[:1].lower()}{said[1:]}{exploratory}"


def levels_title(
    label: str, stratum: str, levels: Sequence[tuple[str, PoolAnswer]], difference: Difference
) -> str:
    """Say the rate of each level in a line, and whether they differ.

    Parameters
    ----------
    label, stratum : str
        Outcome and stratum, as ``Perforation`` and ``Intent``.
    levels : sequence of (str, PoolAnswer)
        Each level in words, with its answer; without the one that gathers what is not stated.
    difference : Difference
        The test between them, or why there is none.
    """
    told = [
        f"{words} {TOO_WIDE}"
        if too_wide_to_quote(answer)
        else f"{words} {percent(answer.reading.pooled.estimate)}"
        for words, answer in levels
        if answer.reading is not None
    ]
    said = f"{', '.join(told)}; {_verdict(difference)}" if told else "nothing can be pooled"
    return f"{label} by {stratum.lower()}: {said}"


def levels_taken_home(stratum: str, difference: Difference) -> str:
    """Say in a sentence whether the levels of a stratum differ."""
    return f"By {stratum.lower()}: {_verdict(difference)}."


def unit_taken_home(unit: str, place: str, late: str = "") -> str:
    """Say where a unit stands, and which events came later."""
    return " ".join(part for part in (f"{unit}: {place}", late) if part)


def evidence_cannot_tell(review: Review) -> str:
    """Say in a sentence what bounds all these numbers."""
    return f"{read_in_part(review)} {NO_APPRAISAL}"


def read_in_part(review: Review) -> str:
    """Say how many studies were not read in full."""
    partly = sum(study.extracted.from_ is not TextRead.FULL_TEXT for study in review.studies)
    k = counted(len(review.studies), "study", "studies")
    return f"Read from abstract or second hand, not in full: {partly:,} of {k}."


def spoken_never(words: str) -> str:
    """Say in the notes what is not to be said."""
    return f"Do not say: {words[:1].lower()}{words[1:]}" if words else ""


def part_title(title: str, part: int, parts: int) -> str:
    """Number a title that runs over several slides.

    Examples
    --------
    >>> part_title("References", 2, 3), part_title("References", 1, 1)
    ('References (2 of 3)', 'References')
    """
    return title if parts == 1 else f"{title} ({part} of {parts})"


def part_backup(label: str) -> str:
    """Name the part of a talk that holds every study of an outcome."""
    return f"{PART_BACKUP}: {label[:1].lower()}{label[1:]}"


def backup_title(label: str, stratum: str) -> str:
    """Name the slides of a full forest."""
    return f"{label}, every study, by {stratum.lower()}" if stratum else f"{label}, every study"


def limits_lines(review: Review, stating: Sequence[str], cautions: str) -> list[str]:
    """Say what the evidence cannot tell, a line a point.

    Parameters
    ----------
    review : Review
        The review.
    stating : sequence of str
        How many studies state each stratum.
    cautions : str
        What pooled numbers support and never replace.
    """
    studies = review.studies
    k = counted(len(studies), "study", "studies")
    second = sum(study.extracted.checked_by is not None for study in studies)
    doubts = len(review.open_doubts)
    return [
        read_in_part(review),
        f"Checked by a second reader: {second:,} of {k}.",
        f"Open doubts about what was extracted: {doubts:,}.",
        *stating,
        NO_APPRAISAL,
        cautions,
    ]


def search_title(plan: Plan) -> str:
    """Say how the papers were come by, in a line."""
    if not isinstance(plan.search, list) or not plan.search:
        return NO_SEARCH_TITLE
    last = max(source.on for source in plan.search)
    return f"Searched: {counted(len(plan.search), 'source', 'sources')}, last on {last}"


def search_lines(plan: Plan) -> list[str]:
    """Say what was searched, a line a source."""
    said = []
    for source in plan.search if isinstance(plan.search, list) else ():
        found = (
            "" if source.records is None else f": {counted(source.records, 'record', 'records')}"
        )
        said.append(f"{source.name}, {source.on}{found}")
    note = [plan.search_note] if plan.search_note else []
    return [*(said or [NO_SEARCH]), *note]


def strategy_lines(plan: Plan) -> list[str]:
    """Give each search as it was run."""
    sources = plan.search if isinstance(plan.search, list) else ()
    return [f"{source.name}: {source.strategy}" for source in sources if source.strategy]


def references_title(number: int) -> str:
    """Head the list of studies."""
    return f"References: {counted(number, 'study', 'studies')}"


def source_line(label: str, events: int, total: int, sources: Sequence[Source]) -> str:
    """Say one count, and where it was written and read.

    Examples
    --------
    >>> source_line("Alder 1996", 4, 52, [Source("1996-alder.yaml", 23, place="Table 2")])
    'Alder 1996: 4 of 52; 1996-alder.yaml, line 23 (Table 2)'
    """
    places = "; ".join(f"{one} ({one.place})" if one.place else str(one) for one in sources)
    return f"{label}: {count(events, total)}; {places}"


def disputed_line(study: DisputedStudy) -> str:
    """Say what would be read if one study's count were another, and without it."""
    moved = [f"{one.change:+d} {_read(one)}" for one in study.counts if one.change]
    told = ", ".join(moved)
    row = study.row
    return f"{row.label}, {count(row.events, row.total)}: {told}; left out {_read(study.without)}"


def _read(variant: Variant) -> str:
    reading = variant.pooled.answer.reading
    return "no row" if reading is None else percent(reading.pooled.estimate)


def template_refusal(why: str) -> str:
    """Refuse a template, and say what one needs."""
    return (
        f"The template cannot be used: {why}. A template needs a layout that holds a title and no "
        "other placeholder but date, footer and slide number, with most of the slide left free. "
        "Add one in the master view, save the file as .pptx or .potx, and give it again; or leave "
        "the template out."
    )
