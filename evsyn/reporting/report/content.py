"""All that a report says, gathered once, so that every product prints the same."""

from dataclasses import dataclass

from evsyn.audit.unit_audit import UnitAudit, unit_audit
from evsyn.cells.cell import Question
from evsyn.cells.levels import labelled_strata, level_names
from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.review import Review
from evsyn.pooling.difference import Difference, stratum_difference
from evsyn.pooling.review import Answers, answer_questions, group_label, questions
from evsyn.pooling.tables import PooledTable
from evsyn.reporting.pool_page import CAUTION
from evsyn.terms import Audience
from evsyn.wording.citation import citation_text
from evsyn.wording.difference import difference_sentence
from evsyn.wording.method import method_sentence
from evsyn.wording.pooled import pooled_sentence
from evsyn.wording.status import status_line
from evsyn.wording.wanted import wanted_and_found


@dataclass(frozen=True, slots=True)
class Answered:
    """One pool of an outcome: its question, its words, and the sentence that says it.

    Parameters
    ----------
    question : Question
        What was asked.
    title : str
        The level in words, or ``All studies``.
    pooled : PooledTable
        Evidence table and answer.
    sentence : str
        The answer in a sentence.
    """

    question: Question
    title: str
    pooled: PooledTable
    sentence: str


@dataclass(frozen=True, slots=True)
class StratumReport:
    """The levels of one stratum, and whether they differ.

    Parameters
    ----------
    name, label : str
        The stratum.
    answers : tuple of Answered
        Its levels in the plan's order; the gathering one only where it holds a study.
    difference : Difference
        The test of difference, or why there is none.
    sentence : str
        The same in a sentence.
    """

    name: str
    label: str
    answers: tuple[Answered, ...]
    difference: Difference
    sentence: str


@dataclass(frozen=True, slots=True)
class OutcomeReport:
    """One outcome over all studies and by stratum."""

    name: str
    label: str
    wanted: str
    overall: Answered
    strata: tuple[StratumReport, ...]


@dataclass(frozen=True, slots=True)
class Reference:
    """A study of the review, numbered, with its citation and an address to reach it by."""

    number: int
    study: str
    label: str
    text: str
    address: str


@dataclass(frozen=True, slots=True)
class UnitReport:
    """A unit's own figures, and who may see them."""

    checked: CheckedUnit
    audience: Audience
    audit: UnitAudit

    @property
    def is_full(self) -> bool:
        """Whether exact counts may be shown: inside, or released by a person."""
        return self.audience is Audience.INSIDE or self.checked.unit.full_release is not None


@dataclass(frozen=True, slots=True)
class ReportContent:
    """All that a report says.

    Parameters
    ----------
    review : Review
        The review.
    invented : bool
        Whether anything in it is made up.
    status : str
        The status line.
    outcomes : tuple of OutcomeReport
        Every outcome of the plan, in its order.
    answers : mapping of Question to PooledTable
        Every pool they are made from, levels without a study among them.
    methods : str
        How the numbers were made.
    cautions : str
        What they support and never replace.
    references : tuple of Reference
        Every study, in the order of the review.
    unit : UnitReport or None
        The unit's part, where there is one.
    """

    review: Review
    invented: bool
    status: str
    outcomes: tuple[OutcomeReport, ...]
    answers: Answers
    methods: str
    cautions: str
    references: tuple[Reference, ...]
    unit: UnitReport | None


def report_content(
    review: Review, checked: CheckedUnit | None = None, audience: Audience | None = None
) -> ReportContent:
    """Pool a review once and gather all that its products say.

    Parameters
    ----------
    review : Review
        A review without faults.
    checked : CheckedUnit, optional
        A unit's figures; its own studies are left out of the pools it is set against, not of the
        review's.
    audience : Audience, optional
        Who will see the unit's part; needed where there is one.

    Raises
    ------
    ValueError
        If there is a unit and nobody to see it.
    """
    plan = review.plan
    answers = answer_questions(review, questions(plan))
    outcomes = tuple(_outcome(review, name, answers) for name in plan.outcomes)
    tests = sum(s.difference.test is not None for item in outcomes for s in item.strata)
    unit = None
    if checked is not None:
        if audience is None:
            raise ValueError("say for whom the unit's figures are written")
        unit = UnitReport(checked, audience, unit_audit(review, checked.unit))
    return ReportContent(
        review=review,
        invented=review.invented or (checked is not None and checked.unit.invented),
        status=status_line(review),
        outcomes=outcomes,
        answers=answers,
        methods=method_sentence(plan, tests),
        cautions=CAUTION,
        references=_references(review),
        unit=unit,
    )


def _outcome(review: Review, outcome: str, answers: Answers) -> OutcomeReport:
    plan = review.plan
    overall = answers[Question(outcome)]
    strata = []
    for name, stratum in plan.strata.items():
        levels = level_names(stratum)
        asked = [Question(outcome, name, level) for level in levels]
        shown = [q for q in asked if q.level in _named(review, name) or answers[q].answer.k]
        found = stratum_difference(answers, outcome, name, list(levels), level=plan.pooling.level)
        strata.append(
            StratumReport(
                name=name,
                label=stratum.label,
                answers=tuple(_answered(review, q, answers[q]) for q in shown),
                difference=found,
                sentence=difference_sentence(found, levels),
            )
        )
    return OutcomeReport(
        name=outcome,
        label=plan.outcomes[outcome].label,
        wanted=wanted_and_found(plan, outcome, overall.table.cells),
        overall=_answered(review, Question(outcome), overall),
        strata=tuple(strata),
    )


def _named(review: Review, stratum: str) -> set[str]:
    labelled = labelled_strata(review.plan)
    return set(labelled[stratum].levels) if stratum in labelled else set()


def _answered(review: Review, question: Question, pooled: PooledTable) -> Answered:
    words = review.plan.outcomes[question.outcome]
    group = group_label(review.plan, question)
    said = pooled_sentence(pooled, event=words.event, group=group, refused=words.do_not_pool or "")
    title = f"{group[:1].upper()}{group[1:]}" if group else "All studies"
    return Answered(question, title, pooled, said)


def _references(review: Review) -> tuple[Reference, ...]:
    found = []
    for number, study in enumerate(review.studies, start=1):
        cited = study.citation
        address = cited.address or ""
        if cited.doi:
            address = f"https://doi.org/{cited.doi}"
        elif cited.pmid:
            address = f"https://pubmed.ncbi.nlm.nih.gov/{cited.pmid}/"
        found.append(Reference(number, study.study, study.name, citation_text(cited), address))
    return tuple(found)
