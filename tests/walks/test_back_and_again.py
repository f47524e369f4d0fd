"""An answer of ``evsyn add`` can be corrected, and kept answers survive options.

Papers and counts are invented.
"""

import json

from evsyn.extraction.load import read_review
from tests.walks.test_by_add import BRAMBLE
from tests.walks.walking import Walk

KEPT = ".unfinished-paper.json"
REFERENCE = ("--reference", "2024-bramble.ris")
FIRST = 11  # lines of BRAMBLE up to the number of patients


def lines(text, first=0, last=None):
    return "\n".join(text.split("\n")[first:last]) + "\n"


def study(walk):
    return read_review(walk.review).study("2024-bramble")


def words(told):
    return " ".join(told.split())


def test_back_goes_one_question_back_and_over_several(tmp_path):
    walk = Walk.beside_the_demo(tmp_path)
    typed = BRAMBLE.replace("4/64\nattempted", "5/64\nplaced\nback\nback\n4/64\nattempted")
    told = walk.type("add", "stents", *REFERENCE, answers=typed + "\n")
    count = study(walk).arms[0].outcomes["perforation"]
    assert (count.events, count.of, count.window) == (4, "attempted", "30_days")
    assert "'back' to go to the question before" in words(told)
    # What was given before is given again without a word.
    assert told.count("Which outcome was counted in") == 1


def test_there_is_nothing_before_the_first_question(tmp_path):
    walk = Walk.beside_the_demo(tmp_path)
    told = walk.type("add", "stents", *REFERENCE, answers="back\nlater\n")
    assert "This is the first question" in told
    told = walk.type("add", "stents", "--anew", answers="back\nlater\n")
    assert "no answer was there to keep" in told


def test_a_wrong_answer_is_named_at_the_end(tmp_path):
    walk = Walk.beside_the_demo(tmp_path)
    typed = BRAMBLE.replace("through_the_scope\npalliation", "through_the_scope\nbridge_to_surgery")
    told = walk.type("add", "stents", *REFERENCE, answers=f"{typed}n\nlater\n")
    (number,) = [one.split()[0] for one in told.splitlines() if one.endswith("bridge_to_surgery")]
    told = walk.type("add", "stents", answers=f"n\n99\n{number}\npalliation\ny\n")
    assert "at least 1, at most" in told
    placed = study(walk).arms[0]
    assert placed.strata["intent"] == "palliation"
    assert {name: one.events for name, one in placed.outcomes.items()} == {
        "perforation": 4, "technical_success": 60,
    }  # fmt: skip


def test_kept_answers_survive_options(tmp_path):
    walk = Walk.beside_the_demo(tmp_path)
    walk.type("add", "stents", *REFERENCE, answers=lines(BRAMBLE, 0, FIRST) + "later\n")
    kept = len(json.loads((walk.review / KEPT).read_text(encoding="utf-8"))["answers"])
    rest = lines(BRAMBLE, FIRST)
    told = walk.type("add", "stents", "--by", "XY", "--country", "Tarrenwold", answers=f"{rest}\n")
    assert f"Taken up again: {kept - 2} of {kept} kept answers" in told
    made = study(walk)
    assert made.extracted.by == "XY"
    assert made.setting.country == "Tarrenwold"
    assert made.setting.centres == ["Stonegarth Hospital"]
    assert made.arms[0].patients == 64


def test_an_unfinished_paper_is_put_away_and_never_lost(tmp_path):
    walk = Walk.beside_the_demo(tmp_path)
    walk.type("add", "stents", *REFERENCE, answers=lines(BRAMBLE, 0, FIRST) + "later\n")
    kept = (walk.review / KEPT).read_bytes()
    other = (
        "--no-ask", "--name", "2020-reed", "--by", "QF", "--on", "2026-03-20",
        "--from", "abstract", "--arm", "all=30", "--count", "perforation=1/30 attempted 30_days",
    )  # fmt: skip
    told = walk.type("add", "stents", *other)
    assert "An unfinished paper is there too" in told
    assert (walk.review / KEPT).read_bytes() == kept
    told = walk.type("add", "stents", "--anew", answers=".\nlater\n")
    assert "Taken up again" not in told
    assert (walk.review / ".unfinished-paper-put-away.json").read_bytes() == kept


def test_later_is_heard_where_a_record_is_pasted(tmp_path):
    walk = Walk.beside_the_demo(tmp_path)
    told = walk.type("add", "stents", answers="later\n")
    assert "no answer was there to keep" in told
    told = walk.type("add", "stents", answers="nonsense\n.\nlater\n")
    assert "Paste it again" in told
    assert not (walk.review / KEPT).exists()


def test_menus_keep_their_numbers_and_a_count_is_said_in_words(tmp_path):
    walk = Walk.beside_the_demo(tmp_path)
    typed = BRAMBLE.replace("\ntechnical_success\n", "\n1\n2\n")
    told = walk.type("add", "stents", *REFERENCE, answers=typed + "\n")
    assert "'perforation' is there already." in told
    assert study(walk).arms[0].outcomes["technical_success"].events == 60
    assert "Technical success: 60 of 64; patients in whom a stent was attempted" in words(told)


def test_a_count_the_plan_does_not_pool_is_told_at_once_and_at_the_end(tmp_path):
    walk = Walk.beside_the_demo(tmp_path)
    typed = BRAMBLE.replace(
        "4/64\nattempted\n30_days\nResults\n6.3%\n", "4/64\n4\n2\nResults\n6.3%\nn\n"
    )
    told = words(walk.type("add", "stents", *REFERENCE, answers=typed + "\n"))
    assert "Not pooled: this count is counted over patients whose obstruction was relieved" in told
    assert told.index("Not pooled") < told.index("Type this count again?")
    assert told.index("What Bramble 2024 moves") < told.index("Perforation: 4 of 64 enters no pool")


def test_why_a_doubt_stands_is_written_under_answers(tmp_path):
    walk = Walk.beside_the_demo(tmp_path)
    typed = BRAMBLE.replace("30_days\nResults\n6.3%", "30_days\n\n6.3%\nn")
    told = walk.type("add", "stents", *REFERENCE, answers=f"{typed}no page in the abstract\ny\n")
    said = words(told)
    assert "Doubt: The place in the paper is empty" in said
    assert "Doubt, stent.perforation: the place in the paper is empty" in said
    assert "Add 'at'" not in said
    (answer,) = study(walk).answers
    assert (answer.rule, answer.reason) == ("place-missing", "no page in the abstract")
    assert (answer.by, answer.on) == ("QF", "2026-03-20")
    assert "0 faults, 5 open doubts" in words(walk.type("check", "stents"))


def test_a_folder_without_a_review_is_told(tmp_path):
    told = Walk.beside_the_demo(tmp_path).type("add", "nowhere", answers="", code=1)
    assert "nowhere holds no review" in told
    assert "evsyn new review nowhere" in words(told)
