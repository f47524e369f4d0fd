"""The questions follow what a plan declares, and a thin review is answered as one."""

from dataclasses import replace

import pytest

from evsyn.reporting.pocket import pocket_layout, pocket_text
from evsyn.reporting.pocket.card import pocket_card
from evsyn.reporting.report.content import report_content
from evsyn.terms import Audience
from tests.figures.geometry import words_of
from tests.reporting.pocket.reviews import content_of, first_only, unit_content

OWN, SEARCH, ELSE = "What are your own figures?", "What was the search?", "Equipment, drugs, cost?"


def card_of(review):
    return pocket_card(report_content(first_only(review)))


def asked(card, start):
    (found,) = [prompt for prompt in card.prompts if prompt.question.startswith(start)]
    return found


def changed(review, **fields):
    return replace(review, plan=review.plan.model_copy(update=fields))


def outcome_with(review, **fields):
    first = next(iter(review.plan.outcomes))
    outcome = review.plan.outcomes[first].model_copy(update=fields)
    return changed(review, outcomes={first: outcome})


def test_questions_are_the_floors_and_our_own_count_is_first():
    card = pocket_card(unit_content(Audience.INSIDE))
    assert [prompt.question.split(":")[0] for prompt in card.prompts] == [
        OWN,
        "What does the literature say of perforation?",
        "Device generation",
        "Intent",
        "Which series is the highest, and which the lowest?",
        "Are most series below 6.0%?",
        "What of special cases",
        SEARCH,
        ELSE,
    ]
    assert all(prompt.say and prompt.never for prompt in card.prompts)
    assert OWN not in [prompt.question for prompt in pocket_card(content_of("demo")).prompts]


def test_an_era_stands_with_what_it_stands_in_for_and_is_needed_where_that_is_untold():
    assert "Era of recruitment" in asked(pocket_card(content_of("demo")), "Device").if_asked
    untold = asked(pocket_card(content_of("published")), "Device")
    assert "cannot be compared from these papers" in untold.at_once
    assert "Mostly before 2004" in untold.at_once
    assert "these papers cannot tell" in untold.never


def test_an_era_of_its_own_has_a_question_of_its_own(tiny):
    era = asked(card_of(tiny.read()), "Era:")
    assert era.question == "Era: mostly before 2005 or mostly from 2005?"


def test_what_is_said_at_once_names_no_model_and_the_model_waits_until_someone_asks():
    prompt = asked(pocket_card(content_of("demo")), "What does")
    assert prompt.at_once.startswith("Perforation: about 6 in 100. A typical setting sees 5.6%")
    assert "model" not in prompt.at_once
    assert "Read from the exact binomial-normal model; DerSimonian-Laird" in prompt.if_asked


def test_where_levels_cannot_be_compared_that_is_said_first_and_what_is_mixed_if_asked():
    untold = asked(pocket_card(content_of("published")), "Device")
    assert untold.say[0].startswith("Device generation cannot be compared from these papers")
    intent = asked(pocket_card(content_of("published")), "Intent")
    assert "papers would print P 0.04" in intent.at_once
    assert intent.if_asked.startswith("Mixed or not stated 2.6% (1.7% to 4.0%)")


def test_the_other_outcomes_have_a_line_each_and_the_title_names_the_review(tiny):
    card = pocket_card(report_content(tiny.read()))
    plan = tiny.read().plan
    assert card.title.startswith(f"{plan.title}: questions on ")
    others = asked(card, "And the other outcomes?")
    labels = [outcome.label for outcome in list(plan.outcomes.values())[1:]]
    assert [line.partition(":")[0] for line in others.say] == labels


def test_an_overlap_alarm_is_the_last_to_be_left_off():
    """The demo: one series shares patients with the unit's own, and stays in the benchmark."""
    own = pocket_card(unit_content(Audience.INSIDE)).prompts[0]
    assert own.if_asked.startswith("Overlap alarm: Clover-Meadowsweet 2020 (2020-clover) shares")
    (page,) = pocket_layout(unit_content(Audience.INSIDE)).pages
    assert "Overlap alarm" in " ".join(words_of(page, "sentence"))


def test_extremes_say_who_when_how_many_and_of_which_levels(tiny):
    prompt = asked(card_of(tiny.read()), "Which series")
    high, low = prompt.say
    # 4 of 52 against 2 + 1 of 30 + 25, as the tiny review has them.
    assert high.startswith("Highest: Reed 2001, 4 of 52 (7.7%; exact ")
    assert high.endswith("recruited 1995-03 to 1999; intent palliation.")
    assert low.startswith("Lowest: Sedge 2010, 3 of 55 (5.5%; exact ")
    assert low.endswith("intent palliation and bridge to surgery.")


def test_facts_not_reported_are_nought_of_all_series(tiny):
    prompt = asked(card_of(tiny.read()), "What of special cases: site, length?")
    assert "site 1 of 2; length 1 of 2." in prompt.at_once
    assert prompt.if_asked == "Site: rectum 1. Length: from 4.5 to 4.5."
    tiny.reed("    characteristics: {site: rectum, length: 4.5}\n", "")
    assert "site 0 of 2; length 0 of 2." in asked(card_of(tiny.read()), "What of special").at_once


def test_a_fact_marked_not_stated_is_not_reported(tiny):
    tiny.reed("site: rectum", "site: not_stated")
    assert "site 0 of 2" in asked(card_of(tiny.read()), "What of special").at_once


def test_treatments_are_compared_where_the_plan_compares_them():
    card = pocket_card(content_of("published-trials"))
    assert "All these patients had: stent." in card.prompts[0].at_once
    prompt = asked(card, "Stent against surgery?")
    assert prompt.at_once.startswith("Any complication, stent against surgery: risk ratio ")
    assert "the interval holds both and neither" in prompt.never
    demo = pocket_card(content_of("demo"))
    assert "All these patients had" not in demo.prompts[0].at_once
    assert not [prompt for prompt in demo.prompts if " against " in prompt.question]


def test_without_strata_facts_or_target_the_card_still_answers(tiny):
    plan = tiny.read().plan
    bare = plan.characteristics.model_copy(update={"arm": {}})
    card = card_of(changed(tiny.read(), strata={}, characteristics=bare))
    assert len(card.prompts) == 6
    assert "collects no such fact" in asked(card, "What of special").at_once
    assert "sets no target" in asked(card, "Are most series").at_once


def test_an_outcome_nobody_counts_has_a_card(tiny):
    review = tiny.read()
    arms = [[arm.model_copy(update={"outcomes": {}}) for arm in s.arms] for s in review.studies]
    studies = [s.model_copy(update={"arms": a}) for s, a in zip(review.studies, arms, strict=True)]
    empty = first_only(replace(review, studies=tuple(studies)))
    card = card_of(empty)
    assert "no study here reports it" in asked(card, "What does").at_once
    assert "No series here has a count of perforation." in asked(card, "Which series").at_once
    pocket_layout(report_content(empty))


def test_refused_pooling_names_no_best_centre_and_counts_no_side():
    review = replace(content_of("demo").review)
    refused = outcome_with(review, do_not_pool="they follow for unlike times")
    card = pocket_card(report_content(refused))
    for start in ("Which series", "Are most series"):
        assert "they follow for unlike times" in asked(card, start).at_once
    assert "%" not in asked(card, "Intent").at_once


def test_where_more_is_better_series_above_are_counted(tiny):
    review = tiny.read()
    outcomes = {"success": review.plan.outcomes["success"]}
    target = {"success": {"rate": 0.9, "according_to": "us", "decided_on": "2026-01-02"}}
    audit = type(review.plan.audit).model_validate({"targets": target}, strict=False)
    prompt = asked(card_of(changed(review, outcomes=outcomes, audit=audit)), "Are most series")
    assert prompt.question == "Are most series above 90.0%?"
    assert "Of 1 series 1 report a rate above 90.0%" in prompt.at_once
    assert "nobody says 'most'" in prompt.if_asked


def test_a_target_at_a_rate_a_series_has_is_counted_as_a_tie(tiny):
    target = {"perforation": {"rate": 0.0625, "according_to": "us", "decided_on": "2026-01-02"}}
    review = tiny.reed("events: 4\n        total: 52", "events: 3\n        total: 48").read()
    audit = type(review.plan.audit).model_validate({"targets": target}, strict=False)
    prompt = asked(card_of(changed(review, audit=audit)), "Are most series below 6.25%?")
    assert "(1 of them at that very number)" in prompt.at_once


@pytest.mark.parametrize(
    ("name", "words"), [("demo", "Nothing was missed"), ("published", "A systematic review")]
)
def test_a_search_is_told_as_it_was(name, words):
    assert words in asked(pocket_card(content_of(name)), SEARCH).never


def test_the_text_marks_what_is_invented_and_ends_with_the_status_line():
    text = " ".join(pocket_text(content_of("demo")).split())
    assert text.startswith("INVENTED DATA: no real patients or units")
    assert text.endswith(content_of("demo").status)
    assert "INVENTED" not in pocket_text(content_of("published"))
