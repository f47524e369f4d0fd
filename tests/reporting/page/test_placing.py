"""A typed count is placed by the page's script as the audit places it."""

import json
import shutil
import subprocess
from dataclasses import replace
from functools import cache, partial

import numpy as np
import pytest
from scipy import stats

from evsyn.audit.comparison import compare
from evsyn.audit.reasons import no_verdict
from evsyn.audit.standing import standings
from evsyn.extraction.load import read_unit
from evsyn.pooling.review import answer_questions, questions
from evsyn.reporting.page.placing import placing_fields
from evsyn.reporting.page.scripts import script_text
from evsyn.terms import Better
from evsyn.wording.audit_verdict import verdict_sentence
from evsyn.wording.numbers import percent
from evsyn.wording.placing import PLACING
from tests.reporting.page.made import UNIT_FILE, content, review

FIELDS = placing_fields(content())
LEVELS = {
    level["key"]: (outcome, level)
    for outcome in FIELDS["outcomes"]
    for level in outcome["levels"]
    if "x" in level
}
PLAN = review().plan
POOLED = answer_questions(review(), questions(PLAN))
BY_KEY = {question.key: pooled for question, pooled in POOLED.items()}
COUNTS = [(0, 1), (1, 1), (0, 20), (4, 8), (5, 20), (8, 40), (12, 40), (100, 100), (3, 400)]


@pytest.fixture(scope="module")
def placed():
    """What the script makes of every count at every level, without a browser."""
    node = shutil.which("node")
    if node is None:
        pytest.skip("no node found; the script's arithmetic is tested in a browser only")
    asked = [
        {"key": key, "x": events, "n": cases, "outcome": outcome, "level": level}
        for key, (outcome, level) in LEVELS.items()
        for events, cases in COUNTS
    ]
    program = f"""
    {script_text().partition("// What the page does")[0]}
    const say = saying({json.dumps(PLACING)});
    const asked = JSON.parse(require("fs").readFileSync(0, "utf8"));
    console.log(JSON.stringify(asked.map((one) => {{
      const found = placing.place(one.x, one.n, one.level, {FIELDS["tail"]});
      return {{ ...found, said: say.sentences(one.x, one.n, one.outcome, one.level, found) }};
    }})));
    """
    done = subprocess.run(
        [node, "-e", program], input=json.dumps(asked), capture_output=True, text=True, check=True
    )
    told = json.loads(done.stdout)
    return {(one["key"], one["x"], one["n"]): found for one, found in zip(asked, told, strict=True)}


@cache
def engine(key, events, cases):
    outcome, level = LEVELS[key]
    return compare(
        events,
        cases,
        BY_KEY[key].answer,
        better=Better(outcome["better"]),
        years=1,
        more=level["more"],
        fewer=level["fewer"],
    )


def test_tails_range_and_verdict_are_the_engines(placed):
    assert len(placed) > 50
    for (key, events, cases), found in placed.items():
        made = engine(key, events, cases)
        close = partial(pytest.approx, abs=5e-6)
        assert found["atLeast"] == close(made.ordinary.tail_at_least)
        assert found["atMost"] == close(made.ordinary.tail_at_most)
        assert found["same"] == close(made.ordinary.same)
        if made.limits.first_more is not None:
            assert found["chanceMore"] == close(made.limits.chance_more)
        if made.limits.last_fewer is not None:
            assert found["chanceFewer"] == close(made.limits.chance_fewer)
        assert (found["low"], found["high"]) == (made.limits.low, made.limits.high)
        assert found["firstMore"] == made.limits.first_more
        assert found["lastFewer"] == made.limits.last_fewer
        named = {"more": "more_than_the_range", "fewer": "fewer_than_the_range"}
        named |= {"within": "within_the_range", "none": "no_verdict"}
        assert named[found["verdict"]] == made.verdict


def test_below_five_studies_there_is_no_verdict(placed):
    few = [found for (key, _, _), found in placed.items() if LEVELS[key][1]["k"] < 5]
    assert few
    assert {found["verdict"] for found in few} == {"none"}
    assert {found["why"] for found in few} == {"few"}
    assert all("so few studies" in found["said"][2] for found in few)


# Clopper and Pearson, Biometrika 1934;26:404-413, by the beta quantiles of scipy.
def test_the_interval_of_the_share_is_the_exact_one(placed):
    for (_, events, cases), found in placed.items():
        low = stats.beta.ppf(0.025, events, cases - events + 1) if events else 0.0
        high = stats.beta.ppf(0.975, events + 1, cases - events) if events < cases else 1.0
        assert found["interval"]["low"] == pytest.approx(low, abs=1e-9)
        assert found["interval"]["high"] == pytest.approx(high, abs=1e-9)


# The one-sided limit of Clopper and Pearson by scipy: a count of none or all has one side alone.
def test_none_and_all_have_their_one_sided_limit(placed):
    for (_, events, cases), found in placed.items():
        said = found["said"][1]
        if 0 < events < cases:
            assert said == ""
        elif events == 0:
            assert f"up to {percent(stats.beta.ppf(0.95, 1, cases))} remain possible" in said
        else:
            assert f"down to {percent(stats.beta.ppf(0.05, cases, 1))} remain possible" in said


def test_the_sentence_is_the_audits_up_to_what_it_could_have_shown(placed):
    unit = read_unit(UNIT_FILE, PLAN).unit
    (some, *_) = standings(unit.model_copy(update={"own_studies": []}), POOLED, PLAN)
    compared = 0
    for (key, events, cases), found in placed.items():
        made, pooled = engine(key, events, cases), BY_KEY[key]
        outcome, level = LEVELS[key]
        standing = replace(
            some,
            events=events,
            total=cases,
            better=Better(outcome["better"]),
            reason=no_verdict(made, pooled, cases),
            differs=(),
        )
        if level.get("mix"):
            assert found["why"] in ("mix", "few", "spread")
            continue
        ours = found["said"][2].replace(level["marks"], "").rstrip(".")
        assert verdict_sentence(standing, made).startswith(ours)
        compared += found["verdict"] != "none"
    assert compared > 20


def test_the_average_uses_the_mean_over_settings(placed):
    for (key, events, cases), found in placed.items():
        expected = engine(key, events, cases).expected_count
        assert f" is {expected:.1f} " in found["said"][3]


def test_what_to_bear_in_mind_is_said(placed):
    mixed = next(key for key, (_, level) in LEVELS.items() if level["marks"])
    assert "differ" in " ".join(placed[mixed, 5, 20]["said"])
    vague = next(key for key in LEVELS if key.endswith("mixed_or_not_stated"))
    assert any("mixed or unstated kind" in text for text in placed[vague, 5, 20]["said"])


@pytest.mark.slow
def test_a_pool_that_saw_no_spread_uses_the_larger_one_and_says_so():
    levels = [
        x for outcome in placing_fields(content("published"))["outcomes"] for x in outcome["levels"]
    ]
    larger = [level for level in levels if level.get("larger")]
    assert larger
    for level in larger:
        assert any("Next to no spread was seen" in text for text in level["remarks"])


def test_a_level_without_a_pool_says_why():
    told = {
        level["key"]: level["remarks"]
        for outcome in FIELDS["outcomes"]
        for level in outcome["levels"]
        if "x" not in level
    }
    assert any("does not pool" in text for text in told["reobstruction/intent=palliation"])
    for key, remarks in told.items():
        assert remarks, key


def test_all_studies_come_first_without_a_verdict_and_say_that_case_mix_matters(placed):
    for outcome in FIELDS["outcomes"]:
        first, *others = outcome["levels"]
        assert first["key"].endswith("/overall")
        assert all("=" in level["key"] for level in others)
        if "x" in first:
            assert "case mix matters" in first["remarks"][0]
    wholes = [found for (key, _, _), found in placed.items() if key.endswith("/overall")]
    assert {found["verdict"] for found in wholes} == {"none"}
    assert all("No verdict" in found["said"][2] for found in wholes)


def test_no_level_without_a_study_and_no_era_is_offered():
    for outcome in FIELDS["outcomes"]:
        for level in outcome["levels"]:
            assert BY_KEY[level["key"]].answer.k
    assert not any("era=" in key for key in LEVELS)


def test_weights_are_a_distribution():
    for _, level in LEVELS.values():
        assert np.sum(level["w"]) == pytest.approx(1, abs=1e-7)
        assert np.all(np.diff(level["x"]) >= 0)
