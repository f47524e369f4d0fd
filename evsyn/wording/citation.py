"""How a paper is cited."""

from evsyn.extraction.study import Citation


def citation_text(cited: Citation) -> str:
    """Return the citation as far as it was read, then what leads to the paper.

    Parameters
    ----------
    cited : Citation
        The citation; parts that were not read are left out and said in its note.
    """
    where = " ".join(str(part) for part in (cited.journal, cited.year) if part)
    if cited.pages:
        where = f"{where}; {cited.pages}" if where else cited.pages
    parts = [_stop(part) for part in (cited.authors, cited.title, where) if part]
    if cited.doi:
        parts.append(f"doi {cited.doi}.")
    if cited.pmid:
        parts.append(f"PubMed {cited.pmid}.")
    if cited.address and not (cited.doi or cited.pmid):
        parts.append(f"{cited.address}.")
    if cited.note:
        parts.append(f"[{_stop(cited.note)}]")
    return " ".join(parts)


def _stop(text: str) -> str:
    return text if text.endswith((".", "?", "!")) else f"{text}."
