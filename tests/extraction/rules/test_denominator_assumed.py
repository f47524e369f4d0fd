"""A total the text does not tie to its events is an assumption."""


def test_an_assumed_total(tiny):
    tiny.sedge("events: 2, total: 30,", "events: 2, total: 30, assumed: true,")
    (finding,) = tiny.found("denominator-assumed")
    assert finding.message == "the paper does not tie 2 to the total 30"
    assert finding.source.key_path == "palliation.perforation"


def test_a_total_that_is_tied(tiny):
    tiny.sedge("events: 2, total: 30,", "events: 2, total: 30, assumed: false,")
    assert tiny.found("denominator-assumed") == []
