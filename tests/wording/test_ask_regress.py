"""Words for a regression on characteristics of studies."""

from dataclasses import replace
from pathlib import Path

from evsyn.cells.covariates import Covariate, Kind
from evsyn.extraction.load import read_review
from evsyn.pooling.on_covariates import regress_on
from evsyn.pooling.regression import RegressionStatus
from evsyn.wording.ask_regress import regress_sentences

DEMO = read_review(Path(__file__).parents[2] / "studies" / "demo")


def test_without_the_exact_model_few_events_leave_nothing_to_read():
    asked = regress_on(DEMO, "perforation", [Covariate(Kind.YEAR, "year", "year")])
    found = asked.found
    unsettled = replace(
        found, exact=replace(found.exact, status=RegressionStatus.NOT_CONVERGED, coefficients=())
    )
    (said,) = regress_sentences(replace(asked, found=unsettled))
    assert said.startswith("The exact model did not settle")
    assert "They are not to be read: events are few" in said
