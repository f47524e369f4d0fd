"""The few lines that stand before an audit."""

from evsyn.audit.standing import standings
from evsyn.cells.cell import Question
from evsyn.extraction.plan import Primary
from evsyn.wording.audit_summary import FOLLOWS, summary_sentences
from tests.audit.made_up import PALLIATION, answer, count, group, palliation, plan, pooled, unit

PLAN = plan()
NO_PRIMARY = "The plan names no primary indicator, so no one count stands before the others."
BRIDGE = Question("perforation", "intent", "bridge")


def placed(*counts):
    levels = zip(counts, ("palliation", "bridge"), strict=False)
    groups = [
        group(total, {"perforation": count(events, total)}, intent=level)
        for (events, total), level in levels
    ]
    pools = {q: pooled(q) for q in (PALLIATION, BRIDGE, Question("perforation"))}
    return standings(unit(*groups), pools, PLAN)


def test_counts_outside_are_named_with_their_way():
    assert summary_sentences(placed((12, 40), (0, 100)), PLAN) == (
        "3 counts, 2 compared, 2 with a verdict; 2 outside the range.",
        NO_PRIMARY,
        "More than the range: Perforation, palliation (12 of 40).",
        "Fewer than the range: Perforation, bridge to surgery (0 of 100).",
        "No event: Perforation, bridge to surgery (0 of 100).",
        FOLLOWS,
    )


def test_nothing_outside():
    assert summary_sentences(placed((2, 40)), PLAN) == (
        "2 counts, 1 compared, 1 with a verdict; none outside the range.",
        NO_PRIMARY,
        FOLLOWS,
    )


def test_no_verdict_and_no_comparison():
    assert summary_sentences(placed((1, 1)), PLAN)[0] == (
        "2 counts, 1 compared, none with a verdict."
    )
    alone = standings(palliation(2, 40), {PALLIATION: pooled(PALLIATION, answer(1))}, PLAN)
    assert summary_sentences(alone, PLAN)[0] == "2 counts, none compared."


def test_names_beyond_a_few_are_counted():
    many = placed((0, 20), (0, 20))
    assert summary_sentences(many, PLAN, 1)[2] == (
        "No event: Perforation, palliation (0 of 20); 2 others."
    )
    assert summary_sentences(many, PLAN, 0)[2] == "No event: 3 counts."


def with_primary(**named):
    asked = Primary.model_validate(named)
    audit = PLAN.audit.model_copy(update={"primary": asked})
    return PLAN.model_copy(update={"audit": audit})


def test_the_primary_indicator_stands_first_with_its_verdict():
    named = with_primary(outcome="perforation", stratum="intent", level="bridge")
    mine = unit(group(9, {"perforation": count(0, 9)}, intent="bridge"))
    found = standings(mine, {BRIDGE: pooled(BRIDGE)}, named)
    assert [s.level for s in found if s.is_primary] == ["bridge"]
    assert summary_sentences(found, named)[1] == (
        "Primary indicator, named in the plan: Perforation, bridge to surgery (0 of 9), within the "
        "range of 0 to 3 that ordinary new units show."
    )


def test_a_primary_indicator_that_is_not_reported_is_missed():
    named = with_primary(outcome="success")
    found = standings(palliation(2, 40), {PALLIATION: pooled(PALLIATION)}, named)
    assert summary_sentences(found, named)[1] == (
        "The unit does not report the primary indicator that the plan names."
    )
