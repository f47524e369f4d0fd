"""'Lower in palliation than as a bridge', in words that name no cause."""

from evsyn.cells.levels import level_names
from evsyn.claims.held import Held
from evsyn.claims.levels import LevelsFound
from evsyn.claims.verdict import ClaimVerdict
from evsyn.extraction.claims import Claim, Relation
from evsyn.extraction.plan import EraStratum
from evsyn.extraction.review import Review
from evsyn.pooling.answer import Show
from evsyn.wording.claims_said import Said
from evsyn.wording.difference import difference_sentence
from evsyn.wording.numbers import count, percent


def levels_words(claim: Claim, found: LevelsFound, review: Review) -> Said:
    """Say what both sides report and what the one test of all levels finds."""
    plan = review.plan
    words = plan.outcomes[found.here.table.question.outcome]
    levels = level_names(plan.strata[found.stratum])
    first = _series_with(found.stratum, found.first, review)
    second = _series_with(found.stratum, found.second, review)
    sides = (
        f"{words.label}. {_capital(levels[found.first])}: {_side(found.here)}; "
        f"{levels[found.second]}: {_side(found.there)}"
    )
    if found.verdict is ClaimVerdict.NOTHING_HELD:
        missing = [name for name, side in ((first, found.here), (second, found.there)) if side.lack]
        said = f"No count that can be used from {' and none from '.join(missing)}. {sides}."
        return Said((said,), f"{words.label}: this review, as searched, cannot compare the two.")
    sentences = (
        _verdict(found, first, second, words.event),
        difference_sentence(found.difference, levels),
    )
    instead = _instead(found, first, second, words.event)
    return Said(sentences, f"{sides}. {instead}", (f"{sides}.",), _scope(found))


def _series_with(stratum: str, level: str, review: Review) -> str:
    """Name the series of a level, as ``series with intent palliation``."""
    declared = review.plan.strata[stratum]
    words = level_names(declared)[level]
    if isinstance(declared, EraStratum):
        return f"series recruited {words}"
    return f"series with {declared.label.lower()} {words}"


def _scope(found: LevelsFound) -> str:
    return "as a comparison of reports" if found.verdict is ClaimVerdict.BORNE_OUT else ""


def _verdict(found: LevelsFound, first: str, second: str, event: str) -> str:
    test = found.difference.test
    if test is None or found.ratio is None:
        return "The two levels are not tested against each other."
    tested = f"one test of {len(test.levels)} levels"
    if found.verdict is not ClaimVerdict.BEYOND:
        told = f"{first} report {_way(found)} rates of {event} than {second}"
        return f"{_capital(told)} ({tested})."
    if test.exploratory:
        return f"Exploratory only, with so few series in a level ({tested})."
    return f"A difference between the two is neither shown nor excluded ({tested})."


def _way(found: LevelsFound) -> str:
    return "lower" if found.high is not None and found.high < 1 else "higher"


def _side(side: Held) -> str:
    answer = side.pooled.answer
    if answer.k == 0:
        return "no series"
    if answer.show is Show.REFUSED:
        return f"{answer.k} series, not added up"
    told = f"{count(sum(answer.events), sum(answer.total))} in {answer.k} series"
    if answer.reading is None:
        return told
    return f"{told} (typical rate {percent(answer.reading.pooled.estimate)})"


def _instead(found: LevelsFound, first: str, second: str, event: str) -> str:
    if found.verdict is ClaimVerdict.BEYOND:
        way = "lower" if found.relation is Relation.LOWER_THAN else "higher"
        return f"Whether the first is the {way}, these papers leave open, and why it might be."
    told = f"{first} report {_way(found)} rates of {event} than {second}"
    return f"{_capital(told)}; why, these papers cannot tell."


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"
