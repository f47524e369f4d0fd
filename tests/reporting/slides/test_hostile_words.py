"""Words that would break out of a file, or cannot stand in one."""

from dataclasses import replace

import pytest

from evsyn.reporting.slides.about import _web
from tests.figures import made_up
from tests.reporting.slides import opened as look
from tests.reporting.slides.made_up_talks import forest_talk, text_talk

HOSTILE = [
    "<script>alert(1)</script> & </a:t></a:r><p:pic/>",
    "\"quoted\" 'and' ]]> &amp; &#x0; <!-- --> <?xml?>",
    "עברית والعربية with <b>markup</b>",
    "an emoji 🩺 and 👩🏽‍⚕️ joined",
    "control \x00\x01\x0b\x1f\x7f letters \ud800 \ufffe \u2028 end",
    "=1+1 | +cmd | @sum | _x0041_",
]


@pytest.mark.parametrize("said", HOSTILE)
def test_no_words_break_the_file(said):
    rows = [replace(row, label=f"{said} {i}") for i, row in enumerate(made_up.studies(3))]
    content = made_up.content(made_up.band(tuple(rows), title=said), title=said)
    made = forest_talk(content, foot=said, notes=(said, f"{said} again"))
    for root in look.xml_parts(made).values():
        assert root.xpath("count(//*[local-name()='pic' or local-name()='script'])") == 0
    assert look.faults(made) == []


@pytest.mark.parametrize("said", HOSTILE[:4])
def test_what_can_be_written_is_written_as_it_is(said):
    made = text_talk([said], title="Words", notes=(said,))
    slide = look.opened(made).slides[0]
    # A mark of direction may stand beside right-to-left words; it has no width.
    shown = slide.shapes[1].text_frame.text.replace("\u200e", "")
    kept = "".join(letter for letter in said if letter.isprintable() or letter == " ")
    assert "".join(shown.split()) == "".join(kept.split())
    assert "<" not in said or "<" in look.notes(slide)


def test_only_addresses_of_the_web_become_links():
    assert _web("https://doi.org/10.1000/x") == "https://doi.org/10.1000/x"
    for address in (
        "javascript:alert(1)",
        "file:///etc/passwd",
        'https://a"b',
        "https://é.example",
    ):
        assert _web(address) == ""
    made = text_talk(["Said."], address="https://doi.org/10.1000/x")
    slide = look.opened(made).slides[0]
    (number,) = slide.element.xpath(".//a:hlinkClick/@r:id")
    assert slide.part.rels[number].target_ref == "https://doi.org/10.1000/x"
    assert slide.part.rels[number].is_external
