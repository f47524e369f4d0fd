"""The nearest plain form of a letter or sign that a console cannot show."""

import unicodedata

UNKNOWN = "?"

#: Signs that Unicode itself does not take apart into plain ones.
_SIGNS = {
    "\u2010": "-", "\u2011": "-", "\u2012": "-", "\u2013": "-", "\u2014": "-", "\u2212": "-",
    "\u2018": "'", "\u2019": "'", "\u201a": ",", "\u201c": '"', "\u201d": '"', "\u201e": '"',
    "\u00ab": "<<", "\u00bb": ">>", "\u2039": "<", "\u203a": ">",
    "\u00b7": ".", "\u2022": "*", "\u2190": "<-", "\u2192": "->", "\u2194": "<->",
    "\u00b1": "+/-", "\u00d7": "x", "\u00f7": "/", "\u2264": "<=", "\u2265": ">=",
    "\u2260": "!=", "\u2248": "~", "\u2044": "/", "\u2032": "'", "\u00b0": " degrees",
    "\u00a7": "section ", "\u2020": "+", "\u2021": "++", "\u00b5": "u", "\u20ac": "EUR",
    "\u00a3": "GBP", "\u2588": "#", "\u2591": ".", "\u25a1": "?",
    "\u00df": "ss", "\u1e9e": "SS", "\u00e6": "ae", "\u00c6": "AE", "\u0153": "oe",
    "\u0152": "OE", "\u00f8": "o", "\u00d8": "O", "\u0142": "l", "\u0141": "L", "\u0111": "d",
    "\u0110": "D", "\u00f0": "d", "\u00d0": "D", "\u00fe": "th", "\u00de": "Th", "\u0131": "i",
    "\u0127": "h", "\u0126": "H",
}  # fmt: skip


def plain_text(words: str) -> str:
    """Return words in plain ASCII, each letter in its nearest form.

    An accent is dropped, a Greek letter is named, and a letter of another script that has no
    plain form becomes a question mark. What has no width is left out.
    """
    return "".join(map(_plain, words))


def _plain(letter: str) -> str:
    if letter.isascii():
        return letter
    if letter in _SIGNS:
        return _SIGNS[letter]
    if unicodedata.category(letter) in ("Mn", "Cf"):
        return ""
    parts = unicodedata.normalize("NFKD", letter)
    if parts != letter:
        return plain_text(parts)
    kind, _, name = unicodedata.name(letter, "").rpartition(" LETTER ")
    if kind in ("GREEK SMALL", "GREEK CAPITAL"):
        return name.lower() if kind.endswith("SMALL") else name.title()
    return UNKNOWN
