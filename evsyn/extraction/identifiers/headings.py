"""What the heading of a column says it holds."""

import re

from evsyn.extraction.identifiers.likeness import Likeness
from evsyn.extraction.identifiers.plain_text import plain_text, without_accents

_SAYS: tuple[tuple[Likeness, str], ...] = (
    (Likeness.NHS_NUMBER, r"nhs(?: ?(?:no|nos|num|number|numbers|id))?|chi(?: ?(?:no|number))?"),
    (
        Likeness.HOSPITAL_NUMBER,
        r"e?mrn|crn|pas|urn|pas ?(?:no|number|id)|hosp|hosp(?:no|num|id)|medical record|ihi|ssn"
        r"|case ?notes?|social security|(?:hosp|hospital|unit|district|record|case ?notes?|x ?ray"
        r"|accession|health card|passport|registration) ?(?:no|num|nr|number|numbers|id|ref)",
    ),
    (Likeness.INSURANCE_NUMBER, r"nino|ni ?(?:no|number)|national insurance"),
    (
        Likeness.BIRTH,
        r"dob|yob|dobirth|d o birth|d o b|dofb|births?|birthday|birthdate|born|geb|geburtsdatum"
        r"|geburtstag|naissance|nacimiento|nascita|[a-z]*dateofbirth|[a-z]*birthdate",
    ),
    (
        Likeness.PERSON,
        r"names?|[a-z]*(?:sur|fore|patient|first|last|full)names?|initials|^initial$|inits|nee|maiden|nom"
        r"|prenom|nachname|vorname|apellidos?|next ?of ?kin|nok|kin|gmc|nmc|ptname|pt ?nm|nm"
        r"|signature",
    ),
    (
        Likeness.PHONE,
        r"tel|tel ?no|telephone|phones?|contact (?:no|number|details)|mobile|mob|fax|bleep|pager",
    ),
    (Likeness.EMAIL, r"email|e mail|mail"),
    (Likeness.ADDRESS, r"address|addresses|addr|street|residence|lives at"),
    (
        Likeness.POSTCODE,
        r"post ?codes?|postal ?code|pcode|zip|zip ?code|eircode|plz|postleitzahl|code postal"
        r"|codigo postal",
    ),
)
_SAYS_BARE = tuple((likeness, re.compile(rf"\b(?:{words})\b")) for likeness, words in _SAYS)

#: A thing has a name, initials say nothing of the first stent, and a ward has a telephone.
_THING_NAMED = re.compile(
    r"\b(?:device|stent|hospital|drug|site|procedure|operation|file|brand|trust|centre|center|ward|unit"
    r"|study|trial|sheet|product|column|field|scope|wire|model|type|maker|manufacturer|outcome|specialty)s?\b"
)
_NAME_WORDS = re.compile(r"\b(?:names?|initial|nom)\b")
_OPERATOR = re.compile(
    r"\b(?:operators?|endoscopists?|surgeons?|consultants?|radiologists?|gastroenterologists?"
    r"|an(?:ae|e)sthetists?|assistants?|clinicians?|doctors?|physicians?|trainers?|supervisors?"
    r"|scopists?|cons|opr|proceduralists?|colonoscopists?|stenters?|firm|responsible)\b"
    r"|\b(?:op|done|performed|inserted|placed|stented|operated|scoped|deployed|carried out) by\b"
)
#: Words that make it a column about operators and not of them.
_ABOUT = re.compile(
    r"\b(?:grade|type|speciality|specialty|seniority|experience|years?|cases|volume|count|number of"
    r"|no of|training|level|present|presence|available|informed|in room|supervised|free)\b"
)
#: "Patient" is of persons; "Patient position" is not.
_PERSON_LIKE = re.compile(
    r"(?:the )?(?:patients?|pts?|subjects?|clients?|persons?|who|who did it|gp|dr|nurse|carer|lead"
    r"|registrar|trainee|referrer|spouse|colleague|auditor|signed|(?:data )?collector|supervising"
    r"|by)(?: (?:id|no|number|code|ref|key))?"
    r"|.*\b(?:seen|referred|reported|consented|reviewed|entered|recorded|audited|collected) by"
)
_REFERENCE = re.compile(
    r"(?:our |own |log |study |audit |case |row |patient |pt )?"
    r"(?:refs?|references?|ids?|no|nr|num|numbers?|keys?|codes?|case|row)"
)
#: "Area" alone is of where somebody lives; "Area of the stricture" is not.
_PLACE = re.compile(
    r"(?:home |patient |pt |residential |catchment )?"
    r"(?:areas?|districts?|regions?|towns?|city|locality|municipality|lives in|gemeinde|ort|wohnort"
    r"|commune|ville|comune|localidad|municipio)"
)
_DATE_LIKE = re.compile(
    r"\b(?:dates?|days?|when|month|time|admitted|admission|discharged?|died|death|operated|performed|on)\b"
)


def bare_heading(heading: str) -> str:
    """Return a heading in lower-case words: no accents, signs, or words run together."""
    text = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", plain_text(heading)).replace("#", " no ")
    words = re.sub(r"[\W_]+", " ", without_accents(text)).split()
    return re.sub(r"\b(\w) (\w) (\w)\b", r"\1\2\3", " ".join(words))


def heading_likeness(heading: str) -> Likeness | None:
    """Return what a heading openly says its column holds, or ``None``."""
    bare = bare_heading(heading)
    joined = bare.replace(" ", "")
    for likeness, form in _SAYS_BARE:
        if likeness is Likeness.PERSON and _THING_NAMED.search(bare) and _NAME_WORDS.search(bare):
            continue
        if form.search(bare) or form.fullmatch(joined):
            return likeness
    return None


def is_operator_heading(heading: str) -> bool:
    """Whether a column is of operators, so that roles alone may stand in it."""
    bare = bare_heading(heading)
    return _OPERATOR.search(bare) is not None and _ABOUT.search(bare) is None


def may_be_operator_heading(heading: str) -> bool:
    """Whether a column is called "op", which may be of operations too."""
    return (
        re.fullmatch(r"(?:(?:1|2)?(?:st|nd)? ?|first |second )ops?", bare_heading(heading))
        is not None
    )


def is_person_like_heading(heading: str) -> bool:
    """Whether a column is about persons, so that initials in it are theirs."""
    return _PERSON_LIKE.fullmatch(bare_heading(heading)) is not None


def is_thing_heading(heading: str) -> bool:
    """Whether a column is of things, whose names may have the shape of a person's."""
    return _THING_NAMED.search(bare_heading(heading)) is not None


def is_reference_heading(heading: str) -> bool:
    """Whether a column is of references to cases, so that one long number in it leads somewhere."""
    return _REFERENCE.fullmatch(bare_heading(heading)) is not None


def is_place_heading(heading: str) -> bool:
    """Whether a column is of where persons live, so that short numbers in it are postcodes."""
    return _PLACE.fullmatch(bare_heading(heading)) is not None


def is_date_like_heading(heading: str) -> bool:
    """Whether a column is of days, so that five digits in it may be the number of one."""
    return _DATE_LIKE.search(bare_heading(heading)) is not None
