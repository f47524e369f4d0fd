"""Parts of a plan in one line, and those offered to begin with."""

import pytest

from evsyn.extraction.plan import LabelledStratum, Window
from evsyn.extraction.starting.plan_parts import offered, outcome, stratum, window


def test_a_window_has_days_or_an_end_or_neither():
    assert window("30_days=within 30 days; 30") == (
        "30_days",
        {"label": "within 30 days", "days": 30},
    )
    assert window("stay=in hospital; until discharge")[1]["ends"] == "discharge"
    assert window("ever=at any time") == ("ever", {"label": "at any time"})
    assert window("day=on the day; 0 days")[1]["days"] == 0


def test_a_stratum_has_levels_with_or_without_words():
    name, made = stratum("intent=Intent: what it was for; for_good; bridge=bridge to surgery")
    assert name == "intent"
    assert made == {
        "label": "Intent",
        "asks": "what it was for",
        "levels": {"for_good": "for good", "bridge": "bridge to surgery"},
    }


def test_what_a_stratum_asks_stands_after_the_studies_state():
    assert stratum("kind=Kind: kind of compression; a; b")[1]["asks"] == "the kind of compression"
    assert stratum("kind=Kind: what was put on; a; b")[1]["asks"] == "what was put on"
    assert stratum("kind=Kind; a; b")[1]["asks"] == "which kind"


def test_a_year_divides_by_recruitment():
    assert stratum("era=Era; 2008") == ("era", {"label": "Era", "cut_year": 2008})


def test_an_outcome_without_windows_accepts_none():
    name, made = outcome("leak=Leak; leak; leaks; 1; attempted")
    assert (name, made["better"], made["windows"]) == ("leak", "fewer", "")


def test_what_is_offered_fits_the_records_of_a_plan():
    parts = offered()
    assert all(Window.model_validate(one) for one in parts["windows"].values())
    assert all(LabelledStratum.model_validate(one) for one in parts["strata"].values())
    assert set(parts["flow"]) <= set(parts["denominators"])
    with pytest.raises(ValueError, match="has no levels"):
        stratum("intent=Intent")
