"""Variants of method in words."""

from collections.abc import Sequence

from evsyn.reproduction.stated import Stated
from evsyn.reproduction.variants import Variant

_BETWEEN = {
    "dersimonian_laird": "DerSimonian-Laird",
    "restricted_ml": "restricted maximum likelihood",
    "paule_mandel": "Paule-Mandel",
    "ml": "maximum likelihood",
    "hedges_olkin": "Hedges-Olkin",
    "sidik_jonkman": "Sidik-Jonkman",
}
_INTERVALS = {
    "ordinary": "ordinary interval (normal distribution)",
    "ordinary_t": "ordinary standard error with t on k - 1",
    "hartung_knapp": "Hartung-Knapp interval",
    "hartung_knapp_floor": "Hartung-Knapp interval with its floor",
    "t_k_minus_1": "t on k - 1",
}
_SCALES = {
    "logit": "on log-odds",
    "arcsine": "on arcsines",
    "freeman_tukey": "on double arcsines (sum of angles, back at the harmonic mean)",
    "freeman_tukey_mean": "on double arcsines (mean of angles, back at the harmonic mean)",
    "raw": "on untransformed proportions",
    "freeman_tukey_n_plus_1": "on double arcsines (variance 1/(n + 1))",
    "freeman_tukey_simple_back": "on double arcsines (back without a size)",
    "freeman_tukey_n_plus_1_simple_back": (
        "on double arcsines (variance 1/(n + 1), back without a size)"
    ),
}
_HALVES = {
    "half_in_effects": "half added where a study's own ratio needs it",
    "half_in_sums": "half added to studies with an empty cell, inside the sums too",
    "half_in_all": "half added to every study",
}
_MODELS = {
    "common": "one common effect, inverse variance",
    "mantel_haenszel": "Mantel-Haenszel, one common effect",
    "peto": "Peto's one-step odds ratio, one common effect",
    "peto_random": "random effects on Peto's odds ratios",
    "random": "random effects, inverse variance",
    "exact": "exact model of the counts, random effects",
}
_STATED = {
    "common": "one common effect",
    "random": "random effects",
    "mantel_haenszel": "Mantel-Haenszel",
    "peto": "Peto",
    "inverse_variance": "inverse variance",
    "exact": "an exact model",
    "hartung_knapp": "Hartung-Knapp",
    "freeman_tukey": "double arcsines",
    "logit": "log-odds",
    "raw": "untransformed",
    **_BETWEEN,
}


def variant_sentence(variant: Variant, between: Sequence[str] = ()) -> str:
    """Say a variant in words; with several estimators that agree, all of them.

    Examples
    --------
    >>> variant_sentence(Variant("random", "dersimonian_laird", quantile="1.96"))
    'random effects, inverse variance; DerSimonian-Laird; ordinary interval (normal distribution)'
    """
    parts = [_MODELS[variant.model]]
    if variant.scale and variant.model != "exact":
        parts.append(_SCALES[variant.scale])
    names = [_BETWEEN[name] for name in between or (variant.between,) if name in _BETWEEN]
    if names and variant.model != "exact":
        parts.append(_listed(names))
    if variant.q_about:
        parts.append("Q taken about the Mantel-Haenszel estimate")
    if variant.zero_cells:
        parts.append(_HALVES[variant.zero_cells])
    if variant.model not in ("mantel_haenszel", "common", "peto"):
        parts.append(_INTERVALS[variant.interval])
    return "; ".join(parts)


def variant_sentences(variants: Sequence[Variant]) -> list[str]:
    """Say several variants, those that differ only in the estimator in one sentence."""
    groups: dict[tuple[str, ...], list[Variant]] = {}
    for one in variants:
        alike = (one.model, one.interval, one.scale, one.zero_cells, one.q_about)
        groups.setdefault(alike, []).append(one)
    return [variant_sentence(group[0], [one.between for one in group]) for group in groups.values()]


def stated_sentence(stated: Stated, *, fits: bool | None, nearest: Variant) -> str:
    """Say whether the method the paper states is among those found.

    Parameters
    ----------
    stated : Stated
        The method stated, and what was understood of it.
    fits : bool or None
        Whether a variant found is of that kind; None where nothing was understood.
    nearest : Variant
        The first variant found.
    """
    said = f'The paper states "{stated.text}"'
    if fits is None:
        return f"{said}, which names no single method known here."
    read = ", ".join(_STATED[word] for _, word in stated.words)
    if fits:
        return f"{said}, read as: {read}. That agrees."
    not_so = ", ".join(_STATED[word] for _, word in stated.against(nearest))
    return (
        f"{said}, read as: {read}. That is not what was found: no variant named here is {not_so}."
    )


def _listed(names: Sequence[str]) -> str:
    if len(names) == 1:
        return names[0]
    return f"{names[0]} (alike: {', '.join(names[1:])})"
