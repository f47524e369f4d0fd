"""Tables that are read by ear, on paper and on a narrow screen."""

from collections.abc import Iterable, Sequence
from itertools import chain, repeat

from evsyn.reporting.page.markup import Html, element, opening, words


def table(
    kind: str,
    caption: str,
    headings: Sequence[str],
    rows: Iterable[Sequence[Html]],
    *,
    name: str = "",
    labelled: bool = False,
    link: str = "",
    row_names: Sequence[str] = (),
) -> Html:
    """Return a table; the first cell of a row heads it.

    Parameters
    ----------
    kind : str
        Its class; narrow screens label its cells by it, see :func:`narrow_labels`.
    caption : str
        What it holds.
    headings : sequence of str
        One a column.
    rows : iterable of sequence of Html
        Cells of each row.
    name : str
        Its id, where it needs one.
    labelled : bool
        Whether cells carry their headings themselves, since those are not known beforehand.
    link : str
        Where its caption leads, if anywhere.
    row_names : sequence of str
        An id a row, where rows are led to.
    """
    head = element("tr", *(element("th", words(text), scope="col") for text in headings))
    labels = headings[1:] if labelled else ()
    names = chain(row_names, repeat(""))
    body = "\n".join(_row(row, labels, name) for row, name in zip(rows, names, strict=False))
    given = {"class_": kind, **({"id": name} if name else {})}
    titled = element("a", words(caption), href=link) if link else words(caption)
    return Html(
        f"{opening('table', **given)}\n{element('caption', titled)}\n"
        f"{element('thead', head)}\n<tbody>\n{body}\n</tbody>\n</table>"
    )


def _row(cells: Sequence[Html], labels: Sequence[str], name: str) -> Html:
    first, *rest = cells
    if labels:
        told = "".join(
            element("td", cell, data_label=label) for cell, label in zip(rest, labels, strict=True)
        )
    else:
        told = "".join(f"<td>{cell}</td>" for cell in rest)
    row = opening("tr", id=name) if name else opening("tr")
    return Html(f'{row}<th scope="row">{first}</th>{told}')


def narrow_labels(kind: str, headings: Sequence[str]) -> str:
    """Return CSS that names each cell of a kind of table where columns have no room."""
    return "\n".join(
        f'.{kind} td:nth-of-type({place})::before{{content:"{_in_css(text)}"}}'
        for place, text in enumerate(headings[1:], start=1)
    )


def _in_css(text: str) -> str:
    return text.replace("\\", r"\5c ").replace('"', r"\22 ").replace("<", r"\3c ")
