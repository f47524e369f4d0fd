"""Later events are patients not yet counted early."""

from types import SimpleNamespace

import pytest

from evsyn.extraction.unit import Complication
from evsyn.wording.late_events import late_words

PLAN = SimpleNamespace(course=SimpleNamespace(early_days=30))


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ({"early": 3, "late": 1, "ever": 4}, "3 within 30 days; 1 more later"),
        # One of the two late ones had an early one as well: 3 + 2 - 1 patients in all.
        ({"early": 3, "late": 2, "ever": 4}, "3 within 30 days; 1 more later"),
        ({"early": 3, "late": 1, "ever": 3}, ""),
        ({"early": 3, "late": 0}, ""),
        ({"late": 2}, "2 later than 30 days"),
        ({"early": 3}, ""),
    ],
)
def test_who_had_it_early_is_not_counted_again(told, words):
    unit = SimpleNamespace(complications={"leak": Complication.model_validate(told)})
    assert late_words(unit, "leak", PLAN) == words
    assert late_words(unit, "another", PLAN) == ""
