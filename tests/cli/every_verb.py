"""Every verb once, as it is typed, on a tiny review such as a hospital computer may hold."""

import os
import shlex
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

from tests.extraction.builders import PLAN_FILE, REED_FILE, TinyReview

ROOT = Path(__file__).parent.parent.parent
#: The first name is in the Windows alphabet of western Europe, the others in no Windows alphabet
#: with it.
AUTHORS = "Žižková Ł, Βήτα Γ, 月 木"
POOLING = ROOT / "tests/reproduction/published/lu2018_dominant_or_mh_fixed.yaml"
UNIT = "unit Höllmühle 月.yaml"

CLAIMS = """\
format: 1
title: A talk
invented: true
claims:
  - claim: below-ten
    says: "Fewer than 10% perforate – in “all” series."
    about: evidence
    outcome: perforation
    relation: below
    value: "10%"
"""

RECORD = f"""\
TY  - JOUR
AU  - {AUTHORS.partition(",")[0]}
TI  - An invented series of Žižkov
PY  - 2001
ER  -
"""


@dataclass(frozen=True)
class Typed:
    """A verb with its words, in which names in braces stand for places."""

    words: str
    #: Whether it has to write beside what it reads.
    writes_beside: bool = False

    @property
    def verb(self) -> str:
        return self.words.partition(" ")[0]

    def words_in(self, review: Path, into: Path) -> list[str]:
        places = {"review": review, "unit": review / UNIT, "into": into, "pooling": POOLING}
        return [word.format(**places) for word in shlex.split(self.words)]


EVERY_VERB = (
    Typed("demo -o {into}/demo"),
    Typed("check {review}"),
    Typed("check {unit} --against {review}"),
    Typed("pool {review} perforation"),
    Typed("pool {review} --json"),
    Typed("ask lean {review} perforation"),
    Typed("forest {review} perforation -o {into}/forest.png"),
    Typed("audit {unit} --against {review} --for inside --into {into}/audit"),
    Typed("strip {unit} --against {review} --for inside -o {into}/strip.svg"),
    Typed(
        "funnel {unit} --against {review} --outcome perforation --level intent=palliation"
        " --for inside -o {into}/funnel.pdf"
    ),
    Typed("claim {review}/claims.yaml --against {review}"),
    Typed("reproduce {pooling}"),
    Typed(
        "calibrate --sizes 20,45,30,60 --rate 5% --tau 0.6 --replications 100"
        " --exact-replications 20 --workers 1"
    ),
    Typed("report {review} --as page --as pocket -o {into}/report"),
    Typed("trace {review} perforation"),
    Typed("stale {into}/report"),
    Typed("cite {review}/paper.ris --against {review}"),
    Typed("schema {review}", writes_beside=True),
    Typed(
        "new study {review} --no-ask --name 2012-zizka --authors 'Žižka Ł, 月 木' --title Újra"
        " --year 2012 --by XY --on 2026-01-06 --from abstract --arm all=20"
        " --count 'all.perforation=1/20 attempted 30_days at abstract' --invented",
        writes_beside=True,
    ),
    Typed(
        "add {review} --no-ask --name 2013-zizka --authors 'Žižka Ł' --title 'Újra, again'"
        " --year 2013 --by XY --on 2026-01-06 --from abstract --arm all=30"
        " --count 'all.perforation=2/30 attempted 30_days at abstract' --invented",
        writes_beside=True,
    ),
    Typed("sheet make {review} -o {into}/sheet.xlsx"),
    Typed(
        "new review {into}/begun --no-ask --title Stents --question Which?"
        " --outcome leak=Leck;leak;leaks;fewer;attempted;30_days"
    ),
    Typed(
        "new study {review} --no-ask --name 2012-hazel --by XY --from abstract --arm all=40"
        " --count perforation=3/40,attempted,30_days",
        writes_beside=True,
    ),
    Typed("completion zsh"),
)


def hospital_review(folder: Path) -> Path:
    """Write the tiny review with Windows line ends and letters of many alphabets."""
    folder.mkdir(parents=True)
    tiny = TinyReview(folder)
    tiny.reed("Reed A, Moss B", AUTHORS).plan("An invented review", "An “invented” review – β")
    (folder / "unit-glade.yaml").rename(folder / UNIT)
    tiny.write("claims.yaml", CLAIMS).write("paper.ris", RECORD)
    for path in folder.iterdir():
        path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    assert b"\r\n" in (folder / PLAN_FILE).read_bytes()
    assert AUTHORS.encode() in (folder / REED_FILE).read_bytes()
    return folder


def run_verb(
    words: list[str], env: dict[str, str], cwd: Path, *, before: tuple[str, ...] = ()
) -> subprocess.CompletedProcess[bytes]:
    """Run evsyn as a process of its own, with these variables of the environment and no other."""
    # Windows does not start Python without this one.
    kept = {name: os.environ[name] for name in ("SYSTEMROOT",) if name in os.environ}
    return subprocess.run(
        [*before, sys.executable, "-m", "evsyn", *words],
        env=kept | env,
        cwd=cwd,
        capture_output=True,
        check=False,
    )
