"""A calibration as fields for programs."""

import math
from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

from evsyn.calibration.result import Calibration
from evsyn.reporting.json_text import json_text


def calibration_json(found: Calibration, about: Mapping[str, Any]) -> str:
    """Return a calibration as JSON; numbers that do not exist are ``null``.

    Parameters
    ----------
    found : Calibration
        What was found.
    about : mapping
        Of which review and outcome, and the sentences.
    """
    fields = asdict(found)
    fields["layout"] |= {
        "cases": found.layout.unit_cases,
        "better": str(found.layout.direction),
        "doubled": found.layout.doubled,
    }
    return json_text({**about, **_without_nan(fields)})


def _without_nan(value: Any) -> Any:
    if isinstance(value, dict):
        return {str(name): _without_nan(one) for name, one in value.items()}
    if isinstance(value, list | tuple):
        return [_without_nan(one) for one in value]
    return None if isinstance(value, float) and math.isnan(value) else value
