"""What a check found."""

import json

import pytest

from evsyn.terms import Answer, Finding, Severity, Source

PLACE = Source("a.yaml", 3, "x", "p. 5")


def finding(severity):
    return Finding("some-rule", severity, PLACE, "something is odd", "Look again.")


@pytest.mark.parametrize(
    ("severity", "is_open"),
    [(Severity.FAULT, False), (Severity.DOUBT, True), (Severity.NOTE, False)],
)
def test_only_a_doubt_is_open(severity, is_open):
    assert finding(severity).is_open is is_open


def test_an_answered_doubt_is_no_longer_open_and_still_a_doubt():
    doubt = finding(Severity.DOUBT)
    answered = doubt.answered(Answer("misprint", "XY", "2026-01-06"))
    assert not answered.is_open
    assert answered.severity is Severity.DOUBT
    assert doubt.answer is None


def test_as_plain_data():
    answered = finding(Severity.DOUBT).answered(Answer("misprint", "XY", "2026-01-06"))
    assert json.loads(json.dumps(answered.to_dict())) == {
        "rule": "some-rule",
        "severity": "doubt",
        "message": "something is odd",
        "cure": "Look again.",
        "source": {"file": "a.yaml", "line": 3, "key_path": "x", "place": "p. 5"},
        "answer": {"reason": "misprint", "by": "XY", "on": "2026-01-06"},
    }
    assert finding(Severity.NOTE).to_dict()["answer"] is None
