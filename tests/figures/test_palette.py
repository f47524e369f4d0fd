"""Colours can be read, and told apart in grey."""

import pytest

from evsyn.figures import palette
from evsyn.figures.palette import BANDS, BandColours, band_colours


def luminance(colour: str) -> float:
    """Relative luminance, Web Content Accessibility Guidelines 2.1 (from memory)."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_contrast_of_black_on_white_is_21() -> None:
    # Web Content Accessibility Guidelines 2.1, definition of contrast ratio: 1 to 21.
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)


def under_the_watermark(colour: str) -> str:
    """Mix a colour with the watermark over it, channel by channel."""
    share = palette.WATERMARK_OPACITY
    pairs = [(int(colour[i : i + 2], 16), int(palette.WATERMARK[i : i + 2], 16)) for i in (1, 3, 5)]
    return "#" + "".join(
        f"{round((1 - share) * below + share * over):02X}" for below, over in pairs
    )


@pytest.mark.parametrize("band", BANDS)
@pytest.mark.parametrize("text", [palette.INK, palette.DIM])
def test_text_has_the_contrast_of_level_aa(text: str, band: BandColours) -> None:
    # 4.5 to 1 for text: Web Content Accessibility Guidelines 2.1, criterion 1.4.3.
    for ground in (palette.PAPER, band.wash):
        assert contrast(text, ground) >= 4.5
        assert contrast(under_the_watermark(text), under_the_watermark(ground)) >= 4.5
        assert contrast(text, under_the_watermark(ground)) >= 4.5


@pytest.mark.parametrize("band", BANDS)
def test_band_titles_have_the_contrast_of_level_aa(band: BandColours) -> None:
    assert contrast(band.strong, band.wash) >= 4.5
    assert contrast(*map(under_the_watermark, (band.strong, band.wash))) >= 4.5


def test_invented_strip_and_unit_row_can_be_read() -> None:
    assert contrast(palette.INVENTED_INK, palette.INVENTED_GROUND) >= 4.5
    assert contrast(palette.UNIT, palette.PAPER) >= 4.5


@pytest.mark.parametrize("band", BANDS)
def test_marks_stand_out_of_their_ground_in_grey(band: BandColours) -> None:
    # 3 to 1 for graphics: Web Content Accessibility Guidelines 2.1, criterion 1.4.11.
    for ground in (band.pale, band.wash, palette.PAPER):
        assert contrast(band.strong, ground) >= 3
        assert contrast(*map(under_the_watermark, (band.strong, ground))) >= 3
    assert contrast(palette.PAPER, band.strong) >= 3
    assert contrast(band.pale, band.wash) >= 1.5


def test_watermark_can_be_seen_on_every_ground() -> None:
    # 1.1 to 1: pale, yet told apart from paper by eye; common practice, no source.
    for ground in (palette.PAPER, *(c for band in BANDS for c in (band.wash, band.pale))):
        assert contrast(ground, under_the_watermark(ground)) >= 1.1


def test_legend_of_several_bands_is_grey_and_stands_out() -> None:
    red, green, blue = (int(palette.NEUTRAL.strong[i : i + 2], 16) for i in (1, 3, 5))
    assert max(red, green, blue) - min(red, green, blue) < 24
    assert palette.NEUTRAL.strong not in {band.strong for band in BANDS}
    assert contrast(palette.NEUTRAL.strong, palette.PAPER) >= 3
    assert contrast(palette.NEUTRAL.strong, palette.NEUTRAL.pale) >= 3


def test_colours_repeat_after_the_last_band() -> None:
    assert band_colours(0) == band_colours(len(BANDS))
    assert len(set(BANDS)) == len(BANDS)
