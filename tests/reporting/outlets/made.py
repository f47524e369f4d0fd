"""Both reviews and the unit, read once, and what the engine answers of them."""

import json
from collections.abc import Iterable, Iterator, Mapping
from functools import cache

from evsyn.cells.levels import level_names
from evsyn.extraction.load import read_unit
from evsyn.pooling.review import answer_questions, group_label, questions
from evsyn.reporting.pool_json import answer_json
from evsyn.reporting.pool_page import pool_page_json
from evsyn.reporting.report.content import report_content
from evsyn.terms import Audience
from tests.reporting.outlets.printed import of_fields
from tests.reporting.page.made import UNIT_FILE, review

Told = Mapping[str, dict[str, str]]
#: What an outlet prints: the key of a pool, and the fields it prints of it.
Lines = Iterator[tuple[str, dict[str, str]]]


@cache
def unit():
    return read_unit(UNIT_FILE, review("demo").plan)


@cache
def content_with_unit():
    return report_content(review("demo"), unit(), Audience.INSIDE)


@cache
def engine(name: str) -> Told:
    """Return what ``evsyn pool --json`` gives of every outcome and level, as it is printed."""
    plan = review(name).plan
    found = json.loads(pool_page_json(review(name), plan.outcomes, list(plan.strata)))
    return {item["key"]: of_fields(item) for item in found["answers"]}


@cache
def engine_without_own() -> Told:
    """Return the same of the demo review, without the series of the unit itself."""
    held = review("demo")
    own = unit().unit.own_studies
    assert own
    answers = answer_questions(held, questions(held.plan), without=own)
    return {
        question.key: of_fields(answer_json(held, pooled, group_label(held.plan, question)))
        for question, pooled in answers.items()
    }


def keys_of(name: str, outcome: str, stratum: str | None = None) -> dict[str, str]:
    """Return the keys of the pools of one outcome and stratum, by the words of the group."""
    found = {"all studies": f"{outcome}/overall"}
    if stratum is not None:
        words = level_names(review(name).plan.strata[stratum])
        found |= {said.lower(): f"{outcome}/{stratum}={level}" for level, said in words.items()}
    return found


def stratum_of(name: str, labels: Iterable[str]) -> str | None:
    """Return the stratum whose levels most of the labels are."""
    found = {label.lower() for label in labels}
    strata = review(name).plan.strata
    return max(strata, key=lambda one: len(found & keys_of(name, "", one).keys()), default=None)
