"""What a column looks like, by its heading, its values, and its values together."""

from collections.abc import Mapping, Sequence
from datetime import date, datetime

from evsyn.extraction.case_log.raw_table import RawValue
from evsyn.extraction.identifiers.cell import cell_likenesses
from evsyn.extraction.identifiers.full_dates import are_serial_dates, is_short_date, serial_date
from evsyn.extraction.identifiers.headings import (
    heading_likeness,
    is_date_like_heading,
    is_operator_heading,
    is_person_like_heading,
    is_place_heading,
    is_reference_heading,
    is_thing_heading,
    may_be_operator_heading,
)
from evsyn.extraction.identifiers.likeness import Likeness, gravest
from evsyn.extraction.identifiers.operators import any_role, are_answers, are_roles
from evsyn.extraction.identifiers.person_column import are_persons
from evsyn.extraction.identifiers.plain_text import plain_text
from evsyn.extraction.identifiers.record_numbers import are_record_numbers, stray_record_numbers
from evsyn.extraction.identifiers.whereabouts import are_districts, are_postcodes_of_places


def column_likeness(
    heading: str, values: Sequence[RawValue], roles: Mapping[str, str]
) -> Likeness | None:
    """Return the gravest thing a column looks like, or ``None``.

    Parameters
    ----------
    heading : str
        As it stands in the file.
    values : sequence
        As they stand in the file.
    roles : mapping of str to str
        Roles of the plan and their words.
    """
    texts = [text for value in values if (text := plain_text(value))]
    found = {likeness for text in set(texts) for likeness in cell_likenesses(text)}
    found |= cell_likenesses(plain_text(heading))
    short = is_date_like_heading(heading) and _days_in_short(texts)
    if short or _days(values) or are_serial_dates(texts):
        found.add(Likeness.DATE)
    if are_record_numbers(texts):
        found.add(Likeness.DATE if is_date_like_heading(heading) else Likeness.HOSPITAL_NUMBER)
    if stray_record_numbers(texts, of_references=is_reference_heading(heading)):
        found.add(Likeness.HOSPITAL_NUMBER)
    if are_districts(texts) or (is_place_heading(heading) and are_postcodes_of_places(texts)):
        found.add(Likeness.POSTCODE)
    # "Postcode known" with yes and no in it tells of nobody.
    said = None if are_answers(texts) else heading_likeness(heading)
    if is_operator_heading(heading) or (
        may_be_operator_heading(heading) and any_role(texts, roles)
    ):
        if are_roles(texts, roles):
            # "Consultant name" with roles alone in it names nobody.
            said = None if said is Likeness.PERSON else said
        else:
            found = (found - {Likeness.PERSON}) | {Likeness.OPERATOR}
            said = None if said is Likeness.PERSON else said
    elif are_persons(
        texts,
        about_persons=is_person_like_heading(heading),
        about_things=is_thing_heading(heading),
    ):
        found.add(Likeness.PERSON)
    if said is not None:
        found.add(said)
    return gravest(found)


def is_ordinary_but_for_cells(
    heading: str, values: Sequence[RawValue], roles: Mapping[str, str]
) -> bool:
    """Whether a column is ordinary once the few cells that give something away are cleared.

    Parameters
    ----------
    heading, values, roles
        As for :func:`column_likeness`.
    """
    texts = [plain_text(value) for value in values]
    filled = [text for text in texts if text]
    stray = stray_record_numbers(filled, of_references=is_reference_heading(heading))
    telling = {text for text in filled if text in stray or cell_likenesses(text)}
    rest = [value for value, text in zip(values, texts, strict=True) if text not in telling]
    left = [text for text in filled if text not in telling]
    return 2 * len(left) > len(filled) and column_likeness(heading, rest, roles) is None


def _days(values: Sequence[RawValue]) -> bool:
    """Whether dates of the file go below the month; day 1 throughout is a month."""
    days = [value for value in values if isinstance(value, date)]
    return any(
        day.day != 1 or (isinstance(day, datetime) and bool(day.hour or day.minute or day.second))
        for day in days
    )


def _days_in_short(texts: list[str]) -> bool:
    if any(is_short_date(text) for text in texts):
        return True
    days = [day for text in texts if (day := serial_date(text)) is not None]
    return any(day.day != 1 for day in days)
