"""What the terminal prints of each pool: tables, sentences, lines behind a pool."""

import re

from evsyn.pooling.review import answer_questions, questions
from evsyn.reporting.pool_page import pool_page_text
from evsyn.reporting.trace import back_text
from tests.reporting.outlets.made import Lines, keys_of
from tests.reporting.outlets.printed import COUNT, RATE, SPAN, digits, flat, of_cells, of_sentence
from tests.reporting.page.made import review

ROW = re.compile(
    rf"^ ?(?P<group>\S.*?) +(?P<studies>\d+) +(?P<count>{COUNT}|no data|)"
    rf" *(?P<head>{RATE}|not pooled|) *(?P<read>{RATE}|counts only|)$"
)


def terminal_table(name: str) -> Lines:
    """Yield the rows of the table of groups, outcome by outcome."""
    plan = review(name).plan
    for outcome, words in plan.outcomes.items():
        text = pool_page_text(
            review(name), [outcome], list(plan.strata), detail=False, look_up=False
        )
        assert f"{words.label} ({words.better} is better)" in text
        rows = text.partition("Group  ")[2].partition("\n---")[2].partition("\n\n")[0].split("\n")
        stratum = None
        for row in rows[1:]:
            for one, declared in plan.strata.items():
                stratum = one if row == declared.label else stratum
            found = ROW.match(row)
            if found:
                key = keys_of(name, outcome, stratum)[found["group"].lower()]
                yield key, of_cells(*found.group("studies", "count", "head", "read"))


def terminal_sentence(name: str) -> Lines:
    """Yield the sentence under the name of each outcome."""
    plan = review(name).plan
    for outcome in plan.outcomes:
        text = pool_page_text(review(name), [outcome], [], detail=False, look_up=False)
        said = re.split(r"\n-+\n", text)[1]
        yield f"{outcome}/overall", of_sentence(flat(said.partition("\nWanted:")[0]))


def terminal_rows(name: str) -> Lines:
    """Yield the table of methods of each outcome shown in full."""
    plan = review(name).plan
    text = pool_page_text(review(name), plan.outcomes, [], detail=True, look_up=False)
    for outcome, words in plan.outcomes.items():
        whole = text.partition(f"\n{words.label}, all studies: in full\n")[2]
        table = whole.partition(": in full\n")[0].partition("\nMethod ")[2].partition("\n\n")[0]
        row = rf"({RATE}) +({SPAN}|none given).*"
        head = re.search(rf"^DerSimonian-Laird.*? {row}$", table, re.MULTILINE)
        read = re.search(rf" {row} read this$", table, re.MULTILINE)
        if head and read:
            found = {"headline": digits(head[1]), "read": digits(read[1])}
            yield f"{outcome}/overall", found | {"range": digits(read[2])}


def trace(name: str) -> Lines:
    """Yield the sentence over the lines behind each pool."""
    asked = questions(review(name).plan)
    for question, pooled in answer_questions(review(name), asked).items():
        text = back_text(review(name), pooled)
        yield question.key, of_sentence(flat(text.partition("\n\n")[0]))
