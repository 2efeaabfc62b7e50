"""How figures and arrays of a record are read from JSON, written and described."""

from typing import Any

import numpy as np
from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, PlainSerializer
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

from fishmeasure.base.arrays import FloatArray, frozen
from fishmeasure.base.record import wrong
from fishmeasure.base.words import Message


def rounded(digits: int) -> PlainSerializer:
    """Return the mark of a figure that is written with so many decimals."""
    return PlainSerializer(lambda figure: round(float(figure), digits), float)


class ArrayOf:
    """The mark of an array in a record: lists of numbers in JSON.

    Parameters
    ----------
    shape
        -1 for any length.
    digits
        Decimals that are written; all, where it is None.
    """

    def __init__(self, *shape: int, digits: int | None = None) -> None:
        self.shape = shape
        self.digits = digits

    def __get_pydantic_core_schema__(
        self, _source: Any, _handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Return how the array is read and written."""
        return core_schema.no_info_plain_validator_function(
            self._read,
            serialization=core_schema.plain_serializer_function_ser_schema(self._plain),
        )

    def __get_pydantic_json_schema__(
        self, _schema: CoreSchema, _handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        """Return what the lists look like."""
        schema: JsonSchemaValue = {"type": "number"}
        for length in reversed(self.shape):
            schema = {"type": "array", "items": schema}
            if length >= 0:
                schema |= {"minItems": length, "maxItems": length}
        return schema

    def _read(self, value: Any) -> FloatArray:
        try:
            array = np.asarray(value, dtype=np.float64).reshape(self.shape)
        except (TypeError, ValueError):
            wanted = Message.of("wanted", case="array", shape=str(self.shape))
            raise wrong(wanted) from None
        return frozen(array)

    def _plain(self, array: FloatArray) -> list[Any]:
        shown = array if self.digits is None else np.round(array, self.digits)
        numbers: list[Any] = shown.tolist()
        return numbers
