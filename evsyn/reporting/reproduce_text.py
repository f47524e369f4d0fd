"""A published pooling and what gives it, as text."""

from collections.abc import Iterator

from evsyn.reporting.findings import finding_text
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_text import paragraph
from evsyn.reproduction.verdict import Reproduction, Verdict
from evsyn.wording.numbers import counted
from evsyn.wording.reproduce import (
    CLOSING,
    found_words,
    in_table,
    match_words,
    misfits_sentence,
    place_words,
    rows_sentence,
    tried_sentence,
    verdict_sentence,
)
from evsyn.wording.reproduce_variants import stated_sentence, variant_sentences
from evsyn.wording.status import INVENTED

_LEADS = {
    Verdict.REPRODUCED: "Reproduced under",
    Verdict.EXCEPT: "Nearest, with the pooled value and its limits",
    Verdict.SINGLY: "Nearest",
    Verdict.NOT: "Nearest",
}


def reproduction_text(found: Reproduction) -> str:
    """Return the verdict, the variants, each printed number beside what is found, the doubts."""
    return "\n".join(_parts(found))


def _parts(found: Reproduction) -> Iterator[str]:
    pooling = found.checked.pooling
    studies = [row.study for row in pooling.rows]
    if pooling.invented:
        yield INVENTED
    at = f" {pooling.at}" if pooling.at else ""
    yield paragraph(f"{pooling.about}.{at}")
    yield paragraph(tried_sentence(found))
    yield ""
    yield paragraph(verdict_sentence(found))
    if found.best[0].misfits:
        yield paragraph(misfits_sentence(found, studies))
    yield ""
    yield f"{_LEADS[found.verdict]}:"
    for sentence in variant_sentences([one.variant for one in found.best]):
        yield paragraph(f"- {sentence}.").replace("\n", "\n  ")
    if found.stated is not None and found.verdict is not Verdict.NOT:
        nearest = found.best[0].variant
        yield paragraph(stated_sentence(found.stated, fits=found.as_stated, nearest=nearest))
    checks = found.best[0].checks
    rows = [
        (
            place_words(check.item.place, studies),
            check.item.number.text,
            found_words(check),
            match_words(check),
        )
        for check in checks
        if in_table(check)
    ]
    yield ""
    yield plain_table(("Number", "Printed", "Found", ""), rows, right=(1, 2), whole=(1,))
    if said := rows_sentence(checks):
        yield paragraph(said)
    if found.findings:
        yield ""
        yield counted(len(found.findings), "doubt about the print", "doubts about the print")
        yield from map(finding_text, found.findings)
    yield ""
    yield paragraph(CLOSING)
