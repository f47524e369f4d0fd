"""Methods for the interval of the pooled estimate: one file and one line each."""

from evsyn.pooling.summary_interval.hartung_knapp import hartung_knapp
from evsyn.pooling.summary_interval.hartung_knapp_floor import hartung_knapp_floor
from evsyn.pooling.summary_interval.ordinary import ordinary
from evsyn.pooling.summary_interval.ordinary_t import ordinary_t
from evsyn.pooling.summary_interval.result import HalfWidth, IntervalMethod

#: Every method by its public name.
INTERVALS: dict[str, IntervalMethod] = {
    "ordinary": ordinary,
    "hartung_knapp": hartung_knapp,
    "hartung_knapp_floor": hartung_knapp_floor,
    "ordinary_t": ordinary_t,
}

__all__ = ["INTERVALS", "HalfWidth", "IntervalMethod"]
