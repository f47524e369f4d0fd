"""What ``evsyn new`` asks, and what it says of what it does."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from evsyn.terms import Finding
from evsyn.wording.numbers import count

NOT_WRITTEN = "Nothing was written."
FAULTY = "The checks find what cannot be:"
WRITE_FAULTY = "Write the file all the same, to mend it in an editor?"
#: Said before the first question.
BEFORE = (
    "One question at a time; what stands in brackets is taken when you press Enter.",
    "'back' goes to the question before. Nothing is written before the last answer, and Ctrl-C",
    "leaves without a trace.",
)
BY_NUMBER = " (by number or name)"
YES_OR_NO = " (y or n)"
FIRST_QUESTION = "this is the first question; there is none before it"
WHICH_WRONG = "Which answer is wrong? By its number (Enter: none, leave it)"
MAY_BE_LEFT = " (Enter leaves it out)"

EXISTS = "{path} is there already. Nothing was written. Change it in an editor, or give a new name."

# A study.
AUTHORS = "Authors, as printed"
TITLE = "Title"
JOURNAL = "Journal"
YEAR = "Year of publication"
PAGES = "Volume, issue and pages"
DOI = "DOI, without http"
PMID = "PubMed number"
STUDY_NAME = "Short name of the study, which is its file's name too"
DESIGN = "Design, as the paper names it"
COUNTRY = "Country"
CENTRES = "Hospitals, with semicolons between them"
RECRUITED = "Patients recruited, as 1995-03 to 1999-12"
BY = "Your initials"
ON = "Day you read it"
READ_AS = "How much of it did you read"
READ_AS_WORDS = {
    "full_text": "the whole paper",
    "abstract": "its abstract alone",
    "second_hand": "another text that tells of it",
}
ARM = "Name of the group of patients, as all or palliation"
GROUP_MISSING = "a name and a number of patients, as all=52"
ARM_PATIENTS = "How many patients are in '{group}'"
WHOLE = "Are these all patients of the study?"
ANOTHER_ARM = "Is there another group with counts of its own?"
TREATMENT = "Which treatment had '{group}'"
LEVEL = "{label}: {asks}"

# A count.
OUTCOME = "Which outcome was counted in '{group}'"
NEXT_OUTCOME = "Which other outcome of '{group}'"
COUNT_MISSING = "one count of '{group}', as perforation=4/52 attempted 30_days"
COUNT = "How many had it, of how many? As 4/52"
OF = "Whom does the total count"
WINDOW = "Over what time was it looked for"
AT = "Place in the paper, as Table 2, p. 5"
PRINTED = "Percentage as printed beside it"
AGAIN = "Type this count again?"
NOT_BY_PLAN = "It is kept, and enters no pool: {reason}."
#: Findings that name a part of the file, which a person who is asked has never seen.
PLACE_RULE = "place-missing"
NO_PLACE = "the place in the paper is empty, so that nobody else can find this count again."
UNKNOWN = "Of how many of these is the outcome not known"

# A unit.
UNIT_LABEL = "The unit's name, as it is to stand in figures"
UNIT_NAME = "Short name of the unit"
PERIOD = "Months covered, as 2022-04 to 2025-03"
FROZEN = "Day the figures were frozen"
COMPLETE = "Is every case of these months counted?"
LEFT_OUT = "How many are left out, and why? As 2=notes not found"
FOLLOW_UP = "How long were the cases followed"
COUNTED_BY = "What does a total count"
COUNTED_BY_WORDS = {
    "patient": "each patient once",
    "procedure": "each procedure, repeats too",
    "device": "each device",
}
EXPECTED = "How many cases should there be, by another source? As 21=devices issued"
FLOW = "How many cases: {words}"
GROUP = "A name for the first or only group of cases, to speak of it here"
NEXT_GROUP = "A name for the next group"
CASES = "How many patients are in '{group}'"
ANOTHER_GROUP = "Is there another group, with other labels?"

# A review.
REVIEW_NAME = "Short name of the review"
REVIEW_TITLE = "Title, for pages and figures"
QUESTION = "The question, in one sentence"
POPULATION = "Who is counted, in a word or two"
FIXED_ON = "Day the plan was fixed"
EXAMPLES = "For example:"
OFFERED = "Take these as they are? You can change them in the file at any time"
INVENTED = "Is this review made up, to try things out?"
DENOMINATORS = "Whom may a total count? The same event is another share of each."
DENOMINATOR = (
    "A short name, an equals sign and the words, as "
    "attempted=patients in whom the treatment was attempted"
)
WINDOWS = "Over what time may an outcome be looked for?"
WINDOW_NEW = (
    "The same of a time, and its days, as 30_days=within 30 days; 30 (or an event that ends it, "
    "as stay=in hospital; until discharge; or neither, as follow_up=up to the last follow-up)"
)
STRATA = "By what are the studies divided, so that each part is pooled for itself too?"
STRATUM = (
    "A short name, what it is called, what it asks and its levels, as "
    "urgency=Urgency: how soon it was done; elective; emergency"
)
OUTCOME_MISSING = "one outcome, as 'leak=Leak; leak; leaks; fewer; attempted; 30_days'"
NO_MORE = " (Enter: no more)"
STAGES = (
    "Which of these follow one another in each patient, as considered, attempted, completed? A "
    "unit's numbers are later compared stage by stage. They can be written in the file at any time."
)
FLOW_STAGES = "Stages in their order, with commas between them"
OUTCOME_LABEL = "An outcome, as Perforation"
ANOTHER_OUTCOME = "Another outcome"
OUTCOME_NAME = "Its short name"
EVENT = "One of them inside a sentence, as perforation"
EVENTS = "Several of them inside a sentence, as perforations"
BETTER = "Which way is good"
BETTER_WORDS = {"fewer": "fewer of them are better", "more": "more of them are better"}
DEFINITION = "What counts as one"
OUTCOME_OF = "Of whom is its share taken? The best first, others that will do after commas"
OUTCOME_WINDOWS = "Over what time? The best first, others that will do after commas"


def next_steps(steps: Sequence[str]) -> str:
    """Say what to do next, one command a line."""
    return "\n".join(["Next:", *(f"  {step}" for step in steps)])


def listed(parts: Mapping[str, Any]) -> Iterator[str]:
    """Yield a line for each part of a plan, with its words and its levels."""
    for name, part in parts.items():
        words = part if isinstance(part, str) else part["label"]
        yield f"  {name}: {words}"
        for level, meaning in ({} if isinstance(part, str) else part.get("levels", {})).items():
            yield f"      {level}: {meaning}"


def typed(label: str, events: int, total: int, basis: str, window: str) -> str:
    """Say a count that was just typed, in the words of the plan."""
    return f"{label}: {count(events, total)}; {basis}; {window}."


def doubtful(finding: Finding, place: str = "") -> str:
    """Say what is doubtful about what was typed, and of which group and outcome it is."""
    kind = str(finding.severity).capitalize()
    begin = f"{kind}, {place}: " if place else f"{kind}: "
    if finding.rule == PLACE_RULE:
        return f"{begin}{NO_PLACE if place else NO_PLACE[0].upper() + NO_PLACE[1:]}"
    message = finding.message
    said = message if place else message[0].upper() + message[1:]
    return f"{begin}{said}. {finding.cure}"
