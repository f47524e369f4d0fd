"""What a review holds for the patients, window and denominator that a claim speaks of."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from evsyn.cells.cell import CellTable, Question, question_at
from evsyn.cells.levels import ancestors
from evsyn.cells.table import cell_table
from evsyn.extraction.claims import Claim
from evsyn.extraction.review import Review
from evsyn.extraction.study import Arm, Count, Study
from evsyn.pooling.review import answer_cell_tables
from evsyn.pooling.tables import PooledTable
from evsyn.terms import AS_PRINTED, NOT_STATED


class Lack(StrEnum):
    """At which step nothing was left."""

    OUTCOME = "outcome"
    PATIENTS = "patients"
    WINDOW = "window"
    BASIS = "denominator"


@dataclass(frozen=True, slots=True)
class Held:
    """The counts a claim is weighed by.

    Parameters
    ----------
    pooled : PooledTable
        The counts, and their answer.
    reporting : int
        Studies of the review that are pooled for the outcome, whichever their patients.
    in_scope : int
        Of these patients, whichever the window and the denominator.
    unstated : int
        Of these, counts that do not state the window or the denominator the claim names.
    lack : Lack or None
        At which step nothing was left; ``None`` where something is held.
    """

    pooled: PooledTable
    reporting: int
    in_scope: int
    unstated: int
    lack: Lack | None

    @property
    def table(self) -> CellTable:
        """The counts."""
        return self.pooled.table


def held(review: Review, claim: Claim, level: str | None = None) -> Held:
    """Gather and pool the counts that a claim speaks of.

    The review is first narrowed to the counts of the claim's patients, window and denominator;
    then the plan decides, as always, which of them are pooled.

    Parameters
    ----------
    review : Review
        A review without faults.
    claim : Claim
        A claim about counts.
    level : str, optional
        Another level of the one stratum its scope names.
    """
    question = question_of(review, claim, level)
    everyone = cell_table(review, Question(question.outcome))
    patients = _of_patients(review, claim)
    in_scope = cell_table(patients, question)
    in_window = _narrowed(patients, question.outcome, lambda c: claim.window in (None, c.window))
    narrow = _narrowed(in_window, question.outcome, lambda c: claim.of in (None, c.of))
    table = cell_table(narrow, question)
    (pooled,) = answer_cell_tables(narrow, [table]).values()
    steps = {
        Lack.OUTCOME: everyone.k,
        Lack.PATIENTS: in_scope.k,
        Lack.WINDOW: cell_table(in_window, question).k,
        Lack.BASIS: table.k,
    }
    lack = next((step for step, k in steps.items() if not k), None)
    return Held(pooled, everyone.k, in_scope.k, _unstated(in_scope, claim, lack), lack)


def _unstated(in_scope: CellTable, claim: Claim, lack: Lack | None) -> int:
    """Count the series that do not state the window, or the denominator, that a claim names."""
    is_window = claim.window is not None and lack is not Lack.BASIS
    is_basis = claim.of is not None and lack is not Lack.WINDOW
    return sum(
        (is_window and cell.window == NOT_STATED) or (is_basis and cell.basis == AS_PRINTED)
        for cell in in_scope.cells
    )


def question_of(review: Review, claim: Claim, level: str | None = None) -> Question:
    """Return the question whose pool a claim is weighed by.

    Raises
    ------
    ValueError
        If the claim names no outcome.
    """
    if claim.outcome is None:
        raise ValueError(f"a claim about counts names an outcome; got {claim.claim!r}")
    places = [(name, claim.scope[name]) for name in review.plan.strata if name in claim.scope]
    if level is not None:
        places = [(name, level) for name, _ in places]
    return question_at(claim.outcome, places)


def characteristics_of(review: Review, claim: Claim) -> dict[str, str]:
    """Return the part of a scope that names characteristics and not strata."""
    return {name: word for name, word in claim.scope.items() if name not in review.plan.strata}


def _of_patients(review: Review, claim: Claim) -> Review:
    """Keep the arms whose patients have the characteristics that the claim names."""
    wanted = characteristics_of(review, claim)
    if not wanted:
        return review
    studies = []
    for study in review.studies:
        arms = [arm for arm in study.arms if _has(study, arm, wanted)]
        if arms:
            studies.append(study.model_copy(update={"arms": arms}))
    return replace(review, studies=tuple(studies))


def _has(study: Study, arm: Arm, wanted: Mapping[str, str]) -> bool:
    """Tell whether all of an arm's patients have these characteristics.

    What is said of a study, or of an arm around this one, is said of its patients too.
    """
    for name, word in wanted.items():
        around = [arm, *ancestors(study, arm)]
        told = [one.characteristics[name] for one in around if name in one.characteristics]
        told += [study.characteristics[name]] if name in study.characteristics else []
        if not told or told[0].casefold() != word.casefold():
            return False
    return True


def _narrowed(review: Review, outcome: str, wanted: Callable[[Count], bool]) -> Review:
    """Keep, of one outcome, the counts that are wanted."""
    studies = []
    for study in review.studies:
        arms = [
            arm
            if outcome not in arm.outcomes or wanted(arm.outcomes[outcome])
            else arm.model_copy(
                update={"outcomes": {k: c for k, c in arm.outcomes.items() if k != outcome}}
            )
            for arm in study.arms
        ]
        studies.append(study.model_copy(update={"arms": arms}))
    return replace(review, studies=tuple(studies))
