"""What the slides print of each pool: figures, titles, notes, words for those who cannot see."""

import re
from collections.abc import Iterator
from functools import cache

from evsyn.cells.levels import labelled_strata
from evsyn.reporting.slides import slides_bytes
from evsyn.wording.report_slides import FOR_QUESTIONS
from tests.reporting.outlets.bands import bands
from tests.reporting.outlets.made import Lines, keys_of
from tests.reporting.outlets.printed import COUNT, RATE, digits, of_sentence
from tests.reporting.page.made import content, review
from tests.reporting.slides.opened import figure_words, notes, opened, title


@cache
def talk(name: str):
    return opened(slides_bytes(content(name)))


def _slides(name: str) -> Iterator[tuple[object, str, str]]:
    """Yield each slide with a forest, its outcome and its stratum."""
    plan = review(name).plan
    for slide in talk(name).slides:
        said = title(slide).lower()
        for outcome, words in plan.outcomes.items():
            if re.match(rf"{re.escape(words.label.lower())}(:|,| by )", said) and _alt(slide):
                named = [n for n, s in plan.strata.items() if f" by {s.label.lower()}" in said]
                yield slide, outcome, (named or list(labelled_strata(plan)))[0]


def _alt(slide) -> str:
    found = slide.element.xpath(".//p:grpSp/p:nvGrpSpPr/p:cNvPr/@descr")
    return found[0] if found else ""


def slide_figures(name: str) -> Lines:
    """Yield the bands of the forests of the slides; those of one forest may be on several."""
    words: dict[tuple[str, str, bool], list[tuple[str, str]]] = {}
    for slide, outcome, stratum in _slides(name):
        is_backup = "every study" in title(slide)
        words.setdefault((outcome, stratum, is_backup), []).extend(
            (role, text) for text, _, _, role in figure_words(slide)
        )
    for (outcome, stratum, is_backup), said in words.items():
        for key, found in bands(said, keys_of(name, outcome, stratum)).items():
            if not is_backup and not found["headline"]:
                # In the talk itself only the row to read is drawn.
                del found["headline"]
            yield key, found


def slide_titles(name: str) -> Lines:
    """Yield what the titles say: all of the whole, and the point value of each level."""
    for slide, outcome, stratum in _slides(name):
        said = title(slide)
        keys = keys_of(name, outcome, stratum)
        if found := re.search(rf"(?:typically|on average) ({RATE}), ({COUNT}) in (\d+) stud", said):
            whole = {"read": digits(found[1]), "count": found[2], "studies": found[3]}
            yield keys["all studies"], whole
        for words, key in keys.items():
            if found := re.search(rf"(?:: |, ){re.escape(words)} ([^%]*)%", said):
                yield key, {"point": digits(found[1])}


def slide_notes(name: str) -> Lines:
    """Yield the sentences in the notes of the slides."""
    plan = review(name).plan
    for slide, outcome, _ in _slides(name):
        event = plan.outcomes[outcome].event
        head = f"{event[0].upper()}{event[1:]}"
        lines = notes(slide).partition(FOR_QUESTIONS)[2].split("\n")
        if len(lines) < 2 or not lines[1].startswith(f"{head}: "):
            continue
        said = [line for line in lines if line.startswith(f"{head}, ")]
        yield f"{outcome}/overall", of_sentence(lines[1])
        (item,) = [item for item in content(name).outcomes if item.name == outcome]
        answers = [answered for stratum in item.strata for answered in stratum.answers]
        for answered, line in zip(answers, said, strict=True):
            assert line.startswith(f"{head}, {answered.title.lower()}: ")
            yield answered.question.key, of_sentence(line)


def slide_alternatives(name: str) -> Lines:
    """Yield what the words for those who cannot see a forest of the slides say."""
    for slide, outcome, stratum in _slides(name):
        keys = keys_of(name, outcome, stratum)
        labels = "|".join(re.escape(f"{words[0].upper()}{words[1:]}") for words in keys)
        parts = re.split(rf"(?:^|(?<=\. ))({labels}): ", _alt(slide))
        for label, said in zip(parts[1::2], parts[2::2], strict=True):
            yield keys[label.lower()], of_sentence(said)
