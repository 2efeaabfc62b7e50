"""Mean weights of stocks from thin to fat by photos alone: what ``weights`` prints."""

import numpy as np
import pytest

from tests.accuracy.weights import drawn_stocks


@pytest.mark.parametrize("known", [False, True])
def test_intervals_hold_thin_fat_and_deep_stocks(*, known: bool) -> None:
    """K of 0.9 to 2.5: 85 to 95 % of 90 % intervals hold, by 200 of 5 points more.

    At most 15 % to either side where c was learned from five fish of another stock.
    """
    judged = list(drawn_stocks(200, known=known))
    held = float(np.mean([one.held for one in judged]))
    assert 0.80 < held < 0.98
    if known:
        assert float(np.median([one.width for one in judged])) < 0.15
    conditions = np.array([one.condition for one in judged])
    errors = np.array([one.error for one in judged])
    assert abs(float(errors.mean())) < 0.03
    slope = float(np.polyfit(np.log(conditions), errors, 1)[0])
    assert abs(slope) < 0.2  # the length alone would give -1
