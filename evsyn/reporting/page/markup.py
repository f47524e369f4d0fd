"""HTML that nothing can break out of: words are escaped where they enter, and nowhere else."""

import re
from html import escape
from typing import NewType

#: Text that is HTML already.
Html = NewType("Html", str)

#: Letters that HTML forbids (controls, halves of pairs, what is no letter) and, first, the marks
#: that turn the direction of writing, which could reorder the numbers beside a name.
_NEVER_SHOWN = re.compile(
    r"[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069"
    "\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef"
    + "".join(chr(plane << 16 | low) for plane in range(17) for low in (0xFFFE, 0xFFFF))
    + "]"
)


def words(text: str) -> Html:
    """Return text as HTML that shows it letter by letter, see :func:`shown`."""
    return Html(escape(shown(text), quote=True))


def shown(text: str) -> str:
    """Return text without the letters that no page should hold.

    Letters that HTML forbids are dropped, and so are the invisible ones that turn the direction of
    writing; right-to-left script itself needs none of them.
    """
    return _NEVER_SHOWN.sub("", text)


def element(name: str, /, *inside: Html, **attributes: str) -> Html:
    """Return an element; ``class_`` and ``for_`` stand for the words Python keeps to itself.

    Parameters
    ----------
    name : str
        Name of the element.
    *inside : Html
        What it holds.
    **attributes : str
        Its attributes, escaped here; an underscore within a name becomes a hyphen.
    """
    return Html(f"{opening(name, **attributes)}{''.join(inside)}</{name}>")


def opening(name: str, /, **attributes: str) -> Html:
    """Return the opening tag alone; arguments as in :func:`element`."""
    given = (
        f' {key.rstrip("_").replace("_", "-")}="{words(value)}"'
        for key, value in attributes.items()
    )
    return Html(f"<{name}{''.join(given)}>")


def joined(*parts: Html) -> Html:
    """Return parts one after the other."""
    return Html("\n".join(part for part in parts if part))


def paragraphs(*texts: str) -> Html:
    """Return each text that is not empty as a paragraph."""
    return joined(*(element("p", words(text)) for text in texts if text))


def listing(*texts: str) -> Html:
    """Return texts as a list of points; empty for none."""
    points = [element("li", words(text)) for text in texts if text]
    return element("ul", *points) if points else Html("")


def folded(name: str, title: str, *inside: Html, is_open: bool = False) -> Html:
    """Return parts under a title that opens and closes, without scripts.

    Parameters
    ----------
    name : str
        Its id.
    title : str
        What stands where it is closed.
    *inside : Html
        What it holds.
    is_open : bool
        Whether it stands open at first, and on paper.
    """
    head = element("summary", words(title))
    told = opening("details", id=name, **({"class_": "open", "open": ""} if is_open else {}))
    return Html(f"{told}\n{joined(head, *inside)}\n</details>")


def section(name: str, title: str, *inside: Html, level: int = 2) -> Html:
    """Return a section under a heading, which names it for those who hear the page.

    Parameters
    ----------
    name : str
        Its id.
    title : str
        Its heading.
    *inside : Html
        What it holds.
    level : int
        Level of the heading.
    """
    head = element(f"h{level}", words(title), id=f"{name}-head")
    body = joined(head, *inside)
    return element("section", Html(f"\n{body}\n"), id=name, aria_labelledby=f"{name}-head")
