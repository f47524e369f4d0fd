"""The tiny review is without any finding, so that what a test finds comes from its change."""


def test_the_tiny_review_is_clean(tiny):
    assert tiny.found() == []
    assert [study.study for study in tiny.read().studies] == ["2001-reed", "2010-sedge"]


def test_the_tiny_unit_is_clean(tiny):
    assert tiny.found_in_unit() == []
    assert tiny.read_unit().unit.unit == "glade"
