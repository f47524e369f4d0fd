"""Ten set questions are answered by the page alone."""

import html
import re
from pathlib import Path

import pytest
import yaml

from tests.reporting.page.made import page

HERE = Path(__file__).parent
ASKED = yaml.safe_load((HERE / "questions.yaml").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def words():
    """The words of the page, as a reader without scripts sees them."""
    seen = re.sub(r"<(script|style)\b.*?</\1>", " ", page(), flags=re.S)
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", seen)).split())


def test_ten_are_asked():
    assert len(ASKED) == 10


@pytest.mark.parametrize("asked", ASKED, ids=lambda asked: asked["question"][:40])
def test_the_page_answers_it(asked, words):
    answers = asked["answer"] if isinstance(asked["answer"], list) else [asked["answer"]]
    for answer in answers:
        assert " ".join(answer.split()) in words
