"""Whatever the arms of a study, no patient enters one pool twice, or two levels of a stratum."""

from hypothesis import given, settings
from hypothesis import strategies as st

from evsyn.cells.levels import ancestors, level_names
from tests.cells.builders import arm, count, plan_of, study_of, table_of

LEVELS = [None, "palliation", "bridge", "mixed", "not_stated"]
BASES = ["attempted", "placed", "as_printed", "resected"]


@st.composite
def studies(draw):
    """Draw a study of nested arms, each part no larger than its whole."""
    arms = []
    has_whole = draw(st.booleans())
    for number in range(draw(st.integers(1, 7))):
        parents = [one for one in arms if one["patients"] > 0]
        parent = draw(st.sampled_from([None, *parents])) if parents else None
        is_whole = has_whole and number == 0
        size = 200 if is_whole else draw(st.integers(1, parent["patients"] if parent else 90))
        total = draw(st.integers(1, size))
        leak = draw(
            st.none()
            | st.builds(
                count,
                st.integers(0, total),
                st.just(total),
                st.sampled_from(BASES),
                st.sampled_from(["30_days", "1_year", "ever", "not_stated"]),
            )
        )
        level = draw(st.sampled_from(LEVELS))
        more = {"part_of": parent["arm"]} if parent and not is_whole else {}
        more |= {"covers": "whole_study"} if is_whole else {}
        arms.append(
            arm(f"a{number}", size, leak, strata={"intent": level} if level else {}, **more)
        )
    return study_of("s", *arms)


def arms_of(study, at=None):
    """Return the arms behind the study's row, and the row."""
    table = table_of(study, at=at)
    if not table.cells:
        return [], None
    (cell,) = table.cells
    return [study.arm_named(source.key_path.split(".")[0]) for source in cell.sources], cell


@given(studies())
@settings(max_examples=300, deadline=None)
def test_no_arm_enters_beside_an_arm_it_lies_inside(study):
    for level in [None, *level_names(plan_of().strata["intent"])]:
        arms, cell = arms_of(study, ("intent", level) if level else None)
        inside = {arm.arm for arm in arms}
        assert len(inside) == len(arms)
        for one in arms:
            assert not inside & {above.arm for above in ancestors(study, one)}
        if cell is not None:
            assert cell.total == sum(arm.outcomes["leak"].total for arm in arms)
            assert cell.events == sum(arm.outcomes["leak"].events for arm in arms)
            assert len({(a.outcomes["leak"].of, a.outcomes["leak"].window) for a in arms}) == 1


@given(studies())
@settings(max_examples=300, deadline=None)
def test_a_row_never_holds_more_patients_than_the_arm_around_it(study):
    for level in [None, *level_names(plan_of().strata["intent"])]:
        arms, _ = arms_of(study, ("intent", level) if level else None)
        for around in study.arms:
            within = [a for a in arms if around in list(ancestors(study, a))]
            assert sum(one.patients for one in within) <= around.patients


@given(studies())
@settings(max_examples=300, deadline=None)
def test_the_gathering_level_shares_no_arm_with_a_named_one(study):
    gathered, _ = arms_of(study, ("intent", "mixed_or_not_stated"))
    for level in ("palliation", "bridge"):
        named, _ = arms_of(study, ("intent", level))
        names = {arm.arm for arm in named}
        for one in gathered:
            assert one.arm not in names
            assert not names & {above.arm for above in ancestors(study, one)}
        for one in named:
            assert not {g.arm for g in gathered} & {above.arm for above in ancestors(study, one)}


@given(studies())
@settings(max_examples=200, deadline=None)
def test_every_reported_count_is_pooled_listed_or_inside_or_around_one_that_is(study):
    table = table_of(study)
    told = {source.key_path for cell in table.cells for source in cell.sources}
    told |= {left.source.key_path for left in table.left_out}
    for one in study.arms:
        if "leak" in one.outcomes and f"{one.arm}.leak" not in told:
            above = {f"{around.arm}.leak" for around in ancestors(study, one)}
            assert above & told
