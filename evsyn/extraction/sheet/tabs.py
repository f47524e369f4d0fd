"""The sheets of a review's workbook and their columns, from the records and the plan."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from evsyn.extraction.plan import Characteristic, LabelledStratum, Plan
from evsyn.extraction.record import Record
from evsyn.extraction.sheet import pick_lists as lists
from evsyn.extraction.sheet.column import Column, Kind, Tab
from evsyn.extraction.study import Arm, Citation, Count, Extracted, Recruited, Setting, Study

STUDIES, ARMS, COUNTS = "Studies", "Arms", "Counts"
#: Where the fields of a record stand below the record of the row.
_WITHIN: Mapping[type[Record], tuple[str, ...]] = {
    Citation: ("citation",),
    Setting: ("setting",),
    Recruited: ("setting", "recruited"),
    Extracted: ("extracted",),
}
_CITATION = ("authors", "title", "journal", "year", "pages", "doi", "pmid", "address", "note")
_EXTRACTED = {"by": Kind.TEXT, "on": Kind.DAY, "from": Kind.WORD, "checked_by": Kind.TEXT}
_COUNT = {
    "events": (Kind.WHOLE, ""),
    "total": (Kind.WHOLE, ""),
    "of": (Kind.WORD, lists.DENOMINATORS),
    "window": (Kind.WORD, lists.WINDOWS),
    "counted_by": (Kind.WORD, lists.COUNTED_BY),
    "at": (Kind.TEXT, ""),
    "printed": (Kind.TEXT, ""),
    "derived": (Kind.TEXT, ""),
    "assumed": (Kind.YES_NO, lists.YES_NO),
    "second_hand": (Kind.YES_NO, lists.YES_NO),
    "follow_up": (Kind.TEXT, ""),
    "definition": (Kind.TEXT, ""),
    "site": (Kind.TEXT, ""),
    "attribution": (Kind.TEXT, ""),
    "note": (Kind.TEXT, ""),
}


def tabs(plan: Plan) -> tuple[Tab, Tab, Tab]:
    """Return the sheets of studies, of arms and of counts."""
    return (
        Tab(STUDIES, _apart((_study_name(), *_study_columns(plan)))),
        Tab(ARMS, _apart((_study_name(), *_arm_columns(plan)))),
        Tab(COUNTS, _apart((_study_name(), *_count_columns()))),
    )


def _study_name() -> Column:
    return replace(_of(Study, "study"), names_row=True)


def _study_columns(plan: Plan) -> Iterator[Column]:
    for key in _CITATION:
        heading = "citation note" if key == "note" else key
        yield _of(Citation, key, Kind.WHOLE if key == "year" else Kind.TEXT, "", heading)
    yield _of(Study, "design")
    yield _of(Setting, "centres", Kind.CENTRES)
    yield _of(Setting, "country")
    for key in ("from", "to"):
        # Needed only where the other is given.
        column = _of(Recruited, key, Kind.MONTH, "", f"recruited {key}")
        yield replace(column, needed=False)
    yield _of(Setting, "recruited_note")
    for key, kind in _EXTRACTED.items():
        heading = "checked by" if key == "checked_by" else f"extracted {key}"
        words = lists.READ_FROM if kind is Kind.WORD else ""
        yield _of(Extracted, key, kind, words, heading)
    yield from _facts("study", plan.characteristics.study)


def _arm_columns(plan: Plan) -> Iterator[Column]:
    yield replace(_of(Arm, "arm"), names_row=True)
    yield _of(Arm, "covers", Kind.WORD, lists.COVERS)
    yield _of(Arm, "part_of")
    yield _of(Arm, "label")
    if plan.treatments:
        yield replace(_of(Arm, "treatment", Kind.WORD, lists.TREATMENTS), needed=True)
    for name, stratum in plan.strata.items():
        if isinstance(stratum, LabelledStratum):
            about = f"{stratum.label}: {stratum.asks}"
            words = lists.of_stratum(name)
            yield Column(_spaced(name), ("strata", name), Kind.WORD, about, words)
    yield from _facts("arm", plan.characteristics.arm)
    for key in ("patients", "procedures"):
        yield _of(Arm, key, Kind.WHOLE)


def _count_columns() -> Iterator[Column]:
    yield replace(_of(Arm, "arm"), names_row=True)
    outcome = _of(Arm, "outcomes", Kind.WORD, lists.OUTCOMES, "outcome")
    yield replace(outcome, path=("outcome",), names_row=True, needed=True)
    for key, (kind, words) in _COUNT.items():
        yield _of(Count, key, kind, words)


def _of(
    record: type[Record], key: str, kind: Kind = Kind.TEXT, words: str = "", heading: str = ""
) -> Column:
    """Return the column of one field of a record."""
    field = record.model_fields["from_" if key == "from" else key]
    path = (*_WITHIN.get(record, ()), key)
    return Column(
        heading or _spaced(key),
        path,
        kind,
        field.description or "",
        words,
        needed=field.is_required(),
    )


def _facts(whose: str, declared: Mapping[str, Characteristic]) -> Iterator[Column]:
    for name, fact in declared.items():
        choice = fact.kind == "choice"
        words = lists.of_fact(whose, name) if choice else ""
        kind = Kind.WORD if choice else Kind.TEXT
        yield Column(_spaced(name), ("characteristics", name), kind, fact.label, words)


def _spaced(name: str) -> str:
    return name.replace("_", " ")


def heading_key(heading: str) -> str:
    """Return a heading as it is compared: letter case, blanks and underscores aside."""
    return " ".join(heading.replace("_", " ").split()).casefold()


def _apart(columns: tuple[Column, ...]) -> tuple[Column, ...]:
    """Return the columns, those of equal heading told apart by what they belong to."""
    taken: set[str] = set()
    kept: list[Column] = []
    for column in columns:
        heading = column.heading
        while heading_key(heading) in taken:
            heading += f" ({column.path[0]})"
        taken.add(heading_key(heading))
        kept.append(replace(column, heading=heading))
    return tuple(kept)
