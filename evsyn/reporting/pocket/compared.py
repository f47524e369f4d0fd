"""Treatments compared within studies, where the plan compares any."""

from evsyn.extraction.review import Review
from evsyn.pooling.review import answer_comparisons
from evsyn.wording.comparison import absolute_sentence, choice_sentence, comparison_sentence
from evsyn.wording.pocket import Prompt
from evsyn.wording.pocket_compared import comparison_prompt


def comparison_prompts(review: Review, outcome: str) -> tuple[Prompt, ...]:
    """Return one prompt for each comparison of the plan that a study counts both sides of.

    Parameters
    ----------
    review : Review
        The review.
    outcome : str
        The outcome.
    """
    plan, found = review.plan, []
    if not plan.comparisons:
        return ()
    words = plan.outcomes[outcome]
    for answer in answer_comparisons(review, [outcome]):
        declared = plan.comparisons[answer.table.comparison]
        said = comparison_sentence(
            answer, event=words.event, label=declared.label, refused=words.do_not_pool or ""
        )
        first, second = plan.treatments[declared.first], plan.treatments[declared.second]
        more = [absolute_sentence(item, first=first, second=second) for item in answer.absolute]
        found.append(
            comparison_prompt(declared.label, answer, (said, *more, choice_sentence(answer)))
        )
    return tuple(found)
