"""Whether an interval can be trusted: reviews simulated with the user's own layout."""

from evsyn.calibration.layout import Layout
from evsyn.calibration.result import Calibration
from evsyn.calibration.run import calibrate

__all__ = ["Calibration", "Layout", "calibrate"]
