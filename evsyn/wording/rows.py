"""Words for the rows, marks and methods of a pooled answer."""

from evsyn.cells.cell import Mark
from evsyn.pooling.answer import Row
from evsyn.pooling.result import Pooled

ROW_NAMES = {
    Row.HEADLINE: "DerSimonian-Laird, ordinary interval",
    Row.RESTRICTED_ML: "Restricted ML, Hartung-Knapp (floored)",
    Row.EXACT: "Exact binomial-normal model",
    Row.BETA_BINOMIAL: "Beta-binomial model (a mean)",
}

#: Methods of study intervals in one word, for column headings.
STUDY_INTERVAL_NAMES = {
    "clopper_pearson": "exact",
    "wilson": "Wilson",
    "mid_p": "mid-P",
    "jeffreys": "Jeffreys",
}

ROW_IN_SENTENCE = {
    Row.HEADLINE: "DerSimonian-Laird",
    Row.RESTRICTED_ML: "restricted maximum likelihood with Hartung-Knapp",
    Row.EXACT: "the exact binomial-normal model",
    Row.BETA_BINOMIAL: "the beta-binomial model",
}

#: One letter a mark, for table cells; the words stand in the foot.
MARK_LETTERS = {
    Mark.ASSUMED: "a",
    Mark.DERIVED: "d",
    Mark.OTHER_BASIS: "b",
    Mark.BASIS_NOT_STATED: "n",
    Mark.OTHER_WINDOW: "w",
    Mark.WINDOW_NOT_STATED: "t",
    Mark.PER_PROCEDURE: "p",
    Mark.SUMMED: "s",
    Mark.PARTIAL: "x",
    Mark.SECOND_HAND: "h",
}

MARK_WORDS = {
    Mark.ASSUMED: "total assumed",
    Mark.DERIVED: "count derived",
    Mark.OTHER_BASIS: "denominator accepted, not the target",
    Mark.BASIS_NOT_STATED: "denominator basis not stated",
    Mark.OTHER_WINDOW: "window accepted, not the target",
    Mark.WINDOW_NOT_STATED: "window not stated",
    Mark.PER_PROCEDURE: "counted per procedure",
    Mark.SUMMED: "arms summed",
    Mark.PARTIAL: "not all arms report it",
    Mark.SECOND_HAND: "read second hand",
}


_ESTIMATORS = {"dersimonian_laird": "DerSimonian-Laird", "restricted_ml": "Restricted ML"}


def headline_name(between: str) -> str:
    """Name the headline by the estimator the plan chose for it."""
    return _ESTIMATORS[between]


def headline_gives(row: Pooled) -> str:
    """Begin the part of a sentence that tells the headline.

    Parameters
    ----------
    row : Pooled
        The headline row. Only DerSimonian and Laird's is what most papers use.
    """
    if row.between == "dersimonian_laird":
        return "DerSimonian-Laird, which most papers use, gives"
    return "restricted maximum likelihood with an ordinary interval, the plan's headline, gives"


def row_name(name: Row, row: Pooled) -> str:
    """Name a row of a table by the method that made it."""
    if name is Row.HEADLINE:
        return f"{headline_name(row.between)}, ordinary interval"
    return ROW_NAMES[name]


def mark_letters(marks: frozenset[Mark]) -> str:
    """Return the letters of a set of marks, in alphabetical order."""
    return "".join(sorted(MARK_LETTERS[mark] for mark in marks))


def mark_key(marks: frozenset[Mark]) -> str:
    """Explain the letters of a set of marks, as ``a total assumed; d count derived``."""
    used = sorted((MARK_LETTERS[mark], MARK_WORDS[mark]) for mark in marks)
    return "; ".join(f"{letter} {words}" for letter, words in used)
