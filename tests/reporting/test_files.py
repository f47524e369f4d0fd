"""Files are written whole or not at all."""

from pathlib import Path

import pytest

from evsyn.reporting.files import write_whole, written_together


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


def test_files_that_belong_together_appear_together(tmp_path):
    target = tmp_path / "out"
    target.mkdir()
    (target / "kept.txt").write_text("kept", encoding="utf-8")
    (target / "a.txt").write_text("old", encoding="utf-8")
    with written_together(target) as draft:
        (draft / "a.txt").write_text("new", encoding="utf-8")
        assert (target / "a.txt").read_text(encoding="utf-8") == "old"
    assert {p.name: p.read_text(encoding="utf-8") for p in target.iterdir()} == {
        "a.txt": "new",
        "kept.txt": "kept",
    }
    assert [p.name for p in tmp_path.iterdir()] == ["out"]


def test_nothing_is_left_where_one_of_them_fails(tmp_path):
    target = tmp_path / "out"
    with pytest.raises(RuntimeError), written_together(target) as draft:
        (draft / "a.txt").write_text("new", encoding="utf-8")
        raise RuntimeError
    assert list(tmp_path.iterdir()) == []


def test_a_file_in_the_place_of_the_folder_is_named(tmp_path):
    target = tmp_path / "out"
    target.write_text("mine", encoding="utf-8")
    with pytest.raises(FileExistsError, match="not a folder"), written_together(target):
        pass
    assert target.read_text(encoding="utf-8") == "mine"
