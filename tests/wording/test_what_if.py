"""What stands ahead of a changed answer, and what is set side by side."""

from evsyn.pooling.what_if import CountChange
from evsyn.wording.what_if import before_and_after, comes_in_sentence, what_if_line
from tests.wording.test_disputed import POOLS


def test_every_change_is_named_and_the_mark_stands_first() -> None:
    change = CountChange("a", "o", 6, 1052)
    assert what_if_line([("Alder 1996", "leak", change)], ["Bilberry 1998"]) == (
        "WHAT IF: Alder 1996 takes 6 of 1,052 for leak; Bilberry 1998 is left out. What follows is "
        "not the review's own answer."
    )


def test_who_comes_in_is_named() -> None:
    assert comes_in_sentence(["A", "B"]) == (
        "A and B are pooled only then, because they share patients with a study left out."
    )


def test_what_does_not_exist_is_not_written_as_a_number() -> None:
    lines = before_and_after(POOLS["two"].answer)
    assert (lines["Count"], lines["Read this"], lines["A unit can be placed"]) == (
        "3 of 40",
        "none",
        "no",
    )
    few = before_and_after(POOLS["three"].answer)
    assert few["Read this"] != "none"
    assert (few["Range for a new setting"], few["Range not excluded"]) == ("none given", "")


def test_a_range_that_so_few_studies_cannot_exclude_is_set_beside() -> None:
    lines = before_and_after(POOLS["five, alike"].answer)
    second = POOLS["five, alike"].answer.second_prediction
    assert second is not None
    assert lines["Range not excluded"].startswith(f"{100 * second.low:.1f}% to ")
    assert lines["Spread (tau, log-odds)"] == "0.00"
    assert lines["A unit can be placed"] == "yes"
