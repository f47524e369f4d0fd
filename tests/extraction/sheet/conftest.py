"""The tiny review with its workbook."""

import pytest

from tests.extraction.builders import TinyReview
from tests.extraction.sheet.workbooks import Desk


@pytest.fixture
def tiny(tmp_path):
    folder = tmp_path / "tiny"
    folder.mkdir()
    return TinyReview(folder)


@pytest.fixture
def desk(tiny, tmp_path):
    return Desk(tiny.folder, tmp_path / "tiny.xlsx")
