"""The figures that the calculations of husbandry take from the species."""

import pytest

from fishmeasure.base.errors import BadFieldError
from fishmeasure.base.record import read
from fishmeasure.species import Figure, farmed_keys, farmed_species
from fishmeasure.species.feed_chart import load_feed_chart
from tests.species.test_species import REQUIRED


def test_the_twelve_species_have_figures() -> None:
    """The species named in the job are there."""
    assert set(farmed_keys()) >= REQUIRED


@pytest.mark.parametrize("key", farmed_keys())
def test_growth_is_fastest_where_the_species_feeds(key: str) -> None:
    """The optimum lies within the temperatures of feeding."""
    found = farmed_species(key)
    assert found.water.feeds_at(found.growth.optimum_temperature_deg_c.value)


def test_a_weak_figure_says_so_on_the_screen() -> None:
    """Memory and practice are named; a seen source is cited."""
    weak = Figure(value=3.0, relative_sd=0.1, source="handbook", status="memory")
    seen = Figure(value=3.0, relative_sd=0.1, source="paper", status="seen")
    assert "from memory" in str(weak.note("Critical oxygen 3 mg/L"))
    told = str(seen.note("Critical oxygen 3 mg/L"))
    assert told == "Critical oxygen 3 mg/L: paper."


def test_an_unknown_status_is_refused() -> None:
    """A species file with an invented status is not read."""
    with pytest.raises(BadFieldError, match="status must be one of seen, computed"):
        read(Figure, {"value": 1, "relative_sd": 0, "source": "x", "status": "hearsay"})


def test_feed_chart_has_its_cells() -> None:
    """33 rows of 11 size classes, two of them suspect."""
    chart = load_feed_chart()
    assert len(chart) == 363
    assert sum(cell.suspect for cell in chart) == 2
