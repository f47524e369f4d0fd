"""The short words a forest plot prints of itself."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ForestWords:
    """Headings, labels and legend; each can be replaced, as for another language."""

    study: str = "Study"
    count: str = "events"
    rate: str = "rate (95% interval)"
    axis: str = "per 100 patients"
    fewer: str = "← fewer is better"
    more: str = "more is better →"
    axis_starts: str = "axis starts at {start}, not at 0"
    headline: str = "headline"
    read: str = "read this"
    headline_and_read: str = "headline, read this"
    unit: str = "this unit"
    one_study: str = "one study; a larger spot has more weight"
    one_study_unweighted: str = "one study"
    prediction: str = "range for an ordinary new setting"
    wider: str = "the same, if spread was missed"
    clipped: str = "goes on beyond the axis"
    continued: str = "{title} (continued)"
    summaries_only: str = (
        "Summaries only: the {rows} study rows do not fit one slide at a size that can be read."
    )
    page: str = "Page {page} of {pages}."
    invented: str = "INVENTED DATA: no real patients, studies or units"
    watermark: str = "INVENTED"
