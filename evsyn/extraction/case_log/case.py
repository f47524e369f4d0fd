"""One case of a log."""

from collections.abc import Mapping
from dataclasses import dataclass

from evsyn.terms import Source


@dataclass(frozen=True, slots=True)
class Case:
    """One case, in the plan's words.

    Parameters
    ----------
    source : Source
        The log and the row.
    month : str
        Month of the case, as ``2024-03``.
    strata : mapping
        Level of each stratum the log has.
    reached : str
        Furthest stage of the flow.
    steps : mapping
        ``yes``, ``no`` or ``unknown`` for each step the log has.
    complications : mapping
        ``no``, ``early``, ``late``, ``both``, ``ever`` (had at a time not told) or ``unknown``, for
        each complication the log has.
    outcomes : mapping
        ``yes``, ``no`` or ``unknown`` for each outcome over whose denominator the case counts.
    devices : int or None
        Devices placed; ``None`` where that is not known.
    patient_end : str or None
        Where the patient ended, if known.
    device_ends : tuple of str or None
        Where each device ended, if known of all of them.
    operator : str or None
        Role of the operator, if known.
    facts : mapping
        Other facts the log has; those not known are left out.
    ref : str
        The log's own reference for the row; empty where it has none.
    """

    source: Source
    month: str
    strata: Mapping[str, str]
    reached: str
    steps: Mapping[str, str]
    complications: Mapping[str, str]
    outcomes: Mapping[str, str]
    devices: int | None = None
    patient_end: str | None = None
    device_ends: tuple[str, ...] | None = None
    operator: str | None = None
    facts: Mapping[str, str | float] | None = None
    ref: str = ""
