"""Everything an audit gives, written into one folder."""

from pathlib import Path

from evsyn.extraction.load import CheckedUnit
from evsyn.extraction.review import Review
from evsyn.reporting.audit_fields import audit_json
from evsyn.reporting.audit_page import audit_text
from evsyn.reporting.files import written_together
from evsyn.terms import Audience


def write_audit(
    folder: Path,
    review: Review,
    checked: CheckedUnit,
    audience: Audience,
    earlier: CheckedUnit | None = None,
) -> tuple[Path, ...]:
    """Write the text and the fields of an audit, all at once; return the files.

    Parameters
    ----------
    folder : pathlib.Path
        Where to; made if it is missing.
    review : Review
        The review.
    checked : CheckedUnit
        The unit's figures.
    audience : Audience
        Who will read it.
    earlier : CheckedUnit, optional
        The unit's figures of an earlier period.

    Raises
    ------
    OSError
        If the folder cannot be written; nothing in it has then changed.
    """
    stem = f"{checked.unit.unit}-{audience}"
    written = {
        f"{stem}.txt": audit_text(review, checked, audience, earlier),
        f"{stem}.json": audit_json(review, checked, audience, earlier),
    }
    with written_together(folder) as draft:
        for name, text in written.items():
            (draft / name).write_text(f"{text}\n", encoding="utf-8", newline="\n")
    return tuple(folder / name for name in written)
