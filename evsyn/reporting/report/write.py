"""Write the products of a report into one folder, with the manifest of what they were made from."""

from collections.abc import Sequence
from pathlib import Path

from evsyn.reporting.files import written_together
from evsyn.reporting.manifest import MANIFEST, manifest_text, products_made
from evsyn.reporting.report.content import ReportContent
from evsyn.reporting.report.products import product_files


def write_report(
    folder: Path,
    content: ReportContent,
    kinds: Sequence[str],
    *,
    command: str,
    unit_file: Path | None = None,
    template: bytes | None = None,
) -> tuple[Path, ...]:
    """Write products and manifest, all at once; return the files.

    Parameters
    ----------
    folder : pathlib.Path
        Where to; made if it is missing.
    content : ReportContent
        What the report says.
    kinds : sequence of str
        Kinds of products.
    command : str
        The command, for the manifest.
    unit_file : pathlib.Path, optional
        The unit's file, where the report holds a unit's figures.
    template : bytes, optional
        For slides: a hospital's own template.

    Raises
    ------
    OSError
        If the folder cannot be written; nothing in it has then changed.
    ValueError
        If the folder holds what is for another audience, or the template cannot be used.
    """
    files: dict[str, bytes] = {}
    for kind in kinds:
        files |= product_files(kind, content, template)
    unit = content.unit
    made = products_made(
        folder,
        files,
        content.review,
        command=command,
        units=[] if unit is None or unit_file is None else [(unit_file, unit.checked)],
        audience=None if unit is None else unit.audience,
    )
    text = manifest_text(folder, made)
    with written_together(folder) as draft:
        for name, raw in files.items():
            (draft / name).write_bytes(raw)
        (draft / MANIFEST).write_text(f"{text}\n", encoding="utf-8", newline="\n")
    return tuple(folder / name for name in (*files, MANIFEST))
