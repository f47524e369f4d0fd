"""Pools, plans and units made by hand; every number here is invented unless a test says not."""

import math

from scipy import special

from evsyn.cells.cell import Cell, CellTable, LeftOut, Question
from evsyn.effects.intervals import clopper_pearson
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import Unit
from evsyn.pooling.answer import Centre, PoolAnswer, Reading, Row, Show
from evsyn.pooling.result import Pooled, Status
from evsyn.pooling.tables import PooledTable
from evsyn.terms import Interval, Source

MU = float(special.logit(0.074))


def reading(mu=MU, se=0.12, tau=0.6, *, low=0.3, high=1.0, larger=None, rho=None, k=30, mean=None):
    pooled = Pooled(
        model="binomial_normal",
        scale="logit",
        between="ml",
        interval="t",
        level=0.95,
        k=k,
        status=Status.POOLED,
        estimate=float(special.expit(mu)),
        low=float(special.expit(mu - 2 * se)),
        high=float(special.expit(mu + 2 * se)),
        estimate_on_scale=mu,
        se_on_scale=se,
        tau2=tau**2,
    )
    if mean is None:
        nodes, weights = special.roots_hermitenorm(60)
        mean = float(weights @ special.expit(mu + tau * nodes) / math.sqrt(2 * math.pi))
    return Reading(
        row=Row.EXACT if rho is None else Row.BETA_BINOMIAL,
        reasons=("fewer than 20 events or non-events in all",),
        pooled=pooled,
        centre=Centre(mu, se, tau),
        at_tau_low=Centre(mu, se, low),
        at_tau_high=Centre(mu, se, high),
        at_tau_hi=larger,
        mean=mean,
        rho=rho,
    )


def show_for(k):
    named = {0: Show.NOTHING, 1: Show.ONE, 2: Show.TWO, 3: Show.FEW, 4: Show.FEW}
    return named.get(k, Show.SOME if k < 10 else Show.MANY)


def answer(k=30, read=None, *, show=None, events=4, total=50, one_sided=None):
    show = show_for(k) if show is None else show
    if read is None and show.pooled:
        read = reading(k=k)
    crude = None
    if k:
        low, high = clopper_pearson([k * events], [k * total])
        crude = Interval(float(low[0]), float(high[0]), 0.95, "clopper_pearson")
    return PoolAnswer(
        events=(events,) * k,
        total=(total,) * k,
        show=show,
        crude=crude,
        one_sided=one_sided,
        rows={},
        reading=read,
    )


def cell(number, events=4, total=50, basis="attempted", window="30_days"):
    source = Source(f"study-{number}.yaml", 10)
    return Cell(
        study=f"study-{number}",
        label=f"Study {number}",
        year=1990 + number,
        events=events,
        total=total,
        basis=basis,
        window=window,
        marks=frozenset(),
        sources=(source,),
    )


def pooled(question, made=None, *, bases=None, windows=None, own=()):
    made = answer() if made is None else made
    default = "at_procedure" if question.outcome == "success" else "30_days"
    bases = ["attempted"] * made.k if bases is None else bases
    windows = [default] * made.k if windows is None else windows
    cells = tuple(
        cell(i, events, total, bases[i], windows[i])
        for i, (events, total) in enumerate(zip(made.events, made.total, strict=True))
    )
    left = tuple(
        LeftOut(name, name, 1, 20, "the unit's own series", Source(f"{name}.yaml", 3))
        for name in own
    )
    return PooledTable(CellTable(question, cells, left), made)


def plan():
    return Plan.model_validate(
        {
            "format": 1,
            "review": "made",
            "title": "Made for a test",
            "question": "How often?",
            "invented": True,
            "fixed_on": "2026-01-05",
            "search": "none",
            "denominators": {
                "attempted": "patients in whom it was attempted",
                "placed": "patients in whom it was placed",
            },
            "windows": {
                "at_procedure": {"label": "during the procedure", "days": 0},
                "7_days": {"label": "within 7 days", "days": 7},
                "30_days": {"label": "within 30 days", "days": 30},
                "follow_up": {"label": "up to the last follow-up"},
            },
            "outcomes": {
                "perforation": {
                    "label": "Perforation",
                    "event": "perforation",
                    "events": "perforations",
                    "better": "fewer",
                    "denominators": ["attempted", "placed"],
                    "windows": ["30_days", "7_days", "follow_up"],
                },
                "success": {
                    "label": "Technical success",
                    "event": "technical success",
                    "events": "technical successes",
                    "better": "more",
                    "denominators": ["attempted"],
                    "windows": ["at_procedure", "7_days"],
                },
                "reblocked": {
                    "label": "Reobstruction",
                    "event": "reobstruction",
                    "events": "reobstructions",
                    "better": "fewer",
                    "denominators": ["placed"],
                    "do_not_pool": "follow-up differs from series to series.",
                },
            },
            "strata": {
                "intent": {
                    "label": "Intent",
                    "asks": "what it was for",
                    "levels": {"palliation": "palliation", "bridge": "bridge to surgery"},
                },
                "delivery": {
                    "label": "Delivery",
                    "asks": "how it was delivered",
                    "levels": {"over_wire": "over a wire", "through": "through the scope"},
                },
            },
        },
        strict=False,
    )


def count(events, total, of="attempted", window="30_days"):
    return {"events": events, "total": total, "of": of, "window": window}


def group(patients, outcomes, **strata):
    return {"strata": strata, "patients": patients, "outcomes": outcomes}


def unit(*groups, **fields):
    written = {
        "format": 1,
        "unit": "made",
        "label": "A made unit",
        "invented": True,
        "period": {"from": "2020-01", "to": "2023-12"},
        "frozen_on": "2024-03-01",
        "complete": True,
        "follow_up": "30 days",
        "counted_by": "patient",
        "expected_cases": {"count": 50, "according_to": "stock records"},
        "groups": list(groups),
    }
    return Unit.model_validate({**written, **fields}, strict=False)


def palliation(events, total, outcome="perforation", *, own=(), **kinds):
    counted = {outcome: count(events, total, **kinds)}
    return unit(group(total, counted, intent="palliation"), own_studies=list(own))


PALLIATION = Question("perforation", "intent", "palliation")
