"""Write the schemas for any review into the package: ``python -m evsyn.extraction.schema``."""

from pathlib import Path

from evsyn.extraction.schema.folder import schema_texts


def main(folder: Path) -> None:
    """Write every schema into a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in schema_texts().items():
        (folder / name).write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main(Path(__file__).parent / "generic")
