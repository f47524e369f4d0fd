"""Why a word is more than counts can carry."""

from collections.abc import Sequence

from evsyn.claims.overreach import Kind, Overreach

_REASONS = {
    Kind.CAUSE: (
        "speaks of cause. Series of one treatment hold no comparison: patients, operators, devices "
        "and years differ as well, so they cannot show what brought a rate about"
    ),
    Kind.WITHOUT_IT: (
        "speaks of what would have happened without it. No case and no series of one treatment "
        "shows that"
    ),
    Kind.HARMLESS: (
        "is a judgement that no count carries. Say how many of how many came to harm, and which "
        "rates remain possible"
    ),
    Kind.DUTY: "tells others what to do. Counts do not; a guideline or a local protocol may",
    Kind.RANK: "ranks treatments, and series of one treatment hold no other to rank it against",
    Kind.PROOF: "claims more certainty than counts of published series give",
    Kind.TEST: (
        "is the language of a test. Say the difference with its interval, or that none was tested"
    ),
    Kind.PASS_MARK: (
        "speaks of a mark to be met. A rate is set here beside published series, and never marked; "
        "what a guideline sets is a claim of its own ('about: guideline')"
    ),
}


def overreach_sentences(found: Sequence[Overreach]) -> tuple[str, ...]:
    """Say of each kind of word in a sentence why it is refused, whatever the numbers are."""
    said = []
    for kind in dict.fromkeys(one.kind for one in found):
        words = dict.fromkeys(one.word for one in found if one.kind is kind)
        named = " and ".join(f"'{word}'" for word in words)
        said.append(f"Refused: {named} {_REASONS[kind]}.")
    return tuple(said)
