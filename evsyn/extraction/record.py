"""The base of every record read from a file, and the types of its fields."""

import re
from typing import Annotated, Any, Self

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    ModelWrapValidatorHandler,
    PrivateAttr,
    StringConstraints,
    ValidationInfo,
    model_validator,
)

from evsyn.extraction.yaml_text import Block, Decimal, Whole
from evsyn.terms import Source

FORMAT = 1

_MONTH = re.compile(r"(1[89]|20)\d\d(-(0[1-9]|1[0-2]))?(-(0[1-9]|[12]\d|3[01]))?")
_DAY = re.compile(r"20\d\d-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])")


class Record(BaseModel):
    """A group of fields that knows where it was written."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)

    _block: Block = PrivateAttr(default_factory=lambda: Block(0, ""))
    _file: str = PrivateAttr(default="")

    @model_validator(mode="wrap")
    @classmethod
    def _keep_place(
        cls, data: Any, handler: ModelWrapValidatorHandler[Self], info: ValidationInfo
    ) -> Self:
        made = handler(data)
        if isinstance(data, Block):
            made._block = data
            made._file = (info.context or {}).get("file", "")
        return made

    def source(self, key: str = "", place: str = "") -> Source:
        """Return the place of this record, or of one of its fields."""
        path = f"{self._block.path}.{key}".strip(".") if key else self._block.path
        return Source(self._file, self._block.key_lines.get(key, self._block.line), path, place)


def _as_written(value: Any) -> Any:
    return value.written if isinstance(value, (Whole, Decimal)) else value


def _is_month(text: str) -> str:
    if not _MONTH.fullmatch(text):
        raise ValueError("a date written as 2008, 2008-12 or 2008-12-31")
    return text


def _is_day(text: str) -> str:
    if not _DAY.fullmatch(text):
        raise ValueError("a date written as 2026-03-02")
    return text


#: Any text; a number is taken as it was written, so that ``7.70`` keeps its zero.
Text = Annotated[
    str,
    BeforeValidator(_as_written),
    StringConstraints(min_length=1, max_length=4000, strip_whitespace=True),
]
#: A short name used to point at something: letters, digits, ``_`` and ``-``.
Name = Annotated[
    str,
    BeforeValidator(_as_written),
    StringConstraints(pattern=r"^[A-Za-z0-9][A-Za-z0-9_-]*$", max_length=80),
]
#: A year, a month or a day.
Month = Annotated[str, BeforeValidator(_as_written), AfterValidator(_is_month)]
#: A day.
Day = Annotated[str, BeforeValidator(_as_written), AfterValidator(_is_day)]
