"""Files that look like extracts and are not read are told."""

import pytest

from tests.extraction.builders import REED


@pytest.mark.parametrize(
    "name", ["2001-ash.yaml.txt", "2001-ash.yml.bak", "2001-ash.yaml~", ".2001-ash.yaml"]
)
def test_a_file_with_another_ending_is_a_doubt(tiny, name):
    tiny.write(name, REED)
    (finding,) = tiny.found("file-unread")
    assert name in finding.message
    assert str(finding.source) == name


def test_extracts_in_a_subfolder_are_a_doubt(tiny):
    folder = tiny.folder / "more"
    folder.mkdir()
    (folder / "2001-ash.yaml").write_text(REED, encoding="utf-8")
    (finding,) = tiny.found("file-unread")
    assert "1 YAML files in the folder more" in finding.message


def test_other_files_say_nothing(tiny):
    tiny.write("README.md", "").write("cases.csv", "")
    (tiny.folder / "figures").mkdir()
    assert tiny.found("file-unread") == []
