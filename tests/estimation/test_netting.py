"""Drip and netting, learnt from harvests and whole tanks, against figures by hand."""

import math

import pytest

from fishmeasure.estimation.nets import DripWater, Netting
from fishmeasure.estimation.netting import (
    DRIP_ALONE,
    DRIP_AND_NETTING,
    NETTING_ALONE,
    Learnt,
    Told,
    learn,
)

USUAL = Learnt(drip=DripWater(fraction=0.0, sd=0.01), netting=Netting(relative_sd=0.03))


def test_a_drained_harvest_tells_the_product_alone() -> None:
    """Prior variances 1 and 9 (in 1e-4), told 5 % with variance 0: shared 1 to 9.

    ln 1.05 = 0.04879; a tenth, 0.00488, is drip, nine tenths, 0.04391, netting; each is
    left with 1 * 9 / 10 = 0.9e-4, an sd of 0.95 %, and what one has the other lacks.
    """
    learnt = learn(USUAL, (Told(ratio=1.05, relative_sd=1e-9, of=DRIP_AND_NETTING),))
    assert math.log1p(learnt.drip.fraction) == pytest.approx(0.00488, abs=1e-5)
    assert math.log1p(learnt.netting.heavier) == pytest.approx(0.04391, abs=1e-5)
    assert learnt.netting.relative_sd == pytest.approx(0.00949, abs=1e-5)
    assert learnt.correlation == pytest.approx(-1.0, abs=1e-6)


def test_a_drained_weighing_parts_them() -> None:
    """The same fish wet and drained, 1.5 % apart: the rest of the 5 % is netting."""
    told = (
        Told(ratio=1.05, relative_sd=0.001, of=DRIP_AND_NETTING),
        Told(ratio=1.015, relative_sd=0.001, of=DRIP_ALONE),
    )
    for order in (told, told[::-1]):
        learnt = learn(USUAL, order)
        assert learnt.drip.fraction == pytest.approx(0.015, abs=0.001)
        assert learnt.netting.heavier == pytest.approx(1.05 / 1.015 - 1.0, abs=0.001)
        assert learnt.netting.relative_sd < 0.002


def test_a_wet_harvest_tells_no_drip() -> None:
    """With the water in both means only the netting is told."""
    learnt = learn(USUAL, (Told(ratio=1.04, relative_sd=0.03, of=NETTING_ALONE),))
    assert learnt.drip.sd == pytest.approx(0.01)
    # As sure beforehand as told: half of ln 1.04 is believed.
    assert math.log1p(learnt.netting.heavier) == pytest.approx(0.5 * math.log(1.04))
    assert learnt.netting.relative_sd == pytest.approx(0.03 / math.sqrt(2.0))
