"""Every count needs its place in the paper."""


def test_a_count_without_a_place(tiny):
    tiny.reed("        at: Table 2, p. 5\n        printed", "        printed")
    (finding,) = tiny.found("place-missing")
    assert finding.message == "4 of 52 has no place in the paper"


def test_an_empty_place_is_none(tiny):
    tiny.reed("        at: Table 2, p. 5\n        printed", "        at:\n        printed")
    assert len(tiny.found("place-missing")) == 1


def test_a_place(tiny):
    assert tiny.found("place-missing") == []
