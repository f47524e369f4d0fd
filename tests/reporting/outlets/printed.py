"""What an outlet printed of a pool, as digits alone, and what the fields for programs would print.

The digits are rounded here anew, by the decimal arithmetic of the standard library.
"""

import re
from decimal import ROUND_HALF_EVEN, Decimal

NUMBER = r"(?:under |over |<|>)?\d+\.\d"
RATE = rf"{NUMBER}%? \({NUMBER}%?(?: to |-){NUMBER}%?\)"
SPAN = rf"{NUMBER}%?(?: to |-){NUMBER}%?"
COUNT = r"[\d,]+ of [\d,]+"
STUDIES = r"(\d+|[Oo]ne|[Tt]wo|[Nn]o) (?:study|studies|series)"
WRITTEN = {"no": "0", "one": "1", "two": "2"}

#: What all outlets could print of one pool; each outlet prints some of it.
FIELDS = ("studies", "count", "headline", "read", "range")


def flat(text: str) -> str:
    return " ".join(text.split())


def digits(text: str) -> str:
    """Return the rates of a text, without what stands around them: ``5.6/4.2/7.4``."""
    found = re.findall(rf"{NUMBER}", text)
    return "/".join(one.replace("under ", "<").replace("over ", ">") for one in found)


def rounded(*proportions: float) -> str:
    return "/".join(_rounded(one) for one in proportions)


def _rounded(proportion: float) -> str:
    if 0 < proportion < 0.0005:
        return "<0.1"
    if 0.9995 < proportion < 1:
        return ">99.9"
    exact = Decimal(100 * proportion)
    return str(exact.quantize(Decimal("0.1"), rounding=ROUND_HALF_EVEN))


def of_fields(item: dict) -> dict[str, str]:
    """Return what one answer of the fields for programs would print; empty where nothing is."""
    head, read = item["rows"].get("headline"), item["rows"].get(item["reading_row"])
    ranged = item["show"] in {"five_to_nine_studies", "ten_studies_or_more"} and read
    is_counted = item["k"] and item["events"] is not None
    return {
        "studies": str(item["k"]),
        "count": f"{item['events']:,} of {item['total']:,}" if is_counted else "",
        "headline": rounded(head["estimate"], head["low"], head["high"]) if head else "",
        "read": rounded(read["estimate"], read["low"], read["high"]) if read else "",
        "range": rounded(read["prediction_low"], read["prediction_high"]) if ranged else "",
    }


def of_sentence(text: str) -> dict[str, str]:
    """Return what a sentence about one pool prints."""
    studies = re.search(STUDIES, text)
    assert studies, text
    together = re.search(rf"together ({COUNT})", text)
    added = together or re.search(rf"({COUNT})(?: in {STUDIES}| \({NUMBER}%; exact)", text)
    word = studies[1].lower()
    return {
        "studies": WRITTEN.get(word, word),
        "count": added[1] if added else "",
        "headline": _digits_after("gives ", RATE, text),
        "read": _digits_after("sees ", RATE, text),
        "range": _digits_after(r"range for an ordinary new setting(?: is|:) ", SPAN, text),
    }


def _digits_after(words: str, what: str, text: str) -> str:
    found = re.search(f"{words}({what})", text)
    return digits(found[1]) if found else ""


def of_cells(studies: str, count: str, headline: str, read: str) -> dict[str, str]:
    """Return what a row of a table prints."""
    return {
        "studies": studies,
        "count": count if re.fullmatch(COUNT, count) else "",
        "headline": digits(headline),
        "read": digits(read),
    }
