"""Files are written whole or not at all."""

from pathlib import Path

import pytest

from evsyn.reporting.files import (
    ChangedMeanwhileError,
    write_all,
    write_whole,
    written_together,
)


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


def test_several_files_are_written_and_keep_their_mode(tmp_path):
    old, new = tmp_path / "old.yaml", tmp_path / "new.yaml"
    old.write_bytes(b"a: 1\r\n")
    old.chmod(0o600)
    write_all({old: "a: 2\r\n", new: "b: 1\n"}, {old: b"a: 1\r\n", new: None})
    assert (old.read_bytes(), new.read_bytes()) == (b"a: 2\r\n", b"b: 1\n")
    assert old.stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize("meanwhile", [b"typed meanwhile", None])
def test_a_file_that_changed_meanwhile_is_not_written_over(tmp_path, meanwhile):
    first, second = tmp_path / "a.yaml", tmp_path / "b.yaml"
    if meanwhile is not None:
        second.write_bytes(meanwhile)
    with pytest.raises(ChangedMeanwhileError) as caught:
        write_all({first: "new", second: "new"}, {first: None, second: b"as read"})
    assert caught.value.filename == str(second)
    assert not first.exists()
    assert not second.exists() if meanwhile is None else second.read_bytes() == meanwhile


def test_where_one_cannot_be_written_the_others_are_put_back(tmp_path):
    first, made, blocked = tmp_path / "a.yaml", tmp_path / "b.yaml", tmp_path / "c" / "d.yaml"
    first.write_bytes(b"old")
    (tmp_path / "c").write_bytes(b"a file where a folder should be")
    with pytest.raises(OSError, match=r"d\.yaml|c"):
        write_all(
            {first: "new", made: "new", blocked: "new"}, {first: b"old", made: None, blocked: None}
        )
    assert first.read_bytes() == b"old"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.yaml", "c"]
