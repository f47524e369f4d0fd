"""Parts printed in a paper should add up to the total printed beside them."""


def kept(tiny, parts, total):
    entry = f"sums: [{{what: sides, parts: {parts}, total: {total}, at: Table 1}}]\narms:\n"
    return tiny.reed("arms:\n", entry).found("sum-differs")


def test_a_sum_that_comes_out(tiny):
    assert kept(tiny, [9, 14, 73], 96) == []


def test_a_sum_that_does_not(tiny):
    # As printed in an abstract: 9, 14 and 73 of 97.
    (finding,) = kept(tiny, [9, 14, 73], 97)
    assert finding.message == "sides: 9 + 14 + 73 = 96, and the paper prints 97"
    assert (finding.source.key_path, finding.source.place) == ("sums.0", "Table 1")


def test_one_part_is_no_sum(tiny):
    entry = "sums: [{what: sides, parts: [9], total: 9}]\narms:\n"
    (finding,) = tiny.reed("arms:\n", entry).found("readable")
    assert finding.message == "'parts' must be a list with at least 2 '- ' items"
