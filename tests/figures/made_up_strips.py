"""Made-up count strips for layout tests; no number here means anything."""

from scipy import special

from evsyn.audit.predictive import student
from evsyn.audit.verdict import limits
from evsyn.figures.invented import Invented
from evsyn.figures.own_count import OwnCount
from evsyn.figures.strip import Strip, StripContent, StripWords, columns, verdicts
from evsyn.pooling.answer import Centre
from evsyn.terms import Better, Source
from evsyn.wording.strip import (
    STRIP_CAPTION,
    STRIP_CAPTION_SHORT,
    fewer_words,
    more_words,
    not_drawn_words,
    own_words,
    verdict_words,
)
from tests.figures.made_up import STATUS

LONG = "Alder-Bilberry-Campion-Dogwood-Eyebright-Foxglove-Gorse-Hornbeam-Ivyleaf"
NOTICED = "A unit at twice the typical risk (14.8%) would be noticed with a chance of 2.7%."


def strip(
    own: OwnCount,
    cases: int = 27,
    *,
    rate: float = 0.07,
    tau: float = 0.5,
    k: int = 17,
    title: str = "Palliation",
    is_judged: bool = True,
    hue: int = 0,
    line: int = 41,
) -> Strip:
    """Return a strip of ordinary new units at some rate and spread."""
    mu = float(special.logit(rate))
    ordinary = student(Centre(mu, 0.12, tau), k).pmf(cases)
    average = student(Centre(mu, 0.12, 0.0), k).pmf(cases)
    reach = limits(ordinary, more=is_judged, fewer=is_judged)
    drawn = columns(ordinary, average, reach, own, is_judged=is_judged)
    below, above = ordinary[: drawn.first].sum(), ordinary[drawn.last + 1 :].sum()
    said = verdict_words(verdicts(reach, own), reach, Better.FEWER)
    size = f"{cases} cases against {k} studies; windows differ"
    beyond = not_drawn_words(drawn.first, drawn.last, cases, float(below), float(above))
    return Strip(
        title,
        own,
        own_words(own.possible, own.total),
        f"{said} {NOTICED}",
        said,
        columns=drawn,
        size=f"{size}; {beyond}" if beyond else size,
        more=more_words(reach, cases),
        fewer=fewer_words(reach),
        hue=hue,
        source=Source("unit-hollowmere.yaml", line, "groups.0"),
    )


def exact(events: int, cases: int, **how: object) -> Strip:
    return strip(OwnCount.exact(events, cases), cases, **how)


def uncompared(own: OwnCount, title: str = "All cases") -> Strip:
    why = "No comparison: one study says nothing about how far units differ. " * 2
    return Strip(title, own, own_words(own.possible, own.total), why.strip())


def strips(*shown: Strip, invented: Invented = Invented.ALL, **changes: str) -> StripContent:
    said = {
        "title": "Perforation: our counts among those of ordinary new units",
        "subtitle": "Hollowmere General, 2022-04 to 2026-03. Number of perforations.",
        "status_line": STATUS,
        "caption": STRIP_CAPTION,
        "short_caption": STRIP_CAPTION_SHORT,
    } | changes
    return StripContent(strips=shown, invented=invented, words=StripWords(), **said)
