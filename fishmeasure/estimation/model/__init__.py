"""Nets of fish to the population of a unit, with honest intervals.

``lengths`` makes net means from lengths, robust to gross errors; ``model`` joins
them with the weighings on a grid; ``faults`` weighs what may be wrong with a net;
``posterior`` and ``report`` make the figures.
"""

from fishmeasure.estimation.model.answer import (
    SampleAnswer,
    answer_from_json,
    estimate_to_json,
)
from fishmeasure.estimation.model.estimate import estimate_population
from fishmeasure.estimation.model.record import (
    Allowance,
    DoubtfulLength,
    JointSize,
    NetReport,
    PopulationEstimate,
    SizeGroups,
    StockLine,
    WeightQuantile,
)

__all__ = [
    "Allowance",
    "DoubtfulLength",
    "JointSize",
    "NetReport",
    "PopulationEstimate",
    "SampleAnswer",
    "SizeGroups",
    "StockLine",
    "WeightQuantile",
    "answer_from_json",
    "estimate_population",
    "estimate_to_json",
]
