"""Files are written whole or not at all."""

from pathlib import Path

import pytest

from evsyn.reporting.files import write_whole


def test_writes_text_as_utf8(tmp_path: Path) -> None:
    write_whole(tmp_path / "deep" / "a.txt", "é\n")
    assert (tmp_path / "deep" / "a.txt").read_bytes() == "é\n".encode()


def test_a_failure_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "a.txt"
    target.write_text("old", encoding="utf-8")

    def broken(self: Path, _: object) -> Path:
        raise OSError(28, "disk full")

    monkeypatch.setattr(Path, "replace", broken)
    with pytest.raises(OSError, match="disk full"):
        write_whole(target, "new")
    assert target.read_text(encoding="utf-8") == "old"
    assert [path.name for path in tmp_path.iterdir()] == ["a.txt"]
