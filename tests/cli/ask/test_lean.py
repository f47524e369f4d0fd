"""``evsyn ask lean``, as a user types it."""

import json

from tests.cli.ask.typing import DEMO, typed


def test_the_table_stands_under_a_sentence_and_over_what_was_asked():
    printed = typed("lean", DEMO, "perforation")
    assert max(map(len, printed.splitlines())) <= 80
    told = " ".join(printed.split())
    assert told.startswith("INVENTED DATA")
    assert "Perforation, all studies: if one study were out" in told
    assert "lies between 5.4% (without Tansy 2014) and 6.0% (without Yarrow 2017)" in told
    assert "Without Sorrel 2013, Nettle 2010 is pooled in its place" in told
    assert "as it stands 117 of 2,015 5.6 (4.2-7.4) 0.40 Yarrow 2017" in told
    assert "Asked here: 27 pools, no test." in told  # all studies, and 26 times all but one


def test_each_row_is_what_pool_without_says():
    fields = json.loads(typed("lean", DEMO, "perforation", "--json"))
    assert fields["invented"] is True
    (pool,) = fields["pools"]
    by_name = {one["study"]: one for one in pool["studies"]}
    other = json.loads(typed("pool", DEMO, "perforation", "--without", "2014-tansy", "--json"))
    (answer,) = (one for one in other["after"] if one["key"] == "perforation/overall")
    row = answer["rows"][answer["reading_row"]]
    assert by_name["2014-tansy"]["without"]["estimate"] == row["estimate"]
    assert by_name["2014-tansy"]["without"]["low"] == row["low"]


def test_levels_are_asked_of_apart():
    told = typed(
        "lean", DEMO, "migration", "--level", "intent=palliation",
        "--level", "device_generation=radiological",
    )  # fmt: skip
    assert "Migration, palliation: if one study were out" in told
    assert "Nothing is pooled here, so nothing can lean on one study." in told
    assert "Asked here: 11 pools" in told  # nine of palliation and its whole, and one not pooled


def words(*typed_words):
    return " ".join(typed("lean", DEMO, *typed_words, code=1).split())


def test_without_an_outcome_all_are_named():
    assert "Name the outcome to ask of: perforation, technical_success" in words()


def test_a_question_that_does_not_exist_is_answered_with_the_nearest():
    assert "Did you mean 'lean'?" in typed("ask", "lena", DEMO, code=2)


def test_an_unknown_name_is_answered_with_the_nearest():
    assert "Did you mean 'perforation'?" in words("perforations")
    assert "Did you mean 'palliation'?" in words("perforation", "--level", "intent=paliation")
