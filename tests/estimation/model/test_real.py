"""Real fish: weighings and lengths from open tables, against standard estimators."""

import csv
import json
from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest
from scipy import stats
from scipy.optimize import least_squares

from fishmeasure.estimation.model import estimate_population
from fishmeasure.estimation.nets import (
    DripWater,
    FishInNet,
    NetWeighing,
    SampleSettings,
    Scale,
)
from fishmeasure.estimation.plan import spread_of
from tests.estimation.makers import published_line

pytestmark = pytest.mark.shared

# Fish weighed singly on a fine scale, dry, measured on a board.
EXACT = SampleSettings(
    scale=Scale(resolution_g=0.01, sd_g=0.05, relative_sd=0.0),
    drip=DripWater(fraction=0.0, sd=1e-4, net_sd=0.0),
    length_relative_sd=1e-3,
)


def rows_of(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


def net_of(
    length_mm: np.ndarray, weight_g: float, *, count: int | None = None
) -> NetWeighing:
    return NetWeighing(
        fish_count=len(length_mm) if count is None else count,
        net_g=float(weight_g),
        fish=tuple(
            FishInNet(fork_length_mm=float(mm), relative_sd=0.005) for mm in length_mm
        ),
        photo_relative_sd=0.0,
    )


class BulkNets(NamedTuple):
    """Twelve nets of 20 cutthroat trout, and what is known of their population."""

    nets: tuple[NetWeighing, ...]
    weight_g: np.ndarray
    predicted_g: np.ndarray
    facts: dict[str, float]


@pytest.fixture(scope="module")
def bulk(shared: Path) -> BulkNets:
    folder = shared / "reference/datasets"
    rows = rows_of(folder / "bulk_nets_from_real_fish.csv")
    of_net = np.array([int(float(row["net"])) for row in rows])
    length = np.array([float(row["length_1_mm"]) for row in rows])
    weight = np.array([float(row["weight_g"]) for row in rows])
    predicted = 0.0111 * (length / 10) ** 2.95
    each = [of_net == number for number in range(1, 13)]
    return BulkNets(
        nets=tuple(net_of(length[net], weight[net].sum()) for net in each),
        weight_g=np.array([weight[net].sum() for net in each]),
        predicted_g=np.array([predicted[net].sum() for net in each]),
        facts=json.loads((folder / "bulk_nets_from_real_fish.json").read_text("utf-8")),
    )


CUTTHROAT = published_line(
    a_g_cm=0.0111, b=2.95, residual_sd_ln=0.1, min_length_mm=80, max_length_mm=250
)


def test_the_level_is_cochrans_ratio(bulk: BulkNets) -> None:
    """Check 13 of the reference shelf: k 0.99207 +- 0.00585 by Cochran's formula."""
    nets, in_population = 12, bulk.facts["population_n"] / 20
    ratio = bulk.weight_g.sum() / bulk.predicted_g.sum()
    residual = bulk.weight_g - ratio * bulk.predicted_g
    # Cochran 1977, equation 6.9, with nets as units.
    error = (
        np.sqrt((1 - nets / in_population) * np.sum(residual**2) / (nets - 1) / nets)
        / bulk.predicted_g.mean()
    )
    assert ratio == pytest.approx(0.99207, abs=1e-4)
    assert error == pytest.approx(0.00585, abs=1e-4)
    estimate = estimate_population(bulk.nets, published=CUTTHROAT, settings=EXACT)
    # The ratio is of means, the line a median; b is free here, so 3 errors are allowed.
    level = estimate.line.level_ratio.value * np.exp(estimate.condition_sd**2 / 2)
    assert level == pytest.approx(ratio, abs=3 * error)
    line = estimate.line
    assert line.level_ratio.low < ratio < line.level_ratio.high * 1.005


def test_the_mean_is_that_of_the_population(bulk: BulkNets) -> None:
    """The handled mean is exact; the interval holds the 4200 fish's mean."""
    estimate = estimate_population(bulk.nets, published=CUTTHROAT, settings=EXACT)
    handled = estimate.handled_mean_weight_g.value
    assert handled == pytest.approx(bulk.facts["sample_mean_g"], rel=1e-3)
    mean = estimate.mean_weight_g
    assert mean.low < bulk.facts["true_mean_g"] < mean.high
    true_cv = bulk.facts["true_sd_g"] / bulk.facts["true_mean_g"]
    assert estimate.cv.low < true_cv < estimate.cv.high
    assert not any(report.flag for report in estimate.nets)


def test_the_interval_is_as_wide_as_the_sampling_error(bulk: BulkNets) -> None:
    """Near 1.645 sd of means of 12 nets of 20, wider than this lucky bootstrap.

    The table's note says that these nets differ less than chance (probability
    0.004), so scipy's bootstrap over nets is too narrow here; the population's own
    sd tells what the width should be.
    """
    estimate = estimate_population(bulk.nets, published=CUTTHROAT, settings=EXACT)
    mean = estimate.mean_weight_g
    expected = 1.645 * bulk.facts["true_sd_g"] / np.sqrt(240)
    assert (mean.high - mean.low) / 2 == pytest.approx(expected, rel=0.2)
    bootstrap = stats.bootstrap(
        (bulk.weight_g / 20,),
        np.mean,
        confidence_level=0.9,
        rng=np.random.default_rng(1),
    ).confidence_interval
    assert mean.high - mean.low > bootstrap.high - bootstrap.low
    assert bootstrap.low < mean.value < bootstrap.high


def test_the_spread_between_nets_is_small(bulk: BulkNets) -> None:
    """Nets drawn at random differ by chance alone, and the estimate says so."""
    spread = spread_of(
        estimate_population(bulk.nets, published=CUTTHROAT, settings=EXACT)
    )
    assert spread.between_net_cv < 0.06
    assert spread.within_net_cv == pytest.approx(
        bulk.facts["true_sd_g"] / bulk.facts["true_mean_g"], abs=0.06
    )


@pytest.mark.parametrize(
    "species", ["Cottus gobio", "Barbatula barbatula", "Phoxinus phoxinus"]
)
def test_real_lots_have_their_ratios(shared: Path, species: str) -> None:
    """Level over the published one of 46 real bulk-weighed lots, each alone.

    The table's ratio_Fishbase is the lot's weight over its predicted one. The
    prediction's a and b are not in it but follow from its predictions exactly.
    """
    rows = [
        row
        for row in rows_of(
            shared / "reference/datasets/aspe_bulk_lots_with_lengths.csv"
        )
        if row["species"] == species and row["ratio_Fishbase"]
    ]
    lengths = [np.array([float(mm) for mm in r["lengths_mm"].split()]) for r in rows]
    counts = [int(row["n_fish"]) for row in rows]
    predicted = [float(row["pred_Fishbase"]) for row in rows]

    def misfit(line: np.ndarray) -> list[float]:
        return [
            float(np.log(np.mean(np.exp(line[0]) * (mm / 10) ** line[1]) * n / g))
            for mm, n, g in zip(lengths, counts, predicted, strict=True)
        ]

    solution = least_squares(misfit, [-4.6, 3.0])
    assert np.abs(solution.fun).max() < 1e-4
    line = published_line(
        a_g_cm=float(np.exp(solution.x[0])),
        b=float(solution.x[1]),
        relative_sd=0.5,
        residual_sd_ln=0.1,
        min_length_mm=20,
        max_length_mm=200,
    )
    settings = SampleSettings(
        scale=Scale(resolution_g=1.0, sd_g=0.5, relative_sd=0.0),
        drip=EXACT.drip,
        length_relative_sd=1e-3,
    )
    differences = []
    for row, mm, count in zip(rows, lengths, counts, strict=True):
        net = net_of(mm, float(row["bulk_weight_g"]), count=count)
        estimate = estimate_population((net,), published=line, settings=settings)
        mean_level = estimate.line.level_ratio.value * np.exp(
            estimate.condition_sd**2 / 2
        )
        differences.append(np.log(mean_level / float(row["ratio_Fishbase"])))
        handled = estimate.handled_mean_weight_g.value
        assert handled == pytest.approx(float(row["bulk_weight_g"]) / count, rel=2e-3)
    assert abs(np.mean(differences)) < 0.006
    # A lot of which 30 of 100 were measured can't be better known than this.
    assert np.abs(differences).max() < 0.04


@pytest.mark.parametrize("species", ["perch", "roach", "bream"])
def test_finnish_fish_in_nets(shared: Path, species: str) -> None:
    """Brofeldt's fish in drawn nets of 8, half of the nets weighed in bulk.

    Handled mean within its interval in most draws, condition near the table's own.
    """
    rows = [
        row
        for row in rows_of(shared / "reference/datasets/finnish_159_fish.csv")
        if row["species_name"] == species and float(row["weight_g"] or 0) > 0
    ]
    length = np.array([10 * float(row["length_fork_cm"]) for row in rows])
    weight = np.array([float(row["weight_g"]) for row in rows])
    slope, level = np.polyfit(np.log(length / 10), np.log(weight), 1)
    # A line 20 % too light, as wild ones are for fed fish.
    line = published_line(
        a_g_cm=float(0.8 * np.exp(level)),
        b=float(slope),
        residual_sd_ln=0.11,
        min_length_mm=80,
        max_length_mm=500,
    )
    rng = np.random.default_rng(11)
    held = handled_held = 0
    ratios = []
    for _ in range(12):
        picks = [rng.choice(len(length), 8, replace=False) for _ in range(4)]
        nets = tuple(
            net_of(length[pick], weight[pick].sum())
            if number % 2 == 0
            else NetWeighing(
                fish_count=8, fish=net_of(length[pick], 1.0).fish, photo_relative_sd=0
            )
            for number, pick in enumerate(picks)
        )
        estimate = estimate_population(nets, published=line, settings=EXACT)
        mean, handled = estimate.mean_weight_g, estimate.handled_mean_weight_g
        held += mean.low < weight.mean() < mean.high
        true_handled = np.mean([weight[pick].mean() for pick in picks])
        handled_held += handled.low < true_handled < handled.high
        ratios.append(estimate.line.level_ratio.value)
    assert held >= 9  # 90 % of 12: fewer by chance once in 250
    assert handled_held >= 9
    assert np.mean(ratios) == pytest.approx(1.25, rel=0.05)
