"""The shipped reviews cut down to their first outcome, which is all that a pocket card is about."""

from dataclasses import replace
from functools import cache
from pathlib import Path

from evsyn.audit.unit_audit import unit_audit
from evsyn.extraction.load import CheckedUnit, read_review, read_unit
from evsyn.extraction.review import Review
from evsyn.reporting.report.content import ReportContent, UnitReport, report_content
from evsyn.terms import Audience

STUDIES = Path(__file__).parents[3] / "studies"


@cache
def review_of(name: str) -> Review:
    return first_only(read_review(STUDIES / name))


def first_only(review: Review) -> Review:
    plan = review.plan
    first = next(iter(plan.outcomes))
    return replace(review, plan=plan.model_copy(update={"outcomes": {first: plan.outcomes[first]}}))


@cache
def content_of(name: str) -> ReportContent:
    return report_content(review_of(name))


@cache
def hollowmere() -> tuple[Review, CheckedUnit]:
    """The whole demo, and the invented unit with all that it reports."""
    review = read_review(STUDIES / "demo")
    return review, read_unit(STUDIES / "demo" / "unit-hollowmere.yaml", review.plan)


@cache
def _audited() -> UnitReport:
    review, checked = hollowmere()
    return UnitReport(checked, Audience.INSIDE, unit_audit(review, checked.unit))


def unit_content(audience: Audience) -> ReportContent:
    review, _ = hollowmere()
    return replace(content_of("demo"), review=review, unit=replace(_audited(), audience=audience))


def changed_content(checked: CheckedUnit, audience: Audience) -> ReportContent:
    """The card of a unit whose figures are changed."""
    review, _ = hollowmere()
    unit = UnitReport(checked, audience, unit_audit(review, checked.unit))
    return replace(content_of("demo"), review=review, unit=unit)
