"""Which studies of the review may be the unit's own, in words."""

from collections.abc import Sequence

from evsyn.audit.own_series import Likeness, OwnAlarm

NOT_CHECKED = (
    "Whether the benchmark holds the unit's own series could not be checked: the file names "
    "neither 'centres' nor 'team' under which the unit has published."
)

_SHARED = {
    Likeness.CENTRE: "names the unit's centre {shared}",
    Likeness.AUTHOR: "has the unit's author {shared}",
    Likeness.OVERLAP: "shares patients with the unit's own {shared}",
}


def alarm_sentences(
    alarms: Sequence[OwnAlarm], *, can_check: bool, has_cure: bool = True
) -> tuple[str, ...]:
    """Name each study that may hold the unit's own patients and stays in the benchmark.

    Parameters
    ----------
    alarms : sequence of OwnAlarm
        The studies.
    can_check : bool
        Whether the unit says under which names it has published.
    has_cure : bool
        Whether it is said what to write into the unit's file.
    """
    cure = " If these are the unit's own patients, list it under 'own_studies'." if has_cure else ""
    said = [
        f"Overlap alarm: {alarm.label} ({alarm.study}) {_shared(alarm)} and is still in the "
        f"benchmark.{cure}"
        for alarm in alarms
    ]
    return tuple(said) if said or can_check else (NOT_CHECKED,)


def without_own(own: Sequence[str]) -> str:
    """Say under a figure's title which series are not in it; empty where none is left out.

    Parameters
    ----------
    own : sequence of str
        Names of the unit's own studies that report the outcome.
    """
    return f"Without our own series ({', '.join(own)})." if own else ""


def without_own_sentence(own: Sequence[str], k: int) -> str:
    """Say beside a figure why it pools less than the text; empty where it does not.

    Parameters
    ----------
    own : sequence of str
        As in :func:`without_own`.
    k : int
        Studies that the text pools.
    """
    if not own:
        return ""
    return (
        f"This figure pools the studies without our own series ({', '.join(own)}), since our "
        f"counts stand in it and must not be set against themselves. The tables and sentences "
        f"pool all {k} studies, so that their numbers differ a little."
    )


def _shared(alarm: OwnAlarm) -> str:
    said = _SHARED[alarm.likeness].format(shared=alarm.shared)
    if alarm.likeness is Likeness.OVERLAP or alarm.dates_meet is None:
        return said
    return f"{said}, in {'overlapping' if alarm.dates_meet else 'other'} years,"
