"""A review of thousands of studies, made of copies of the demo's."""

import re
from pathlib import Path

DEMO = Path(__file__).parent.parent.parent / "studies" / "demo"


def many_studies(folder: Path, number: int) -> Path:
    """Write the demo's plan and so many copies of its studies into a new folder.

    Parameters
    ----------
    folder : pathlib.Path
        Where to write; made if it is missing.
    number : int
        How many studies.
    """
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "review.yaml").write_bytes((DEMO / "review.yaml").read_bytes())
    files = sorted(DEMO.glob("[12]*.yaml"))
    for place in range(number):
        file = files[place % len(files)]
        name = f"{file.stem}-{place:04}"
        text = re.sub(r"(?m)^study: .*$", f"study: {name}", file.read_text(encoding="utf-8"))
        # No two copies may share their patients, or the checks find millions of pairs.
        text = re.sub(r"(?m)^overlaps:\n(?:[ -].*\n)+", "", text)
        text = re.sub(r"(?m)^    - (\w+)", rf"    - \1 {place}", text)
        (folder / f"{name}.yaml").write_text(text, encoding="utf-8")
    return folder
