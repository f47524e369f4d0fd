"""Words as the XML of a slide: cleaned, escaped, tagged with their language."""

from xml.sax.saxutils import escape, quoteattr

from evsyn.figures.measure import left_to_right, one_line

LANGUAGE = "en-GB"


def clean(words: str) -> str:
    """Return words without line breaks and letters that XML forbids."""
    return one_line(words)


def attribute(words: str) -> str:
    """Return words as a quoted attribute."""
    return quoteattr(clean(words))


def run_xml(
    words: str, *, size: float | None = None, bold: bool = False, paint: str = "", link: str = ""
) -> str:
    """Return a run of words.

    Parameters
    ----------
    words : str
        The words; blanks at their ends are kept.
    size : float, optional
        Type size in points; by default that of the layout.
    bold : bool
        Whether it is bold.
    paint, link : str
        XML of its colour and of where it leads.
    """
    edges = (" " if words[:1] == " " else "", " " if words[-1:] == " " else "")
    said = f"{edges[0]}{clean(words)}{edges[1]}" if words.strip() else words
    sized = "" if size is None else f' sz="{round(100 * size)}"'
    heavy = ' b="1"' if bold else ""
    marks = f'<a:rPr lang="{LANGUAGE}"{sized}{heavy} dirty="0">{paint}{link}</a:rPr>'
    return f"<a:r>{marks}<a:t>{escape(left_to_right(said))}</a:t></a:r>"
