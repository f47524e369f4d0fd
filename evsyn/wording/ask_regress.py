"""Words for what an outcome goes with between studies: a regression on their characteristics."""

import math
from collections.abc import Iterator, Sequence

from evsyn.cells.covariate_rows import WithoutValue
from evsyn.cells.covariates import Covariate, Kind
from evsyn.pooling.on_covariates import NoRegression, OnCovariates, PredictedRate, Term
from evsyn.pooling.regressed import Regressed
from evsyn.pooling.regression import (
    STUDIES_A_COLUMN,
    Regression,
    RegressionStatus,
)
from evsyn.wording.ask_differ import fitted_robust_cells, ratio
from evsyn.wording.numbers import cell, counted, probability, spread

TERM_HEADINGS = ("Odds ratio of", "(95% interval)", "df", "P")
RATE_HEADINGS = ("Studies like", "Rate, % (95% interval)")
MODEL_NAMES = {
    "exact_binomial_normal": "Exact binomial-normal model",
    "restricted_ml_hartung_knapp_floor": "Restricted ML, Hartung-Knapp (floored)",
}
_IN_SENTENCE = {
    "exact_binomial_normal": "the exact binomial-normal model",
    "restricted_ml_hartung_knapp_floor": "restricted ML with floored Hartung-Knapp t tests",
}
ROBUST_NAME = "Two-step, robust to rows of one study (CR2)"
CAUTION = (
    "Studies are compared here, and not patients: era, centre and case mix move with them, and "
    "what goes together between studies need not do so within one."
)
KEY = (
    "Odds ratio: 1 is no difference. Rate: of a typical setting with that value, by the model to "
    "read; other columns are held at their means."
)
ROBUST_KEY = (
    "Several rows of one study are not strangers to each other; the robust lines allow for it (df "
    "are Satterthwaite's). Below 4 of them no P is given, and nothing should be read from the "
    "limits."
)
#: Above this a column is told largely by the others. Common practice, no source.
MUCH_INFLATED = 5.0


def regress_heading(label: str, covariates: Sequence[Covariate]) -> str:
    """Say what is asked."""
    return f"{label}, regressed on {' and '.join(covariate_words(one) for one in covariates)}"


def covariate_words(covariate: Covariate) -> str:
    """Return a covariate in words."""
    if covariate.kind in _BUILT_IN and not covariate.label:
        return _BUILT_IN[covariate.kind]
    return _lower(covariate.label)


_BUILT_IN = {
    Kind.YEAR: "year of publication",
    Kind.RECRUITED: "middle of recruitment",
    Kind.SIZE: "size of the study",
}
_WHEN = {True: "events are few", False: "every study has enough events"}
_PER = {
    Kind.YEAR: "10 years later (publication)",
    Kind.RECRUITED: "10 years later (recruitment)",
    Kind.SIZE: "twice the size",
}


def term_words(term: Term) -> str:
    """Return a column of the regression in words, as what its odds ratio is of."""
    levels = term.covariate.levels
    if term.level:
        return f"{levels[term.level]} / {levels[term.against]}"
    return _PER.get(term.covariate.kind, f"1 more: {_lower(term.covariate.label)}")


def value_words(rate: PredictedRate) -> str:
    """Return the value of a covariate in words, as the studies it belongs to."""
    covariate, value = rate.covariate, rate.value
    if isinstance(value, str):
        return covariate.levels[value]
    return number_words(covariate, value)


def number_words(covariate: Covariate, value: float) -> str:
    """Return a value of a number in words."""
    match covariate.kind:
        case Kind.YEAR:
            return f"published in {value:.0f}"
        case Kind.RECRUITED:
            return f"recruited about {math.floor(value)}"
        case Kind.SIZE:
            return f"with a total of {value:,.0f}"
    return f"{_lower(covariate.label)}: {value:g}"


def regress_sentences(asked: OnCovariates) -> Iterator[str]:
    """Yield what the regression says, or why there is none."""
    found = asked.found
    if found is None:
        yield _no_regression(asked)
        return
    refused = _refusal(found, asked.terms)
    if refused:
        yield refused
    if found.quoted.status is not RegressionStatus.FITTED:
        return
    yield _quoted(asked, found)
    yield _spread(found.quoted)
    told = _inflated(asked, found.quoted)
    if told:
        yield told
    yield CAUTION


def _no_regression(asked: OnCovariates) -> str:
    if asked.reason is NoRegression.ONE_LEVEL:
        named = " and ".join(covariate_words(one) for one in asked.alone)
        return (
            f"No regression: of {named} fewer than two levels have three studies with a count and "
            "all values."
        )
    return f"No regression: {asked.reason}."


def _refusal(found: Regressed, terms: Sequence[Term]) -> str:
    """Say which model could not be made, and why; empty where both were."""
    status = found.exact.status
    if status is RegressionStatus.TOO_FEW_STUDIES:
        columns = counted(len(terms), "column", "columns")
        return (
            f"No regression: {STUDIES_A_COLUMN} studies are wanted for each column, here "
            f"{STUDIES_A_COLUMN * len(terms)} for {columns} "
            f"({'; '.join(term_words(term) for term in terms)}), and "
            f"{counted(found.studies, 'study has', 'studies have')} a count and all values. With "
            "fewer, chance alone often makes a column stand out."
        )
    if status is RegressionStatus.COLLINEAR:
        tied = "; ".join(term_words(term) for term in terms if term.column in found.exact.tied)
        return (
            "No regression: a column is told by the others, or is the same in all studies, "
            f"so that its part cannot be told ({tied})."
        )
    if status is RegressionStatus.NO_INFORMATION:
        return "No regression: no study has an event, or all patients have one."
    if status is RegressionStatus.NOT_CONVERGED:
        said = "The exact model did not settle, so only the two-step lines are shown."
        if found.few_events:
            said += (
                " They are not to be read: events are few, perhaps none at one level, and then the "
                "half event that is added to a study without one makes the difference."
            )
        return said
    return ""


def _quoted(asked: OnCovariates, found: Regressed) -> str:
    model = found.quoted
    parts = [
        f"{ratio(one.estimate, one.low, one.high)} for {term_words(term)}, P {probability(one.p)}"
        for term, one in zip(asked.terms, model.coefficients[1:], strict=True)
    ]
    studies = counted(found.studies, "study", "studies")
    rows = f" ({model.k} rows)" if model.k > found.studies else ""
    said = f"Over {studies}{rows}, by {_IN_SENTENCE[model.method]}, odds ratio {'; '.join(parts)}."
    if len(asked.terms) > 1:
        said += (
            f" All columns together: F {model.statistic:.2f} on {len(asked.terms)} and {model.df} "
            f"degrees of freedom, P {probability(model.p)}."
        )
    said += f" It is the model to read where {_WHEN[found.few_events]}."
    if found.shared:
        number = counted(len(found.shared), "study gives", "studies give")
        said += (
            f" {number} several rows, which it takes for rows of several studies: P of what is "
            "alike in all rows of a study tends to come out too small; see the robust lines."
        )
    return said


def _spread(model: Regression) -> str:
    said = (
        f"Spread between studies (tau, log-odds): {spread(model.tau2_alone**0.5)} without, "
        f"{spread(model.tau2**0.5)} with."
    )
    if math.isnan(model.r2):
        return f"{said} No spread was seen without, so no share of it can be told."
    return f"{said} Of its square the columns take {100 * model.r2:.0f}% (R2), a rough figure."


def _inflated(asked: OnCovariates, model: Regression) -> str:
    if len(asked.covariates) < 2:
        return ""
    high = [
        f"{term_words(term)} ({one.inflation:.1f})"
        for term, one in zip(asked.terms, model.coefficients[1:], strict=True)
        if one.inflation > MUCH_INFLATED
    ]
    if not high:
        return ""
    return (
        "The columns tell much of each other, so their parts can hardly be told (variance "
        f"inflation above {MUCH_INFLATED:.0f}): {'; '.join(high)}. Ask of each alone; rates at "
        "single values are not given."
    )


def is_inflated(asked: OnCovariates) -> bool:
    """Tell whether columns tell so much of each other that rates at one value mean nothing."""
    return asked.found is not None and bool(_inflated(asked, asked.found.quoted))


def _listed(label: str) -> str:
    """Return a label as it stands in a list: no comma of its own parts it.

    Examples
    --------
    >>> _listed("PubMed 14719149, 2004"), _listed("Canon 1997")
    ('PubMed 14719149 (2004)', 'Canon 1997')
    """
    name, comma, year = label.rpartition(", ")
    return f"{name} ({year})" if comma else label


def without_sentence(without: Sequence[WithoutValue]) -> str:
    """List studies that give no row, with what they lack; empty where there are none."""
    if not without:
        return ""
    lacks: dict[tuple[str, ...], list[str]] = {}
    for one in without:
        lacks.setdefault(one.words, []).append(_listed(one.label))
    parts = [f"{', '.join(labels)} ({_lack(words)})" for words, labels in lacks.items()]
    return f"Left out, {counted(len(without), 'study', 'studies')}: {'; '.join(parts)}."


def _lack(words: Sequence[str]) -> str:
    if not words:
        return "no count of its own at one level"
    return f"no one value of {' and '.join(words)}"


def short_sentence(short: Sequence[tuple[str, str, int]], covariates: Sequence[Covariate]) -> str:
    """List levels with too few rows; empty where there are none."""
    if not short:
        return ""
    by_word = {one.word: one for one in covariates}
    parts = [
        f"{by_word[word].levels[level]} ({counted(number, 'study', 'studies')})"
        for word, level, number in short
    ]
    return f"Levels with fewer than three studies are left out: {'; '.join(parts)}."


def model_rows(asked: OnCovariates) -> list[tuple[str, str, str, str]]:
    """Return every model's coefficients, each model under its name, the one to read first."""
    found = asked.found
    if found is None:
        return []
    labels = [f" {term_words(term)}" for term in asked.terms]
    rows: list[tuple[str, str, str, str]] = []
    models = (found.quoted, found.two_step if found.few_events else found.exact)
    for model in models:
        if model.status is not RegressionStatus.FITTED:
            continue
        read = " - read this" if model is found.quoted else ""
        rows.append((f"{MODEL_NAMES[model.method]}{read}", "", "", ""))
        rows += [
            (label, ratio(one.estimate, one.low, one.high), str(model.df), probability(one.p))
            for label, one in zip(labels, model.coefficients[1:], strict=True)
        ]
    line = found.robust
    if line is not None:
        rows.append((ROBUST_NAME, "", "", ""))
        rows += [
            (label, *fitted_robust_cells(line, at)) for at, label in enumerate(labels, start=1)
        ]
    return rows


def rate_row(rate: PredictedRate) -> tuple[str, str]:
    """Return the rate at one value."""
    return value_words(rate), cell(rate.rate, rate.low, rate.high)


def _lower(label: str) -> str:
    """Write a heading inside a sentence; an abbreviation stays as it is."""
    return label if label[:2].isupper() else f"{label[:1].lower()}{label[1:]}"
