"""What a guideline is said to state, in words: body, year, edition, and whether it was read."""

from evsyn.claims.guideline import Ground, GuidelineFound
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claims import Claim
from evsyn.extraction.guidelines import GUIDELINES_FILE, GuidelineStatement, ReadAs, Status
from evsyn.wording.claims_said import Said

CHECK = "check the text before quoting it"

_GROUNDS = {
    Ground.NOT_RECORDED: f"The review's folder holds no {GUIDELINES_FILE}.",
    Ground.NO_PASS_MARK: (
        "No guideline that was read sets a number to be met for {outcome}: of {recorded} recorded "
        "statements {read} were read."
    ),
    Ground.NO_SUCH_NUMBER: (
        "None of {recorded} recorded statements, {read} of them read, is recorded as setting a "
        "number for {outcome}."
    ),
    Ground.SUPERSEDED: "That edition is no longer in force; it was replaced by {successor}.",
    Ground.OTHER_EDITION: "The recorded statement is of {year}, not of {edition}.",
    Ground.FROM_MEMORY: "It was written down from memory and not read: " + CHECK + ".",
    Ground.SECOND_HAND: "It was read second hand, in another text: " + CHECK + ".",
    Ground.STATUS_UNKNOWN: "Whether this edition is in force is not known: " + CHECK + ".",
    Ground.NO_NUMBER: "The recorded statement gives no number.",
    Ground.OTHER_NUMBER: "The recorded number is {values}, and not {value}.",
    Ground.OTHER_UNIT: "The recorded number is {values}, in other words than {value}.",
    Ground.NO_STRENGTH: "No strength is recorded with the statement.",
    Ground.STRENGTH_FROM_MEMORY: "Its grading ({strength}) is partly from memory: " + CHECK + ".",
    Ground.OTHER_STRENGTH: "It is graded {strength}, and not {value}.",
    Ground.READ: (
        "It is recorded, was read, and is of the edition named or in force. Whether the sentence "
        "says the same as the recorded statement is for you to judge."
    ),
}

_READ = {
    ReadAs.TEXT: "the page was read",
    ReadAs.PAGE_START: "the start of the page was read",
    ReadAs.ABSTRACT: "the abstract was read",
    ReadAs.TABLE: "a table was read",
    ReadAs.SECOND_HAND: "read second hand",
    ReadAs.NOT_READ: "from memory, not read",
}


def guideline_words(claim: Claim, found: GuidelineFound, outcome: str = "") -> Said:
    """Say what is recorded of the statement, and why the claim is judged as it is.

    Parameters
    ----------
    claim : Claim
        The claim.
    found : GuidelineFound
        What was found.
    outcome : str
        The outcome in words, for a claim of a pass mark.
    """
    one = found.statement
    words = {
        "outcome": outcome,
        "recorded": found.recorded,
        "read": found.read,
        "successor": _successor(found),
        "year": "no stated year" if one is None or one.year is None else one.year,
        "edition": claim.edition,
        "value": claim.value,
        "values": "" if one is None else " and ".join(one.values),
        "strength": "" if one is None else one.strength,
    }
    sentences = [_GROUNDS[ground].format(**words) for ground in found.grounds]
    if one is not None:
        sentences += _recorded(one)
    sentences += [f"In force on the same topic: {statement_words(other)}" for other in found.others]
    return Said(tuple(sentences), _instead(found, outcome), (), _scope(claim, found))


def _successor(found: GuidelineFound) -> str:
    """Name what replaced a statement: its edition where that is recorded, else as written."""
    name = "" if found.statement is None else found.statement.superseded_by or ""
    other = next((one for one in found.others if one.id == name), None)
    if other is None:
        return name
    return f"{other.body} {other.year or ''}".strip()


def statement_words(one: GuidelineStatement) -> str:
    """Say a statement with its body, year, status, reading and id."""
    graded = f", graded {one.strength}" if one.strength else ""
    return f"{edition_words(one)}{graded} ({_READ[one.read]}; {one.id}): {_stop(one.statement)}"


def edition_words(one: GuidelineStatement) -> str:
    """Name the body, the year and whether that edition is in force."""
    year = f" {one.year}" if one.year is not None else ", year not recorded"
    status = {
        Status.CURRENT: "in force",
        Status.SUPERSEDED: "replaced",
        Status.UNKNOWN: "not known whether in force",
    }[one.status]
    return f"{one.body}{year}, {status}"


def _recorded(one: GuidelineStatement) -> list[str]:
    said = [f"Recorded, in our own words: {statement_words(one)}"]
    address = f", {one.address}" if one.address else ""
    said.append(f"Source: {one.published_in}{address} ({one.source()}).")
    return [*said, one.note] if one.note else said


def _scope(claim: Claim, found: GuidelineFound) -> str:
    if found.verdict is not ClaimVerdict.BORNE_OUT or found.statement is None:
        return ""
    if found.statement.status is Status.SUPERSEDED:
        return f"of the edition of {found.statement.year} only"
    return "as recorded"


def _instead(found: GuidelineFound, outcome: str) -> str:
    one = found.statement
    if Ground.NO_PASS_MARK in found.grounds or Ground.NO_SUCH_NUMBER in found.grounds:
        return (
            f"No guideline that we have read sets a number to be met for {outcome}; our rate can "
            "be set beside published series."
        )
    if one is None:
        return "What guidelines say of it is not recorded here."
    year = one.year or "(year not recorded)"
    if one.status is Status.SUPERSEDED:
        now = f" Now in force: {found.others[0].statement}" if found.others else ""
        return f"{one.body} said in {year}, in an edition since replaced: {one.statement}{now}"
    hedge = f" ({_READ[one.read]}; {CHECK})" if one.from_memory else f" ({_READ[one.read]})"
    return f"{one.body} {year}{hedge}: {_stop(one.statement)}"


def _stop(text: str) -> str:
    return text if text.endswith((".", "?", "!")) else f"{text}."
