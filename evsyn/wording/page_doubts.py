"""Words of the page's table of doubts, for those who read papers and not files."""

DOUBT_HEADINGS = ("Study", "Of what", "Doubt", "Answer", "File and line")
DOUBTS_READ = (
    "Each is a question to a paper or its extract that a check raised. The numbers are pooled as "
    "they stand; what the answer says is a reader's reply. What would clear each, 'evsyn check' "
    "says."
)
THE_REVIEW = "the review"

#: What an entry of an extract is about, by the first key that leads to it.
_ENTRIES = {
    "overlaps": "shared patients",
    "sums": "a sum in the paper",
    "also_printed": "another printed figure",
    "citation": "the citation",
    "extracted": "how it was read",
    "recruited": "when it recruited",
    "design": "the design",
    "arms": "the groups",
}


def subject(key_path: str, outcomes: dict[str, str]) -> str:
    """Say what a doubt is about; empty where its place in the file does not tell.

    Parameters
    ----------
    key_path : str
        Keys down to the value, joined by dots.
    outcomes : dict
        Label of each outcome.

    Examples
    --------
    >>> subject("stent.perforation", {"perforation": "Perforation"})
    'Perforation'
    >>> subject("overlaps.0.study", {})
    'shared patients'
    """
    keys = key_path.split(".")
    for key in keys:
        if key in outcomes:
            return outcomes[key]
    return _ENTRIES.get(keys[0], "")
