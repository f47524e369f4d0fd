"""A fourth paper goes in by ``evsyn add``; a fifth, with a trap in it, is caught by a doubt."""

import json

from evsyn.extraction.load import read_review
from tests.walks.walking import Walk

#: What is asked after the citation of 2024-bramble, and what its abstract answers; an empty line
#: takes what stands in brackets, or leaves the answer out.
BRAMBLE = """\

retrospective cohort
Stonegarth Hospital
Marrowdale
2018-05 to 2023-04
QF
2026-03-20
abstract

stent
64

through_the_scope
palliation




perforation
4/64
attempted
30_days
Results
6.3%
technical_success
60/64
attempted
at_procedure
Results
93.8%


"""
SPINDLE = """\
Spindle R, Tormentil A
Fifty-two attempts at a stent for palliation
Ember Isles Journal of Obstruction
2022
3:55-61



case series
Kelpwick Hospital
the Ember Isles
2016 to 2020
QF
2026-03-20
abstract

stent
52

through_the_scope
palliation




technical_success
48/52
attempted
at_procedure
Results
92.3%
perforation
4/52
attempted
30_days
Results
8.3%
"""


def test_the_fourth_paper_in_one_command(tmp_path):
    walk = Walk.beside_the_demo(tmp_path)
    told = walk.type("add", "stents", "--reference", "2024-bramble.ris", answers=BRAMBLE + "\n")
    assert "no fault and no doubt" in told
    lines = told.splitlines()
    (before,) = [n for n, line in enumerate(lines) if line.startswith("all studies")][:1]
    assert lines[before].split()[2:7] == ["before", "26", "117", "of", "2,015"]
    assert lines[before + 1].split()[:6] == ["with", "it", "27", "121", "of", "2,079"]
    checked = walk.type("check", "stents")
    assert "31 studies read; 0 faults, 5 open doubts" in " ".join(checked.split())
    traced = walk.type("trace", "stents", "2024-bramble.perforation")
    assert "Pooled in: perforation/overall" in " ".join(traced.split())
    assert len(walk.commands) <= 6
    study = read_review(walk.review).study("2024-bramble")
    assert study.invented
    assert study.citation.pages == "36:112-120"
    assert study.setting.recruited.to == "2023-04"
    assert not (walk.review / ".unfinished-paper.json").exists()


def test_it_is_left_and_taken_up_again(tmp_path):
    walk = Walk.beside_the_demo(tmp_path)
    before = {path.name: path.read_bytes() for path in walk.review.rglob("*") if path.is_file()}
    half = "\n".join(BRAMBLE.split("\n")[:11])
    told = walk.type("add", "stents", "--reference", "2024-bramble.ris", answers=f"{half}\nlater\n")
    assert "Go on with: evsyn add stents" in " ".join(told.split())
    kept = json.loads((walk.review / ".unfinished-paper.json").read_text(encoding="utf-8"))
    assert kept["answers"][-1] == ["How many patients are in 'stent'", "64"]
    after = {path.name: path.read_bytes() for path in walk.review.rglob("*") if path.is_file()}
    after.pop(".unfinished-paper.json")
    assert after == before
    checked = walk.type("check", "stents")
    assert "30 studies read; 0 faults, 5 open doubts" in " ".join(checked.split())

    rest = "\n".join(BRAMBLE.split("\n")[11:])
    # Cut off at the last question, as by a closed window: what was answered is kept.
    walk.type("add", "stents", answers=rest, code=1)
    told = walk.type("add", "stents", answers="y\n")
    assert "Taken up again" in told
    assert "What Bramble 2024 moves" in told
    assert (
        read_review(walk.review).study("2024-bramble").arms[0].outcomes["perforation"].events == 4
    )
    told = walk.type("add", "stents", "--reference", "2024-bramble.ris", answers="", code=1)
    assert "in the review already: 2024-bramble" in " ".join(told.split())


def test_the_trap_in_the_fifth_is_caught_by_a_doubt(tmp_path):
    """The sentence names those attempted; 8.3% is of those placed."""
    walk = Walk.beside_the_demo(tmp_path)
    typed_again = "y\n4/48\nplaced\n30_days\nResults\n8.3%\n"
    told = walk.type("add", "stents", answers=f".\n{SPINDLE}{typed_again}\n\n\n")
    said = " ".join(told.split())
    assert "Doubt: The paper prints 8.3%, but 4 of 52 is 7.69%." in said
    assert "look for another denominator in the paper" in said
    assert said.index("Type this count again?") < said.index("no fault and no doubt")
    count = read_review(walk.review).study("2022-spindle").arms[0].outcomes["perforation"]
    assert (count.events, count.total, count.of) == (4, 48, "placed")


def test_the_trap_typed_as_it_stands_stays_a_doubt(tmp_path):
    walk = Walk.beside_the_demo(tmp_path)
    told = walk.type("add", "stents", answers=f".\n{SPINDLE}n\n\n\n\n\n")
    assert "The checks find something to look at" in told
    checked = " ".join(walk.type("check", "stents").split())
    assert "31 studies read; 0 faults, 6 open doubts" in checked
    assert "2022-spindle.yaml" in checked
