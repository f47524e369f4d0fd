"""What the pocket card and the weighing of claims print of each pool."""

import re
from pathlib import Path
from tempfile import TemporaryDirectory

from evsyn.cells.levels import labelled_strata
from evsyn.extraction.load_claims import read_claims
from evsyn.pooling.review import questions
from evsyn.reporting.claims_page import claims_text, weigh_all
from evsyn.reporting.pocket import pocket_text
from evsyn.terms import OVERALL, UNPLACED
from tests.reporting.outlets.made import Lines, keys_of
from tests.reporting.outlets.printed import COUNT, NUMBER, RATE, SPAN, digits, flat, of_sentence
from tests.reporting.page.made import content, review


def pocket(name: str) -> Lines:
    """Yield what the pocket card says of its outcome and of each named level."""
    plan = review(name).plan
    blocks = [flat(block) for block in re.split(r"\n\d+\. ", pocket_text(content(name)))]
    outcome = _pocket_outcome(name)
    (whole,) = [block for block in blocks if block.startswith("What does the literature say of ")]
    yield f"{outcome}/overall", of_sentence(whole.partition(" SAY: ")[2])
    (never,) = re.findall(rf'DO NOT SAY: "The rate is ({NUMBER}%)"', whole)
    yield f"{outcome}/overall", {"point": digits(never)}
    for block in blocks:
        for stratum in plan.strata:
            is_own = block.startswith(f"{plan.strata[stratum].label}: ")
            for words, key in keys_of(name, outcome, stratum).items():
                # What is mixed has the same words in every stratum, and stands in its own block.
                if key.endswith(f"={UNPLACED}") and not is_own:
                    continue
                said = re.search(
                    rf"\b{words} ({RATE}), ({COUNT}) in (\d+) stud", block, re.IGNORECASE
                )
                if said:
                    read = {"read": digits(said[1]), "count": said[2], "studies": said[3]}
                    yield key, read


def _pocket_outcome(name: str) -> str:
    plan = review(name).plan
    return plan.audit.primary.outcome if plan.audit.primary else next(iter(plan.outcomes))


def claims(name: str) -> Lines:
    """Yield what is said beside a claim about each pool."""
    plan = review(name).plan
    asked = [
        question
        for question in questions(plan, strata=labelled_strata(plan))
        if question.level != UNPLACED
    ]
    entries = [
        f'  - {{claim: c{number}, says: "One in two.", about: evidence, '
        f"outcome: {question.outcome}, scope: {{{_scope(question)}}}, relation: below, "
        'value: "50%"}'
        for number, question in enumerate(asked)
    ]
    with TemporaryDirectory() as folder:
        file = Path(folder) / "claims.yaml"
        head = "format: 1\ntitle: A talk\ninvented: true\nclaims:\n"
        file.write_text(head + "\n".join(entries), encoding="utf-8")
        checked = read_claims(file, plan, None)
    weighed = weigh_all(review(name), checked, None, None, None)
    text = claims_text(review(name), checked, weighed, None, None)
    sections = re.split(r"\n\d+\. c\d+\n-+\n", text)[1:]
    for question, section in zip(asked, sections, strict=True):
        said = flat(section)
        if found := re.search(
            rf"typical rate ({RATE}) by .*? gives ({RATE}); added up ({COUNT}) \(.*?in (\d+) s",
            said,
        ):
            told = {"read": digits(found[1]), "headline": digits(found[2])}
            yield question.key, told | {"count": found[3], "studies": found[4]}
        if found := re.search(rf"({COUNT}) in (\d+) series; a typical setting sees ({RATE})", said):
            told = {"count": found[1], "studies": found[2], "read": digits(found[3])}
            yield question.key, told
        if found := re.search(rf"new one may see anything from ({SPAN})", said):
            yield question.key, {"range": digits(found[1])}


def _scope(question) -> str:
    return "" if question.stratum == OVERALL else f"{question.stratum}: {question.level}"
