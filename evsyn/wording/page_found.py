"""Words of the page on how papers were found, and what became of each of them."""

FOUND = "The search, and what became of each paper"
FOUND_HEADINGS = ("Outcome", "Counted", "Reported, but left out", "Not reported")
FATE_READ = (
    "'Counted' stands in the row of all studies. 'Left out' has its reasons under 'What was left "
    "out'. 'Not reported' has no such count in its extract, read as far as the status line says."
)


def fate_caption(studies: int) -> str:
    """Say of how many papers the table tells."""
    return f"What each of the {studies:,} studies gives, outcome by outcome"
