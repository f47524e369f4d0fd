"""LaTeX accents and signs as the letters they stand for."""

import re
from functools import cache
from typing import Any

_BARE_PERCENT = re.compile(r"(?<!\\)%")
DEEPEST = 40


def plain(text: str) -> str:
    r"""Return a value with its accents as letters and without the braces that protect capitals.

    Parameters
    ----------
    text : str
        The value of a BibTeX field.

    Returns
    -------
    str
        A formula, and a command that is not known, stay as written; so does a text nested too
        deeply to be taken apart.

    Examples
    --------
    >>> plain(r"M{\"o}ss and the {USA}, 5% of $x^2$")
    'Möss and the USA, 5% of $x^2$'
    """
    if not re.search(r"[\\{}~]|--|``|''", text) or text.count("{") > DEEPEST:
        return text
    # In BibTeX a percent sign is a letter; LaTeX would drop the rest of the line.
    made = _decoder().latex_to_text(_BARE_PERCENT.sub(r"\\%", text))
    return str(made).replace("\xa0", " ").strip()


@cache
def _decoder() -> Any:
    from pylatexenc.latex2text import (
        LatexNodes2Text,
        MacroTextSpec,
        get_default_latex_context_db,
    )

    context = get_default_latex_context_db()
    context.add_context_category(
        "addresses", prepend=True, macros=[MacroTextSpec("url", simplify_repl="%s")]
    )
    context.set_unknown_macro_spec(
        MacroTextSpec("", simplify_repl=lambda node: node.latex_verbatim())
    )
    return LatexNodes2Text(latex_context=context, math_mode="verbatim", strict_latex_spaces=False)
