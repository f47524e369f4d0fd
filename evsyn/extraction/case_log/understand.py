"""Turn the rows of a log into cases."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from evsyn.extraction.case_log.case import Case
from evsyn.extraction.case_log.cells import Said, read_column
from evsyn.extraction.case_log.course import Clash, Course
from evsyn.extraction.case_log.devices import device_clashes, devices_of
from evsyn.extraction.case_log.headings import Columns, heading_source
from evsyn.extraction.case_log.outcome import outcome_clashes, outcome_of
from evsyn.extraction.case_log.raw_table import RawTable
from evsyn.extraction.case_log.refused import fault, rows_words
from evsyn.extraction.case_log.settings import OutcomeWay
from evsyn.extraction.case_log.spelling import cell_text
from evsyn.extraction.case_log.things import (
    DEVICE_END,
    DEVICES,
    MONTH,
    OPERATOR,
    PATIENT_END,
    REACHED,
    REF,
    UNKNOWN,
    Kind,
    Thing,
    fact_names,
    yes_or_no,
)
from evsyn.extraction.case_log.unknown_words import UnknownWord, unknown_word_faults
from evsyn.extraction.plan import LabelledStratum, Plan
from evsyn.extraction.unit import Period
from evsyn.terms import NOT_STATED, Finding, Source

Row = Mapping[str, Said]


@dataclass(frozen=True, slots=True)
class CaseTable:
    """All cases of a log.

    Parameters
    ----------
    file : str
        Name of the log.
    heading_row : int
        Row of its headings.
    columns : Columns
        What it tells of each case.
    cases : tuple of Case
        The cases, in the order of the log.
    """

    file: str
    heading_row: int
    columns: Columns
    cases: tuple[Case, ...]


def understand(
    table: RawTable,
    columns: Columns,
    known: Mapping[str, Thing],
    words: Mapping[str, str],
    ways: Sequence[OutcomeWay],
    plan: Plan,
    period: Period,
) -> tuple[CaseTable | None, list[Finding]]:
    """Read every row as a case.

    Parameters
    ----------
    table : RawTable
        The table as it stands in the file.
    columns : Columns
        What each column holds.
    known : mapping
        The things columns may hold.
    words : mapping
        The log's own words, and the names they stand for.
    ways : sequence of OutcomeWay
        How each outcome is read.
    plan : Plan
        The plan of the review.
    period : Period
        The months the unit's figures cover.

    Returns
    -------
    tuple
        The cases, ``None`` where anything is at fault, and the faults.
    """
    said: dict[str, list[Said]] = {}
    answers: dict[str, list[Said]] = {}
    findings: list[Finding] = []
    unknown: list[UnknownWord] = []
    for name, place in columns.places.items():
        said[name], found, strange = read_column(table, place, known[name], words)
        findings += found
        unknown += strange
    plain = Thing("", "", Kind.WORD, yes_or_no())
    for way in ways:
        if way.place is not None:
            answers[way.name], _, strange = read_column(table, way.place, plain, words)
            # A step's column is read twice and told once.
            unknown += [] if way.step is not None else strange
    findings += unknown_word_faults(table, sorted(unknown, key=lambda one: one.place), words, plan)
    findings += _unplaced(table, columns, said, period)
    if findings:
        return None, findings
    cases, clashes = [], dict[Clash, list[int]]()
    for number, raw in enumerate(table.rows):
        row = {name: column[number] for name, column in said.items()}
        written = {name: str(column[number] or UNKNOWN) for name, column in answers.items()}
        source = Source(table.file, raw.number)
        case, wrong = _case(row, written, ways, plan, source)
        cases.append(case)
        for clash in wrong:
            clashes.setdefault(clash, []).append(raw.number)
    for clash, rows in clashes.items():
        named = columns.of_outcomes if clash.of_outcome else columns.places
        place = named.get(clash.thing, columns.places[REACHED])
        cure = "Compare the row with the notes, and correct it."
        message = f"{rows_words(rows)}: {clash.message}"
        findings.append(fault(heading_source(table, place, rows[0]), message, cure))
    made = CaseTable(table.file, table.heading_row, columns, tuple(cases))
    return (None if findings else made), findings


def _unplaced(
    table: RawTable, columns: Columns, said: Mapping[str, Sequence[Said]], period: Period
) -> Iterator[Finding]:
    """Yield a fault for rows without month or stage, and for those outside the period."""
    numbers = [row.number for row in table.rows]
    for name, cure in (
        (MONTH, "Every case needs its month, as 2024-03."),
        (REACHED, "Every case needs its furthest stage."),
    ):
        written = table.column(columns.places[name])
        empty = [n for n, one in zip(numbers, written, strict=True) if not cell_text(one)]
        if empty:
            heading = table.headings[columns.places[name]]
            message = f"{rows_words(empty)}: the column '{heading.strip()}' is empty"
            yield fault(heading_source(table, columns.places[name], empty[0]), message, cure)
    outside = [
        n
        for n, month in zip(numbers, said[MONTH], strict=True)
        if isinstance(month, str) and not _is_within(month, period)
    ]
    if outside:
        message = f"{rows_words(outside)}: the month is outside the unit's period, "
        message += f"{period.from_} to {period.to}"
        cure = "Correct the month or the period; a log holds the cases of the period alone."
        yield fault(heading_source(table, columns.places[MONTH], outside[0]), message, cure)


def _is_within(month: str, period: Period) -> bool:
    first, last = period.from_[:7], period.to[:7]
    return first <= month[: len(first)] and month[: len(last)] <= last


def _case(
    row: Row, written: Mapping[str, str], ways: Sequence[OutcomeWay], plan: Plan, source: Source
) -> tuple[Case, list[Clash]]:
    steps = {name: str(row[name] or UNKNOWN) for name in plan.course.steps if name in row}
    course = Course(plan, str(row[REACHED]), steps)
    clashes = list(course.settle())
    if not clashes:
        clashes += device_clashes(row.get(DEVICES), row.get(DEVICE_END), course, plan)
        for way in ways:
            clashes += outcome_clashes(way, written.get(way.name, UNKNOWN), course)
        clashes += course.settle()
    devices, device_ends = devices_of(row.get(DEVICES), row.get(DEVICE_END), course, plan)
    facts = {
        name: one
        for name in fact_names(plan)
        if isinstance(one := row.get(name), (str, float, int)) and one != NOT_STATED
    }
    case = Case(
        source=source,
        month=str(row[MONTH]),
        strata={
            name: str(row[name] or NOT_STATED)
            for name, stratum in plan.strata.items()
            if isinstance(stratum, LabelledStratum) and name in row
        },
        reached=str(row[REACHED]),
        steps=_of_kind(steps, course, plan, complications=False),
        complications=_of_kind(steps, course, plan, complications=True),
        outcomes={
            way.name: outcome_of(way, written.get(way.name, UNKNOWN), course)
            for way in ways
            if course.reaches(way.of)
        },
        devices=devices,
        patient_end=_known(row.get(PATIENT_END)),
        device_ends=device_ends,
        operator=_known(row.get(OPERATOR)) if plan.audit.roles else None,
        facts=facts,
        ref=str(row.get(REF) or ""),
    )
    return case, clashes


def _of_kind(
    steps: Mapping[str, str], course: Course, plan: Plan, *, complications: bool
) -> dict[str, str]:
    return {
        name: course.said_of(name)
        for name in steps
        if plan.course.steps[name].complication is complications
    }


def _known(said: Said) -> str | None:
    return said if isinstance(said, str) and said != UNKNOWN else None
