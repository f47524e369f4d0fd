"""Studies of the review that may be the unit's own, or share its patients."""

from dataclasses import dataclass
from enum import StrEnum

from evsyn.extraction.review import Review
from evsyn.extraction.study import Study
from evsyn.extraction.unit import Unit


class Likeness(StrEnum):
    """Why a study may hold the unit's own patients."""

    CENTRE = "centre"
    AUTHOR = "author"
    OVERLAP = "overlap"


@dataclass(frozen=True, slots=True)
class OwnAlarm:
    """A study that stays in the benchmark and may hold the unit's own patients.

    Parameters
    ----------
    study, label : str
        Its name and its short label.
    likeness : Likeness
        What it shares with the unit.
    shared : str
        The centre, the surname, or the own study it overlaps with.
    dates_meet : bool or None
        Whether its years of recruitment meet the unit's; ``None`` where it gives none.
    """

    study: str
    label: str
    likeness: Likeness
    shared: str
    dates_meet: bool | None


def own_alarms(unit: Unit, review: Review) -> tuple[OwnAlarm, ...]:
    """Return the studies that look like the unit's own and are not named as such.

    A study may share a centre, an author or declared patients with the unit. An own series of
    other years is still the unit's own, so dates are told and do not silence the alarm.

    Parameters
    ----------
    unit : Unit
        The unit, with the centres and surnames it has published under.
    review : Review
        The review it is set against.
    """
    own = set(unit.own_studies)
    found = []
    for study in review.studies:
        if study.study in own:
            continue
        likeness, shared = _likeness(study, unit, review)
        if likeness is not None:
            meets = _dates_meet(study, unit)
            found.append(OwnAlarm(study.study, study.name, likeness, shared, meets))
    return tuple(found)


def names_itself(unit: Unit) -> bool:
    """Whether the unit says under which centres or surnames it has published."""
    return bool(unit.centres or unit.team)


def _likeness(study: Study, unit: Unit, review: Review) -> tuple[Likeness | None, str]:
    for name in unit.own_studies:
        own = review.study(name)
        declared = {overlap.study for overlap in study.overlaps}
        if own is not None:
            declared |= {own.study} if study.study in {o.study for o in own.overlaps} else set()
        if name in declared:
            return Likeness.OVERLAP, name
    centres = study.setting.centres
    theirs = {_plain(name) for name in centres} if isinstance(centres, list) else set()
    for name in unit.centres:
        if _plain(name) in theirs:
            return Likeness.CENTRE, name
    surnames = _surnames(study)
    for name in unit.team:
        if _plain(name) in surnames:
            return Likeness.AUTHOR, name
    return None, ""


def _surnames(study: Study) -> set[str]:
    """Return the surnames of a study's authors: each name without its trailing initials."""
    found = set()
    cited = [study.citation, *(report.citation for report in study.reports)]
    for names in (one.authors for one in cited if one.authors is not None):
        for name in names.replace(";", ",").split(","):
            words = name.removesuffix(".").removesuffix("et al").split()
            while len(words) > 1 and words[-1].replace(".", "").isupper() and len(words[-1]) <= 4:
                words.pop()
            found.add(_plain(" ".join(words)))
    return found


def _dates_meet(study: Study, unit: Unit) -> bool | None:
    dates = study.setting.recruited
    if dates is None:
        return None
    return dates.from_[:4] <= unit.period.to[:4] and unit.period.from_[:4] <= dates.to[:4]


def _plain(name: str) -> str:
    return " ".join(name.casefold().split())
