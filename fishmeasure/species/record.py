"""What is known of a species."""

from dataclasses import dataclass
from typing import Literal

LengthKind = Literal["fork", "total", "standard"]
Confidence = Literal["high", "medium", "low"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthWeight:
    """W = a L^b with W in grams and L in centimetres.

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Species:
    """One species or one stock of it.

    Attributes
    ----------
    key
        Name on the command line, such as "rainbow-trout".
    length_weight
        The coefficients used.
    fork_per_total, standard_per_total
        Length ratios (fork length / total length; 1 where the tail has no fork).
    thickness_per_depth
        Side-to-side thickness over body depth, for the height of the midline.
    depth_per_fork_length
        Typical body depth over fork length, and its sd between fish.
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
    ratios_source: str
    is_own_stock: bool = False
