"""What an audit says: golden sentences, and words that are never said."""

import re
from dataclasses import replace

import pytest

from evsyn.audit.ascertainment import Ascertainment
from evsyn.audit.case_mix import MixRow
from evsyn.audit.looks import Looks
from evsyn.audit.power import Power
from evsyn.audit.standardisation import standardisation
from evsyn.audit.standing import standings
from evsyn.audit.verdict import Limits
from evsyn.cells.cell import Question
from evsyn.pooling.answer import Centre, Show
from evsyn.terms import AS_PRINTED, MIXED, Better
from evsyn.wording.audit import (
    ascertainment_sentence,
    closing_sentences,
    invented_sentence,
    looks_sentence,
    standing_sentences,
)
from evsyn.wording.audit_caveats import mix_sentence
from evsyn.wording.audit_verdict import risk_words
from evsyn.wording.chances import in_hundred
from evsyn.wording.standardised import standardised_sentences
from tests.audit.made_up import (
    MU,
    PALLIATION,
    answer,
    count,
    group,
    palliation,
    plan,
    pooled,
    reading,
    unit,
)

PLAN = plan()
SUCCESS = Question("success", "intent", "palliation")
REBLOCKED = Question("reblocked", "intent", "palliation")


def said(events, total, made=None, question=PALLIATION, **kinds):
    pool = {k: kinds.pop(k) for k in ("bases", "windows", "own") if k in kinds}
    if question is SUCCESS:
        kinds.setdefault("window", "at_procedure")
    mine = palliation(events, total, question.outcome, own=pool.get("own", ()), **kinds)
    found = standings(mine, {question: pooled(question, made, **pool)}, PLAN)
    return standing_sentences(next(s for s in found if s.question == question), PLAN)


def failing(k):
    return answer(k, reading(-MU, k=k), events=46)


NO_EVENT = answer(4, show=Show.ALL_ZERO, events=0, one_sided=0.0149)
ALL_EVENTS = answer(4, show=Show.ALL_FULL, events=50, one_sided=0.9851)
NO_SPREAD = answer(9, reading(tau=0.02, low=0.0, high=0.8, larger=Centre(MU, 0.2, 0.5), k=9))
BETA = answer(12, reading(se=0.0, tau=0.0, rho=0.03, mean=0.074))
BETA_FLAT = answer(12, reading(se=0.0, tau=0.0, rho=0.0, mean=0.074))


def test_few_cases_speak_in_full():
    assert said(4, 8) == (
        "Perforation, palliation: 4 of 8 patients in whom it was attempted, within 30 days "
        "(50.0%); the data are compatible with a true rate from 15.7% to 84.3% (exact two-sided "
        "95% interval).",
        "Benchmark: 30 studies, 1,500 patients, published 1990 to 2019; typical rate 7.4% (5.9% "
        "to 9.2%), spread 0.60 (log-odds), read from the exact binomial-normal model.",
        "4 of 8 is more than the range of 0 to 3 that ordinary new units with 8 cases show (4 or "
        "more of 8: about 1 ordinary new unit in 103); look at the cases; with 8 cases any count "
        "of 4 or more is called so (1.0% of ordinary units) and no count could be called fewer, "
        "and a unit at twice the typical risk (14.8%) would be noticed with a chance of 2.0%, "
        "because ordinary units already differ by more than that.",
        "Of 100 ordinary new units of this size, about 99 would see fewer, 1 as many and fewer "
        "than 1 in 100 more; their average is 0.7 perforations.",
        "Against the average: if every unit shared the typical rate, 4 or more of 8 would be seen "
        "in about 1 unit in 556; against that average, by a one-sided 5% test, 8 cases "
        "notice a unit at twice the typical risk (14.8%) with a chance of 10.2%, and for 80% to "
        "hold it takes 121 cases, about 60 years at this unit's rate.",
        "At the smallest and the largest spread the studies allow (0.30 and 1.00), the chance of "
        "4 or more of 8 is 0.3% and 3.6%; at the largest the count would be within the range, and "
        "the verdict stays the one above.",
    )


def test_none_in_twenty():
    lines = said(0, 20)
    assert lines[1] == (
        "None in 20: rates up to 13.9% remain possible (one-sided 95%), the typical 7.4% of the "
        "studies among them; 39 cases without one would be needed to rule that out."
    )
    assert lines[0].endswith(
        "none of 20 patients in whom it was attempted, within 30 days (0.0%); the data are "
        "compatible with a true rate from 0.0% to 16.8% (exact two-sided 95% interval)."
    )
    assert lines[4] == (
        "No ordinary new unit of this size could see fewer; of 100, about 24 would see as many "
        "and 76 more; their average is 1.7 perforations."
    )


def test_all_of_twenty():
    lines = said(20, 20, failing(6), SUCCESS)
    assert lines[1] == (
        "All 20: rates down to 86.1% remain possible (one-sided 95%), the typical 92.6% of the "
        "studies among them; 39 cases with no exception would be needed to rule that out."
    )
    assert lines[3] == (
        "20 of 20 is within the range of 13 to 20 that ordinary new units with 20 cases show (20 "
        "of 20: about 3 in 10 ordinary new units); but with 20 cases no count could be called "
        "more and only 12 or fewer would be called fewer (1.7% of ordinary units), and a unit "
        "that falls short twice as often as is typical (14.8%) would be noticed with a chance of "
        "0.5%, because ordinary units already differ by more than that."
    )
    assert lines[-1] == "The spread is a rough guess: 6 studies."


def test_none_in_a_hundred_is_checked_before_it_is_enjoyed():
    lines = said(0, 100)
    assert lines[1].endswith("the typical 7.4% of the studies is not among them.")
    assert "check ascertainment and denominator first" in lines[3]
    assert "look at the cases" not in " ".join(lines)
    assert (
        "first; with 100 cases only 0 is called so (1.1% of ordinary units) and only 24 or more "
        "would be called more (2.4% of ordinary units), and"
    ) in lines[3]


def test_too_few_successes_are_looked_at():
    lines = said(25, 40, failing(12), SUCCESS)
    assert "25 of 40 is fewer than the range of 29 to 40" in lines[2]
    assert (
        "look at the cases; with 40 cases any count of 28 or fewer is called so (1.9% of ordinary "
        "units) and no count could be called more, and"
    ) in lines[2]


@pytest.mark.parametrize("events", range(0, 41, 4))
def test_what_could_not_be_shown_stands_in_the_sentence_of_the_verdict(events):
    verdicts = [line for line in said(events, 40) if " the range of 0 to 10 that " in line]
    assert len(verdicts) == 1
    only = "any count of 11 or more is called so" if events > 10 else ""
    only = only or "only 11 or more would be called more"
    assert f"with 40 cases {only} (2.1% of ordinary units) and no count could" in verdicts[0]
    assert "would be noticed with a chance of 2.7%, because ordinary units" in verdicts[0]


def test_small_chances_of_noticing_have_their_own_reason():
    few = said(1, 10, answer(30, reading(tau=0.11, se=0.02, high=0.2)))[2]
    assert few.endswith("with a chance of 4.8%, because the cases are so few.")
    alike = said(3, 40, answer(5, reading(tau=0.15, se=0.05, low=0.0, high=0.3, k=5)))[2]
    assert alike.endswith("would be noticed with a chance of 23.3%.")


def test_a_risk_no_count_can_show_is_not_noticed():
    often = answer(12, reading(-MU, tau=1.5, k=12), events=46)
    assert said(2, 5, often)[2].endswith(
        "but with 5 cases no count could be called more and only 0 would be called fewer (1.3% of "
        "ordinary units), and a unit where 95.0% of cases go the unwelcome way could not be "
        "noticed."
    )


def test_one_case():
    lines = said(0, 1)
    assert lines[0].startswith(
        "Perforation, palliation: none of 1 case among patients in whom it was attempted, within "
    )
    assert lines[1].startswith("None in 1 case: rates up to 95.0% remain possible")
    assert lines[3] == (
        "No verdict, since so few cases allow no verdict either way: 0 of 1 beside the range of 0 "
        "to 1 that ordinary new units with 1 case show (0 of 1: about 9 in 10 ordinary new units)."
    )
    assert lines[5].endswith(
        "against that average, by a one-sided 5% test, 1 case notices a unit at twice the typical "
        "risk (14.8%) with a chance of 0.0%, and for 80% to hold it takes 121 cases, more than "
        "100 years at this unit's rate."
    )
    assert said(1, 1)[1].startswith("The only case: rates down to 5.0% remain possible")


@pytest.mark.parametrize("events", range(41))
def test_one_side_throughout_a_comparison(events):
    lines = " ".join(said(events, 40))
    ways = set(re.findall(rf"\b{events} or (more|fewer) of 40", lines))
    assert len(ways) <= 1
    assert events in (0, 40) or ways


def test_an_outcome_that_is_not_pooled_has_no_sum():
    refused = answer(6, show=Show.REFUSED)
    kinds = {"of": "placed", "window": "not_stated", "bases": ["placed"] * 6}
    lines = said(3, 40, refused, REBLOCKED, **kinds)
    assert lines[2:] == ("6 studies report it; their counts are not added up.",)
    assert "300" not in " ".join(lines)
    one = {**kinds, "bases": ["placed"]}
    assert said(3, 40, answer(1, show=Show.REFUSED), REBLOCKED, **one)[2:] == (
        "1 study reports it.",
    )


@pytest.mark.parametrize(
    ("years", "told"),
    [
        ([1997, 2025, None, None, 2003], "published 1997 to 2025, year not known in 2;"),
        ([2011, None, None, None, None], "published in 2011, year not known in 4;"),
        ([2011] * 5, "published in 2011;"),
        ([None] * 5, "years of publication not known;"),
    ],
)
def test_years_of_publication_say_what_is_not_known(years, told):
    held = pooled(PALLIATION, answer(5))
    cells = zip(held.table.cells, years, strict=True)
    dated = tuple(replace(cell, year=year) for cell, year in cells)
    table = replace(held, table=replace(held.table, cells=dated))
    found = standings(palliation(3, 40), {PALLIATION: table}, PLAN)[0]
    assert f"5 studies, 250 patients, {told} " in standing_sentences(found, PLAN)[1]


@pytest.mark.parametrize(
    ("whole", "told"),
    [
        (None, ""),
        (3000, ""),
        (2900, "; levels sum to 3,000, since some patients stand in two"),
        (3100, "; levels sum to 3,000 of 3,100"),
    ],
)
def test_levels_that_do_not_sum_to_the_whole(whole, told):
    rows = (MixRow("intent", "palliation", 20, 1500), MixRow("intent", "bridge", 12, 1500))
    assert mix_sentence(rows, PLAN, whole).endswith(f" 1,500 of 3,000 (50.0%){told}.")


def test_which_side_is_invented():
    assert invented_sentence(True, True) == invented_sentence(False, False) == ()
    assert invented_sentence(True, False) == (
        "The unit's figures are invented; the review it is set against is not.",
    )
    assert invented_sentence(False, True) == (
        "The review is invented, so nothing here tells where the unit stands.",
    )


@pytest.mark.parametrize(
    ("made", "told"),
    [
        (answer(0), ("No comparison: no study here reports it.",)),
        (
            answer(1),
            (
                "No comparison: one study says nothing about how far units differ.",
                "Side by side, exact 95% intervals: the unit 3 of 40 (7.5%; 1.6% to 20.4%); 1 "
                "study 4 of 50 (8.0%; 2.2% to 19.2%).",
            ),
        ),
        (
            answer(2),
            (
                "No comparison: two studies say nothing about how far units differ, and their sum "
                "means something only if both share one true rate.",
                "Side by side, exact 95% intervals: the unit 3 of 40 (7.5%; 1.6% to 20.4%); 2 "
                "studies together 8 of 100 (8.0%; 3.5% to 15.2%).",
            ),
        ),
        (
            NO_EVENT,
            (
                "No comparison: no study saw one, so how far units differ cannot be told.",
                "Side by side, exact 95% intervals: the unit 3 of 40 (7.5%; 1.6% to 20.4%); 4 "
                "studies together 0 of 200 (0.0%; 0.0% to 1.8%).",
                "For the studies, rates up to 1.5% remain possible (one-sided 95%).",
            ),
        ),
        (
            ALL_EVENTS,
            (
                "No comparison: every case of the studies had it, so how far units differ cannot "
                "be told.",
                "Side by side, exact 95% intervals: the unit 3 of 40 (7.5%; 1.6% to 20.4%); 4 "
                "studies together 200 of 200 (100.0%; 98.2% to 100.0%).",
                "For the studies, rates down to 98.5% remain possible (one-sided 95%).",
            ),
        ),
    ],
)
def test_without_a_pool_both_counts_stand_side_by_side(made, told):
    assert said(3, 40, made)[1:] == told


def test_the_plans_own_reason_is_given():
    lines = said(
        3,
        40,
        answer(6, show=Show.REFUSED),
        REBLOCKED,
        of="placed",
        window="not_stated",
        bases=["placed"] * 6,
    )
    assert lines[1] == (
        "No comparison: the plan does not pool this outcome (follow-up differs from series to "
        "series)."
    )


@pytest.mark.parametrize("k", [3, 4])
def test_three_or_four_studies(k):
    lines = said(3, 40, answer(k))
    assert lines[2].startswith(
        "No verdict, since so few studies cannot tell how far units differ; unreliable: 3 of 40 "
        "beside the range of 0 to "
    )
    assert lines[-2:] == (
        f"Unreliable: {k} studies, where five are the least for a verdict.",
        f"The spread is a rough guess: {k} studies.",
    )


def test_a_shorter_window():
    lines = said(0, 100, window="7_days")
    assert lines[1] == "None in 100: rates up to 3.0% remain possible (one-sided 95%)."
    assert lines[3].startswith(
        "No verdict, since the windows differ and could explain what is seen: 0 of 100 beside"
    )
    assert lines[-1] == (
        "The unit looked for a shorter time than the studies (30 studies looked within 30 days), "
        "so more may be said of it, but not fewer."
    )
    assert not any(line.startswith("Against the average") for line in lines)


def test_mixed_windows_and_denominators_mark_the_verdict():
    lines = said(
        6,
        40,
        answer(12),
        bases=["attempted"] * 8 + ["placed"] * 3 + [AS_PRINTED],
        windows=["30_days"] * 7 + ["not_stated"] * 3 + ["7_days", "follow_up"],
    )
    assert "; windows differ; denominators differ)" in lines[2]
    assert lines[-2:] == (
        "Denominators differ: 8 studies count patients in whom it was attempted; 3 studies count "
        "patients in whom it was placed; 1 study does not name its denominator.",
        "Windows differ or are not stated: 7 studies looked within 30 days; 3 studies do not state "
        "the window; 1 study looked within 7 days; 1 study looked up to the last follow-up.",
    )


def test_other_denominators():
    lines = said(3, 40, bases=["placed"] * 30)
    assert lines[1] == "No comparison: no study counts over the unit's denominator."
    assert lines[-1] == ("Denominators differ: 30 studies count patients in whom it was placed.")


def test_next_to_no_spread():
    assert said(7, 40, NO_SPREAD)[-1] == (
        "Next to no spread was seen between the studies (0.02), but 9 studies cannot exclude more; "
        "the range uses 0.50, so that ordinary units are not called unusual."
    )


def test_a_beta_binomial_benchmark():
    lines = said(6, 40, BETA, own=("ours",))
    assert "mean rate 7.4%" in lines[1]
    assert lines[1].endswith(
        "intraclass correlation 0.030, read from the beta-binomial model; ours left out (ours)."
    )
    assert not any(line.startswith("At the smallest") for line in lines)
    assert said(6, 40, BETA_FLAT)[2].startswith("No verdict, since how far units differ could not")


def test_the_whole_prints_both_case_mixes():
    made = unit(
        group(20, {"perforation": count(2, 20)}, intent="palliation"),
        group(12, {"perforation": count(1, 12)}, intent="bridge"),
    )
    levels = [Question("perforation", "intent", level) for level in ("palliation", "bridge")]
    pools = {q: pooled(q) for q in (*levels, Question("perforation"))}
    whole = standings(made, pools, PLAN)[-1]
    lines = standing_sentences(whole, PLAN)
    assert lines[2] == (
        "Not set against all studies together: their case mix need not be the unit's."
    )
    assert lines[-1] == (
        "Case mix, the unit against the studies. Intent: palliation 20 of 32 (62.5%) against "
        "1,500 of 3,000 (50.0%); bridge to surgery 12 of 32 (37.5%) against 1,500 of 3,000 "
        "(50.0%); levels sum to 3,000, since some patients stand in two."
    )


def test_a_unit_without_labels_is_told_so():
    made = unit(group(20, {"perforation": count(2, 20)}))
    (whole,) = standings(made, {Question("perforation"): pooled(Question("perforation"))}, PLAN)
    found = standardisation(made, PLAN, "perforation", {})
    assert standardised_sentences(found, PLAN) == (
        "The whole cannot be set against what its own case mix would give: no group of the unit is "
        "labelled with a level.",
    )
    assert not whole.mix


def test_mixed_cases_are_told():
    unplaced = Question("perforation", "intent", "mixed_or_not_stated")
    made = unit(group(20, {"perforation": count(2, 20)}, intent=MIXED))
    first = standings(made, {unplaced: pooled(unplaced)}, PLAN)[0]
    lines = standing_sentences(first, PLAN)
    assert lines[0].startswith("Perforation, mixed or not stated: 2 of 20")
    assert lines[-1].startswith("These cases are of mixed or unstated kind")


def test_share_ascertained():
    found = Ascertainment(41, 3, 44, "stock records", says_complete=False)
    assert ascertainment_sentence(found, "patients") == (
        "41 of 44 patients expected are counted (93.2%; expected number from: stock records); 3 "
        "cases of the period left out, with reasons. The file says it is not complete."
    )
    found = Ascertainment(46, 0, 44, "stock records", says_complete=True)
    assert ascertainment_sentence(found, "patients") == (
        "46 patients are counted where 44 were expected (expected number from: stock records), so "
        "check both lists. The file says it is complete."
    )


@pytest.mark.parametrize(
    ("counted", "left_out", "says_complete", "told"),
    [
        (30, 2, True, "12 expected cases are not accounted for, though the file says complete."),
        (43, 0, True, "1 expected case is not accounted for, though the file says complete."),
        (
            30,
            2,
            False,
            "12 expected cases are not accounted for; the file says it is not complete.",
        ),
    ],
)
def test_cases_nobody_accounts_for(counted, left_out, says_complete, told):
    found = Ascertainment(counted, left_out, 44, "stock records", says_complete=says_complete)
    assert ascertainment_sentence(found, "patients").endswith(f". {told}")


def test_looks():
    assert looks_sentence(Looks(11, 1, 0.27)) == (
        "11 comparisons with a verdict; were they independent of each other, about 3 in 10 "
        "ordinary units would have at least one outside the range by chance alone, and here 1 is."
    )
    assert looks_sentence(Looks(1, 0, 0.013)) == (
        "1 comparison with a verdict; about 1 ordinary unit in 77 would have it outside the range "
        "by chance alone, and here it is not."
    )
    assert "; fewer than 1 ordinary unit in 1,000" in looks_sentence(Looks(1, 1, 0.0004))
    assert ", nearly all ordinary units would" in looks_sentence(Looks(90, 2, 0.97))
    assert looks_sentence(Looks(0, 0, 0)) == "No comparison led to a verdict."


def test_closing_lines():
    assert closing_sentences(Looks(12, 2, 0.4))[1:] == (
        "An ordinary new unit is one that differs from the studies as they differ from each other; "
        "the range leaves at most 2.5% of ordinary units beyond either end.",
        "Within the range means not shown to differ, and no more.",
        "All this takes the unit to be one more of the kind that publish; published series often "
        "come from enthusiasts, and whether the unit is like them is for the reader to judge.",
        "These figures support local governance and never replace it: what follows from them, and "
        "whether anything is escalated, a person decides.",
        "A single harmful event may be a notifiable incident whatever the rate (in England "
        "the duty of candour, Regulation 20): the patient is told, with an apology, which admits "
        "no liability, and a written follow-up. Whether one was is judged case by case, not here.",
    )


@pytest.mark.parametrize(
    ("chances", "told"),
    [
        ((0.93, 0.03, 0.04), ("93", "3", "4")),
        ((1 / 3, 1 / 3, 1 / 3), ("34", "33", "33")),
        ((0.0, 0.254, 0.746), ("none", "25", "75")),
        ((0.9985, 0.001, 0.0005), ("more than 99", "fewer than 1", "fewer than 1")),
    ],
)
def test_hundreds_sum_to_a_hundred(chances, told):
    assert in_hundred(*chances) == told


def test_a_risk_that_cannot_be_doubled_is_named():
    none = Limits(None, None, 0.0, 0.0, 0, 10)
    capped = Power(0.6, 0.95, 0.0, 0.0, none, 0.5, 40, True, 2.0)
    assert risk_words(capped, Better.FEWER) == "a unit where 95.0% of cases go the unwelcome way"


NEVER = re.compile(
    r"outlier|\bsafe|acceptable|significan|\bp[ -]?value|\bp [=<]|meets|\bpass\b|\bgood\b|"
    r"excellent|better than|reassur|well done|congratul|\bbest\b|failing\b|\bnan\b|\binf\b|\{|\}",
    re.IGNORECASE,
)


@pytest.mark.parametrize(
    "made",
    [
        None,
        *(answer(k) for k in (0, 1, 2, 4, 7)),
        NO_EVENT,
        ALL_EVENTS,
        NO_SPREAD,
        BETA,
        BETA_FLAT,
    ],
)
@pytest.mark.parametrize(("events", "total"), [(0, 1), (1, 1), (0, 8), (4, 8), (0, 100), (40, 40)])
def test_words_that_are_never_said(made, events, total):
    lines = (*said(events, total, made), *closing_sentences(Looks(1, 1, 0.02)))
    for line in lines:
        assert not NEVER.search(line), line
        assert line.endswith(".")
        assert line[0].isupper() or line[0].isdigit()
