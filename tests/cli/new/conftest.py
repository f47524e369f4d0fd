"""The tiny review on disk, with its schemas."""

import pytest

from evsyn.extraction.schema.folder import schema_texts
from tests.extraction.builders import TinyReview


@pytest.fixture
def review(tmp_path):
    folder = tmp_path / "a review"
    (folder / "schema").mkdir(parents=True)
    tiny = TinyReview(folder)
    for name, text in schema_texts(tiny.read().plan).items():
        (folder / "schema" / name).write_text(text, encoding="utf-8")
    return folder
