"""The how-to names every field that can be typed, and every doubt that can be told."""

import re

import pytest
from pydantic import BaseModel

from evsyn.reproduction import consistency, doubts
from evsyn.reproduction.record import (
    Arm,
    BetweenGroups,
    Measure,
    PrintedAsymmetry,
    PrintedEffect,
    PrintedGroup,
    PrintedResult,
    PublishedPooling,
    Row,
)
from tests.docs.pages import ROOT, blocks, prose

PATH = ROOT / "docs" / "how-to" / "check-a-published-pooling.md"
PAGE = prose(PATH)
TYPED = " ".join(block.text for block in blocks(PATH) if block.language == "yaml")
#: Words in code type, and keys of the files shown.
WORDS = set(re.findall(r"[a-z0-9_]+", " ".join(re.findall(r"`([^`]+)`", PAGE))))
WORDS |= set(re.findall(r"([a-z0-9_]+):", TYPED))
RECORDS = (Arm, BetweenGroups, PrintedAsymmetry, PrintedEffect, PrintedGroup, PrintedResult,
           PublishedPooling, Row)  # fmt: skip


@pytest.mark.parametrize("record", RECORDS)
def test_every_field_is_named(record: type[BaseModel]) -> None:
    assert not set(record.model_fields) - WORDS


def test_every_measure_is_named() -> None:
    assert not [measure for measure in Measure if f"`{measure}`" not in PAGE]


def test_every_doubt_is_named() -> None:
    names = [
        value
        for room in (doubts, consistency)
        for name, value in vars(room).items()
        if name.isupper() and isinstance(value, str)
    ]
    assert len(names) == 11
    assert not [name for name in names if f"`{name}`" not in PAGE]
