"""Body shapes: profiles, fins and proportions of several families of fish.

The trout's half-profiles were read off a photograph, see ``sample_images/SOURCE.md``.
Those of the others are drawn by hand and invented; what was taken from tables is
said beside each: SL, FL, TL are standard, fork and total length, K(FL) the condition
100 W / FL^3 in g and cm. "Brofeldt" are the 159 fish of a Finnish lake weighed and
measured in 1917 (with height and width), as kept in many statistics packages.
"""

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator

Array = NDArray[np.float64]
Row = tuple[float, float, float, float]
Pair = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fin:
    """A fin on the back (positive reach) or the belly (negative).

    ``base`` are its first and last station, ``reach`` how far its front and rear ray
    stand off and ``sweep`` how far they lean back, as a fraction of the fork length.
    """

    base: Pair
    reach: Pair
    sweep: float
    pale: bool = False


@dataclass(frozen=True, kw_only=True, eq=False)
class Family:
    """One shape of body; stations run from 0 at the snout to 1 at the fork.

    Attributes
    ----------
    profile
        Rows of station, dorsal and ventral half-depth, half-thickness (largest 1).
    depth
        Largest sum of both half-depths in the table.
    body_end, caudal_base
        End of the scaly part, end of the spine (standard length over fork length).
    tail_root
        Half-depth of the tail fin's root in the table's unit.
    tail_rounding
        How far the corners of a tail without a fork stay behind its middle.
    section
        Power of the cross-section: 1 is an ellipse, below it is fuller, 2 has thin
        edges like a leaf.
    gill, mouth
        Stations of the gill cover's edge and of the mouth's corner.
    back, keel
        Station from and to, and the reach, of the room that the fins take.
    barbels
        Feelers around the mouth; no part of any length or outline.
    """

    profile: tuple[Row, ...]
    depth: float
    body_end: float
    caudal_base: float
    tail_root: float
    fins: tuple[Fin, ...]
    fork_depth: Pair
    tail_spread: Pair
    thickness: Pair
    tail_rounding: float = 0.0
    section: float = 0.92
    gill: float = 0.205
    mouth: float = 0.105
    pectoral: Pair = (-0.52, 1.0)  # height as share of the lower half, size
    eye: tuple[float, float, float] = (0.060, 0.34, 0.0165)  # station, share, radius
    back: tuple[float, float, float] = field(default=(0.43, 0.66, 0.055))
    keel: tuple[float, float, float] = field(default=(0.48, 0.83, 0.045))
    barbels: int = 0

    @cached_property
    def _curves(self) -> tuple[PchipInterpolator, ...]:
        # Against sqrt(station) a rounded snout is nearly straight: it keeps its shape.
        table = np.array(self.profile)
        return tuple(
            PchipInterpolator(np.sqrt(table[:, 0]), table[:, k]) for k in (1, 2, 3)
        )

    @cached_property
    def thickest(self) -> float:
        """Station of the greatest thickness."""
        station = np.linspace(0.0, self.body_end, 2001)
        return float(station[np.argmax(self.halves(station)[2])])

    @property
    def section_area(self) -> float:
        """Area of the cross-section as a share of the ellipse around it."""
        if self is _TROUT or self is _CHAR:
            return 1.0  # 1.02; the sample photographs were made with 1
        turn = np.linspace(0, np.pi, 2001)
        power = np.sin(turn) ** (self.section + 1)
        return float(np.trapezoid(power, turn) / (np.pi / 2))

    def halves(self, station: Array) -> tuple[Array, Array, Array]:
        """Return dorsal, ventral half-depth and half-thickness of the table."""
        root = np.sqrt(np.clip(station, 0.0, self.body_end))
        dorsal, ventral, thick = (np.maximum(c(root), 0.0) for c in self._curves)
        return dorsal, ventral, thick


_TROUT_ROWS: tuple[Row, ...] = (
    (0.000, 0.0000, 0.0000, 0.000),
    (0.006, 0.0175, 0.0165, 0.210),
    (0.020, 0.0315, 0.0285, 0.330),
    (0.040, 0.0450, 0.0410, 0.450),
    (0.070, 0.0610, 0.0560, 0.590),
    (0.110, 0.0760, 0.0690, 0.720),
    (0.160, 0.0920, 0.0840, 0.840),
    (0.220, 0.1050, 0.0970, 0.920),
    (0.300, 0.1150, 0.1100, 0.980),
    (0.380, 0.1190, 0.1190, 1.000),
    (0.460, 0.1170, 0.1220, 0.980),
    (0.540, 0.1090, 0.1190, 0.920),
    (0.620, 0.0960, 0.1090, 0.820),
    (0.700, 0.0800, 0.0910, 0.680),
    (0.780, 0.0640, 0.0670, 0.520),
    (0.840, 0.0530, 0.0530, 0.400),
    (0.880, 0.0480, 0.0470, 0.320),
    (0.910, 0.0480, 0.0460, 0.230),
    (0.935, 0.0440, 0.0420, 0.050),
)
_TROUT_FINS = (
    Fin(base=(0.43, 0.565), reach=(0.066, 0.034), sweep=0.058),
    Fin(base=(0.735, 0.765), reach=(0.022, 0.014), sweep=0.034),
    Fin(base=(0.475, 0.52), reach=(-0.034, -0.016), sweep=0.060, pale=True),
    Fin(base=(0.67, 0.765), reach=(-0.052, -0.020), sweep=0.045, pale=True),
)
_TROUT = Family(
    profile=_TROUT_ROWS,
    depth=0.2405,
    body_end=0.935,
    caudal_base=0.905,
    tail_root=0.044,
    fins=_TROUT_FINS,
    fork_depth=(0.030, 0.060),
    tail_spread=(0.068, 0.092),
    thickness=(0.46, 0.55),
)

# A trout's table, the tail's stem slimmer and the fork deeper; invented.
_CHAR = Family(
    profile=tuple(
        (s, d * (1 - slim), v * (1 - slim), t * (1 - 0.6 * slim))
        for s, d, v, t in _TROUT_ROWS
        for slim in (0.20 * min(max((s - 0.55) / 0.30, 0.0), 1.0),)
    ),
    depth=0.2405,
    body_end=0.935,
    caudal_base=0.905,
    tail_root=0.035,
    fins=_TROUT_FINS,
    fork_depth=(0.055, 0.085),
    tail_spread=(0.062, 0.085),
    thickness=(0.48, 0.58),
)

# Proportions invented; K(FL) near 1.0 (French river-fish database). The high, long
# back fin is what field guides name it by.
_GRAYLING = Family(
    profile=(
        (0.000, 0.000, 0.000, 0.00),
        (0.006, 0.070, 0.085, 0.22),
        (0.020, 0.125, 0.145, 0.35),
        (0.060, 0.215, 0.235, 0.56),
        (0.120, 0.325, 0.325, 0.77),
        (0.200, 0.435, 0.400, 0.91),
        (0.290, 0.515, 0.445, 0.99),
        (0.370, 0.530, 0.470, 1.00),
        (0.460, 0.500, 0.480, 0.97),
        (0.560, 0.430, 0.450, 0.87),
        (0.660, 0.345, 0.365, 0.71),
        (0.760, 0.250, 0.255, 0.52),
        (0.840, 0.185, 0.185, 0.36),
        (0.905, 0.165, 0.160, 0.20),
        (0.935, 0.150, 0.150, 0.05),
    ),
    depth=1.0,
    body_end=0.935,
    caudal_base=0.910,
    tail_root=0.150,
    fins=(
        Fin(base=(0.335, 0.585), reach=(0.105, 0.085), sweep=0.075),
        Fin(base=(0.760, 0.785), reach=(0.020, 0.012), sweep=0.030),
        Fin(base=(0.470, 0.520), reach=(-0.050, -0.020), sweep=0.060, pale=True),
        Fin(base=(0.700, 0.785), reach=(-0.052, -0.024), sweep=0.040, pale=True),
    ),
    fork_depth=(0.070, 0.100),
    section=1.0,
    tail_spread=(0.075, 0.100),
    thickness=(0.48, 0.56),
    gill=0.190,
    mouth=0.050,
    eye=(0.068, 0.28, 0.018),
    back=(0.335, 0.68, 0.10),
    keel=(0.46, 0.84, 0.05),
)

# K(FL) 1.9 and TL/FL 1.05 to 1.1 (published relationships); depth follows, the
# outline is invented.
_CARP = Family(
    profile=(
        (0.000, 0.000, 0.000, 0.00),
        (0.006, 0.065, 0.075, 0.24),
        (0.020, 0.120, 0.125, 0.40),
        (0.060, 0.220, 0.200, 0.62),
        (0.120, 0.350, 0.290, 0.82),
        (0.200, 0.480, 0.370, 0.95),
        (0.290, 0.555, 0.420, 1.00),
        (0.370, 0.565, 0.435, 1.00),
        (0.460, 0.535, 0.435, 0.95),
        (0.560, 0.460, 0.405, 0.84),
        (0.660, 0.360, 0.335, 0.67),
        (0.760, 0.265, 0.250, 0.49),
        (0.840, 0.210, 0.200, 0.34),
        (0.900, 0.195, 0.185, 0.20),
        (0.930, 0.180, 0.170, 0.05),
    ),
    depth=1.0,
    body_end=0.930,
    caudal_base=0.900,
    tail_root=0.180,
    fins=(
        Fin(base=(0.400, 0.735), reach=(0.085, 0.034), sweep=0.045),
        Fin(base=(0.430, 0.480), reach=(-0.070, -0.030), sweep=0.060, pale=True),
        Fin(base=(0.715, 0.785), reach=(-0.065, -0.024), sweep=0.045, pale=True),
    ),
    fork_depth=(0.075, 0.110),
    section=1.0,
    tail_spread=(0.095, 0.125),
    thickness=(0.50, 0.60),
    gill=0.235,
    mouth=0.045,
    eye=(0.085, 0.32, 0.011),
    back=(0.40, 0.78, 0.075),
    keel=(0.42, 0.84, 0.06),
)

# K(FL) 1.82 to 1.86 of 96 fish (Tizkar et al. 2020, J. Appl. Ichthyol. Res. 8(3));
# the square tail, deep stem and rounded fins are in every description; the outline
# is invented.
_TENCH = Family(
    profile=(
        (0.000, 0.000, 0.000, 0.00),
        (0.006, 0.075, 0.075, 0.25),
        (0.020, 0.135, 0.130, 0.42),
        (0.060, 0.230, 0.215, 0.64),
        (0.120, 0.345, 0.310, 0.83),
        (0.200, 0.445, 0.400, 0.95),
        (0.290, 0.505, 0.455, 1.00),
        (0.370, 0.520, 0.480, 1.00),
        (0.460, 0.500, 0.480, 0.95),
        (0.560, 0.440, 0.435, 0.84),
        (0.660, 0.360, 0.360, 0.67),
        (0.750, 0.300, 0.295, 0.49),
        (0.815, 0.275, 0.265, 0.34),
        (0.860, 0.260, 0.250, 0.20),
        (0.885, 0.240, 0.230, 0.05),
    ),
    depth=1.0,
    body_end=0.885,
    caudal_base=0.860,
    tail_root=0.245,
    fins=(
        Fin(base=(0.455, 0.575), reach=(0.105, 0.085), sweep=0.030),
        Fin(base=(0.430, 0.490), reach=(-0.085, -0.060), sweep=0.050, pale=True),
        Fin(base=(0.640, 0.720), reach=(-0.080, -0.060), sweep=0.035, pale=True),
    ),
    fork_depth=(0.0, 0.0),
    tail_rounding=0.012,
    section=1.0,
    tail_spread=(0.080, 0.100),
    thickness=(0.50, 0.60),
    gill=0.225,
    mouth=0.045,
    eye=(0.075, 0.30, 0.009),
    back=(0.45, 0.61, 0.10),
    keel=(0.43, 0.76, 0.08),
)

# SL/FL 0.85 from 100 fish of a Wisconsin lake; K(FL) 2.3 to 2.8 (the same fish).
_SUNFISH = Family(
    profile=(
        (0.000, 0.000, 0.000, 0.00),
        (0.006, 0.040, 0.040, 0.20),
        (0.020, 0.090, 0.080, 0.36),
        (0.050, 0.170, 0.150, 0.55),
        (0.100, 0.290, 0.250, 0.77),
        (0.160, 0.395, 0.340, 0.92),
        (0.230, 0.475, 0.420, 1.00),
        (0.310, 0.515, 0.470, 1.00),
        (0.390, 0.515, 0.485, 0.96),
        (0.470, 0.480, 0.470, 0.87),
        (0.550, 0.415, 0.415, 0.74),
        (0.630, 0.325, 0.325, 0.58),
        (0.710, 0.225, 0.220, 0.42),
        (0.780, 0.160, 0.155, 0.30),
        (0.830, 0.145, 0.140, 0.22),
        (0.855, 0.145, 0.140, 0.15),
        (0.880, 0.135, 0.130, 0.05),
    ),
    depth=1.0,
    body_end=0.880,
    caudal_base=0.850,
    tail_root=0.130,
    fins=(
        Fin(base=(0.290, 0.560), reach=(0.050, 0.075), sweep=0.045),
        Fin(base=(0.550, 0.700), reach=(0.100, 0.070), sweep=0.055),
        Fin(base=(0.330, 0.385), reach=(-0.105, -0.040), sweep=0.100, pale=True),
        Fin(base=(0.510, 0.690), reach=(-0.060, -0.070), sweep=0.060, pale=True),
    ),
    fork_depth=(0.018, 0.035),
    section=1.5,
    tail_spread=(0.095, 0.120),
    thickness=(0.33, 0.39),
    gill=0.265,
    mouth=0.070,
    pectoral=(-0.22, 1.5),
    eye=(0.090, 0.30, 0.024),
    back=(0.29, 0.75, 0.085),
    keel=(0.33, 0.75, 0.08),
)

# SL/TL 0.8 and W = 0.0145 TL^3.026 (Kosai et al. 2014, Walailak J. 11, 857) to
# K 1.9 on farms; no fork: FL is TL. Outline invented.
_TILAPIA = Family(
    profile=(
        (0.000, 0.000, 0.000, 0.00),
        (0.006, 0.060, 0.060, 0.22),
        (0.020, 0.115, 0.105, 0.38),
        (0.050, 0.200, 0.170, 0.58),
        (0.100, 0.325, 0.265, 0.79),
        (0.160, 0.430, 0.350, 0.92),
        (0.230, 0.510, 0.420, 1.00),
        (0.300, 0.540, 0.455, 1.00),
        (0.370, 0.535, 0.465, 0.96),
        (0.440, 0.500, 0.455, 0.88),
        (0.520, 0.435, 0.415, 0.75),
        (0.600, 0.345, 0.335, 0.60),
        (0.680, 0.250, 0.235, 0.45),
        (0.740, 0.200, 0.185, 0.33),
        (0.785, 0.185, 0.175, 0.24),
        (0.810, 0.180, 0.170, 0.16),
        (0.835, 0.165, 0.160, 0.05),
    ),
    depth=1.0,
    body_end=0.835,
    caudal_base=0.805,
    tail_root=0.165,
    fins=(
        Fin(base=(0.265, 0.520), reach=(0.045, 0.060), sweep=0.045),
        Fin(base=(0.510, 0.665), reach=(0.085, 0.050), sweep=0.095),
        Fin(base=(0.300, 0.350), reach=(-0.090, -0.035), sweep=0.110, pale=True),
        Fin(base=(0.540, 0.655), reach=(-0.065, -0.045), sweep=0.095),
    ),
    fork_depth=(0.0, 0.0),
    tail_rounding=0.030,
    section=1.4,
    tail_spread=(0.090, 0.115),
    thickness=(0.38, 0.46),
    gill=0.250,
    mouth=0.060,
    pectoral=(-0.20, 1.5),
    eye=(0.085, 0.34, 0.017),
    back=(0.26, 0.74, 0.07),
    keel=(0.30, 0.73, 0.07),
)

# K(FL) 1.5 (14 published relationships); the rest is invented.
_BASS = Family(
    profile=(
        (0.000, 0.000, 0.000, 0.00),
        (0.006, 0.070, 0.085, 0.24),
        (0.020, 0.125, 0.150, 0.40),
        (0.060, 0.225, 0.255, 0.62),
        (0.120, 0.335, 0.355, 0.82),
        (0.200, 0.435, 0.430, 0.95),
        (0.290, 0.500, 0.475, 1.00),
        (0.370, 0.520, 0.480, 0.99),
        (0.460, 0.495, 0.470, 0.93),
        (0.560, 0.425, 0.420, 0.81),
        (0.660, 0.320, 0.325, 0.64),
        (0.750, 0.230, 0.230, 0.46),
        (0.820, 0.195, 0.190, 0.32),
        (0.880, 0.185, 0.180, 0.20),
        (0.905, 0.170, 0.165, 0.05),
    ),
    depth=1.0,
    body_end=0.905,
    caudal_base=0.875,
    tail_root=0.170,
    fins=(
        Fin(base=(0.345, 0.540), reach=(0.042, 0.030), sweep=0.030),
        Fin(base=(0.550, 0.700), reach=(0.085, 0.050), sweep=0.050),
        Fin(base=(0.355, 0.400), reach=(-0.075, -0.030), sweep=0.070, pale=True),
        Fin(base=(0.610, 0.710), reach=(-0.065, -0.045), sweep=0.060, pale=True),
    ),
    fork_depth=(0.020, 0.040),
    section=1.1,
    tail_spread=(0.090, 0.115),
    thickness=(0.48, 0.58),
    gill=0.285,
    mouth=0.150,
    pectoral=(-0.35, 1.2),
    eye=(0.095, 0.42, 0.016),
    back=(0.34, 0.75, 0.075),
    keel=(0.35, 0.77, 0.065),
)

# SL/FL 0.92, TL/FL 1.06, height 0.28 FL, width 0.60 of the height, K(FL) 1.29: means
# of 56 perch of Brofeldt; the outline is invented, the width as with the bream below.
_PERCH = Family(
    profile=(
        (0.000, 0.000, 0.000, 0.00),
        (0.006, 0.065, 0.065, 0.22),
        (0.020, 0.120, 0.110, 0.37),
        (0.060, 0.230, 0.195, 0.60),
        (0.120, 0.370, 0.285, 0.80),
        (0.200, 0.490, 0.360, 0.94),
        (0.290, 0.565, 0.410, 1.00),
        (0.370, 0.570, 0.430, 0.99),
        (0.460, 0.530, 0.430, 0.93),
        (0.560, 0.445, 0.400, 0.72),
        (0.660, 0.330, 0.315, 0.53),
        (0.760, 0.225, 0.215, 0.35),
        (0.840, 0.170, 0.160, 0.22),
        (0.910, 0.160, 0.150, 0.12),
        (0.940, 0.145, 0.140, 0.05),
    ),
    depth=1.0,
    body_end=0.940,
    caudal_base=0.920,
    tail_root=0.145,
    fins=(
        Fin(base=(0.300, 0.570), reach=(0.085, 0.030), sweep=0.045),
        Fin(base=(0.590, 0.745), reach=(0.070, 0.035), sweep=0.045),
        Fin(base=(0.330, 0.375), reach=(-0.085, -0.030), sweep=0.080, pale=True),
        Fin(base=(0.670, 0.755), reach=(-0.070, -0.035), sweep=0.045, pale=True),
    ),
    fork_depth=(0.050, 0.070),
    section=2.0,
    tail_spread=(0.080, 0.105),
    thickness=(0.52, 0.58),
    gill=0.265,
    mouth=0.095,
    pectoral=(-0.35, 1.2),
    eye=(0.085, 0.36, 0.016),
    back=(0.30, 0.79, 0.075),
    keel=(0.33, 0.81, 0.07),
)

# SL/FL 0.915, TL/FL 1.16, height 0.46 FL, width 0.36 of the height, K(FL) 1.67: means
# of 35 bream of Brofeldt; the outline is invented, the width a little less than
# theirs: even this cross-section is fuller than a real one.
_BREAM = Family(
    profile=(
        (0.000, 0.000, 0.000, 0.00),
        (0.006, 0.032, 0.030, 0.20),
        (0.020, 0.068, 0.060, 0.34),
        (0.050, 0.130, 0.110, 0.45),
        (0.100, 0.225, 0.190, 0.63),
        (0.160, 0.340, 0.275, 0.79),
        (0.230, 0.455, 0.350, 0.92),
        (0.310, 0.545, 0.410, 1.00),
        (0.390, 0.560, 0.440, 0.96),
        (0.470, 0.530, 0.450, 0.85),
        (0.560, 0.455, 0.425, 0.67),
        (0.650, 0.345, 0.345, 0.47),
        (0.740, 0.230, 0.235, 0.31),
        (0.820, 0.155, 0.155, 0.20),
        (0.880, 0.118, 0.116, 0.13),
        (0.915, 0.112, 0.110, 0.10),
        (0.940, 0.100, 0.098, 0.05),
    ),
    depth=1.0,
    body_end=0.940,
    caudal_base=0.915,
    tail_root=0.104,
    fins=(
        Fin(base=(0.475, 0.590), reach=(0.135, 0.045), sweep=0.060),
        Fin(base=(0.395, 0.440), reach=(-0.075, -0.030), sweep=0.070),
        Fin(base=(0.590, 0.850), reach=(-0.100, -0.022), sweep=0.045),
    ),
    fork_depth=(0.130, 0.180),
    section=2.4,
    tail_spread=(0.120, 0.155),
    thickness=(0.28, 0.33),
    gill=0.205,
    mouth=0.040,
    pectoral=(-0.45, 1.3),
    eye=(0.070, 0.26, 0.016),
    back=(0.47, 0.65, 0.115),
    keel=(0.39, 0.88, 0.085),
)

# Nothing published was found; invented.
_SILVER_PERCH = Family(
    profile=_PERCH.profile,
    depth=1.0,
    body_end=0.940,
    caudal_base=0.905,
    tail_root=0.145,
    fins=(
        Fin(base=(0.340, 0.560), reach=(0.055, 0.040), sweep=0.035),
        Fin(base=(0.560, 0.700), reach=(0.075, 0.035), sweep=0.050),
        Fin(base=(0.360, 0.405), reach=(-0.080, -0.030), sweep=0.075, pale=True),
        Fin(base=(0.620, 0.720), reach=(-0.075, -0.030), sweep=0.050, pale=True),
    ),
    fork_depth=(0.035, 0.060),
    section=1.6,
    tail_spread=(0.085, 0.110),
    thickness=(0.42, 0.48),
    gill=0.215,
    mouth=0.060,
    pectoral=(-0.35, 1.1),
    eye=(0.075, 0.28, 0.013),
    back=(0.34, 0.76, 0.065),
    keel=(0.36, 0.78, 0.07),
)

FAMILIES = {
    "trout": _TROUT,
    "char": _CHAR,
    "grayling": _GRAYLING,
    "carp": _CARP,
    "tench": _TENCH,
    "sunfish": _SUNFISH,
    "tilapia": _TILAPIA,
    "bass": _BASS,
    "perch": _PERCH,
    "bream": _BREAM,
    "silver-perch": _SILVER_PERCH,
}
