"""A unit with a log as a fixture."""

import pytest

from tests.extraction.case_log.made_up import LogFolder


@pytest.fixture
def made(tmp_path):
    return LogFolder(tmp_path)
