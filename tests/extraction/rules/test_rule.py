"""Counts with their place, as every check walks them."""

from evsyn.extraction.rules.rule import every_count


def test_every_count_of_every_study(tiny):
    placed = list(every_count(tiny.read()))
    assert [(one.study.study, one.arm.arm, one.outcome, one.count.events) for one in placed] == [
        ("2001-reed", "all", "perforation", 4),
        ("2001-reed", "all", "success", 48),
        ("2010-sedge", "palliation", "perforation", 2),
        ("2010-sedge", "bridge", "perforation", 1),
    ]


def test_a_count_carries_its_place(tiny):
    source = next(every_count(tiny.read())).source
    assert (source.file, source.key_path, source.place) == (
        "2001-reed.yaml", "all.perforation", "Table 2, p. 5",
    )  # fmt: skip
    lines = (tiny.folder / source.file).read_text(encoding="utf-8").splitlines()
    assert lines[source.line - 1].strip() == "perforation:"
