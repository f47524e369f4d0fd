"""What is said in a review's workbook, and of what was read from one."""

from evsyn.extraction.plan import Plan
from evsyn.extraction.sheet.make import SheetWords
from evsyn.terms import AS_PRINTED, MIXED, NOT_STATED, CountedBy, Covers, TextRead
from evsyn.wording.status import INVENTED

READ_ME = (
    "Each row of the sheet Counts is one count of one outcome in one group of patients. Fill in "
    "three sheets, in this order: Studies, Arms, Counts.",
    "Studies: one row a paper. The study's short name, as 2019-alder, names its file. "
    "Use letters, digits, - and _, and no spaces.",
    "Arms: one row a group of patients that the paper counts apart. A paper with one group has one "
    "row, with 'whole_study' under 'covers'.",
    "Counts: one row a count: how many had the outcome, out of how many, of whom, and by when.",
    "Blue headings are needed in every row that is used. All else may stay empty: write only what "
    "you have read in the paper, and never a guess.",
    "Cells with a list take only the words of the list. The words and their meanings are on the "
    "sheet Lists, and on the heading itself: rest the pointer on it.",
    "of: whom the total counts. The same four events may be 4 of 52 in whom it was attempted "
    "or 4 of 43 in whom it was placed. If the paper does not say, pick as_printed.",
    "window: how long the outcome was looked for. If the paper does not say, leave it empty.",
    "printed: the percentage just as the paper prints it, 7.70% with its last nought.",
    "assumed: yes, where count and total stand in different sentences, and so may not be of the "
    "same patients.",
    "Rows may be sorted, filtered and left out. An emptied cell or a deleted row takes nothing "
    "away from a file that is there already: what stands in a file is changed or added to, never "
    "deleted.",
    "When you are done: save as .xlsx, and read it with 'evsyn sheet read FOLDER THIS-FILE.xlsx'. "
    "Faults are told by sheet and cell, and nothing is written while one stands.",
    "Do not rename the sheets or the headings. The last line says for which review and words this "
    "workbook was made.",
)
ABOUT = {
    "study": "short name of the paper, as 2019-alder; it names the file",
    "extracted on": "the day it was read, as 2026-03-20 or 20/03/2026",
    "recruited from": "first year or month, as 2008, 2008-12 or Dec 2008",
    "recruited to": "last year or month",
    "part of": "the arm of the same study that this one lies inside",
    "printed": "the percentage just as printed, as 7.70%",
    "centres": "number of centres, or their names with a ; between them",
    "covers": "whole_study, or part for a group within it; empty means part",
    "window": "when the outcome was looked for; empty where the paper does not say",
    "of": "whom the total counts; as_printed where the paper does not say",
    "outcome": "what was counted, a word of the list",
    "counted by": "patient, procedure or device; empty means patient",
    "assumed": "yes where the text does not tie events to this total",
    "second hand": "yes where the count was read outside the paper itself",
}
MEANINGS = {
    AS_PRINTED: "the paper does not say whom the total counts",
    NOT_STATED: "not stated in the paper",
    MIXED: "several kinds told together",
    str(CountedBy.PATIENT): "one a patient",
    str(CountedBy.PROCEDURE): "one a procedure; a patient may have had two",
    str(CountedBy.DEVICE): "one a device",
    str(Covers.WHOLE_STUDY): "all patients of the study",
    str(Covers.PART): "a part of them",
    str(TextRead.FULL_TEXT): "the whole paper was read",
    str(TextRead.ABSTRACT): "only the abstract was read",
    str(TextRead.SECOND_HAND): "read as told by another paper",
}
PICK = "Pick a word of the list. What the words mean stands on the sheet Lists."
WHOLE = "A whole number, without a comma, a point or a percent sign."


def sheet_words(plan: Plan) -> SheetWords:
    """Return the sentences of a review's workbook."""
    mark = INVENTED if plan.invented else ""
    title = f"{mark}: {plan.title}" if mark else plan.title
    return SheetWords((title, *READ_ME), ABOUT, MEANINGS, PICK, WHOLE, mark)
