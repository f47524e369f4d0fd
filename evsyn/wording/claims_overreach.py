"""Why a word is more than counts can carry."""

from collections.abc import Sequence

from evsyn.claims.overreach import Kind, Overreach

_REASONS = {
    Kind.CAUSE: (
        "a claim of cause. Series of one treatment hold no comparison: patients, operators, "
        "devices and years differ as well, so they cannot show what brought a rate about"
    ),
    Kind.WITHOUT_IT: (
        "a claim of what would have happened without it. No case and no series of one treatment "
        "shows that"
    ),
    Kind.HARMLESS: (
        "a judgement that no count carries. Say how many of how many came to harm, and which rates "
        "remain possible"
    ),
    Kind.DUTY: (
        "what others are to do. Counts do not say that; a guideline or a local protocol may"
    ),
    Kind.RANK: (
        "a rank among treatments. Series of one treatment hold no other to rank it against"
    ),
    Kind.PROOF: "more certainty than counts of published series give",
    Kind.TEST: (
        "the language of a test. Say the difference with its interval, or that none was tested"
    ),
    Kind.PASS_MARK: (
        "a mark to be met. A rate is set here beside published series, and never marked; what a "
        "guideline sets is a claim of its own ('about: guideline')"
    ),
}


def beyond_statement_sentences(found: Sequence[Overreach]) -> tuple[str, ...]:
    """Say that a sentence about a guideline uses words the recorded statement does not."""
    if not found:
        return ()
    named = " and ".join(dict.fromkeys(f"'{one.word}'" for one in found))
    return (f"Refused: {named}, which the recorded statement does not say.",)


def overreach_sentences(found: Sequence[Overreach]) -> tuple[str, ...]:
    """Say of each kind of word in a sentence why it is refused, whatever the numbers are."""
    said = []
    for kind in dict.fromkeys(one.kind for one in found):
        words = dict.fromkeys(one.word for one in found if one.kind is kind)
        named = " and ".join(f"'{word}'" for word in words)
        said.append(f"Refused: {named}, {_REASONS[kind]}.")
    return tuple(said)
