"""The trout feed chart: 33 rows of °F by 11 size classes."""

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedChartCell:
    """One cell of the feed chart: % of body weight a day."""

    temperature_deg_f: int
    size_class_in: str
    min_weight_g: float | None
    max_weight_g: float | None
    percent_per_day: float
    suspect: bool


@cache
def load_feed_chart() -> tuple[FeedChartCell, ...]:
    """Return the 363 cells of the trout feed chart.

    Source: Leitritz & Lewis 1980, Trout and Salmon Culture (Calif. Fish Bull. 164),
    as reprinted by the North Carolina extension service. Two cells (67 and 68 F,
    1-2 in) break the run of their column and are marked ``suspect``.
    """
    text = files(__package__).joinpath("feed_chart_trout.csv").read_text("utf-8")
    return tuple(
        FeedChartCell(
            temperature_deg_f=int(row["temperature_deg_f"]),
            size_class_in=row["size_class_in"],
            min_weight_g=float(row["min_weight_g"]) if row["min_weight_g"] else None,
            max_weight_g=float(row["max_weight_g"]) if row["max_weight_g"] else None,
            percent_per_day=float(row["percent_per_day"]),
            suspect=row["suspect"] == "True",
        )
        for row in csv.DictReader(text.splitlines())
    )
