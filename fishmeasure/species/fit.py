"""A stock's own length-weight line from fish weighed one by one."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

import numpy as np
from scipy import stats

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.errors import LengthWeightDataError, quantity
from fishmeasure.base.record import plain
from fishmeasure.base.toml_text import pair
from fishmeasure.base.words import Message, wording
from fishmeasure.species import LengthKind, LengthWeight, Species
from fishmeasure.species.size import BodyFigures

FEWEST_FISH: Final = 8  # below it the residual sd is known to worse than +-30 %
# A studentised residual beyond this is a slip of pen more likely than a fish: chance
# gives one in 16 000.
OUTLIER_SDS: Final = 4.0
# A fed stock's condition moves by about this much between samplings weeks apart, so a
# line fitted once is never surer. Common practice, no source.
CONDITION_DRIFT: Final = 0.05
# A second predictor is worth its trouble when it takes this much off the error of
# single weights left out of the fit (per cent of weight).
WORTHWHILE_PERCENT: Final = 1.0
# What no fish is beyond; a figure outside has a wrong unit.
SIZES_MM: Final = (0.5, 5000.0)
WEIGHTS_G: Final = (1e-4, 200_000.0)
# A fish with more of the line's leverage than this holds it alone: without it the
# others have one length.
MOST_LEVERAGE: Final = 1.0 - 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthWeightFit:
    """ln W = ln a + b ln L by least squares (grams, centimetres).

    Attributes
    ----------
    log_a_se, b_se
        Standard errors.
    residual_sd_ln
        Of ln W about the line, n - 2 degrees of freedom.
    mean_factor
        exp(s^2 / 2): mean over median weight at a length if ln W is normal about
        the line (Finney 1941); multiply a by it to predict means.
    smearing_factor
        The same without the assumption: mean of exp(residual) (Duan 1983).
    mean_log_length_cm
        Where the line's level and slope are independent.
    outliers
        Indices of fish far off the line, to be looked at; they are in the fit.
    left_out_error_percent
        Mean absolute error of single weights, each predicted by a line fitted
        without it.
    """

    a_g_cm: float
    b: float
    log_a_se: float
    b_se: float
    residual_sd_ln: float
    r_squared: float
    mean_factor: float
    smearing_factor: float
    fish_count: int
    min_length_mm: float
    max_length_mm: float
    mean_log_length_cm: float
    length_kind: LengthKind
    outliers: tuple[int, ...]
    left_out_error_percent: float


def fit_length_weight(
    length_mm: FloatArray, weight_g: FloatArray, *, length_kind: LengthKind = "fork"
) -> LengthWeightFit:
    """Return the log-log fit of single fish.

    Parameters
    ----------
    length_mm, weight_g
        (n,) each, in the same order.

    Raises
    ------
    LengthWeightDataError
        If there are too few fish, a figure that cannot be, or one length only.
    """
    length_mm = np.asarray(length_mm, dtype=float)
    weight_g = np.asarray(weight_g, dtype=float)
    _check(length_mm, weight_g)
    x, y = np.log(length_mm / 10.0), np.log(weight_g)
    line = stats.linregress(x, y)
    residuals = y - line.intercept - line.slope * x
    n = len(x)
    sd = float(np.sqrt(np.sum(residuals**2) / (n - 2)))
    leverage = 1.0 / n + (x - x.mean()) ** 2 / np.sum((x - x.mean()) ** 2)
    left_out = _left_out(residuals, leverage)
    studentised = residuals / (max(sd, 1e-12) * np.sqrt(1.0 - leverage))
    return LengthWeightFit(
        a_g_cm=float(np.exp(line.intercept)),
        b=float(line.slope),
        log_a_se=float(line.intercept_stderr),
        b_se=float(line.stderr),
        residual_sd_ln=sd,
        r_squared=float(line.rvalue**2),
        mean_factor=math.exp(sd**2 / 2.0),
        smearing_factor=float(np.mean(np.exp(residuals))),
        fish_count=n,
        min_length_mm=float(length_mm.min()),
        max_length_mm=float(length_mm.max()),
        mean_log_length_cm=float(x.mean()),
        length_kind=length_kind,
        outliers=tuple(int(i) for i in np.flatnonzero(abs(studentised) > OUTLIER_SDS)),
        left_out_error_percent=_percent_error(left_out),
    )


def left_out_error_percent(predictors: FloatArray, weight_g: FloatArray) -> float:
    """Return the mean absolute error of single weights left out of the fit.

    Parameters
    ----------
    predictors
        (n, k) positive sizes; ln W is regressed on their logarithms. The residual of
        a fish left out is its residual over 1 less its leverage (Allen 1974).
    """
    design = np.column_stack([np.ones(len(weight_g)), np.log(predictors)])
    y = np.log(weight_g)
    q, _ = np.linalg.qr(design)
    residuals = y - q @ (q.T @ y)
    leverage = np.sum(q**2, axis=1)
    return _percent_error(_left_out(residuals, leverage))


def _left_out(residuals: FloatArray, leverage: FloatArray) -> FloatArray:
    """Return each fish's residual from the line of the others."""
    alone = np.flatnonzero(leverage > MOST_LEVERAGE)
    if len(alone):
        raise LengthWeightDataError(
            Message.of("lw-data", case="one-size", fish=int(alone[0]) + 1)
        )
    left_out: FloatArray = residuals / (1.0 - leverage)
    return left_out


def _percent_error(log_residuals: FloatArray) -> float:
    # The residual is ln(true / predicted), so predicted / true - 1 is the error.
    # Beyond e^50 there is nothing to tell apart, and e^709 overflows.
    return 100.0 * float(np.mean(np.abs(np.expm1(-log_residuals.clip(-50.0, 50.0)))))


def _check(length_mm: FloatArray, weight_g: FloatArray, size: str = "length") -> None:
    if length_mm.shape != weight_g.shape or length_mm.ndim != 1:
        raise ValueError(length_mm.shape)
    if len(length_mm) < FEWEST_FISH:
        raise LengthWeightDataError(
            Message.of("lw-data", case="few", fish=len(length_mm), needed=FEWEST_FISH)
        )
    for name, unit, values, (least, most) in (
        (size, "mm", length_mm, SIZES_MM),
        ("weight", "g", weight_g, WEIGHTS_G),
    ):
        wrong = np.flatnonzero(~((values >= least) & (values <= most)))
        if len(wrong):
            figure = Message.of(
                "lw-figure", size=quantity(name), value=values[wrong[0]], unit=unit
            )
            raise LengthWeightDataError(
                Message.of(
                    "lw-data", case="wrong", fish=int(wrong[0]) + 1, figure=figure
                )
            )
    # A line needs lengths that differ: at 2 % apart b would be off by more than 1.
    if length_mm.max() / length_mm.min() < 1.05:
        raise LengthWeightDataError(Message.of("lw-data", case="one-length"))


@dataclass(frozen=True, slots=True, kw_only=True)
class SecondPredictor:
    """Whether body depth (or another size) helps beside length.

    Errors are of single fish left out of the fit, per cent of weight. On the 159
    fish of Brofeldt 1917 depth takes 1.2 off the 8.2 of bream, 1.1 off perch's 8.6,
    1.3 off roach's 10.8 and adds 0.4 to pike's 9.9; no table with depths of trout
    or char was found. Bulk weights settle a sample's level anyway, so the estimate
    uses length alone.
    """

    length_error_percent: float
    both_error_percent: float

    @property
    def helps(self) -> bool:
        """Whether it takes ``WORTHWHILE_PERCENT`` off the error."""
        gain = self.length_error_percent - self.both_error_percent
        return gain >= WORTHWHILE_PERCENT

    @property
    def sentence(self) -> str:
        """The finding in words."""
        return wording(
            "depth-beside-length",
            case="helps" if self.helps else "idle",
            error_percent=self.both_error_percent,
        )


def second_predictor(
    length_mm: FloatArray, second_mm: FloatArray, weight_g: FloatArray
) -> SecondPredictor:
    """Return the error of single weights with length alone and with both.

    Raises
    ------
    LengthWeightDataError
        As ``fit_length_weight``, for either size.
    """
    _check(length_mm, weight_g)
    _check(second_mm, weight_g, "depth")
    return SecondPredictor(
        length_error_percent=left_out_error_percent(length_mm[:, None], weight_g),
        both_error_percent=left_out_error_percent(
            np.column_stack([length_mm, second_mm]), weight_g
        ),
    )


def published_for(species: Species, length_kind: LengthKind) -> LengthWeight:
    """Return a species' line for another kind of length than it was published for.

    With FL = L / r, W = a FL^b = (a r^-b) L^b, which is exact.
    """
    if species.length_weight.length_kind == length_kind:
        return species.length_weight
    fork = species.on_fork_length()
    if length_kind == "fork":
        return fork
    total_per_fork = 1.0 / species.shape.fork_per_total.value
    ratio = {
        "total": total_per_fork,
        "standard": species.shape.standard_per_total.value * total_per_fork,
    }[length_kind]
    return replace(
        fork,
        a_g_cm=fork.a_g_cm * ratio**-fork.b,
        length_kind=length_kind,
        min_length_mm=fork.min_length_mm * ratio,
        max_length_mm=fork.max_length_mm * ratio,
    )


def own_line(
    fit: LengthWeightFit, published: LengthWeight, *, note: str
) -> LengthWeight:
    """Return a stock's line from the fit and, for b, the published one.

    b is the mean of both weighted by their precisions: a batch of one size says
    little of b. The level is the fit's at its mean length, its error that at the
    middle of the range (``reference_length_mm``) and the stock's drift together.

    Raises
    ------
    ValueError
        If both are for different lengths.
    """
    if fit.length_kind != published.length_kind:
        raise ValueError(published.length_kind)
    fit_weight = 1.0 / fit.b_se**2 if fit.b_se > 0.0 else 1e12
    published_weight = 1.0 / published.b_sd**2 if published.b_sd > 0.0 else 1e12
    b = (fit_weight * fit.b + published_weight * published.b) / (
        fit_weight + published_weight
    )
    b_sd = (fit_weight + published_weight) ** -0.5
    mean = fit.mean_log_length_cm
    log_a = math.log(fit.a_g_cm) + (fit.b - b) * mean
    middle = 0.5 * math.log(fit.min_length_mm * fit.max_length_mm / 100.0)
    level_sd = math.hypot(
        fit.residual_sd_ln / math.sqrt(fit.fish_count), b_sd * (middle - mean)
    )
    return replace(
        published,
        a_g_cm=math.exp(log_a),
        b=b,
        min_length_mm=fit.min_length_mm,
        max_length_mm=fit.max_length_mm,
        relative_sd=math.hypot(level_sd, CONDITION_DRIFT),
        residual_sd_ln=max(fit.residual_sd_ln, 0.001),
        b_sd=b_sd,
        stock="farmed",
        status="seen",
        confidence="high" if fit.fish_count >= 30 else "medium",
        source=wording("source-own-fit", fish=fit.fish_count, note=note).strip(),
    )


def species_toml(
    species: Species, line: LengthWeight | None, body: BodyFigures | None = None
) -> str:
    """Return a species file of this species with the stock's own line, and body.

    Without a line it is the species' in all but its shape.
    """
    names = {"common_name": species.common_name, "latin_name": species.latin_name}
    sections = {}
    if line is not None:
        sections["length_weight"] = [pair(*item) for item in plain(line).items()]
    sections["shape"] = _figures(plain(species.shape))
    if body is not None:
        sections["body"] = _figures(plain(body))
    lines = [pair(*item) for item in names.items()]
    for title, rows in sections.items():
        lines += ["", f"[{title}]", *rows]
    return "\n".join([*lines, ""])


def _figures(table: Mapping[str, Any]) -> list[str]:
    return [
        f"{name} = {{ {', '.join(pair(*item) for item in figure.items())} }}"
        for name, figure in table.items()
        if figure is not None
    ]
