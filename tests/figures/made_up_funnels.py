"""Made-up performance funnels for layout tests; no number here means anything."""

import random

from scipy import special

from evsyn.audit.funnel import FixedTarget
from evsyn.audit.overdispersion import overdispersion
from evsyn.audit.predictive import student
from evsyn.audit.range_by_size import range_by_size
from evsyn.audit.verdict import limits
from evsyn.figures.funnel import (
    FunnelContent,
    FunnelPoint,
    FunnelWords,
    Spot,
    cases_end,
    flag_spot,
    range_band,
    sizes_to,
    target_curves,
    target_flags,
)
from evsyn.figures.invented import Invented
from evsyn.figures.own_count import OwnCount
from evsyn.figures.strip import verdicts
from evsyn.pooling.answer import Centre
from evsyn.terms import Better, Source
from evsyn.wording.funnel import (
    flag_words,
    point_words,
    short_target_caption,
    target_caption,
)
from evsyn.wording.funnel_range import (
    beyond_words,
    range_caption,
    short_range_caption,
)
from tests.figures.made_up import NAMES, STATUS

LONG = "Alder-Bilberry-Campion-Dogwood-Eyebright-Foxglove-Gorse-Hornbeam-Ivyleaf"


def counts(
    number: int, *, rate: float = 0.06, spread: float = 0.5, seed: int = 3
) -> list[OwnCount]:
    """Return counts of units of many sizes, whose rates differ."""
    draw = random.Random(seed)
    found = []
    for _ in range(number):
        total = draw.choice((12, 18, 27, 41, 60, 85, 120, 190))
        own = special.expit(special.logit(rate) + draw.gauss(0, spread))
        found.append(OwnCount.exact(sum(draw.random() < own for _ in range(total)), total))
    return found


def names(number: int) -> list[str]:
    places = ("General", "Infirmary", "Cottage", "District", "Royal")
    return [f"{NAMES[i % 8]} {places[i // 8]}" for i in range(number)]


def around_target(
    told: list[OwnCount],
    labels: list[str] | None = None,
    *,
    rate: float = 0.06,
    invented: Invented = Invented.ALL,
) -> FunnelContent:
    """Return a funnel around a fixed target."""
    target, better = FixedTarget(rate), Better.FEWER if rate < 0.5 else Better.MORE
    labels = names(len(told)) if labels is None else labels
    points = []
    for i, (label, own) in enumerate(zip(labels, told, strict=True)):
        found = target_flags(own, target)
        points.append(
            FunnelPoint(
                label,
                own,
                point_words(own.possible, own.total),
                said="" if found is None else flag_words(found),
                spot=flag_spot(found),
                source=Source("unit.yaml", 10 + i),
            )
        )
    wide = None
    if all(own.is_exact for own in told):
        wide = overdispersion([own.possible[0] for own in told], [own.total for own in told], rate)
    end = cases_end(told)
    return FunnelContent(
        title="Performance funnel: perforation",
        subtitle=f"Around the target of {100 * rate:.1f}%, set by the Westmarch group.",
        better=better,
        centre=rate,
        points=tuple(points),
        cases_end=end,
        status_line=STATUS,
        caption=target_caption(target, len(told), wide),
        short_caption=short_target_caption(target, len(told), wide),
        invented=invented,
        words=FunnelWords(alert_key="alert line, 95%", alarm_key="alarm line, 99.8%"),
        curves=target_curves(target, end, is_alone=len(told) == 1, wide=wide),
        notes=("Fewer than 60 cases: no result can fall below the alert line.",),
    )


def around_range(
    told: list[OwnCount],
    labels: list[str] | None = None,
    *,
    rate: float = 0.06,
    is_judged: bool = True,
    invented: Invented = Invented.ALL,
) -> FunnelContent:
    """Return a funnel around the range of ordinary new units."""
    spread = student(Centre(float(special.logit(rate)), 0.12, 0.5), 17)
    labels = names(len(told)) if labels is None else labels
    points = []
    for i, (label, own) in enumerate(zip(labels, told, strict=True)):
        found = set()
        if is_judged and own.total is not None:
            found = set(verdicts(limits(spread.pmf(own.total)), own))
        said = beyond_words(found.pop()) if len(found) == 1 else ""
        points.append(
            FunnelPoint(
                label,
                own,
                point_words(own.possible, own.total),
                said=said,
                spot=Spot.BEYOND if said else Spot.PLAIN,
                source=Source("unit.yaml", 10 + i),
            )
        )
    end = cases_end(told)
    return FunnelContent(
        title="Performance funnel: perforation, palliation",
        subtitle="Around what 17 studies with 1,105 cases say of ordinary new units.",
        better=Better.FEWER if rate < 0.5 else Better.MORE,
        centre=rate,
        points=tuple(points),
        cases_end=end,
        status_line=STATUS,
        caption=range_caption(),
        short_caption=short_range_caption(),
        invented=invented,
        words=FunnelWords(),
        band=range_band(range_by_size(spread, sizes_to(end)), is_judged=is_judged),
    )
