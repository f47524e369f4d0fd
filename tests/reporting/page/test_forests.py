"""Which forest plots stand on the page, in which division, and without which series."""

import pytest

from evsyn.reporting.report.foremost import foremost_strata
from evsyn.terms import Audience
from tests.reporting.page.made import content, page, unit_page
from tests.reporting.page.read_html import parsed


def plots(document, outcome):
    root = parsed(document)
    names = [f.attributes["id"] for f in root.all("figure")]
    return [root.by_id(name) for name in names if name.startswith(f"forest-{outcome}")]


# Of 36 published studies with perforations, 22 state one intent and 4 one generation of device:
# counted by hand in the extracts.
@pytest.mark.slow
def test_published_perforation_is_drawn_by_intent_first_and_the_other_plot_is_folded():
    first, other = plots(page("published"), "perforation")
    assert "Palliation" in first.text
    assert other.attributes["id"] == "forest-perforation-by-device_generation"
    fold = parsed(page("published")).by_id("forest-perforation-by-device_generation-fold")
    assert fold.tag == "details"
    assert "open" not in fold.attributes


def test_levels_that_can_be_compared_go_first_and_those_without_a_study_are_not_offered():
    held = {item.name: item for item in content().outcomes}
    plan = content().review.plan

    def order(outcome):
        return [one.name for one in foremost_strata(held[outcome], plan)]

    assert order("perforation") == ["intent", "device_generation"]
    published = {item.name: item for item in content("published").outcomes}
    found = foremost_strata(published["bleeding"], content("published").review.plan)
    assert [one.name for one in found] == ["intent"]


def test_a_figure_without_the_units_own_series_says_so_and_why_its_numbers_differ():
    own = "2018-zinnia"
    inside = unit_page(Audience.INSIDE)
    for figure in plots(inside, "perforation"):
        (said,) = figure.all("figcaption")
        assert f"without our own series ({own})" in said.text
        assert "pool all 26 studies" in said.text
        for drawing in figure.all("div"):
            assert f"Without our own series ({own})" in " ".join(drawing.text.split())
    for other in (page(), unit_page(Audience.OUTSIDE)):
        assert "our own series" not in parsed(other).by_id("outcomes").text
