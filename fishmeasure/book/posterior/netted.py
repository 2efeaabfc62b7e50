"""What a net sample says of all fish: mean weight, spread, and the stock's own level.

A net takes fish of another mean than all have, and water is weighed with them; both are
alike in every sample of a stock, so no number of samples averages them out. A sample of
photos alone stands on the published weight at a length: what weighed samples showed of
the stock's own level is carried to it, with its error and its drift.
"""

import math
from collections.abc import Callable
from typing import TYPE_CHECKING, Final
from uuid import UUID

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.estimate import Estimate
from fishmeasure.book.cv_and_condition import condition_factor, weight_cv
from fishmeasure.book.entries import Sample
from fishmeasure.book.posterior.fish import Group
from fishmeasure.book.posterior.history import History
from fishmeasure.book.posterior.priors import (
    CV_DRIFT,
    LEVEL_DRIFT,
    USUAL_CV,
    months_root,
)
from fishmeasure.book.posterior.unknowns import Unknowns
from fishmeasure.husbandry.propagation import z_score

if TYPE_CHECKING:
    from datetime import date

Observe = Callable[[str, UUID | None, float, float, FloatArray], None]
# A sample's interval holds what all samples share too; no more than three quarters of
# its variance is taken to be that.
_OWN_SHARE: Final = 0.25
# Of a photo-only sample without the level: lengths to weights, common to its photos.
_PHOTO_SD: Final = 0.03


class Netted:
    """Takes in samples at the values of the unknowns."""

    def __init__(self, history: History, unknown: Unknowns, observe: Observe) -> None:
        self._history, self._unknown, self._observe = history, unknown, observe
        self._level: FloatArray | None = None
        self._level_on: date | None = None

    def sample(self, entry: Sample, group: Group) -> None:
        """Hold a sample against the fish that should be there."""
        by_photo = self._is_by_photo(entry)
        usual, var = self._history.assumptions, self._variance(entry, by_photo)
        chosen = self._unknown("netting", usual.netting_sd_fraction)
        shared = usual.netting_sd_fraction**2
        if not by_photo:
            chosen = chosen + self._unknown("drip", usual.drip_sd_fraction)
            shared += usual.drip_sd_fraction**2
        own = max(var - shared, _OWN_SHARE * var)
        if shared > 0.0:  # a whole tank weighed leaves nothing to choose
            chosen = chosen * math.sqrt((var - own) / shared)
        if by_photo:
            chosen = chosen - self._level_at(entry)
        if entry.unit_id in self._history.ponds:
            own += usual.pond_netting_sd_fraction**2
        self._mean_weight(entry, group, chosen, math.sqrt(own))
        if entry.fish_weighed and entry.fish_measured:
            self._condition(entry)
        self._spread(entry, group)
        group.samples += 1
        group.weight_from = [entry.id]
        group.sampled_on = entry.on
        group.condition_factor = condition_factor(entry) or group.condition_factor

    def _is_by_photo(self, entry: Sample) -> bool:
        """Return whether a sample stands on the published weight at a length.

        No weighing, and an interval as wide as the error of that: one that is narrower
        was made with a line of the stock's own, or weighed and not said to be.
        """
        line = self._history.line
        unweighed = entry.fish_weighed == 0 and entry.fish_measured > 0
        return unweighed and line is not None and _relative_sd(entry) > line.relative_sd

    def _variance(self, entry: Sample, by_photo: bool) -> float:  # noqa: FBT001
        """Return the variance of ln mean weight, that of the stock's level apart."""
        var, line = _relative_sd(entry) ** 2, self._history.line
        if not by_photo or line is None:
            return var
        least = (entry.cv or USUAL_CV) ** 2 / max(entry.fish_measured, 1)
        return max(var - line.relative_sd**2, min(least + _PHOTO_SD**2, var))

    def _mean_weight(
        self, entry: Sample, group: Group, chosen: FloatArray, sd: float
    ) -> None:
        """Observe the cube root, which is nearest to normal and grows evenly."""
        root = math.cbrt(entry.mean_weight_g)
        root_sd = root * sd / 3.0
        if group.root is None:
            error = self._unknown((entry.id, "weight"), root_sd)
            group.root = np.maximum(root + error, 1e-3) * np.exp(-chosen / 3.0)
            return
        self._observe(
            "sample", entry.id, root, root_sd, group.root * np.exp(chosen / 3.0)
        )

    def _spread(self, entry: Sample, group: Group) -> None:
        """Observe the spread; one that was only weighed shows none, but a prior."""
        cv = None
        if entry.fish_measured or not entry.fish_weighed:
            cv = weight_cv(entry)
        if cv is None or cv.value <= 0.0:
            return
        self.let_spread_drift(group, entry.id)
        self._observe(
            "cv", entry.id, math.log(cv.value), cv.sd / cv.value, group.log_cv
        )
        group.cv_seen = True

    def let_spread_drift(self, group: Group, name: object) -> None:
        """Let the spread stray since it was last observed."""
        stray = CV_DRIFT * months_root(group.day - group.cv_day)
        if group.cv_seen and stray > 0.0:
            group.log_cv = group.log_cv + self._unknown(
                (name, group.unit_id, "cv-drift"), stray
            )
        group.cv_day = group.day

    # --- the stock's own level -------------------------------------------------

    def _level_at(self, entry: Sample) -> FloatArray:
        """Return ln of the stock's weight over the published, on a sample's day."""
        line = self._history.line
        if self._level is None or self._level_on is None:
            sd = 0.0 if line is None else line.relative_sd
            self._level = self._unknown("level", sd)
        else:
            stray = LEVEL_DRIFT * months_root((entry.on - self._level_on).days)
            self._level = self._level + self._unknown((entry.id, "level"), stray)
        self._level_on = entry.on
        return self._level

    def _condition(self, entry: Sample) -> None:
        factor = condition_factor(entry)
        if factor is None or self._history.line is None:
            return
        level = self._level_at(entry)
        observed, sd = self._over_published(entry, factor)
        self._observe("level", entry.id, observed, sd, level)

    def _over_published(self, entry: Sample, factor: Estimate) -> tuple[float, float]:
        """Return ln of the sample's weight over the published at its length, and sd."""
        line = self._history.line
        if line is None:
            msg = "there is no published line to compare with"
            raise ValueError(msg)
        length_cm = math.cbrt(100.0 * entry.mean_weight_g / factor.value)
        published_g = line.a_g_cm * length_cm**line.b
        return math.log(entry.mean_weight_g / published_g), factor.sd / factor.value


def _relative_sd(entry: Sample) -> float:
    reach = entry.mean_weight_high_g - entry.mean_weight_low_g
    return reach / (2.0 * z_score(entry.level)) / entry.mean_weight_g
