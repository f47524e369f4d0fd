"""Ask how to find a paper again, where its patients were, and who read it."""

from datetime import date

from evsyn.cli.new.asking import Asker, Given


def citation_of(asker: Asker, given: Given) -> Given:
    """Return the citation; what was not read is left out."""
    from evsyn.extraction.starting import answers
    from evsyn.wording import new_questions as say

    fields = {
        "authors": (say.AUTHORS, answers.text),
        "title": (say.TITLE, answers.text),
        "journal": (say.JOURNAL, answers.text),
        "year": (say.YEAR, answers.number(1900, 2100)),
        "pages": (say.PAGES, answers.text),
        "doi": (say.DOI, answers.doi),
        "pmid": (say.PMID, answers.pmid),
    }
    found = {
        key: asker.optional(said, f"--{key}", given[key], read)
        for key, (said, read) in fields.items()
    }
    return {key: value for key, value in found.items() if value is not None}


def name_from(cited: Given) -> str | None:
    """Return a short name such as ``2001-reed``, where the citation gives one."""
    authors = str(cited.get("authors", "")).lower()
    words = "".join(one if one.isascii() and one.isalnum() else " " for one in authors).split()
    return f"{cited['year']}-{words[0]}" if words and "year" in cited else None


def setting_of(asker: Asker, given: Given) -> Given:
    """Return where and when the patients were treated."""
    from evsyn.extraction.starting import answers
    from evsyn.wording import new_questions as say

    found = {
        "centres": asker.optional(say.CENTRES, "--centres", given["centres"], answers.listed),
        "country": asker.optional(say.COUNTRY, "--country", given["country"], answers.text),
        "recruited": asker.optional(say.RECRUITED, "--recruited", given["recruited"], answers.span),
    }
    return {key: value for key, value in found.items() if value}


def extracted_of(asker: Asker, given: Given) -> Given:
    """Return who read the paper, when, and how much of it."""
    from evsyn.extraction.starting import answers
    from evsyn.wording import new_questions as say

    today = date.today().isoformat()
    return {
        "by": asker.one(say.BY, "--by", given["by"], answers.initials),
        "on": asker.one(say.ON, "--on", given["on"], answers.day, default=today),
        "from": asker.choice(say.READ_AS, "--from", given["from_"], say.READ_AS_WORDS),
        "checked_by": None
        if given["checked_by"] is None
        else asker.read("--checked-by", given["checked_by"], answers.initials),
    }
