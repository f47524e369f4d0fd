"""Whether levels of a stratum differ, as text or as fields."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from evsyn.cells.levels import level_names
from evsyn.extraction.review import Review
from evsyn.pooling.crossed import Crossed, Crossing
from evsyn.pooling.differ import StratumAsked
from evsyn.pooling.strata_test import StrataTest
from evsyn.pooling.tables import PooledTable
from evsyn.reporting.ask.fits import number, regressed_fields
from evsyn.reporting.ask.frame import framed_json, framed_text, titled
from evsyn.reporting.plain_table import plain_table
from evsyn.reporting.pool_text import GROUP_HEADINGS, group_row, paragraph
from evsyn.wording import ask_differ as words
from evsyn.wording.strata import stand_in_sentence


@dataclass(frozen=True, slots=True)
class CrossedAsked:
    """Two strata crossed: their names, the pool of every crossing, and the model."""

    first: str
    second: str
    pools: Mapping[Crossing, PooledTable]
    found: Crossed


def differ_text(
    review: Review,
    outcome: str,
    asked: Sequence[StratumAsked],
    crossed: CrossedAsked | None = None,
) -> str:
    """Return one block a stratum, and one for the strata crossed."""
    parts = [_block(review, outcome, one) for one in asked]
    parts += [] if crossed is None else [_crossed_block(review, outcome, crossed)]
    parts.append(paragraph(words.KEY))
    shared = any(one.robust for one in asked)
    if shared or (crossed and crossed.found.main and crossed.found.main.robust):
        parts.append(paragraph(words.ROBUST_KEY))
    return framed_text(
        review, parts, questions=_pools(asked, crossed), tests=_tests(asked, crossed)
    )


def differ_json(
    review: Review,
    outcome: str,
    asked: Sequence[StratumAsked],
    crossed: CrossedAsked | None = None,
) -> str:
    """Return the same as JSON."""
    fields: dict[str, Any] = {
        "outcome": outcome,
        "strata": [_fields(one) for one in asked],
        "crossed": None if crossed is None else _crossed_fields(crossed),
    }
    return framed_json(
        review, fields, questions=_pools(asked, crossed), tests=_tests(asked, crossed)
    )


def _pools(asked: Sequence[StratumAsked], crossed: CrossedAsked | None) -> int:
    return sum(len(one.pools) for one in asked) + (len(crossed.pools) if crossed else 0)


def _tests(asked: Sequence[StratumAsked], crossed: CrossedAsked | None) -> int:
    return sum(one.tests for one in asked) + (crossed.found.tests if crossed else 0)


def _block(review: Review, outcome: str, asked: StratumAsked) -> str:
    declared = review.plan.strata[asked.stratum]
    levels = level_names(declared)
    held = {name: pooled.answer.k for name, pooled in asked.pools.items()}
    said = (
        words.differ_sentence(asked.difference, levels),
        words.aside_sentence(asked.difference, levels, held),
        stand_in_sentence(review, asked.stratum),
    )
    parts = [paragraph(text) for text in said if text]
    rows = [group_row(levels[name], pooled) for name, pooled in asked.pools.items()]
    parts += ["", plain_table((declared.label, *GROUP_HEADINGS), rows, right=(1, 2))]
    test = asked.difference.test
    if test is not None:
        pairs = [words.pair_row(one, levels) for one in test.differences]
        parts += ["", plain_table(words.PAIR_HEADINGS, pairs), "", _tests_table(asked)]
    if asked.robust:
        lines = [words.robust_row(one, levels) for one in asked.robust]
        parts += ["", plain_table(words.ROBUST_HEADINGS, lines, right=(2, 3))]
    label = review.plan.outcomes[outcome].label
    return titled(words.differ_heading(label, declared.label), *parts)


def _tests_table(asked: StratumAsked) -> str:
    quoted = asked.difference.test
    made = [one for one in (asked.exact, asked.two_step) if one is not None and _settled(one)]
    rows = [words.form_row(one, quoted=one == quoted) for one in made]
    if asked.difference.q_between is not None:
        rows.append(words.q_row(asked.difference.q_between))
    return plain_table(words.FORM_HEADINGS, rows, right=(3,), whole=(1, 2, 3, 4))


def _settled(test: StrataTest) -> bool:
    """Tell whether a form of the test gave a P."""
    return not math.isnan(test.p)


def _crossed_block(review: Review, outcome: str, crossed: CrossedAsked) -> str:
    declared = [review.plan.strata[name] for name in (crossed.first, crossed.second)]
    levels = [level_names(one) for one in declared]
    rows = [
        group_row(f"{levels[0][one]}, {levels[1][two]}", pooled)
        for (one, two), pooled in crossed.pools.items()
    ]
    parts = [
        paragraph(words.crossed_sentence(crossed.found, levels)),
        "",
        plain_table(("Crossing", *GROUP_HEADINGS), rows, right=(1, 2)),
    ]
    main = crossed.found.main
    if main is not None:
        labels = [words.term_label(term, levels) for term in crossed.found.terms]
        terms = plain_table(words.TERM_HEADINGS, words.term_rows(main, labels), right=(2,))
        parts += ["", paragraph(words.CROSSED_KEY), "", terms]
        robust = words.robust_term_rows(main, labels)
        parts += ["", plain_table(words.ROBUST_HEADINGS, robust, right=(2, 3))] if robust else []
    label = review.plan.outcomes[outcome].label
    return titled(words.crossed_heading(label, *(one.label for one in declared)), *parts)


def _fields(asked: StratumAsked) -> dict[str, Any]:
    difference = asked.difference
    between = difference.q_between
    return {
        "stratum": asked.stratum,
        "reason": None if difference.reason is None else str(difference.reason),
        "quoted": None if difference.test is None else difference.test.method,
        "exploratory": None if difference.test is None else difference.test.exploratory,
        "levels": [
            {"level": name, "k": pooled.answer.k, "tested": _takes_part(asked, name)}
            for name, pooled in asked.pools.items()
        ],
        "shared": list(difference.shared),
        "tests": [_test(one) for one in (asked.exact, asked.two_step) if one is not None],
        "q_between": None
        if between is None
        else {"q": number(between.q), "df": between.df, "p": number(between.p)},
        "robust": [
            {
                "first": one.first,
                "second": one.second,
                "log_odds": number(one.estimate),
                "low": number(one.low),
                "high": number(one.high),
                "df": number(one.df),
                "p": number(one.p),
            }
            for one in asked.robust
        ],
    }


def _takes_part(asked: StratumAsked, level: str) -> bool:
    return asked.difference.test is not None and level in asked.difference.test.levels


def _test(test: StrataTest) -> dict[str, Any]:
    return {
        "method": test.method,
        "status": str(test.status),
        "f": number(test.statistic),
        "df1": test.df1,
        "df2": test.df2,
        "p": number(test.p),
        "tau2": number(test.tau2),
        "differences": [
            {
                "first": one.first,
                "second": one.second,
                "log_odds": number(one.estimate),
                "low": number(one.low),
                "high": number(one.high),
            }
            for one in test.differences
        ],
    }


def _crossed_fields(crossed: CrossedAsked) -> dict[str, Any]:
    found = crossed.found
    interaction = found.interaction
    return {
        "strata": [crossed.first, crossed.second],
        "crossings": [
            {
                "levels": list(crossing),
                "k": pooled.answer.k,
                "events": sum(pooled.answer.events),
                "total": sum(pooled.answer.total),
                "in_model": crossing in found.crossings and found.main is not None,
            }
            for crossing, pooled in crossed.pools.items()
        ],
        "reason": None if found.reason is None else str(found.reason),
        "terms": [{"level": level, "against": against} for _, level, against in found.terms],
        "model": None if found.main is None else regressed_fields(found.main),
        "interaction": None
        if interaction is None
        else {
            "f": number(interaction.statistic),
            "df1": interaction.df1,
            "df2": interaction.df2,
            "p": number(interaction.p),
        },
    }
