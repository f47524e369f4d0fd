"""What a workbook would change in the files of a review, and what it leaves, in words."""

from collections.abc import Iterable, Iterator, Sequence

from evsyn.extraction.sheet.draft import Draft, Edit
from evsyn.extraction.sheet.read import SheetReading, Stage
from evsyn.extraction.sheet.values import Shown
from evsyn.wording.numbers import counted

#: How many of what is left as it is are named.
_NAMED = 8
_LONGEST = 60

FILLING = "Filling the rows"
STAGES = {
    Stage.READING: "Reading the files",
    Stage.DRAFTING: "Making the changes",
    Stage.CHECKING: "Checking what would be",
}
NOTHING = "Nothing to change: the files say what the workbook says."
LOOKED = "Nothing was written, since --dry was given."
FAULTY = "Nothing is written while a fault stands."


def made_sentence(path: str, studies: int) -> str:
    """Say that a workbook was written, and what to do with it."""
    filled = counted(studies, "study", "studies") if studies else "empty rows"
    return f"{path} is written, with {filled}. Begin with its first sheet, Read me."


def there_already(path: str) -> str:
    """Say why a workbook is not written over."""
    return (
        f"{path} is there already, and may hold what somebody typed. Give another name with -o, "
        "or delete it."
    )


def folder_first(folder: str, workbook: str) -> str:
    """Say that the two were given the other way round."""
    return f"{folder} is a folder. Give the folder first, then the workbook: {folder} {workbook}"


def written_sentence(files: Sequence[str]) -> str:
    """Say which files were written."""
    return "\n".join(f"Written: {file}" for file in files)


def changes_text(reading: SheetReading) -> str:
    """Return what would change, file by file, and what stays though the workbook lacks it."""
    lines: list[str] = []
    for draft in reading.drafts:
        lines += _new(draft) if draft.study is None else _changed(draft)
    emptied = [edit for draft in reading.all_drafts for edit in draft.emptied]
    if emptied:
        lines.append("Emptied in the workbook, and kept in the files:")
        lines += _first(f"    {_place(edit)}: {_shown(edit.before)}" for edit in emptied)
    left = [f"{draft.name}: {what}" for draft in reading.all_drafts for what in draft.left()]
    if left:
        lines.append("Not in the workbook, and kept in the files:")
        lines += _first(f"    {one}" for one in left)
    if reading.absent:
        number = counted(len(reading.absent), "study", "studies")
        lines.append(f"Not in the workbook at all, and kept as they are: {number}.")
    return "\n".join(lines)


def _new(draft: Draft) -> Iterator[str]:
    arms = draft.record.get("arms", [])
    counts = sum(len(arm.get("outcomes", {})) for arm in arms)
    told = f"{counted(len(arms), 'arm', 'arms')}, {counted(counts, 'count', 'counts')}"
    yield f"New: {draft.file} ({told})"


def _changed(draft: Draft) -> Iterator[str]:
    yield f"Changed: {draft.file}"
    for edit in draft.edits:
        was = "was empty" if edit.before is None else f"was {_shown(edit.before)}"
        yield f"    {edit.what}: {_shown(edit.after)} ({edit.cell}; {was})"
    for what in draft.added:
        yield f"    {what}: new"


def _place(edit: Edit) -> str:
    return f"{edit.cell} ({edit.file}, {edit.what})"


def _shown(value: Shown) -> str:
    text = " ".join(str(value).split())
    return text if len(text) <= _LONGEST else f"{text[:_LONGEST]}..."


def _first(lines: Iterable[str]) -> Sequence[str]:
    all_lines = list(lines)
    more = len(all_lines) - _NAMED
    return [*all_lines[:_NAMED], f"    and {more:,} more"] if more > 1 else all_lines
