"""Pages of the demo review, made once."""

from functools import cache
from pathlib import Path

from evsyn.extraction.load import read_review, read_unit
from evsyn.reporting.page import page_html
from evsyn.reporting.report.content import report_content
from evsyn.terms import Audience

STUDIES = Path(__file__).parents[3] / "studies"
DEMO = STUDIES / "demo"
UNIT_FILE = DEMO / "unit-hollowmere.yaml"


@cache
def review(name: str = "demo"):
    return read_review(STUDIES / name)


@cache
def content(name: str = "demo"):
    return report_content(review(name))


@cache
def page(name: str = "demo") -> str:
    return page_html(content(name))


@cache
def unit_page(audience: Audience) -> str:
    unit = read_unit(UNIT_FILE, review().plan)
    return page_html(report_content(review(), unit, audience))
