"""The stocking calculations without a book, one path each."""

from collections.abc import Callable
from typing import Any, get_type_hints

import numpy as np
from pydantic import BaseModel, Field, create_model

from api.access import READER, closed_router
from api.calculations import CALCULATIONS, input_model, title_of
from api.errors import NotCalculableError
from api.result_models import result_of
from api.schemas import Items, Out
from fishmeasure.base.record import plain
from fishmeasure.husbandry import cautions

router = closed_router(prefix="/v1/calculations", tags=["calculations"])

# Shown with every answer of a calculation that is not careful enough by itself.
CAUTIONS = {
    "outage": cautions.OUTAGE,
    "load-for-hours": cautions.OUTAGE,
    "oxygen-balance": (cautions.ESTIMATE, cautions.OXYGEN),
    "oxygen-demand": (cautions.OXYGEN,),
    "unit-load": cautions.STOCKING,
}


class CalculationOut(Out):
    """A calculation in the list."""

    name: str = Field(description="Last part of its path.", examples=["outage"])
    summary: str = Field(description="What it answers.")
    fields: list[str] = Field(description="Of the request.")


def answer_model(name: str) -> type[BaseModel]:
    """Return the model of a calculation's answer."""
    kind = get_type_hints(CALCULATIONS[name])["return"]
    return create_model(
        f"{title_of(name)}Out",
        __base__=Out,
        result=(
            result_of(kind),
            Field(description="Figures; units are in their fields' names."),
        ),
        cautions=(
            list[str],
            Field(description="To be shown with the figures.", examples=[[]]),
        ),
    )


def _summary(name: str) -> str:
    return (CALCULATIONS[name].__doc__ or "").strip().splitlines()[0]


@router.get("", summary="List the calculations", dependencies=[READER])
def list_calculations() -> Items[CalculationOut]:
    """Return all calculations; each one's fields are in the API description."""
    return Items(
        items=[
            CalculationOut(
                name=name,
                summary=_summary(name),
                fields=list(input_model(name).model_fields),
            )
            for name in CALCULATIONS
        ]
    )


def _handler(name: str, model: type[BaseModel]) -> Callable[..., dict[str, Any]]:
    def calculate(sent: BaseModel) -> dict[str, Any]:
        values = {field: getattr(sent, field) for field in model.model_fields}
        try:
            # What has no end is no answer; the core means none where it has one.
            with np.errstate(over="raise", divide="raise", invalid="raise"):
                result = CALCULATIONS[name](**values)
        except ArithmeticError:
            raise NotCalculableError from None
        return {
            "result": plain(result),
            "cautions": [str(told) for told in CAUTIONS.get(name, ())],
        }

    # The framework reads the request's model off the annotation.
    calculate.__annotations__ = {"sent": model, "return": dict[str, Any]}
    return calculate


for _name in CALCULATIONS:
    router.add_api_route(
        f"/{_name}",
        _handler(_name, input_model(_name)),
        methods=["POST"],
        dependencies=[READER],
        response_model=answer_model(_name),
        summary=_summary(_name),
        name=_name,
        operation_id=f"calculate_{_name.replace('-', '_')}",
    )
