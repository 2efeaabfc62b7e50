"""Nets with known truth, drawn from a seeded generator."""

from dataclasses import dataclass, field

import numpy as np

from fishmeasure.estimation.nets import FishInNet, NetWeighing
from fishmeasure.species import LengthWeight


def published_line(**changes: float | str) -> LengthWeight:
    """Return round coefficients of a trout-like fish, fork length."""
    figures: dict[str, float | str] = {
        "a_g_cm": 0.0138,
        "b": 3.0,
        "length_kind": "fork",
        "min_length_mm": 80.0,
        "max_length_mm": 600.0,
        "relative_sd": 0.25,
        "residual_sd_ln": 0.08,
        "b_sd": 0.08,
        "source": "made up for tests",
        "confidence": "medium",
    }
    return LengthWeight(**(figures | changes))  # type: ignore[arg-type]


@dataclass(frozen=True, slots=True, kw_only=True)
class Truth:
    """What a drawn sample is drawn from; log-length sds, fractions."""

    length_mm: float = 250.0
    sigma: float = 0.085
    tau: float = 0.03
    kappa: float = 0.07
    level: float = 1.0
    b: float = 3.0
    drip: float = 0.01
    length_scale_sd: float = 0.008
    photo_sd: float = 0.005
    fish_sd: float = 0.012
    gross_fraction: float = 0.0
    gross_sd: float = 0.15
    small_fraction: float = 0.0
    small_log_ratio: float = -0.35

    def _log_moment(self, order: float) -> float:
        """Return ln E W^order, exact."""
        variance = self.b**2 * (self.sigma**2 + self.tau**2) + self.kappa**2
        small = self.small_fraction
        groups = 1.0 - small + small * np.exp(order * self.b * self.small_log_ratio)
        middle = order * np.log(self.weight_at(self.length_mm))
        return float(middle + 0.5 * order**2 * variance + np.log(groups))

    @property
    def mean_weight_g(self) -> float:
        return float(np.exp(self._log_moment(1.0)))

    @property
    def cv(self) -> float:
        return float(np.sqrt(np.expm1(self._log_moment(2) - 2 * self._log_moment(1))))

    def weight_at(self, length_mm: float) -> float:
        """Return the stock's weight on its line."""
        return float(self.level * 0.0138 * 25.0**3.0 * (length_mm / 250.0) ** self.b)


@dataclass(frozen=True, slots=True, kw_only=True)
class Dip:
    """How one net is treated."""

    fish: int
    weighed: bool = True
    photographed: bool = True
    count_error: int = 0


@dataclass(slots=True, kw_only=True)
class Drawn:
    """Nets and the true weights of the fish in them."""

    nets: tuple[NetWeighing, ...]
    weights_g: list[np.ndarray] = field(default_factory=list)

    @property
    def handled_mean_g(self) -> float:
        return float(np.mean(np.concatenate(self.weights_g)))


def draw(truth: Truth, dips: list[Dip], rng: np.random.Generator) -> Drawn:
    """Return a sample drawn from the truth."""
    session = rng.normal(0.0, truth.length_scale_sd)
    nets, weights = [], []
    for number, dip in enumerate(dips, 1):
        small = rng.random(dip.fish) < truth.small_fraction
        x = rng.normal(0.0, truth.tau) + rng.normal(0.0, truth.sigma, dip.fish)
        x = x + np.where(small, truth.small_log_ratio, 0.0)
        length = truth.length_mm * np.exp(x)
        weight = (
            truth.level
            * 0.0138
            * 25.0**3.0
            * (length / 250.0) ** truth.b
            * np.exp(rng.normal(0.0, truth.kappa, dip.fish))
        )
        common = session + rng.normal(0.0, truth.photo_sd)
        own = rng.normal(0.0, truth.fish_sd, dip.fish)
        gross = rng.random(dip.fish) < truth.gross_fraction
        wrong = np.where(gross, rng.normal(0.0, truth.gross_sd, dip.fish), 0.0)
        seen = length * np.exp(common + own + wrong)
        wet = weight.sum() * (1.0 + truth.drip + rng.normal(0.0, 0.003))
        reading = round(wet + rng.normal(0.0, 2.0))
        nets.append(
            NetWeighing(
                fish_count=dip.fish + dip.count_error,
                net_g=float(max(reading, 1)) if dip.weighed else None,
                fish=tuple(FishInNet(fork_length_mm=float(mm)) for mm in seen)
                if dip.photographed
                else (),
                label=f"net {number}",
            )
        )
        weights.append(weight)
    return Drawn(nets=tuple(nets), weights_g=weights)
