"""The short words a forest plot prints of itself."""

from dataclasses import dataclass

from evsyn.pooling.answer import Row

#: Methods in few words, beside the mark; the sentence under the band names them in full.
METHODS = {
    Row.HEADLINE: "DerSimonian-Laird",
    Row.RESTRICTED_ML: "restricted ML, Hartung-Knapp",
    Row.EXACT: "exact model",
    Row.BETA_BINOMIAL: "beta-binomial model",
}


#: Beside two studies added up.
IF_ONE_RATE = "if they share one true rate"


@dataclass(frozen=True, slots=True)
class ForestWords:
    """Headings, labels and legend; each can be replaced, as for another language."""

    study: str = "Study"
    count: str = "events"
    rate: str = "rate (95% interval)"
    rate_alone: str = "rate"
    axis: str = "per 100 patients"
    fewer: str = "← fewer is better"
    more: str = "more is better →"
    axis_starts: str = "axis starts at {start}, not at 0"
    headline: str = "headline"
    read: str = "read this"
    headline_and_read: str = "headline, read this"
    both: str = "added up"
    unit: str = "this unit"
    one_study: str = "one study; a larger spot has more weight"
    one_study_unweighted: str = "one study"
    prediction: str = "range for an ordinary new setting"
    wider: str = "the same, if some spread was missed"
    clipped: str = "interval goes on beyond the axis"
    continued: str = "{title} (continued)"
    summaries_only: str = (
        "Summaries only: the {rows} study rows do not fit one slide at a size that can be read."
    )
    page: str = "Page {page} of {pages}."
    invented: str = "INVENTED DATA: no real patients or units"
    watermark: str = "INVENTED"
