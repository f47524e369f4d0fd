"""The short words a forest plot prints of itself."""

from dataclasses import dataclass

from evsyn.pooling.answer import Row
from evsyn.wording.page import PageWords

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
class ForestWords(PageWords):
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
    read_key: str = "read this: the row to quote"
    headline_and_read: str = "headline, read this"
    both: str = "added up"
    unit: str = "this unit"
    invented_unit_tag: str = "invented unit"
    one_study: str = "one study; a larger spot has more weight"
    one_study_unweighted: str = "one study"
    prediction: str = "95% range for an ordinary new setting"
    wider: str = "the same, if some spread was missed"
    clipped: str = "interval goes on beyond the axis"
    summaries_only: str = "Summaries only: {rows} study rows do not fit a slide."
    nothing: str = "No study of this review reports it in a way that the plan accepts."


def words_at(level: float) -> ForestWords:
    """Return the words with the level of the intervals in them."""
    share = f"{100 * level:g}%"
    return ForestWords(
        rate=f"rate ({share} interval)",
        prediction=f"{share} range for an ordinary new setting",
    )
