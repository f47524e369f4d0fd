"""Where a value was written."""

from evsyn.terms import Source


def test_in_a_sentence_and_as_plain_data():
    source = Source("2001-reed.yaml", 12, "all.perforation", "Table 2, p. 5")
    assert str(source) == "2001-reed.yaml, line 12"
    assert source.to_dict() == {
        "file": "2001-reed.yaml",
        "line": 12,
        "key_path": "all.perforation",
        "place": "Table 2, p. 5",
    }
