"""The JSON Schema of a record, made from the code that reads it."""

from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema

_OF_TEXT = ("pattern", "patternErrorMessage", "maxLength")
DIALECT = "https://json-schema.org/draft/2020-12/schema"


class _Generator(GenerateJsonSchema):
    """Describes groups keyed by names truly, and leaves out titles that only repeat the field."""

    def field_title_should_be_set(self, schema: Any) -> bool:
        """Return that a field needs no title beside its name and description."""
        return False

    def dict_schema(self, schema: Any) -> dict[str, Any]:
        """Return a group whose keys are all held to the pattern of their type.

        Pydantic would let keys of any other pattern through.
        """
        key = self.generate_inner(schema["keys_schema"])
        made: dict[str, Any] = {
            "type": "object",
            # A key is text whatever it looks like.
            "propertyNames": {word: key[word] for word in _OF_TEXT if word in key},
            "additionalProperties": self.generate_inner(schema["values_schema"]),
        }
        if "min_length" in schema:
            made["minProperties"] = schema["min_length"]
        return made


def record_schema(model: type[BaseModel]) -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of a file that holds this record.

    Parameters
    ----------
    model : type
        The record of a whole file; its keys stand as they are written there.
    """
    made = model.model_json_schema(by_alias=True, schema_generator=_Generator)
    return {"$schema": DIALECT, **made}
