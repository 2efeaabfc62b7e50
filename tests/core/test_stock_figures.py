"""Every species file is complete and says where its figures come from."""

import dataclasses
from typing import Any

import pytest

from fishmeasure.species import figures as module
from fishmeasure.species.figures import (
    Figure,
    load_feed_chart,
    load_stock_figures,
    stock_species,
)
from tests.core.test_species import REQUIRED


def all_figures(record: Any) -> list[Figure]:
    if isinstance(record, Figure):
        return [record]
    if not dataclasses.is_dataclass(record):
        return []
    return [
        figure
        for field in dataclasses.fields(record)
        for figure in all_figures(getattr(record, field.name))
    ]


def test_the_twelve_species_have_figures() -> None:
    """The species named in the job are there."""
    assert set(stock_species()) >= REQUIRED


@pytest.mark.parametrize("key", stock_species())
def test_every_figure_has_a_source_and_sane_values(key: str) -> None:
    """No figure stands without source; limits are in their order."""
    found = load_stock_figures(key)
    for figure in all_figures(found):
        assert figure.source
        assert figure.value > 0.0
        assert 0.0 <= figure.relative_sd < 1.0
    oxygen, growth = found.oxygen, found.growth
    assert oxygen.critical_mg_per_l.value < oxygen.caution_mg_per_l.value
    assert (
        growth.optimum_temperature_deg_c.value < growth.highest_temperature_deg_c.value
    )
    assert oxygen.respiration.source


def test_a_weak_figure_says_so_on_the_screen() -> None:
    """Memory and practice are named; a seen source is cited."""
    weak = Figure(value=3.0, relative_sd=0.1, source="handbook", status="memory")
    seen = Figure(value=3.0, relative_sd=0.1, source="paper", status="seen")
    assert "from memory" in weak.note("Critical oxygen 3 mg/L")
    assert seen.note("Critical oxygen 3 mg/L") == "Critical oxygen 3 mg/L: paper."


def test_an_unknown_status_is_a_bug() -> None:
    """A species file with an invented status is not read."""
    with pytest.raises(ValueError, match="hearsay"):
        module._figure(
            {"value": 1, "relative_sd": 0, "source": "x", "status": "hearsay"}
        )


def test_feed_chart_has_its_cells() -> None:
    """33 rows of 11 size classes, two of them suspect."""
    chart = load_feed_chart()
    assert len(chart) == 363
    assert sum(cell.suspect for cell in chart) == 2
