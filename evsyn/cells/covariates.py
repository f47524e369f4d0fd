"""What a study's result may be regressed on: a number or a level, read for each row."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from evsyn.cells.cell import Cell
from evsyn.cells.levels import arm_level, era_level, level_names, middle_of_recruitment
from evsyn.extraction.plan import Characteristic, EraStratum, LabelledStratum, Plan
from evsyn.extraction.review import Review
from evsyn.extraction.study import Arm, Study
from evsyn.terms import MIXED, NOT_STATED, UNPLACED


class Kind(StrEnum):
    """Where a covariate is read."""

    YEAR = "year"
    RECRUITED = "recruited"
    SIZE = "size"
    STRATUM = "stratum"
    ERA = "era"
    OF_STUDY = "characteristic of a study"
    OF_ARM = "characteristic of an arm"


@dataclass(frozen=True, slots=True)
class Covariate:
    """One covariate of a regression.

    Parameters
    ----------
    word : str
        Its name on the command line and in the plan.
    kind : Kind
        Where it is read.
    label : str
        Its words; empty for those no plan declares.
    levels : mapping of str to str
        Names and words of its levels, in the plan's order; empty for a number.
    """

    word: str
    kind: Kind
    label: str = ""
    levels: Mapping[str, str] = field(default_factory=dict)

    @property
    def is_number(self) -> bool:
        """Whether it is a number and not a level."""
        return not self.levels


#: Covariates every review has; a word of the plan goes before them.
BUILT_IN = {str(kind): kind for kind in (Kind.YEAR, Kind.RECRUITED, Kind.SIZE)}


def covariates_of(plan: Plan) -> dict[str, Covariate]:
    """Return everything a plan's outcomes may be regressed on, by its word.

    Characteristics that are text are none: text is neither a number nor a level.
    """
    found = {word: Covariate(word, kind) for word, kind in BUILT_IN.items()}
    places = (
        (Kind.OF_ARM, plan.characteristics.arm),
        (Kind.OF_STUDY, plan.characteristics.study),
    )
    for kind, declared in places:
        found |= {
            name: Covariate(name, kind, one.label, one.levels)
            for name, one in declared.items()
            if _is_usable(one)
        }
    for name, stratum in plan.strata.items():
        kind = Kind.ERA if isinstance(stratum, EraStratum) else Kind.STRATUM
        levels = {k: words for k, words in level_names(stratum).items() if k != UNPLACED}
        found[name] = Covariate(name, kind, stratum.label, levels)
    return found


def _is_usable(declared: Characteristic) -> bool:
    return declared.kind == "number" or bool(declared.kind == "choice" and declared.levels)


def value_of(review: Review, covariate: Covariate, row: Cell) -> float | str | None:
    """Return a row's value of a covariate, or ``None`` where it has no one value.

    Parameters
    ----------
    review : Review
        The review.
    covariate : Covariate
        The covariate.
    row : Cell
        The row; of an arm's fact the arms it is made of are asked, which must agree.

    Returns
    -------
    float, str or None
        A number, or the name of a level.
    """
    study = review.study(row.study)
    assert study is not None
    match covariate.kind:
        case Kind.YEAR:
            return None if row.year is None else float(row.year)
        case Kind.RECRUITED:
            return middle_of_recruitment(study)
        case Kind.SIZE:
            return float(row.total)
    return _declared_value(review.plan, covariate, study, row)


def _declared_value(
    plan: Plan, covariate: Covariate, study: Study, row: Cell
) -> float | str | None:
    declared = plan.strata.get(covariate.word)
    if isinstance(declared, EraStratum):
        written = era_level(study, declared)
    elif isinstance(declared, LabelledStratum):
        written = _agreed({arm_level(arm, covariate.word) for arm in _arms(study, row)})
    elif covariate.kind is Kind.OF_STUDY:
        written = study.characteristics.get(covariate.word, NOT_STATED)
    else:
        told = {arm.characteristics.get(covariate.word, NOT_STATED) for arm in _arms(study, row)}
        written = _agreed(told)
    if covariate.is_number:
        return _as_number(written)
    return written if written in covariate.levels else None


def _arms(study: Study, row: Cell) -> list[Arm]:
    names = {source.key_path.rpartition(".")[0] for source in row.sources}
    return [arm for arm in study.arms if arm.arm in names]


def _agreed(told: set[str]) -> str:
    return told.pop() if len(told) == 1 else MIXED


def _as_number(written: str) -> float | None:
    try:
        value = float(written)
    except ValueError:
        return None
    return value if math.isfinite(value) else None
