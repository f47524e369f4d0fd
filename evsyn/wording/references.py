"""What is said beside a citation that was read from a record."""

from evsyn.wording.numbers import counted

PASTE = "Paste the record, then press Ctrl-D on a line of its own (on Windows Ctrl-Z and Enter)."


def records_read(name: str, number: int) -> str:
    """Say how many records of a file were read."""
    return f"{name}: {counted(number, 'record', 'records')} read."


def record_from(place: str, layout: str) -> str:
    """Say where a citation comes from."""
    return f"From {place} ({layout})."


def letters_lacking() -> str:
    """Say how letters are written that the console does not have."""
    return (
        "Letters this console lacks are written as YAML writes them in plain ones, and read as "
        "meant in an extract."
    )


def same_as_study(study: str, place: str, reason: str) -> str:
    """Say that a study of the review is of the same paper."""
    return (
        f"Same paper as the study {study} ({place}): {reason}. Work in that file, not in a new one."
    )


def same_as_record(place: str, reason: str) -> str:
    """Say that an earlier record is of the same paper."""
    return f"Same paper as the record at {place}: {reason}."


def not_in_review(studies: int) -> str:
    """Say that the paper is new to the review."""
    if not studies:
        return "The review has no study yet."
    return f"Not among the {counted(studies, 'study', 'studies')} of the review."


def some_unread(folder: str) -> str:
    """Say that a study may be missing from the comparison."""
    return (
        "The review has faults, so that some of its papers may be missing here. See them with: "
        f"evsyn check {folder}"
    )
