"""The estimate and the plan against worked examples and data of others."""

import csv
import math
from pathlib import Path

import numpy as np
import pytest

from fishmeasure.estimation.model import estimate_population
from fishmeasure.estimation.model.shape import Law
from fishmeasure.estimation.nets import (
    DripWater,
    Netting,
    NetWeighing,
    SampleSettings,
    Scale,
)
from fishmeasure.estimation.plan import Spread, half_width_of, relative_sd
from fishmeasure.estimation.strata import Stratum, stratified_sd
from tests.estimation.makers import published_line

# Schools of 15 Californian districts drawn whole from 757: number and sum of the
# Academic Performance Index of 2000. Summed from the table ``apiclus1`` as an open
# package for surveys has it (seen); the mean of its 183 schools, 644.169399, and the
# standard error, 23.5422, of that cluster sample are in the examples of R's package
# ``survey`` (seen: "example-summary", svymean of dclus1).
DISTRICTS = (
    (13, 9372),
    (34, 22508),
    (4, 2077),
    (13, 8593),
    (16, 11369),
    (2, 1116),
    (1, 551),
    (4, 1888),
    (12, 9111),
    (21, 13761),
    (9, 6386),
    (11, 7359),
    (37, 20394),
    (2, 905),
    (4, 2493),
)
EXACT = SampleSettings(
    scale=Scale(resolution_g=0.0, sd_g=0.01, relative_sd=0.0),
    drip=DripWater(fraction=0.0, sd=0.0, net_sd=0.0),
    netting=Netting(relative_sd=0.0),
)


def test_the_districts_are_those_of_the_worked_example() -> None:
    """The ratio of totals and its error, by the textbook's formula of clusters."""
    sizes, sums = (np.array(column, float) for column in zip(*DISTRICTS, strict=True))
    mean = sums.sum() / sizes.sum()
    left = sums - mean * sizes
    n = len(sizes)
    error = math.sqrt((1 - n / 757) * n / (n - 1) * float(left @ left)) / sizes.sum()
    assert mean == pytest.approx(644.169399, abs=1e-5)
    assert error == pytest.approx(23.5422, abs=1e-4)


def test_districts_as_nets_have_the_surveys_mean_and_error() -> None:
    """Each district a net, each school a fish: mean within half its standard error.

    The two differ by design: a survey weighs districts by their schools alone, the
    estimate also by how much nets differ, so that 37 schools of one district count for
    less. The error is the survey's within a third.
    """
    nets = tuple(
        NetWeighing(fish_count=n, net_g=float(total), miscount_probability=0.0)
        for n, total in DISTRICTS
    )
    mean = estimate_population(
        nets, published=published_line(), settings=EXACT
    ).mean_weight_g
    assert abs(mean.value - 644.17) < 0.5 * 23.54
    assert mean.sd == pytest.approx(23.54, rel=0.34)
    assert mean.low < 644.17 < mean.high


def test_suites_of_students() -> None:
    """Five of 100 suites of four students, from memory of Lohr's chapter on clusters.

    Sums of marks 12.16, 11.36, 8.96, 12.96 and 11.08: mean 2.826, standard error
    sqrt(1 - 5/100) x sqrt(2.256 / 5) / 4 = 0.164.
    """
    sums = np.array([12.16, 11.36, 8.96, 12.96, 11.08])
    mean = sums.mean() / 4.0
    assert mean == pytest.approx(2.826)
    spread = Spread(
        within_net_cv=0.0,
        between_net_cv=float(sums.std(ddof=1) / 4.0 / mean),
        common_sd=0.0,
    )
    error = relative_sd(spread, nets=5, fish_per_net=4, count_in_unit=400)
    assert mean * error == pytest.approx(0.164, abs=0.0005)
    # Student's t of 4 degrees at 95 %, 2.776: +- 0.455.
    wide = half_width_of(spread, nets=5, fish_per_net=4, level=0.95, count_in_unit=400)
    assert mean * wide == pytest.approx(2.776 * 0.1637, abs=0.001)


# Counties of four regions in the census of agriculture of 1992, acres of farms: in the
# region, drawn, mean and sd. Lohr's stratified example, from memory; her total,
# 909,736,034 acres, and its standard error, 50,417,248, likewise: that these figures
# give both is what speaks for the memory.
REGIONS = (
    (220, 21, 97629.81, 87449.83),
    (1054, 103, 300504.16, 172099.56),
    (1382, 135, 211315.04, 231489.71),
    (422, 41, 662295.51, 629433.0),
)


def test_parts_of_a_unit_are_joined_as_strata_are() -> None:
    """Each county a net of one; a region drawn in part has less error by 1 - n / N."""
    counties = sum(row[0] for row in REGIONS)
    mean = sum(inside * of for inside, _, of, _ in REGIONS) / counties
    assert counties * mean == pytest.approx(909_736_034, abs=1.0)
    strata = [
        Stratum(
            share=inside / counties,
            spread=Spread(
                within_net_cv=0.0,
                between_net_cv=math.sqrt(1.0 - drawn / inside) * sd / of,
                common_sd=0.0,
            ),
            nets=drawn,
            fish_per_net=1,
            mean=of / mean,
        )
        for inside, drawn, of, sd in REGIONS
    ]
    error = counties * mean * stratified_sd(strata)
    assert error == pytest.approx(50_417_248, abs=10.0)


def test_the_mean_of_weights_is_corrected_as_log_regressions_are() -> None:
    """exp(s^2 / 2) of Baskerville 1972 and Sprugel 1983 (formula seen in an open
    package's help), on the residual sd of perch, 0.117654: 1.00695.
    """
    law = Law(shares=np.ones(1), places=np.zeros(1), sds=np.ones(1))
    lift = float(np.exp(law.log_moment(np.array(0.117654))))
    assert lift == pytest.approx(1.00695, abs=1e-5)


@pytest.mark.shared
def test_measured_fish_are_smeared_as_duan_does(shared: Path) -> None:
    """The mean of exp(residual) of Duan 1983: a law of the fish themselves.

    On the published perch table; the factor 1.00698 stands beside it on the shelf
    (03_lw_regressions, column cf_duan).
    """
    folder = shared / "reference"
    with (folder / "03_lw_regressions.csv").open(encoding="utf-8") as file:
        row = next(
            row
            for row in csv.DictReader(file)
            if row["dataset"].endswith(": perch") and row["length_type"] == "FL"
        )
    with (folder / "datasets/finnish_159_fish.csv").open(encoding="utf-8") as file:
        pairs = np.array(
            [
                (float(fish["length_fork_cm"]), float(fish["weight_g"]))
                for fish in csv.DictReader(file)
                if fish["species_name"] == "perch"
            ]
        )
    x, y = np.log(pairs).T
    slope, level = np.polyfit(x, y, 1)
    left = y - level - slope * x
    sd = float(left.std())
    law = Law(
        shares=np.full(len(left), 1.0 / len(left)),
        places=left / sd,
        sds=np.zeros(len(left)),
    )
    smeared = float(np.exp(law.log_moment(np.array(sd))))
    assert smeared == pytest.approx(float(row["cf_duan"]), abs=1e-5)
