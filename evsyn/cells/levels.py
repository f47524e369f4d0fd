"""Which level of a stratum an arm or a study belongs to."""

from collections.abc import Iterable, Iterator, Sequence

from evsyn.extraction.plan import EraStratum, LabelledStratum, Plan, Stratum
from evsyn.extraction.review import Review
from evsyn.extraction.study import Arm, Study
from evsyn.terms import MIXED, NOT_STATED, UNPLACED, Covers


def level_names(stratum: Stratum, cut_year: int | None = None) -> dict[str, str]:
    """Return the levels of a stratum with their words, the gathering level last.

    Parameters
    ----------
    stratum : LabelledStratum or EraStratum
        A stratum of the plan.
    cut_year : int, optional
        For an era, a cut other than the plan's.
    """
    if isinstance(stratum, LabelledStratum):
        return {**stratum.levels, UNPLACED: "mixed or not stated"}
    cut = stratum.cut_year if cut_year is None else cut_year
    return {
        f"before_{cut}": f"mostly before {cut}",
        f"from_{cut}": f"mostly from {cut}",
        UNPLACED: "dates not stated",
    }


def precedence(levels: Iterable[str]) -> tuple[int, tuple[bool, ...]]:
    """Return how firmly levels place an arm; of two, the larger goes first.

    More named levels go before fewer, and of as many a named level of an earlier stratum before
    one of a later. Patients told in two ways are taken at the levels that go first.

    Parameters
    ----------
    levels : iterable of str
        One level of each stratum crossed.
    """
    named = tuple(level != UNPLACED for level in levels)
    return sum(named), named


def arm_level(arm: Arm, stratum: str) -> str:
    """Return the arm's level; mixed and unlabelled arms share one."""
    level = arm.strata.get(stratum, NOT_STATED)
    return UNPLACED if level in (MIXED, NOT_STATED) else level


def era_level(study: Study, stratum: EraStratum, cut_year: int | None = None) -> str:
    """Return the era of a study by the middle of its recruitment.

    A study that does not give its dates, but was published before the cut, was recruited
    before it.

    Parameters
    ----------
    study : Study
        The study.
    stratum : EraStratum
        The era stratum of the plan.
    cut_year : int, optional
        A cut other than the plan's.
    """
    cut = stratum.cut_year if cut_year is None else cut_year
    middle = middle_of_recruitment(study)
    if middle is not None:
        return f"before_{cut}" if middle < cut else f"from_{cut}"
    year = study.citation.year
    if year is not None and year < cut:
        return f"before_{cut}"
    return UNPLACED


def middle_of_recruitment(study: Study) -> float | None:
    """Return the middle of recruitment as a year with its fraction, or ``None`` without dates."""
    dates = study.setting.recruited
    if dates is None:
        return None
    return (_as_years(dates.from_, end=False) + _as_years(dates.to, end=True)) / 2


def _as_years(written: str, *, end: bool) -> float:
    year, month = int(written[:4]), int(written[5:7]) if len(written) > 4 else None
    if month is None:
        return year + (1.0 if end else 0.0)
    return year + (month if end else month - 1) / 12


def ancestors(study: Study, arm: Arm) -> Iterator[Arm]:
    """Yield the arms that ``arm`` lies inside, the whole-study arm last."""
    current = study.arm_named(arm.part_of) if arm.part_of else None
    met = []
    while current is not None and current.arm not in met:
        met.append(current.arm)
        yield current
        current = study.arm_named(current.part_of) if current.part_of else None
    for other in study.arms:
        whole = other.covers is Covers.WHOLE_STUDY and other.treatment == arm.treatment
        if whole and other is not arm and other.arm not in met:
            yield other


def studies_stating(review: Review, stratum: str) -> tuple[Study, ...]:
    """Return the studies with at least one arm at a named level of a labelled stratum."""
    return tuple(
        study
        for study in review.studies
        if any(arm_level(arm, stratum) != UNPLACED for arm in study.arms)
    )


def with_stand_ins(plan: Plan, strata: Sequence[str]) -> tuple[str, ...]:
    """Return the strata asked for, each followed by the eras that stand in for it."""
    ordered: dict[str, None] = {}
    for name in strata:
        ordered.setdefault(name)
        for era, declared in era_strata(plan).items():
            if declared.stands_in_for == name:
                ordered.setdefault(era)
    return tuple(ordered)


def labelled_strata(plan: Plan) -> dict[str, LabelledStratum]:
    """Return the strata written in the extracts, by name."""
    return {k: s for k, s in plan.strata.items() if isinstance(s, LabelledStratum)}


def era_strata(plan: Plan) -> dict[str, EraStratum]:
    """Return the strata read from dates, by name."""
    return {k: s for k, s in plan.strata.items() if isinstance(s, EraStratum)}
