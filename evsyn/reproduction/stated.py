"""The method a paper states, in its own words, held against a variant."""

import re
from dataclasses import dataclass

from evsyn.reproduction.variants import Variant

#: Kinds of word, and the words of each: what a variant would have to be.
WORDS: dict[str, dict[str, str]] = {
    "model": {
        "common": r"fixed|common[- ]effect|equal[- ]effects?",
        "random": r"random|\bd\s*\+\s*l\b|dersimonian|der simonian",
    },
    "weighting": {
        "mantel_haenszel": r"\bm\s*-?\s*h\b|mantel",
        "peto": r"\bpeto\b",
        "inverse_variance": r"\bi\s*-?\s*v\b|inverse[- ]variance",
        "exact": r"glmm|binomial[- ]normal|generali[sz]ed linear|hypergeometric",
    },
    "between": {
        "dersimonian_laird": r"der\s?simonian|\bd\s*\+\s*l\b|\bdl\b",
        "restricted_ml": r"\breml\b|restricted",
        "paule_mandel": r"paule",
        "sidik_jonkman": r"sidik[- ]jonkman (?:estimator|tau)",
        "hedges_olkin": r"hedges[- ]olkin",
    },
    "interval": {"hartung_knapp": r"hartung|knapp|\bhksj\b"},
    "scale": {
        "freeman_tukey": r"freeman|double[- ]arcsine",
        "logit": r"\blogit",
        "raw": r"untransformed|\braw\b",
    },
}


@dataclass(frozen=True, slots=True)
class Stated:
    """What was understood of a stated method: one word a kind, where it names exactly one."""

    text: str
    words: tuple[tuple[str, str], ...]

    def fits(self, variant: Variant) -> bool:
        """Whether nothing that is stated speaks against the variant."""
        return not self.against(variant)

    def against(self, variant: Variant) -> tuple[tuple[str, str], ...]:
        """Return the stated words that the variant is not."""
        return tuple(
            (kind, word) for kind, word in self.words if word not in _traits(variant)[kind]
        )


def stated_of(text: str | None) -> Stated | None:
    """Read a stated method; a kind of which it names two things is left open.

    Examples
    --------
    >>> stated_of("M-H, random").words
    (('model', 'random'), ('weighting', 'mantel_haenszel'))
    """
    if text is None:
        return None
    found = []
    for kind, words in WORDS.items():
        named = [word for word, sign in words.items() if re.search(sign, text, re.IGNORECASE)]
        if len(named) == 1:
            found.append((kind, named[0]))
    return Stated(text, tuple(found))


def _traits(variant: Variant) -> dict[str, set[str]]:
    common = variant.model in ("common", "mantel_haenszel", "peto")
    exact = variant.model == "exact"
    weighting = {"exact"} if exact else {"inverse_variance"}
    if variant.model == "mantel_haenszel":
        weighting = {"mantel_haenszel"}
    elif variant.model.startswith("peto"):
        weighting = {"peto"}
    elif variant.q_about:
        weighting |= {"mantel_haenszel"}
    scale = "freeman_tukey" if variant.scale.startswith("freeman_tukey") else variant.scale
    return {
        "model": {"common" if common else "random"},
        "weighting": weighting,
        "between": {variant.between},
        "interval": {"hartung_knapp"} if variant.interval.startswith("hartung") else {""},
        # Effects that are given bring no scale of proportions with them.
        "scale": {scale} if scale else set(WORDS["scale"]),
    }
