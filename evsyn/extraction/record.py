"""The base of every record read from a file, and the types of its fields."""

import re
from datetime import date
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
    WithJsonSchema,
    model_validator,
)

from evsyn.extraction.yaml_text import Block, Decimal, Whole
from evsyn.terms import Source

FORMAT = 1

_YEAR_OR_MONTH = re.compile(r"(1[89]|20)[0-9]{2}(-(0[1-9]|1[0-2]))?")
_A_MONTH = "a date written as 2008, 2008-12 or 2008-12-31"
_A_DAY = "a date written as 2026-03-02"
_DAY = re.compile(r"(1[89]|20)[0-9]{2}-[0-9]{2}-[0-9]{2}")


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
        """Return the place of this record, or of one of its fields, as ``strata.intent``."""
        path = f"{self._block.path}.{key}".strip(".") if key else self._block.path
        line, node = self._block.line, self._block
        for step in key.split("."):
            line = node.key_lines.get(step, line)
            below = node.get(step)
            if not isinstance(below, Block):
                break
            node = below
        return Source(self._file, line, path, place)


def _as_written(value: Any) -> Any:
    return value.written if isinstance(value, (Whole, Decimal)) else value


def _trimmed(value: Any) -> Any:
    written = _as_written(value)
    return written.strip() if isinstance(written, str) else written


def _is_month(text: str) -> str:
    if not _YEAR_OR_MONTH.fullmatch(text) and not _in_calendar(text):
        raise ValueError(_A_MONTH)
    return text


def _is_day(text: str) -> str:
    if not _in_calendar(text) or not text.startswith("20"):
        raise ValueError(_A_DAY)
    return text


def _in_calendar(text: str) -> bool:
    if not _DAY.fullmatch(text):
        return False
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


#: What a name is made of. The schemas of the files say it too, as they say all that follows.
NAME_PATTERN = r"^[A-Za-z0-9][A-Za-z0-9_-]*$"
_MOST_OF_NAME = 80
_YEARS = "(1[89]|20)[0-9]{2}"
_MONTHS = "(0[1-9]|1[0-2])"
_OF_MONTH = "((0[13578]|1[02])-(0[1-9]|[12][0-9]|3[01])|(0[469]|11)-(0[1-9]|[12][0-9]|30)"
_OF_MONTH += "|02-(0[1-9]|[12][0-9]))"

#: Any text; a number is taken as it was written, so that ``7.70`` keeps its zero.
Text = Annotated[
    str,
    BeforeValidator(_trimmed),
    StringConstraints(min_length=1, max_length=4000),
    WithJsonSchema({"type": ["string", "number"], "pattern": r"\S"}),
]
#: A short name used to point at something: letters, digits, ``_`` and ``-``.
Name = Annotated[
    str,
    BeforeValidator(_as_written),
    StringConstraints(pattern=NAME_PATTERN, max_length=_MOST_OF_NAME),
    WithJsonSchema(
        {
            "type": ["string", "number"],
            "pattern": NAME_PATTERN,
            # Said by editors in place of the pattern.
            "patternErrorMessage": "a name has letters, digits, '_' and '-', and no spaces",
            "maxLength": _MOST_OF_NAME,
            "minimum": 0,
        }
    ),
]
#: A year, a month or a day.
Month = Annotated[
    str,
    BeforeValidator(_as_written),
    AfterValidator(_is_month),
    WithJsonSchema(
        {
            "type": ["string", "integer"],
            "pattern": f"^{_YEARS}(-{_MONTHS}|-{_OF_MONTH})?$",
            "patternErrorMessage": _A_MONTH,
            "minimum": 1800,
            "maximum": 2099,
        }
    ),
]
#: A day.
Day = Annotated[
    str,
    BeforeValidator(_as_written),
    AfterValidator(_is_day),
    WithJsonSchema(
        {
            "type": "string",
            "pattern": f"^20[0-9]{{2}}-{_OF_MONTH}$",
            "patternErrorMessage": _A_DAY,
        }
    ),
]
