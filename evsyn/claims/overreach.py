"""Words that no count of series of one treatment can carry, whatever the numbers say."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum


class Kind(StrEnum):
    """What such a word claims."""

    CAUSE = "cause"
    WITHOUT_IT = "what_would_have_happened"
    HARMLESS = "no_danger"
    DUTY = "duty"
    RANK = "rank"
    PROOF = "proof"
    TEST = "test_result"
    PASS_MARK = "pass_mark"


@dataclass(frozen=True, slots=True)
class Overreach:
    """One such word.

    Parameters
    ----------
    kind : Kind
        What it claims.
    word : str
        The word as it stands in the sentence.
    """

    kind: Kind
    word: str


_PATTERNS: dict[Kind, str] = {
    Kind.CAUSE: (
        r"because(?: of)?|due to|owing to|thanks to|attributable to|responsible for|"
        r"as a result of|result(?:s|ed|ing)? in|(?:lead(?:s|ing)?|led) to|"
        r"caus(?:ed|ing)|(?<!other )(?<!any )(?<!all )causes(?! of\b)|"
        r"reduc(?:e|es|ed|ing|tion)|prevent(?:s|ed|ing|ion)?|improv(?:e|es|ed|ing|ement|ements)|"
        r"protect(?:s|ed|ing|ion|ive)?|worsen(?:s|ed|ing)?|"
        r"(?:increas|rais|lower|cut|halv)(?:e|es|ed|s|ing)? (?:the|a|its|their) "
        r"(?:risk|risks|rate|rates|chance|chances|odds|number)"
    ),
    Kind.WITHOUT_IT: (
        r"would(?: otherwise)?(?: surely| certainly| probably| almost certainly)? have|"
        r"would otherwise|otherwise have|"
        r"saved? (?:his|her|their|the patient's|a|many|\w+) (?:life|lives)|"
        r"spared (?:him|her|them|the patient|the patients)|had (?:we|they|it) not"
    ),
    Kind.HARMLESS: r"(?:un)?safe(?:ly|r|st|ty)?|harmless|risk-free|without risk",
    Kind.DUTY: r"a must|mandatory|indispensable|no alternative",
    Kind.RANK: r"(?:the )?gold standard|superior(?:ity)?|treatment of choice|outperforms?",
    Kind.PROOF: (
        r"prov(?:e|es|ed|en|ing)(?! nothing)|proofs?|demonstrat(?:e|es|ed|ing)|"
        r"confirm(?:s|ed|ing)?"
    ),
    Kind.TEST: r"(?:in)?significan(?:t|tly|ce)",
    Kind.PASS_MARK: (
        r"(?:meets?|met|meeting|within|exceeds?|above|below|fulfils?) "
        r"(?:(?:the|an?|all|every) )?(?:[\w%.]+ ){0,4}?"
        r"(?:standards?|pass marks?|targets?|guidelines?)"
    ),
}
_WORDS = {kind: re.compile(rf"\b(?:{pattern})\b", re.I) for kind, pattern in _PATTERNS.items()}

#: What a disease does is told of the patients, and is no claim about a treatment.
_DISEASE = re.compile(
    r"\b(?:obstruct\w*|block\w*|strictures?|stenos\w+|narrow\w*|ileus)(?: \w+){0,2}? "
    r"(?:due to|because of|owing to|caused by)\b",
    re.I,
)

_INFER = (
    r"prov\w+|show\w*|mean\w*|establish\w*|demonstrat\w+|tell\w*|told|know\w*|conclu\w+|"
    r"suggest\w*|confirm\w*|say|said|claim\w*|imply|impl\w+"
)
#: To deny that something is shown covers all that follows in the same part of the sentence.
#: 'No series shows it' speaks of series and denies nothing of the kind.
_NOT_SHOWN = re.compile(
    rf"(?:\bnot|n't|\bcannot|\bnever)(?! (?:only|just|merely)\b)(?: \w+){{0,3}}? (?:{_INFER})\b|"
    rf"\bnothing(?: \w+){{0,4}}? (?:{_INFER})\b|"
    r"(?:\bno|\bnot|n't|\bwithout|\bnor|\bneither)(?: \w+){0,2}? (?:proofs?|evidence)\b",
    re.I,
)
_OPEN_QUESTION = re.compile(r"\b(?:whether|unclear|unknown|remains? to be (?:seen|shown))\b", re.I)
_END_OF_PART = re.compile(r"[.;:!?]|,? (?:but|yet|however|although|though|while)\b", re.I)

#: Words that a plain 'not' or 'no' before them takes back; of cause and danger it does not.
_TAKEN_BACK = (Kind.DUTY, Kind.RANK, Kind.PROOF, Kind.TEST, Kind.PASS_MARK)
_NOT_BEFORE = re.compile(
    r"(?:\bnot|\bno(?! doubt)|\bnever|\bneither|\bnor|\bcannot|n't)"
    r"(?: (?!only\b|just\b|merely\b)\w+){0,2} $",
    re.I,
)


def overreaches(sentence: str) -> tuple[Overreach, ...]:
    """Return the words of a sentence that no such count can carry, in their order.

    A sentence that denies such a word says no more than the data can, and passes: 'this does not
    prove that it reduces deaths'. But 'it does not reduce deaths' is a claim about cause again.

    Parameters
    ----------
    sentence : str
        The sentence as it would be said.
    """
    said = " ".join(sentence.replace("’", "'").split())
    shielded = [*_denied(said), *(match.span() for match in _DISEASE.finditer(said))]
    found: dict[tuple[int, int], Overreach] = {}
    for kind, pattern in _WORDS.items():
        for match in pattern.finditer(said):
            if any(start <= match.start() < end for start, end in shielded):
                continue
            if kind in _TAKEN_BACK and _NOT_BEFORE.search(said[: match.start()]):
                continue
            found[match.span()] = Overreach(kind, match.group())
    return tuple(found[place] for place in sorted(found))


def _denied(said: str) -> Iterator[tuple[int, int]]:
    """Yield the stretches of a sentence in which something is denied or left open."""
    for pattern in (_NOT_SHOWN, _OPEN_QUESTION):
        for match in pattern.finditer(said):
            ends = _END_OF_PART.search(said, match.end())
            yield match.start(), len(said) if ends is None else ends.start()
