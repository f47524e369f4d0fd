"""Studies of the review that may be the unit's own."""

import pytest

from evsyn.audit.own_series import Likeness, own_alarms
from evsyn.wording.own_series import alarm_sentences
from tests.audit.made_up import palliation
from tests.extraction.builders import TinyReview


@pytest.fixture
def review(tmp_path):
    return TinyReview(tmp_path).read()


def alarms(review, **fields):
    made = palliation(1, 10)
    return own_alarms(made.model_copy(update=fields), review)


def test_a_shared_centre_raises_the_alarm_whatever_the_years(review):
    (found,) = alarms(review, centres=["alder  general"])
    assert found.study == "2001-reed"
    assert found.likeness is Likeness.CENTRE
    assert found.dates_meet is False


def test_a_shared_author_raises_it(review):
    (found,) = alarms(review, team=["Moss"])
    assert (found.likeness, found.shared) == (Likeness.AUTHOR, "Moss")


@pytest.mark.parametrize("team", [["Mos"], ["A"], ["Reedley"]])
def test_part_of_a_surname_does_not(review, team):
    assert alarms(review, team=team) == ()


def test_a_named_own_series_is_left_out_and_not_alarmed_about(review):
    assert alarms(review, centres=["Alder General"], own_studies=["2001-reed"]) == ()


def test_a_study_that_shares_patients_with_an_own_one(tmp_path):
    tiny = TinyReview(tmp_path)
    review = tiny.read()
    other = next(study for study in review.studies if study.study != "2001-reed")
    own = review.study("2001-reed")
    overlap = own.model_copy(update={"overlaps": [_overlap(other.study)]})
    studies = tuple(overlap if s is own else s for s in review.studies)
    made = type(review)(review.folder, review.plan, studies, ())
    (found,) = alarms(made, own_studies=["2001-reed"])
    assert (found.study, found.likeness) == (other.study, Likeness.OVERLAP)


def _overlap(name):
    from evsyn.extraction.study import Overlap

    return Overlap(study=name, kind="possible", reason="same wards")


def test_words(review):
    found = alarms(review, centres=["Alder General"])
    assert alarm_sentences(found, can_check=True) == (
        "Overlap alarm: Reed 2001 (2001-reed) names the unit's centre Alder General, in other "
        "years, and is still in the benchmark. If these are the unit's own patients, list it under "
        "'own_studies'.",
    )
    assert alarm_sentences((), can_check=True) == ()
    assert "could not be checked" in alarm_sentences((), can_check=False)[0]
