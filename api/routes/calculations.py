"""The stocking calculations without a book, one path each."""

from collections.abc import Callable
from typing import Any

from fastapi import APIRouter
from pydantic import BaseModel, Field

from api.calculations import CALCULATIONS, input_model
from api.schemas import Items, Out
from fishmeasure.plain import plain
from fishmeasure.stock import cautions

router = APIRouter(prefix="/v1/calculations", tags=["calculations"])

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


class AnswerOut(Out):
    """What a calculation gives."""

    result: Any = Field(description="Figures with value, sd, low, high and level.")
    cautions: list[str] = Field(description="To be shown with the figures.")


def _summary(name: str) -> str:
    return (CALCULATIONS[name].__doc__ or "").strip().splitlines()[0]


@router.get("", summary="List the calculations")
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


def _handler(name: str, model: type[BaseModel]) -> Callable[..., AnswerOut]:
    def calculate(sent: BaseModel) -> AnswerOut:
        values = {field: getattr(sent, field) for field in model.model_fields}
        result = CALCULATIONS[name](**values)
        return AnswerOut(result=plain(result), cautions=list(CAUTIONS.get(name, ())))

    # The framework reads the request's model off the annotation.
    calculate.__annotations__ = {"sent": model, "return": AnswerOut}
    return calculate


for _name in CALCULATIONS:
    router.add_api_route(
        f"/{_name}",
        _handler(_name, input_model(_name)),
        methods=["POST"],
        summary=_summary(_name),
        name=_name,
        operation_id=f"calculate_{_name.replace('-', '_')}",
    )
