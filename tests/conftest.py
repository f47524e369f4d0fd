"""Shared by all tests: how close a computed value must come to a printed one."""

import os

import pytest
from hypothesis import settings

# The machine may be busy: what is promised is the answer and not the time it takes. A change is
# judged on the same examples every time; `make explore` looks for new ones.
settings.register_profile("evsyn", deadline=None, derandomize=True)
settings.register_profile("explore", deadline=None)
settings.load_profile(os.environ.get("EVSYN_EXAMPLES", "evsyn"))


def within_print(text, units=0.5):
    """Match a value to ``units`` of the last decimal that was printed."""
    decimals = len(text.partition(".")[2])
    return pytest.approx(float(text), rel=0, abs=units * 10.0**-decimals * (1 + 1e-9))


@pytest.fixture
def printed():
    return within_print
