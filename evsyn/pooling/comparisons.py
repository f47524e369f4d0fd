"""Pool two arms of counts, or of measurements: plain arrays in, records out."""

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from evsyn.effects.arguments import known_word
from evsyn.effects.means import MEAN_EFFECTS, read_two_means
from evsyn.effects.scales import IDENTITY, LOG
from evsyn.effects.two_arms import RATIOS, TWO_ARM_EFFECTS, TwoArms, read_two_arms
from evsyn.pooling.between_study import NO_SPREAD
from evsyn.pooling.functions import TWO_STEP_MODELS, effect_records
from evsyn.pooling.grid import AnalysisGrid, overall
from evsyn.pooling.hypergeometric_normal.pool import pool_hypergeometric_normal
from evsyn.pooling.mantel_haenszel import METHODS, MantelHaenszel, mantel_haenszel
from evsyn.pooling.mantel_haenszel_record import mantel_haenszel_record
from evsyn.pooling.options import BETWEEN, INTERVAL, checked_between
from evsyn.pooling.records import places
from evsyn.pooling.result import Pooled, Status

MODELS = (*TWO_STEP_MODELS, "mantel_haenszel", "exact")

#: Where half is added: to the study effects alone, or inside Mantel and Haenszel's sums as well.
ZERO_CELLS = ("half_in_effects", "half_in_sums")

#: Where Cochran's Q, and DerSimonian and Laird's estimator with it, is taken.
Q_ABOUT = ("inverse_variance", "mantel_haenszel")
