"""The words no plan may redefine are those the files use."""

from evsyn import terms
from evsyn.terms import Better, CountedBy, Covers, TextRead


def test_the_words_of_the_files():
    assert [str(word) for word in Better] == ["fewer", "more"]
    assert [str(word) for word in CountedBy] == ["patient", "procedure", "device"]
    assert [str(word) for word in TextRead] == ["full_text", "abstract", "second_hand"]
    assert [str(word) for word in Covers] == ["whole_study", "part"]
    assert (terms.AS_PRINTED, terms.NOT_STATED, terms.MIXED) == (
        "as_printed", "not_stated", "mixed",
    )  # fmt: skip
    assert (terms.UNPLACED, terms.OVERALL) == ("mixed_or_not_stated", "overall")


def test_every_public_name_is_there():
    for name in terms.__all__:
        assert getattr(terms, name) is not None
