"""Pages turn where they may, and lose no strip."""

import pytest

from evsyn.figures.flow import Block, even_pages, stretched, total_height, turned


def continued(band: int) -> Block:
    return Block(5, band=band, keep=True)


def rows(number: int, band: int = 0) -> list[Block]:
    title = Block(5, band=band, keep=True)
    return [title, *(Block(10, band=band, stretches=True) for _ in range(number))]


def test_all_rows_stand_on_some_page_within_its_height() -> None:
    blocks = [*rows(30), Block(4), *rows(17, band=1)]
    pages = turned(blocks, 100, continued)
    assert all(total_height(page) <= 100 for page in pages)
    assert sum(block.stretches for page in pages for block in page) == 47


def test_a_page_starts_with_a_title_and_ends_with_a_band() -> None:
    for page in turned([*rows(9), Block(4), *rows(9, band=1)], 100, continued):
        assert page[0].keep
        assert page[-1].band is not None


def test_strips_that_belong_together_move_together() -> None:
    last = [Block(10, band=0, keep=True) for _ in range(3)]
    pages = turned([*rows(7), *last, Block(10, band=0)], 100, continued)
    assert [len(page) for page in pages] == [8, 5]


def test_a_run_higher_than_the_page_is_cut_all_the_same() -> None:
    blocks = [Block(10, band=0, keep=True) for _ in range(30)]
    pages = turned(blocks, 100, continued)
    assert sum(block.height == 10 for page in pages for block in page) == 30


def test_even_pages_lose_nothing_and_are_as_few() -> None:
    for first in range(1, 30):
        blocks = [*rows(first), Block(4), *rows(17, band=1), Block(4), *rows(2, band=2)]
        pages = even_pages(blocks, 100, continued)
        assert len(pages) <= len(turned(blocks, 100, continued))
        assert all(0 < total_height(page) <= 100 for page in pages)
        kept = [block for page in pages for block in page if block.stretches]
        assert kept == [block for block in blocks if block.stretches]
        for page in pages:
            assert page[0].keep
            assert page[-1].band is not None


def test_no_page_is_a_remnant_and_bands_stay_whole_where_they_can() -> None:
    pages = even_pages(rows(10), 100, continued)
    assert [sum(block.stretches for block in page) for page in pages] == [5, 5]
    # Full pages would hold 9 of the first band and then take the second apart.
    whole = even_pages([*rows(8), Block(4), *rows(5, band=1)], 100, continued)
    assert [{block.band for block in page} for page in whole] == [{0}, {1}]
    assert len(turned([*rows(8), Block(4), *rows(5, band=1)], 100, continued)) == 2


def test_free_room_goes_to_the_rows_up_to_a_limit() -> None:
    assert stretched(rows(4), 65, 3) == pytest.approx([5, 13, 13, 13, 13])
    assert stretched(rows(4), 49, 3) == pytest.approx([5, 11, 11, 11, 11])
    assert stretched(rows(4), 20, 3) == pytest.approx([5, 10, 10, 10, 10])
