"""The tiny review as a fixture."""

import pytest

from tests.extraction.builders import TinyReview


@pytest.fixture
def tiny(tmp_path):
    return TinyReview(tmp_path)
