"""What is known of a species."""

import math
from dataclasses import dataclass, replace
from typing import Literal

LengthKind = Literal["fork", "total", "standard"]
Confidence = Literal["high", "medium", "low"]

StockKind = Literal["farmed", "wild"]
"""Whose condition a level describes; wild fish are leaner than fed ones."""

FigureStatus = Literal["seen", "relative", "memory", "common-practice"]
"""How a figure is known: read in its source; read for a related species; from
memory, unchecked; a rule of thumb without a source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthWeight:
    """W = a L^b with W in grams and L in centimetres.

    ``a_g_cm`` is that of the median line, as a log-log fit gives it.
    ``relative_sd`` is the error of the level for an unknown stock (about 0.25
    for a book's coefficients); ``residual_sd_ln`` the spread of ln W of single
    fish about their own stock's line; ``b_sd`` the spread of b between stocks.
    """

    a_g_cm: float
    b: float
    length_kind: LengthKind
    min_length_mm: float
    max_length_mm: float
    relative_sd: float
    residual_sd_ln: float
    b_sd: float
    source: str
    confidence: Confidence
    stock: StockKind = "wild"
    status: FigureStatus = "seen"

    @property
    def reference_length_mm(self) -> float:
        """Length at which errors of level and of b are independent.

        The geometric middle of the range: published a and b trade off about the
        middle of the fish they were fitted to.
        """
        return math.sqrt(self.min_length_mm * self.max_length_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureSource:
    """Where one figure of a species comes from."""

    figure: str
    source: str
    status: FigureStatus


@dataclass(frozen=True, slots=True, kw_only=True)
class Species:
    """One species or one stock of it.

    Attributes
    ----------
    key
        Name on the command line, such as "rainbow-trout".
    length_weight
        The coefficients as published; ``on_fork_length`` for use.
    fork_per_total, standard_per_total
        Length ratios (fork length / total length; 1 where the tail has no fork).
    thickness_per_depth
        Side-to-side thickness over body depth, for the height of the midline,
        and its sd for one fish of an unknown stock.
    depth_per_fork_length
        Typical body depth over fork length, and its sd between fish.
    figure_sources
        One for each ratio.
    """

    key: str
    common_name: str
    latin_name: str
    length_weight: LengthWeight
    fork_per_total: float
    standard_per_total: float
    thickness_per_depth: float
    depth_per_fork_length: float
    depth_per_fork_length_sd: float
    thickness_per_depth_sd: float = 0.06  # whitefish 0.037, perch 0.042 (Brofeldt)
    figure_sources: tuple[FigureSource, ...] = ()
    is_own_stock: bool = False

    def on_fork_length(self) -> LengthWeight:
        """Return the coefficients and their range for fork length.

        With L = r FL, W = a L^b = (a r^b) FL^b, which is exact.
        """
        published = self.length_weight
        per_fork = {
            "fork": 1.0,
            "total": 1.0 / self.fork_per_total,
            "standard": self.standard_per_total / self.fork_per_total,
        }[published.length_kind]
        return replace(
            published,
            a_g_cm=published.a_g_cm * per_fork**published.b,
            length_kind="fork",
            min_length_mm=published.min_length_mm / per_fork,
            max_length_mm=published.max_length_mm / per_fork,
        )
