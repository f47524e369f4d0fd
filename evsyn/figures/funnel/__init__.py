"""The performance funnel: content, layout, and nothing drawn."""

from evsyn.figures.funnel.build import (
    cases_end,
    flag_spot,
    range_band,
    sizes_to,
    target_curves,
    target_flags,
)
from evsyn.figures.funnel.content import (
    Curve,
    FunnelContent,
    FunnelPoint,
    RangeBand,
    Spot,
    Stroke,
)
from evsyn.figures.funnel.layout import funnel_layout
from evsyn.wording.funnel import FunnelWords

__all__ = [
    "Curve",
    "FunnelContent",
    "FunnelPoint",
    "FunnelWords",
    "RangeBand",
    "Spot",
    "Stroke",
    "cases_end",
    "flag_spot",
    "funnel_layout",
    "range_band",
    "sizes_to",
    "target_curves",
    "target_flags",
]
