"""Whatever honest cases a log holds, its counts are those of the cases and hold together."""

from collections import Counter
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.extraction.case_log.made_up import LogFolder, table
from tests.extraction.flow.made_up import PLAN

STAGES = ("considered", "attempted", "placed", "relieved")
HEADINGS = (
    "month,reached,intent,bridged,stoma,reversed,perforation,migration,reobstruction,devices,"
    "patient_end,device_end,hole,stoma at 30 days"
)
OUTCOMES = {
    "perforation": {"of": "attempted", "column": "hole", "window": "30_days"},
    "migration": {"of": "placed", "window": "follow_up"},
    "success": {"of": "attempted", "reached": "placed", "window": "at_procedure"},
    "relief": {"of": "attempted", "window": "at_procedure"},
    "stoma_avoidance": {
        "of": "attempted",
        "column": "stoma at 30 days",
        "opposite": True,
        "window": "30_days",
    },
}
WORDS = {(): "no", ("early",): "early", ("late",): "late", ("early", "late"): "early and late"}


@st.composite
def cases(draw):
    """Return one true case as plain facts, and its row with some of the cells not known."""
    stage = draw(st.integers(0, 3))

    def happens(least):
        return stage >= least and draw(st.booleans())

    def timed(least):
        listed = draw(st.sets(st.sampled_from(["early", "late"])))
        return tuple(sorted(listed)) if stage >= least else ()

    level = draw(st.sampled_from(["palliation", "bridge", "mixed", ""]))
    bridged, stoma = happens(2), draw(st.booleans())
    reversed_ = stoma and draw(st.booleans())
    perforation, migration, blocked = timed(1), timed(2), timed(3)
    ends = []
    if stage >= 2:
        fit = ["in_place", "taken_out", *["removed"] * bridged, *["migrated"] * bool(migration)]
        ends = draw(st.lists(st.sampled_from(fit), min_size=1, max_size=3))
    end = draw(st.sampled_from(["alive", "died_early", "died_later", "lost"]))
    early_stoma = stoma and draw(st.booleans())
    cells = [
        yes(bridged), yes(stoma), yes(reversed_), WORDS[perforation], WORDS[migration],
        WORDS[blocked], str(len(ends)), end, ";".join(ends), yes("early" in perforation),
        yes(early_stoma),
    ]  # fmt: skip
    hidden = draw(st.sets(st.integers(0, len(cells) - 1), max_size=2))
    known = ["" if place in hidden else cell for place, cell in enumerate(cells)]
    row = ["2021-05", STAGES[stage], level, *known]
    facts = {
        "stage": stage, "level": level or "not_stated", "perforation": perforation,
        "migration": migration, "ends": ends, "end": end, "hidden": hidden,
    }  # fmt: skip
    return ",".join(row), facts


def yes(had):
    return "yes" if had else "no"


def read(rows):
    with TemporaryDirectory() as name:
        made = LogFolder(Path(name)).say(outcomes=OUTCOMES)
        made.write(table(*rows, headings=HEADINGS))
        assert made.faults() == []
        return made.read()


@settings(max_examples=25, deadline=None)
@given(
    st.lists(cases(), min_size=1, max_size=25).filter(
        lambda listed: any(facts["stage"] for _, facts in listed)
    )
)
def test_honest_cases_raise_nothing_and_are_counted_one_by_one(listed):
    unit = read([row for row, _ in listed]).unit
    facts = [fact for _, fact in listed]
    attempted = [fact for fact in facts if fact["stage"] >= 1]
    assert unit.flow["attempted"] == len(attempted)
    assert unit.flow["placed"] == sum(fact["stage"] >= 2 for fact in facts)
    assert {group.strata["intent"]: group.patients for group in unit.groups} == Counter(
        fact["level"] for fact in attempted
    )
    if "perforation" in unit.complications and unit.complications["perforation"].early is not None:
        early = sum("early" in fact["perforation"] for fact in facts)
        assert unit.complications["perforation"].early == early
    known = {group.strata["intent"]: group.outcomes["perforation"].events for group in unit.groups}
    for level, events in known.items():
        had = ["early" in f["perforation"] for f in attempted if f["level"] == level]
        assert events <= sum(had)
    if unit.patients_end:
        ends = Counter(fact["end"] for fact in attempted)
        assert {name: n for name, n in unit.patients_end.items() if n} == ends
    if unit.devices is not None:
        assert unit.devices == sum(len(fact["ends"]) for fact in facts)
    if not any(fact["hidden"] for fact in facts):
        assert unit.devices is not None
        assert all(one.unknown == 0 for group in unit.groups
                   for name, one in group.outcomes.items() if name != "relief")  # fmt: skip


@settings(max_examples=10, deadline=None)
@given(st.lists(cases(), min_size=1, max_size=12), st.randoms(use_true_random=False))
def test_the_order_of_rows_changes_no_count(listed, source):
    rows = ["2021-05,attempted,palliation,,,,,,,,,,,", *(row for row, _ in listed)]
    unit = read(rows).unit
    source.shuffle(rows)
    again = read(rows).unit
    assert again.model_dump() == unit.model_dump()


def test_the_plan_of_these_cases_is_the_one_of_the_flow():
    # The stages above are written out so that nothing here is read with the room under test.
    assert f"flow: [{', '.join(STAGES)}]" in PLAN
