"""What one value gives away by itself."""

from evsyn.extraction.identifiers.contact import holds_email, without_phones
from evsyn.extraction.identifiers.full_dates import tells_birth, without_full_dates
from evsyn.extraction.identifiers.likeness import Likeness
from evsyn.extraction.identifiers.nhs_number import holds_nhs_number, is_all_nhs_number
from evsyn.extraction.identifiers.persons import holds_person
from evsyn.extraction.identifiers.record_numbers import holds_insurance_number, holds_record_number
from evsyn.extraction.identifiers.whereabouts import holds_address, holds_postcode


def cell_likenesses(text: str) -> set[Likeness]:
    """Return all that a text in plain characters holds, of which one value is enough.

    Dates and telephone numbers are cut out before longer numbers are looked for, so that a date
    is not told as a hospital number.
    """
    if is_all_nhs_number(text):
        return {Likeness.NHS_NUMBER}
    rest = without_full_dates(text)
    undated = rest
    rest = without_phones(rest)
    looks = {
        Likeness.DATE: undated != text,
        Likeness.BIRTH: tells_birth(text),
        Likeness.PHONE: rest != undated,
        Likeness.NHS_NUMBER: holds_nhs_number(rest),
        Likeness.INSURANCE_NUMBER: holds_insurance_number(rest),
        Likeness.HOSPITAL_NUMBER: holds_record_number(rest),
        Likeness.EMAIL: holds_email(text),
        Likeness.POSTCODE: holds_postcode(rest),
        Likeness.ADDRESS: holds_address(rest),
        Likeness.PERSON: holds_person(rest),
    }
    return {likeness for likeness, found in looks.items() if found}
