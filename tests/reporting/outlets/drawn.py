"""What a forest prints of each pool, band by band."""

from evsyn.figures.forest import forest_layout
from evsyn.figures.formats import A4
from evsyn.figures.svg import svg_text
from evsyn.reporting.forest import forest_of
from tests.reporting.outlets.bands import bands, svg_words
from tests.reporting.outlets.made import Lines, keys_of
from tests.reporting.page.made import review
from tests.reporting.page.read_html import parsed


def forest(name: str) -> Lines:
    """Yield the bands of each forest, by each stratum."""
    plan = review(name).plan
    for outcome in plan.outcomes:
        for stratum in plan.strata:
            layout = forest_layout(forest_of(review(name), outcome, stratum), A4)
            words = [
                word
                for number in range(len(layout.pages))
                for word in svg_words(parsed(svg_text(layout, number)))
            ]
            yield from bands(words, keys_of(name, outcome, stratum)).items()
