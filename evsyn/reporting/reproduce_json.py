"""A published pooling and what gives it, as fields."""

import math

from evsyn.reporting.json_text import json_text
from evsyn.reproduction.compare import Check
from evsyn.reproduction.verdict import Reproduction, Trial
from evsyn.wording.reproduce import CLOSING, verdict_sentence
from evsyn.wording.reproduce_variants import variant_sentence


def reproduction_json(found: Reproduction) -> str:
    """Return the verdict, the variants named with every check, and the doubts, as JSON."""
    pooling = found.checked.pooling
    return json_text(
        {
            "pooling": pooling.pooling,
            "invented": pooling.invented,
            "about": pooling.about,
            "doi": pooling.doi,
            "at": pooling.at,
            "measure": str(pooling.measure),
            "rows": len(pooling.rows),
            "verdict": str(found.verdict),
            "sentence": verdict_sentence(found),
            "variants_tried": found.tried,
            "best": [_trial(one) for one in found.best],
            "stated_method": pooling.stated_method,
            "stated_method_agrees": found.as_stated,
            "findings": [one.to_dict() for one in found.findings],
            "closing": CLOSING,
        }
    )


def _trial(trial: Trial) -> dict[str, object]:
    return {
        "variant": trial.variant.key,
        "words": variant_sentence(trial.variant),
        "all_at_once_within_rounding": trial.together,
        "checks": [_check(one) for one in trial.checks],
    }


def _check(check: Check) -> dict[str, object]:
    return {
        "number": list(check.item.place),
        "printed": check.item.number.text,
        "found": check.found,
        "low": _finite(check.low),
        "high": _finite(check.high),
        "match": str(check.match),
        "source": check.item.source.to_dict(),
    }


def _finite(value: float | None) -> float | None:
    return value if value is not None and math.isfinite(value) else None
