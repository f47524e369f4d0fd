"""Comments in a file that ``evsyn new`` writes: what belongs in each part."""

from collections.abc import Mapping
from typing import Any

from evsyn.extraction.plan import Plan
from evsyn.extraction.schema.plan_words import denominators, levels, strata, stratum_words, windows

KeyPath = tuple[str | int, ...]
_INVENTED = "Everything in this file is invented."


def study_comments(plan: Plan, record: Mapping[str, Any]) -> dict[KeyPath, str]:
    """Return what is said above the parts of a new extract, in the words of its review."""
    said: dict[KeyPath, str] = {
        ("format",): "The extract of one study. Write what was read; leave out what was not.\n"
        "All fields: docs/reference/fields.md. After each change: evsyn check.",
        ("citation",): "How to find the paper again: authors, title, journal, year, pages, doi, "
        "pmid, address; under 'note' what of it was not read.",
        ("setting",): "Where and when: centres (a number, or names), country, recruited.",
        ("extracted",): "Who read how much of it (full_text, abstract, second_hand), and under "
        "'checked_by' a second reader.",
        ("characteristics",): _facts("Facts about the study", plan.characteristics.study),
        ("arms",): "Groups of patients. An arm with 'covers: whole_study' holds all patients; "
        "another lies inside it, or inside the arm that its 'part_of' names.",
        ("arms", 0, "outcomes"): _counts(plan, of_paper=True),
    }
    if record["arms"][0].get("strata"):
        said["arms", 0, "strata"] = _levels(plan)
    if record["arms"][0].get("characteristics"):
        said["arms", 0, "characteristics"] = _facts("Facts", plan.characteristics.arm)
    return _with_mark(said, record)


def unit_comments(plan: Plan, record: Mapping[str, Any]) -> dict[KeyPath, str]:
    """Return what is said above the parts of a new unit file, in the words of its review."""
    said: dict[KeyPath, str] = {
        ("format",): "A unit's own figures for a period. Counts alone: no name, number or date of "
        "a patient belongs here.",
        ("period",): "First and last month.",
        ("frozen_on",): "Nothing is changed after this day.",
        ("complete",): "true if every case of these months is counted; else list under 'left_out' "
        "how many are not, and why.",
        ("left_out",): "How many cases are left out, and why.",
        ("follow_up",): "How long the cases were followed; in numbers under 'followed': "
        "least_days, median_months, lost.",
        ("counted_by",): "patient, procedure or device: what a total counts.",
        ("expected_cases",): "How many cases there should be, by a source other than the audit.",
        ("flow",): "Cases at each stage: " + ", ".join(plan.flow) + ".",
        ("groups",): "Counts of cases with the same labels. A log of cases, one row a case, may "
        "stand in their place under 'case_log'.",
        ("groups", 0, "outcomes"): _counts(plan, of_paper=False),
    }
    if record["groups"][0].get("strata"):
        said["groups", 0, "strata"] = _levels(plan)
    return _with_mark(said, record)


def review_comments(record: Mapping[str, Any]) -> dict[KeyPath, str]:
    """Return what is said above the parts of a new plan."""
    said: dict[KeyPath, str] = {
        ("format",): "The plan of a review, fixed before the counts are pooled. Its names (left of "
        "each colon) are the only ones its extracts may use.\n"
        "All fields: docs/reference/fields.md. After each change: evsyn check, evsyn schema.",
        ("fixed_on",): "A later change of the plan belongs under its new day.",
        ("search",): "'none', or a list of what was searched: name, on, strategy, records.",
        ("denominators",): "Whom a total may count. Every count names one of them, since one event "
        "is another share of each.",
        ("windows",): "Over what time an outcome may be looked for. One without 'days' or 'ends' "
        "is open: its events depend on how long patients were followed.",
        ("flow",): "Stages of a case, each within the one before.",
        ("outcomes",): "What is counted. Of denominators and windows the first is the target; "
        "counts over one that is not listed are not accepted. 'do_not_pool: REASON' pools none.",
        ("strata",): "Ways of dividing the studies. One with 'cut_year' in place of 'levels' "
        "divides them by when patients were recruited.",
    }
    return _with_mark(said, record)


def _counts(plan: Plan, *, of_paper: bool) -> str:
    lines = [
        "One count an outcome: " + ", ".join(plan.outcomes) + ".",
        "'of' says whom the total counts:",
        *_listed(denominators(plan, printed=of_paper)),
        "'window' says over what time it was looked for:",
        *_listed(windows(plan)),
    ]
    if of_paper:
        lines.append(
            "Also: 'at' (place in the paper), 'printed' (the percentage as printed), 'derived' "
            "(arithmetic, if it was worked out), 'assumed: true' (if the text does not tie the "
            "events to this total)."
        )
    else:
        lines.append("Also: 'unknown', how many of the total have no known outcome.")
    return "\n".join(lines)


def _levels(plan: Plan) -> str:
    lines: list[str] = []
    for name, stratum in strata(plan).items():
        lines += [f"{name}. {stratum_words(stratum)}", *_listed(levels(stratum))]
    return "\n".join(lines)


def _facts(what: str, declared: Mapping[str, Any]) -> str:
    listed = (
        f"{name} ({', '.join(fact.levels)})" if fact.levels else name
        for name, fact in declared.items()
    )
    return f"{what} that the plan names: {', '.join(listed) or 'none'}."


def _listed(words: Mapping[str, str]) -> list[str]:
    return [f"  {name}: {meaning}" for name, meaning in words.items()]


def _with_mark(said: dict[KeyPath, str], record: Mapping[str, Any]) -> dict[KeyPath, str]:
    if record.get("invented"):
        said["format",] = f"{said['format',]}\n{_INVENTED}"
    return said
