"""Checks of claims and of recorded guidelines, one a file."""

from evsyn.extraction.claim_rules import (
    claim_fields,
    claim_said,
    claim_value,
    claim_words,
    guideline_read,
    guideline_words,
)

CLAIM_RULES = (
    claim_fields.RULE,
    claim_words.RULE,
    claim_value.RULE,
    claim_said.RULE,
)

GUIDELINE_RULES = (
    guideline_words.RULE,
    guideline_read.RULE,
)
