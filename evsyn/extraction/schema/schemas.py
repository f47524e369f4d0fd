"""One JSON Schema for each kind of file, for any review or in one review's words."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from pydantic import BaseModel

from evsyn.extraction.claims import Claims
from evsyn.extraction.guidelines import Guidelines
from evsyn.extraction.plan import Plan
from evsyn.extraction.schema.generator import record_schema
from evsyn.extraction.schema.known_words import Schema
from evsyn.extraction.schema.of_claims import with_claim_words, with_guideline_words
from evsyn.extraction.schema.of_study import with_study_words
from evsyn.extraction.schema.of_unit import with_unit_words
from evsyn.extraction.study import Study
from evsyn.extraction.unit import Unit

#: Each kind of file, and the record it holds.
KINDS: Mapping[str, type[BaseModel]] = MappingProxyType(
    {"review": Plan, "study": Study, "unit": Unit, "guidelines": Guidelines, "claims": Claims}
)

# The plan's own file is where its words are made: it would underline every new one.
_IN_WORDS_OF: Mapping[str, Callable[[Schema, Plan], None]] = {
    "study": with_study_words,
    "unit": with_unit_words,
    "guidelines": with_guideline_words,
    "claims": with_claim_words,
}


def schemas(plan: Plan | None = None) -> dict[str, Schema]:
    """Return the JSON Schema (draft 2020-12) of each kind of file.

    Parameters
    ----------
    plan : Plan, optional
        The plan of a review: its outcomes, denominators, windows, strata, levels, treatments,
        facts and stages are then the only ones allowed, and are told with their meanings.

    Returns
    -------
    dict
        Schemas by kind: ``review``, ``study``, ``unit``, ``guidelines``, ``claims``.

    Notes
    -----
    Whatever is read without a fault fits its schema. The reverse does not hold: a schema sees one
    value at a time, and the checks hold them together.
    """
    made = {kind: record_schema(model) for kind, model in KINDS.items()}
    if plan is not None:
        for kind, put_words in _IN_WORDS_OF.items():
            put_words(made[kind], plan)
    return made
