"""The card prints the digits of the terminal, and counts series as anyone can by hand."""

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from scipy.stats import beta

from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.unit import Release
from evsyn.figures.svg import svg_text
from evsyn.reporting.audit_outside import outside_text
from evsyn.reporting.audit_page import audit_text
from evsyn.reporting.pocket import pocket_layout, pocket_text
from evsyn.reporting.pocket.card import pocket_card
from evsyn.reporting.pool_page import pool_page_text
from evsyn.terms import Audience
from evsyn.wording.numbers import probability
from evsyn.wording.pooled import TOO_WIDE
from tests.reporting.pocket.reviews import (
    changed_content,
    content_of,
    hollowmere,
    review_of,
    unit_content,
)


def flat(text):
    return " ".join(text.split())


def terminal(name):
    review = review_of(name)
    strata = list(review.plan.strata)
    outcomes = list(review.plan.outcomes)
    return flat(pool_page_text(review, outcomes, strata, detail=True, look_up=False))


@pytest.mark.parametrize("name", ["demo", "published-trials"])
def test_pool_levels_and_tests_are_those_of_the_terminal(name):
    printed, said = terminal(name), flat(pocket_text(content_of(name)))
    (item,) = content_of(name).outcomes
    assert item.overall.sentence in printed
    for rate in re.findall(
        r"(?:gives|sees|setting is) ([\d.]+%(?: \([^)]*\)| to [\d.]+%))", item.overall.sentence
    ):
        # A value whose interval is too wide to quote is not on the card; all else is.
        assert rate in said or (TOO_WIDE in said and f"sees {rate}" in item.overall.sentence)
    assert item.wanted in printed
    assert item.wanted in said
    for stratum in item.strata:
        test = stratum.difference.test
        if test is not None:
            assert f"P {probability(test.p)}" in stratum.sentence
            assert f"(P {probability(test.p)})" in said
            assert stratum.sentence in printed
    rates = re.findall(r"([\d.]+)% \(([\d.]+)% to ([\d.]+)%\), ([\d,]+ of [\d,]+) in", said)
    assert len(rates) >= 2 or TOO_WIDE in said
    for at, low, high, count in rates:
        assert count in printed
        assert f"{at} ({low}-{high})" in printed


def test_a_comparison_is_that_of_the_terminal():
    printed = terminal("published-trials")
    card = pocket_card(content_of("published-trials"))
    (prompt,) = [item for item in card.prompts if item.question == "Stent against surgery?"]
    for sentence in prompt.say:
        assert sentence in printed


def test_a_units_numbers_are_those_of_its_audit_and_the_limit_comes_at_once():
    review, checked = hollowmere()
    printed = flat(audit_text(review, checked, Audience.INSIDE))
    own = pocket_card(unit_content(Audience.INSIDE)).prompts[0]
    numbers = re.findall(r"\d+ of \d+|\d[\d.]*%(?: to [\d.]+%)?|\d+ to \d+", " ".join(own.say))
    assert len(numbers) > 15
    for number in numbers:
        assert number in printed
    # Clopper and Pearson, Biometrika 1934;26:404-413: the upper limit by the beta quantile.
    upper = f"{100 * beta.ppf(0.975, 3 + 1, 41 - 3):.1f}%"
    assert f"(7.3%); true rates up to {upper} are not excluded" in own.say[0]
    assert "Perforation: 3 within 30 days; 1 more later." in own.at_once
    assert "would be noticed with a chance of 0.6%, because ordinary units" in own.if_asked


def test_outside_only_what_the_outside_page_tells_is_said():
    review, checked = hollowmere()
    printed = flat(outside_text(review, checked.unit))
    content = unit_content(Audience.OUTSIDE)
    own = pocket_card(content).prompts[0]
    for sentence in own.say:
        assert sentence in printed
    card = pocket_text(content)
    for word in ("2022", "2026-03", "3 of 41", "(7.3%)", "19.9%", "kits", "palliation (3"):
        assert word not in card


def with_perforations(events, **fields):
    """Return the unit with its perforations alone, and another count of them in one group."""
    _, checked = hollowmere()
    groups = [
        group.model_copy(update={"outcomes": {"perforation": group.outcomes["perforation"]}})
        for group in checked.unit.groups
    ]
    count = groups[0].outcomes["perforation"].model_copy(update={"events": events})
    groups[0] = groups[0].model_copy(update={"outcomes": {"perforation": count}})
    return CheckedUnit(checked.unit.model_copy(update={"groups": groups, **fields}), ())


def test_a_hidden_count_moves_nothing_on_an_outside_card():
    made = [with_perforations(events) for events in (1, 4)]
    few, more = (changed_content(one, Audience.OUTSIDE) for one in made)
    assert pocket_text(few) == pocket_text(more)
    assert svg_text(pocket_layout(few), 0) == svg_text(pocket_layout(more), 0)
    assert pocket_text(few) != pocket_text(replace_audience(few))


def replace_audience(content):
    return replace(content, unit=replace(content.unit, audience=Audience.INSIDE))


@pytest.mark.parametrize("levels", [True, False])
def test_released_counts_are_said_with_their_release_and_without_a_date_of_the_unit(levels):
    who = {"approved_by": "the clinical director (invented)", "on": "2026-08-01", "basis": "talk"}
    checked = with_perforations(2, release=Release(**who, levels=levels))
    card = flat(pocket_text(changed_content(checked, Audience.OUTSIDE)))
    assert ("palliation (3 of 27)" in card) is levels
    assert "Exact own counts released by the clinical director (invented) on 2026-08-01" in card
    assert "3 of 41 patients" in card
    assert "INSIDE THE UNIT" not in card
    assert "2022-04" not in card


def counted_by_hand(table, at):
    below = wholly = 0
    for row in table.cells:
        below += Fraction(row.events, row.total) < at
        high = beta.ppf(0.975, row.events + 1, row.total - row.events)
        wholly += high < at
    return below, wholly


@pytest.mark.parametrize(("name", "written"), [("demo", "6.0"), ("published-trials", "22.1")])
def test_series_below_the_number_are_counted_by_rate_and_by_whole_interval(name, written):
    content = content_of(name)
    table = content.outcomes[0].overall.pooled.table
    below, wholly = counted_by_hand(table, Fraction(written) / 100)
    said = flat(pocket_text(content))
    assert f"Are most series below {written}%?" in said
    assert f"Of {table.k} series {below} report a rate below {written}%" in said
    assert f"by their exact intervals {wholly} lie wholly below" in said
