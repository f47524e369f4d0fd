"""Words that no such count can carry are found, and their denials are not.

The lists of words and sentences are judgement, no source: what a speaker says before colleagues.
"""

import pytest

from evsyn.claims.overreach import Kind, overreaches

REFUSED = [
    ("Fewer perforate because the devices are softer.", Kind.CAUSE),
    ("A stent reduces the need for a stoma.", Kind.CAUSE),
    ("It prevents emergency surgery.", Kind.CAUSE),
    ("Training improves success.", Kind.CAUSE),
    ("The low rate is due to careful selection.", Kind.CAUSE),
    ("A stent leads to fewer stomas.", Kind.CAUSE),
    ("Fluoroscopy protects the bowel.", Kind.CAUSE),
    ("It does not reduce deaths.", Kind.CAUSE),
    ("Rates are not lower because of the stent.", Kind.CAUSE),
    ("There is no doubt that it reduces stomas.", Kind.CAUSE),
    ("No series is above 10% because operators improved.", Kind.CAUSE),
    ("She would have died without it.", Kind.WITHOUT_IT),
    ("He would surely have needed a stoma.", Kind.WITHOUT_IT),
    ("The stent saved her life.", Kind.WITHOUT_IT),
    ("Stenting is safe.", Kind.HARMLESS),
    ("It can be done safely at night.", Kind.HARMLESS),
    ("It is unsafe in the rectum.", Kind.HARMLESS),
    ("A stent is a must in palliation.", Kind.DUTY),
    ("It is the gold standard.", Kind.RANK),
    ("Stents are superior to a stoma.", Kind.RANK),
    ("This proves that stents work.", Kind.PROOF),
    ("It is not only proven but simple.", Kind.PROOF),
    ("The difference is significant.", Kind.TEST),
    ("Rates fell significantly.", Kind.TEST),
    ("We meet the ESGE standard of 90%.", Kind.PASS_MARK),
    ("Our rate is below the 10% in the guidelines.", Kind.PASS_MARK),
]


@pytest.mark.parametrize(("sentence", "kind"), REFUSED)
def test_a_word_too_many(sentence, kind):
    assert kind in [one.kind for one in overreaches(sentence)]


@pytest.mark.parametrize(
    "sentence",
    [
        "This does not prove that stents reduce deaths.",
        "That doesn't prove anything.",
        "This proves nothing.",
        "It is not proven that stenting is safe.",
        "There is no evidence that it prevents a stoma.",
        "Nothing here shows that it is safe.",
        "These counts cannot tell whether it reduces deaths.",
        "Whether a stent improves survival is unknown.",
        "We do not claim that it is safe.",
        "The difference is not significant.",
        "There is no gold standard.",
        "A stent is not a must.",
    ],
)
def test_a_denial_is_no_such_claim(sentence):
    assert overreaches(sentence) == ()


@pytest.mark.parametrize(
    "sentence",
    [
        "In obstruction due to cancer 5% perforate.",
        "Patients blocked by cancer, with a stricture caused by it, were included.",
        "Death from other causes is not counted.",
        "Series of palliation report a lower rate than series before surgery.",
        "Stomas were avoided in 73%.",
        "Most series report fewer than 5% perforations.",
    ],
)
def test_plain_sentences_pass(sentence):
    assert overreaches(sentence) == ()


def test_a_denial_ends_with_its_part_of_the_sentence():
    (found,) = overreaches("This does not prove that it is safe, but it reduces stomas.")
    assert (found.kind, found.word) == (Kind.CAUSE, "reduces")


def test_words_stand_in_the_order_of_the_sentence():
    found = overreaches("It is safe because we say so, and it would have helped.")
    assert [one.kind for one in found] == [Kind.HARMLESS, Kind.CAUSE, Kind.WITHOUT_IT]
