"""What the cases of a count strip could have shown, in words."""

from evsyn.audit.power import Notice
from evsyn.audit.total_notice import TotalNotice
from evsyn.audit.verdict import Limits
from evsyn.terms import Better
from evsyn.wording.audit_verdict import risk_words
from evsyn.wording.chances import in_hundred, noticed_words
from evsyn.wording.numbers import percent
from evsyn.wording.standardised import whole_risk_words


def risk_sentence(notice: Notice | None, limits: Limits, better: Better) -> str:
    """Say how well these cases would have noticed a doubled risk."""
    if notice is None:
        return "The typical risk is too high to be doubled."
    who = _who(notice, better)
    return f"{who[:1].upper()}{who[1:]} {noticed_words(notice, limits, better)}."


def _who(notice: Notice, better: Better) -> str:
    if isinstance(notice, TotalNotice):
        return whole_risk_words(notice, better)
    return risk_words(notice, better)


def short_risk_sentence(notice: Notice | None, limits: Limits, better: Better) -> str:
    """Say the same on a slide, so that it can be read aloud."""
    if notice is None:
        return ""
    short = "" if better is Better.FEWER else " of falling short"
    if (limits.first_more if better is Better.FEWER else limits.last_fewer) is None:
        return f"Twice the risk{short} could not be noticed."
    said, _ = in_hundred(notice.notice, 1 - notice.notice)
    many = f"about {said}" if said.isdigit() else said
    risk = f"twice the risk{short}"
    if _is_capped(notice):
        risk = f"a risk{short} of {percent(notice.doubled)}"
    return f"Of 100 units at {risk}, {many} would be noticed."


def _is_capped(notice: Notice) -> bool:
    """Whether twice the risk was not taken in full."""
    if isinstance(notice, TotalNotice):
        return notice.is_capped
    return notice.doubled < 2 * notice.typical
