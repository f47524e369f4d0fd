"""A whole by its own case mix: golden sentences, refusals, and words that are never said."""

import pytest
from scipy import special

from evsyn.audit.divisions import division_questions
from evsyn.audit.standardisation import standardisation
from evsyn.pooling.answer import Centre
from evsyn.wording.standardised import NO_LEVEL_LEFT_OUT, NOT_COMPARABLE, standardised_sentences
from tests.audit.made_up import MU, answer, count, group, plan, pooled, reading, unit
from tests.wording.test_audit import NEVER

PLAN = plan()


def rated(rate, k=30, **more):
    return answer(k, reading(float(special.logit(rate)), k=k, **more))


TOY = {
    ("palliation", "through"): rated(0.10),
    ("palliation", "over_wire"): rated(0.08),
    ("bridge", "through"): rated(0.05),
    ("bridge", "over_wire"): rated(0.04, k=8),
}


def cases(events, total, intent, delivery=None, outcome="perforation", **kinds):
    strata = {"intent": intent} | ({"delivery": delivery} if delivery else {})
    return group(total, {outcome: count(events, total, **kinds)}, **strata)


def four(*events):
    kinds = (24, "palliation", "through"), (12, "palliation", "over_wire"), (
        30, "bridge", "through"), (6, "bridge", "over_wire")  # fmt: skip
    return unit(*(cases(x, *kind) for x, kind in zip(events, kinds, strict=True)))


def said(made, default=None, outcome="perforation", **kinds):
    given = {} if default is None else default
    tables = {
        question: pooled(question, given.get(question.levels), **kinds)
        for question in division_questions(made, PLAN)
    }
    return standardised_sentences(standardisation(made, PLAN, outcome, tables), PLAN)


def test_a_whole_in_full():
    assert said(four(2, 3, 2, 1), TOY) == (
        "Against its own case mix, by intent and delivery (4 levels): 8 perforations among 72 "
        "cases, where the mean rates of the studies would give 5.8 (2.2 more than that); observed "
        "over expected 1.37 (exact 95% limits 0.59 to 2.71, for chance in this count alone).",
        "Expected by level: palliation, over a wire 1.1 of 12 (30 studies), 3 seen; palliation, "
        "through the scope 2.7 of 24 (30 studies), 2 seen; bridge to surgery, over a wire 0.3 of "
        "6 (8 studies), 1 seen; bridge to surgery, through the scope 1.7 of 30 (30 studies), 2 "
        "seen.",
        "8 of 72 is within the range of 0 to 19 that ordinary new units with this case mix show "
        "(8 or more of 72: about 3 in 10 ordinary new units); but with these 72 cases only 20 or "
        "more would be called more (2.1% of ordinary units) and no count could be called fewer, "
        "and a unit at twice the typical risk at every level (14.2% of these cases) would be "
        "noticed with a chance of 0.2%, because ordinary units already differ by more than that.",
        "Of 100 ordinary new units with this case mix, about 71 would see fewer, 6 as many and 23 "
        "more.",
        "Against the average: if every unit shared the typical rate of each level, 8 or more of "
        "72 would be seen in about 1 unit in 7; against that average, by a one-sided 5% test, "
        "these 72 cases notice a unit at twice the typical risk at every level (14.2% of these "
        "cases) with a chance of 58.0%.",
        "The range takes a unit that stands high at one level to stand as high at the others; "
        "were every level to go its own way it would be 1 to 13, and the verdict the same.",
        "The spread is a rough guess, from fewer than 10 studies: bridge to surgery, over a wire.",
        NOT_COMPARABLE,
    )


def test_too_many_are_looked_at():
    lines = said(four(12, 6, 2, 2), TOY)
    assert "22 of 72 is more than the range of 0 to 19" in lines[2]
    assert (
        "; look at the cases; with these 72 cases any count of 20 or more is called so (2.1% of "
        "ordinary units) and no count could be called fewer, and a unit at twice"
    ) in lines[2]


def test_few_are_checked_before_they_are_enjoyed():
    made = unit(cases(0, 150, "palliation"), cases(0, 80, "bridge"))
    lines = said(made)
    assert "check ascertainment and denominator first" in lines[2]
    assert "look at the cases" not in " ".join(lines)
    assert lines[0].startswith(
        "Against its own case mix, by intent (2 levels): 0 perforations among 230 cases, where the "
        "mean rates of the studies would give 19.5 (19.5 fewer than that); observed over expected "
        "0.00 (exact 95% limits 0.00 to 0.19, for chance in this count alone)."
    )


def test_a_range_that_hangs_on_the_draw_says_so():
    lines = said(four(7, 3, 2, 3), TOY)
    assert lines[5].endswith(
        "it would be 1 to 13, and the count more than the range; the verdict stays the one above."
    )


def test_success_gives_the_ratio_of_its_failures():
    made = unit(
        cases(20, 27, "palliation", outcome="success", window="at_procedure"),
        cases(14, 14, "bridge", outcome="success", window="at_procedure"),
    )
    high = answer(30, reading(-MU), events=46)
    lines = said(made, {("palliation",): high, ("bridge",): high}, "success")
    assert lines[0] == (
        "Against its own case mix, by intent (2 levels): 34 technical successes among 41 cases, "
        "where the mean rates of the studies would give 37.5 (3.5 fewer than that); without one, "
        "7 against 3.5: observed over expected 2.02 (exact 95% limits 0.81 to 4.16, for chance in "
        "this count alone)."
    )
    assert "a unit that at every level falls short twice as often as is typical" in lines[2]


@pytest.mark.parametrize(
    ("total", "told"),
    [(24, "about as many"), (12, "1.0 more than that"), (48, "2.1 fewer than that")],
)
def test_how_far_the_count_is_from_what_is_expected(total, told):
    made = unit(cases(2, total, "palliation"))
    assert f"({told})" in said(made)[0]


def test_what_was_passed_over_is_told():
    weak = {**TOY, ("bridge", "over_wire"): answer(2), ("palliation",): rated(0.09, k=4)}
    lines = said(four(2, 3, 2, 1), weak)
    assert "by delivery (2 levels)" in lines[0]
    assert lines[2] == (
        "Passed over: by intent and delivery, crossed (bridge to surgery, over a wire: two studies "
        "say nothing about how far units differ); by intent (palliation: three or four studies are "
        "too few for a verdict)."
    )


def test_where_no_division_can_be_used_nothing_is_added_up():
    made = unit(cases(1, 9, "palliation"), cases(2, 20, "bridge"))
    assert said(made, {("bridge",): answer(0)}) == (
        "The whole cannot be set against what its own case mix would give: by intent (bridge to "
        "surgery: no study here reports it).",
        NO_LEVEL_LEFT_OUT,
    )


@pytest.mark.parametrize(
    ("made", "told"),
    [
        (
            unit(cases(1, 9, "palliation"), cases(2, 20, "bridge", of="placed")),
            "its groups are counted over different denominators or windows, and are not added up.",
        ),
        (
            unit(group(9, {"perforation": count(1, 9)})),
            "no group of the unit is labelled with a level.",
        ),
        (
            unit(cases(1, 9, "palliation", window="follow_up")),
            "the file does not say in numbers how long the cases were followed.",
        ),
    ],
)
def test_what_forbids_every_division(made, told):
    (line,) = said(made)
    assert line == f"The whole cannot be set against what its own case mix would give: {told}"


def test_three_or_four_studies_give_no_verdict():
    lines = said(unit(cases(3, 40, "palliation")), {("palliation",): rated(0.074, k=4)})
    assert lines[2] == (
        "No verdict, since so few studies cannot tell how far units differ; unreliable: 3 of 40 "
        "beside the range of 0 to 15 that ordinary new units with this case mix show (3 or more of "
        "40: about 6 in 10 ordinary new units)."
    )


def test_what_to_bear_in_mind():
    thin = answer(9, reading(tau=0.02, larger=Centre(MU, 0.2, 0.5), k=9))
    unknown = group(
        30, {"perforation": {**count(9, 30, window="7_days"), "unknown": 2}}, intent="palliation"
    )
    mixed = cases(6, 20, "mixed", window="7_days")
    lines = said(unit(unknown, mixed), {("palliation",): thin})
    assert lines[-6:-1] == (
        "The spread is a rough guess, from fewer than 10 studies: palliation.",
        "Next to no spread was seen between the studies, and the range uses the larger one they "
        "cannot exclude: palliation.",
        "The unit looked for a shorter time than the studies, so more may be said of the whole, "
        "but not fewer: palliation; mixed or not stated.",
        "Cases of mixed or unstated kind stand beside studies of mixed or unstated kind; the two "
        "mixtures need not be alike.",
        "2 further cases have no known outcome, and count on neither side.",
    )


def test_a_side_the_windows_withhold_gets_no_verdict_and_no_average():
    made = unit(cases(0, 160, "palliation", window="7_days"))
    lines = said(made)
    assert lines[2].startswith("No verdict, since the windows differ and could explain what")
    assert "Against the average" not in " ".join(lines)


def test_one_case():
    lines = " ".join(said(unit(cases(1, 1, "palliation"))))
    assert "1 perforation among 1 case, where" in lines
    assert "by a one-sided 5% test, this case notices" in lines
    rare = answer(30, reading(-6.0), events=1)
    told = " ".join(said(unit(cases(1, 1, "palliation")), {("palliation",): rare}))
    assert "look at the cases; with this one case only 1 is called so" in told


@pytest.mark.parametrize("events", range(0, 73, 6))
def test_what_is_never_said(events):
    spread = [min(events, 24), 0, max(0, min(events - 24, 30)), 0]
    spread[1] = min(12, events - sum(spread))
    spread[3] = events - sum(spread)
    for default in (TOY, {**TOY, ("bridge", "over_wire"): answer(2)}):
        assert not NEVER.search(" ".join(said(four(*spread), default)))


def test_what_could_not_be_shown_stands_in_the_sentence_of_the_verdict():
    for events in (0, 4, 12, 20):
        verdicts = [
            line for line in said(four(events, 0, 0, 0), TOY) if " the range of 0 to 19 " in line
        ]
        assert len(verdicts) == 1
        assert "would be noticed with a chance of 0.2%" in verdicts[0]
