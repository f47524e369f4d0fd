"""What holding lines together promises, against patients made up one by one."""

from collections import Counter
from itertools import combinations, combinations_with_replacement, product

import numpy as np
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from evsyn.extraction.flow.clash import smallest_clash
from evsyn.extraction.flow.lines import unit_lines
from evsyn.extraction.flow.system import system_of
from tests.extraction.flow.made_up import count, found, group, plan, say, unit

COURSE = plan()
STAGES = COURSE.flow
ENDS = tuple(COURSE.course.patients_end)
TIMINGS = ("early", "late")
COMPLICATIONS = ("perforation", "migration")


def clash_of(made, against=COURSE):
    lines = unit_lines(made, against)
    return [lines[number] for number in smallest_clash(system_of(lines, made, against))]


# Patients as plain sets of what applies to them; nothing here uses the rooms under test.


def facts(stage, level, stoma, bridged, complications, end):
    """Return all that applies to a patient, with what the plan forbids struck out."""
    reached = STAGES[: stage + 1]
    said = {*reached}
    if "attempted" in reached:
        said |= {level, end}
    if stoma:
        said.add("stoma")
    if bridged and "placed" in reached:
        said.add("bridged")
    for name, times in zip(COMPLICATIONS, complications, strict=True):
        if COURSE.course.steps[name].within in reached and times:
            said |= {name, *(f"{name} {time}" for time in times)}
    return frozenset(said)


def number(patients, *terms):
    """Count the patients to whom terms apply."""
    return sum(
        all((term.removeprefix("not ") in one) is not term.startswith("not ") for term in terms)
        for one in patients
    )


times = st.sets(st.sampled_from(TIMINGS))
patient = st.builds(
    facts,
    st.integers(0, len(STAGES) - 1),
    st.sampled_from(["palliation", "bridge"]),
    st.booleans(),
    st.booleans(),
    st.tuples(times, times),
    st.sampled_from(ENDS),
)
WORDS = [
    *STAGES, "stoma", "bridged", *COMPLICATIONS, *ENDS, "palliation", "bridge",
    *(f"{name} {time}" for name in COMPLICATIONS for time in TIMINGS),
]  # fmt: skip
terms = st.lists(
    st.builds(
        lambda no, word: f"not {word}" if no else word, st.booleans(), st.sampled_from(WORDS)
    ),
    min_size=1,
    max_size=4,
)


def tallied(patients, more_devices, unknown, sentences):
    """Return the unit file of some patients."""
    groups = []
    for level in ("palliation", "bridge"):
        here = [one for one in patients if level in one]
        if not here:
            continue
        placed = [one for one in here if "placed" in one]
        hidden = min(unknown, number(here, "perforation early"))
        outcomes = {
            "perforation": count(
                number(here, "perforation early") - hidden, len(here), unknown=hidden
            ),
            "success": count(len(placed), len(here), window="at_procedure"),
            "stoma_avoidance": count(number(here, "not stoma"), len(here), window="follow_up"),
        }
        if placed:
            migrated = number(placed, "migration")
            outcomes["migration"] = count(migrated, len(placed), "placed", "follow_up")
        groups.append(group(len(here), level, **outcomes))
    holders = [one for one in patients if "placed" in one]
    devices = Counter(
        "removed" if "bridged" in one else "migrated" if "migration" in one else "in_place"
        for one in holders
    )
    if holders:
        devices["taken_out"] += more_devices
    return unit(
        flow={word: number(patients, word) for word in (*STAGES, "stoma", "bridged")},
        complications={
            name: {
                "ever": number(patients, name),
                **{time: number(patients, f"{name} {time}") for time in TIMINGS},
            }
            for name in COMPLICATIONS
        },
        patients_end={end: number(patients, end) for end in ENDS},
        devices=devices.total(),
        devices_end=dict(devices),
        statements=[say(number(patients, *who), *who) for who in sentences],
        **({"groups": groups} if groups else {}),
    )


@settings(max_examples=40, deadline=None)
@given(
    st.lists(patient, max_size=25),
    st.integers(0, 3),
    st.integers(0, 2),
    st.lists(terms, max_size=4),
)
def test_any_patients_tallied_into_a_file_raise_nothing(patients, devices, unknown, sentences):
    made = tallied(patients, devices, unknown, sentences)
    assert clash_of(made) == []
    # Of a drawn group nothing may be known, which is told and is no fault.
    assert [f for f in found(made) if f.rule != "unit-nothing-known"] == []


# The smallest clash, against every table of few patients and every set of lines.

TWO_ENDS = plan("    died_later: died after 30 days\n    lost: lost to follow-up\n")
FEW = sorted(
    {
        facts(stage, "palliation", stoma, False, (timing, ()), end)
        for stage, stoma, timing, end in product(
            (0, 1, 2), (False, True), ((), ("early",), ("late",), TIMINGS), ("alive", "died_early")
        )
    },
    key=sorted,
)
MOST = 3
TABLES = [table for size in range(MOST + 1) for table in combinations_with_replacement(FEW, size)]
SMALL = [
    ("attempted",), ("placed",), ("stoma",), ("perforation",), ("perforation early",),
    ("perforation late",), ("alive",), ("died_early",), ("placed", "not stoma"),
    ("perforation early", "not perforation late"), ("not placed", "alive"),
    ("stoma", "perforation"),
    ("attempted", "not placed"), ("died_early", "not stoma", "not perforation"),
    ("alive", "not stoma"), ("not alive", "placed"),
]  # fmt: skip
COUNTED = np.array([[number(table, *who) for who in SMALL] for table in TABLES])


def fewest(sentences):
    """Return the size of the smallest set of sentences that no table of patients satisfies."""
    holds = []
    for place, low, high in sentences:
        holds.append((COUNTED[:, place] >= low) & (COUNTED[:, place] <= high))
    for size in range(1, len(holds) + 1):
        for chosen in combinations(holds, size):
            if not np.logical_and.reduce(chosen).any():
                return size
    return 0


sentence = st.tuples(
    st.integers(0, len(SMALL) - 1),
    st.sampled_from(["exactly", "at_least", "at_most"]),
    st.integers(0, 2),
)


@settings(max_examples=40, deadline=None)
@given(st.lists(sentence, min_size=3, max_size=8, unique_by=lambda one: one[0]))
def test_the_smallest_clash_is_as_small_as_any(sentences):
    # A solution needs no more patients than the lower limits sum to, so these tables are enough.
    assume(sum(many for _, how, many in sentences if how != "at_most") <= MOST)
    limits = [
        (place, 0 if how == "at_most" else many, 99 if how == "at_least" else many)
        for place, how, many in sentences
    ]
    said = [say(many, *SMALL[place], how=how) for place, how, many in sentences]
    clash = clash_of(unit(statements=said), TWO_ENDS)
    assert len(clash) == fewest(limits)


# Devices, against dealing them out one by one.


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.tuples(st.booleans(), st.booleans()), max_size=4),
    st.lists(st.integers(0, 3), min_size=4, max_size=4),
)
# A file over which the solver fails unless it leaves out its own simplifications.
@example([(False, False)] * 4, [3, 3, 0, 0])
def test_devices_hold_together_where_they_can_be_dealt_out(patients, numbers):
    ends = dict(zip(("in_place", "removed", "migrated", "taken_out"), numbers, strict=True))
    kinds = Counter(patients)
    who = {
        kind: ["placed", "bridged" if kind[0] else "not bridged",
               "migration" if kind[1] else "not migration"]
        for kind in product((False, True), repeat=2)
    }  # fmt: skip
    made = unit(devices_end=ends, statements=[say(kinds[kind], *who[kind]) for kind in who])
    assert (clash_of(made) == []) is can_be_dealt(patients, ends)


def can_be_dealt(patients, ends):
    """Say whether every device finds a patient and every patient a device, trying all ways."""
    may = {"removed": 0, "migrated": 1}
    devices = [end for end, many in ends.items() for _ in range(many)]
    held = {frozenset()}
    for end in devices:
        held = {
            so_far | {place}
            for so_far in held
            for place, had in enumerate(patients)
            if end not in may or had[may[end]]
        }
    return frozenset(range(len(patients))) in held
