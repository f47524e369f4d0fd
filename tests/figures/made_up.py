"""Made-up content for layout tests: shapes of reviews, and no number that means anything."""

import random

from evsyn.effects.intervals import clopper_pearson
from evsyn.figures.forest import (
    Band,
    ForestContent,
    ForestWords,
    Invented,
    StudyLine,
    Summary,
    unit_line,
)
from evsyn.pooling.answer import Show
from evsyn.terms import Better, Source

NAMES = ("Alder", "Bilberry", "Campion", "Dogwood", "Eyebright", "Foxglove", "Gorse", "Hornbeam")
SENTENCE = (
    "Perforation, {group}: a typical setting sees 5.3% (3.6% to 7.9%), 96 of 1,204 in 18 studies, "
    "by the exact binomial-normal model; DerSimonian-Laird, which print uses, gives 6.9% (5.0% to "
    "9.4%). The rate of an ordinary new setting may lie anywhere from 1.0% to 22.0%."
)
STATUS = (
    "INVENTED DATA: perforation of colonic stents in Westmarch; search: none: chosen papers; read "
    "from abstract or second hand: 4 of 60; second reader: 12 of 60; open doubts: 3; plan fixed "
    "2026-01-04, before the first extract."
)


def study(
    events: int,
    total: int,
    *,
    label: str = "Alder 2009",
    weight: float | None = 0.2,
    marks: str = "",
    file: str = "2009-alder.yaml",
    line: int = 23,
) -> StudyLine:
    low, high = clopper_pearson([events], [total])
    source = Source(file, line, "arms.stent.outcomes.perforation", "Table 2, p. 5")
    said = "total assumed" if marks else ""
    limits = (float(low[0]), float(high[0]))
    return StudyLine(
        label,
        2009 if "2009" in label else None,
        events,
        total,
        *limits,
        weight,
        marks,
        said,
        (source,),
    )


def studies(number: int, *, seed: int = 7, share: float = 0.06) -> tuple[StudyLine, ...]:
    draw = random.Random(seed)
    rows = []
    for i in range(number):
        total = draw.choice((8, 12, 25, 40, 52, 80, 120, 250))
        rate = min(0.98, max(0.0, draw.gauss(share, share * (1 - share) * 0.6)))
        events = sum(draw.random() < rate for _ in range(total))
        name = f"{NAMES[i % len(NAMES)]} {1995 + i % 29}"
        rows.append(
            study(
                events,
                total,
                label=name,
                weight=total / 4000,
                marks=("", "", "a", "ad")[i % 4],
                file=f"{1995 + i % 29}-{NAMES[i % len(NAMES)].lower()}-{i}.yaml",
                line=20 + i,
            )
        )
    return tuple(rows)


def band(
    lines: tuple[StudyLine, ...],
    *,
    title: str = "Palliation",
    estimate: float = 0.06,
    show: Show = Show.MANY,
    apart: bool = True,
    sentence: str = SENTENCE,
    unit: bool = False,
    wider: bool = False,
) -> Band:
    headline = Summary("DerSimonian-Laird", estimate * 1.2, estimate * 0.8, estimate * 1.5)
    reading = Summary("exact model", estimate, estimate * 0.6, estimate * 1.6)
    if estimate > 0.5:
        headline = Summary("DerSimonian-Laird", estimate * 0.98, estimate * 0.93, estimate * 1.01)
        reading = Summary("exact model", estimate, estimate * 0.94, 0.99)
    events, total = sum(row.events for row in lines), sum(row.total for row in lines)
    pooled = show.pooled
    return Band(
        title=title,
        counts=f"{events:,} of {total:,} in {len(lines)} studies",
        lines=lines,
        show=show,
        sentence=sentence.format(group=title.lower()),
        headline=headline if pooled else None,
        reading=reading if pooled and apart else None,
        reading_is_headline=pooled and not apart,
        prediction=((estimate * 0.2, estimate * 3) if estimate < 0.3 else (0.7, 0.999))
        if show.verdict
        else None,
        wider_prediction=(estimate * 0.1, estimate * 4) if wider else None,
        unit=unit_line("Hollowmere", 2, 31, Source("unit-hollowmere.yaml", 14)) if unit else None,
    )


def content(
    *bands: Band, invented: Invented = Invented.ALL, better: Better = Better.FEWER, **changes: str
) -> ForestContent:
    said = {
        "title": "Perforation of a colonic stent, by intent",
        "subtitle": "patients with perforation within 30 days, of those in whom a stent was tried",
        "caption": "Row intervals are exact 95% (Clopper-Pearson).",
        "mark_key": "a total assumed; d count derived",
        "status_line": STATUS,
    } | changes
    return ForestContent(better=better, bands=bands, invented=invented, words=ForestWords(), **said)
