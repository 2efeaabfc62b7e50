"""What fish look like: colours, spots and bars of species and strains.

Every skin is invented; the patterns follow what field guides say of the species.
"""

from dataclasses import dataclass

SCALE_ROWS = 115  # scales along the lateral line of a trout: about 110 to 130
Colour = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Skin:
    """Colours in sRGB 0-1 and the spotting of one species or strain."""

    back: Colour
    flank: Colour
    belly: Colour
    fin: Colour
    pale_fin: Colour
    band: Colour | None = None
    spots: int = 0
    spot_colour: Colour = (0.07, 0.07, 0.06)
    spot_size: float = 0.0042
    spots_below: float = -0.15  # spots stay above this height (-1 belly, 1 back)
    halo: Colour | None = None
    red_spots: int = 0
    silver: float = 0.35
    white_edges: bool = False
    marbling: Colour | None = None
    bars: int = 0
    bar_colour: Colour = (0.16, 0.17, 0.13)
    bar_width: float = 0.5  # share of the distance from bar to bar
    bar_span: tuple[float, float] = (-0.6, 1.0)  # heights between which they run
    stripe: Colour | None = None  # dark line along the middle of the flank
    ear: Colour | None = None  # spot at the end of the gill cover
    scale_rows: int = SCALE_ROWS
    scale_edge: float = 0.0  # how dark each scale's rim is drawn
    eye: Colour = (0.46, 0.40, 0.29)


SKINS: dict[str, Skin] = {
    "rainbow": Skin(
        back=(0.22, 0.24, 0.16),
        flank=(0.56, 0.56, 0.49),
        belly=(0.83, 0.81, 0.76),
        fin=(0.34, 0.34, 0.24),
        pale_fin=(0.62, 0.53, 0.42),
        band=(0.66, 0.38, 0.38),
        spots=330,
    ),
    "rainbow-dark": Skin(
        back=(0.11, 0.12, 0.10),
        flank=(0.32, 0.31, 0.25),
        belly=(0.66, 0.63, 0.56),
        fin=(0.19, 0.19, 0.15),
        pale_fin=(0.40, 0.33, 0.26),
        band=(0.48, 0.24, 0.23),
        spots=420,
        silver=0.2,
    ),
    "brown": Skin(
        back=(0.24, 0.19, 0.10),
        flank=(0.52, 0.41, 0.22),
        belly=(0.80, 0.71, 0.50),
        fin=(0.38, 0.30, 0.17),
        pale_fin=(0.60, 0.46, 0.24),
        spots=85,
        spot_size=0.0085,
        spots_below=-0.35,
        halo=(0.72, 0.63, 0.45),
        red_spots=30,
        silver=0.2,
    ),
    "char": Skin(
        back=(0.20, 0.23, 0.22),
        flank=(0.42, 0.43, 0.38),
        belly=(0.86, 0.52, 0.34),
        fin=(0.27, 0.26, 0.23),
        pale_fin=(0.75, 0.36, 0.24),
        spots=150,
        spot_colour=(0.72, 0.62, 0.52),
        spot_size=0.0055,
        spots_below=-0.55,
        silver=0.25,
        white_edges=True,
    ),
    "char-silver": Skin(
        back=(0.26, 0.31, 0.32),
        flank=(0.62, 0.64, 0.62),
        belly=(0.88, 0.87, 0.84),
        fin=(0.40, 0.41, 0.39),
        pale_fin=(0.70, 0.62, 0.55),
        spots=100,
        spot_colour=(0.80, 0.76, 0.70),
        spot_size=0.0050,
        silver=0.5,
        white_edges=True,
    ),
    "golden": Skin(
        back=(0.84, 0.60, 0.16),
        flank=(0.90, 0.73, 0.32),
        belly=(0.93, 0.87, 0.70),
        fin=(0.88, 0.62, 0.24),
        pale_fin=(0.90, 0.72, 0.42),
        band=(0.88, 0.52, 0.34),
        silver=0.25,
    ),
    "silver": Skin(
        back=(0.29, 0.33, 0.34),
        flank=(0.70, 0.71, 0.70),
        belly=(0.90, 0.90, 0.88),
        fin=(0.45, 0.46, 0.44),
        pale_fin=(0.70, 0.68, 0.63),
        spots=70,
        spot_size=0.0038,
        spots_below=0.25,
        silver=0.6,
    ),
    "rainbow-pale": Skin(
        back=(0.38, 0.41, 0.35),
        flank=(0.66, 0.67, 0.62),
        belly=(0.88, 0.87, 0.83),
        fin=(0.48, 0.47, 0.39),
        pale_fin=(0.70, 0.62, 0.52),
        band=(0.74, 0.55, 0.54),
        spots=180,
        spot_size=0.0036,
        silver=0.5,
    ),
    "brook": Skin(
        back=(0.18, 0.20, 0.13),
        flank=(0.38, 0.38, 0.27),
        belly=(0.82, 0.56, 0.36),
        fin=(0.25, 0.24, 0.16),
        pale_fin=(0.72, 0.36, 0.22),
        spots=220,
        spot_colour=(0.68, 0.62, 0.38),
        spot_size=0.0060,
        spots_below=-0.35,
        red_spots=18,
        silver=0.2,
        white_edges=True,
    ),
    "brown-silver": Skin(
        back=(0.27, 0.26, 0.20),
        flank=(0.63, 0.60, 0.50),
        belly=(0.87, 0.83, 0.74),
        fin=(0.42, 0.39, 0.30),
        pale_fin=(0.66, 0.58, 0.45),
        spots=60,
        spot_size=0.0070,
        spots_below=-0.1,
        silver=0.45,
    ),
    "tiger": Skin(
        back=(0.28, 0.23, 0.12),
        flank=(0.58, 0.49, 0.28),
        belly=(0.85, 0.76, 0.58),
        fin=(0.42, 0.34, 0.20),
        pale_fin=(0.66, 0.52, 0.30),
        silver=0.2,
        marbling=(0.22, 0.17, 0.09),
    ),
    "steelhead": Skin(
        back=(0.30, 0.36, 0.40),
        flank=(0.74, 0.76, 0.77),
        belly=(0.92, 0.92, 0.91),
        fin=(0.50, 0.51, 0.50),
        pale_fin=(0.74, 0.72, 0.68),
        spots=120,
        spot_size=0.0032,
        spots_below=0.05,
        silver=0.65,
        eye=(0.62, 0.58, 0.44),
    ),
    "marble": Skin(
        back=(0.30, 0.29, 0.21),
        flank=(0.62, 0.59, 0.47),
        belly=(0.86, 0.82, 0.70),
        fin=(0.46, 0.42, 0.32),
        pale_fin=(0.70, 0.60, 0.42),
        marbling=(0.27, 0.26, 0.20),
        silver=0.3,
    ),
    "parr": Skin(
        back=(0.33, 0.33, 0.22),
        flank=(0.62, 0.60, 0.48),
        belly=(0.88, 0.86, 0.80),
        fin=(0.50, 0.45, 0.32),
        pale_fin=(0.74, 0.62, 0.44),
        spots=90,
        spot_size=0.0055,
        spots_below=0.2,
        bars=10,
        bar_colour=(0.27, 0.30, 0.30),
        bar_width=0.62,
        bar_span=(-0.55, 0.6),
        silver=0.35,
    ),
    "copper": Skin(
        back=(0.36, 0.22, 0.12),
        flank=(0.66, 0.44, 0.25),
        belly=(0.88, 0.76, 0.58),
        fin=(0.52, 0.34, 0.20),
        pale_fin=(0.76, 0.52, 0.30),
        band=(0.70, 0.32, 0.22),
        spots=150,
        spot_size=0.0060,
        silver=0.25,
    ),
    "char-blue": Skin(
        back=(0.17, 0.24, 0.31),
        flank=(0.47, 0.53, 0.56),
        belly=(0.90, 0.63, 0.50),
        fin=(0.30, 0.35, 0.38),
        pale_fin=(0.80, 0.44, 0.32),
        spots=130,
        spot_colour=(0.82, 0.70, 0.62),
        spot_size=0.0048,
        spots_below=-0.5,
        silver=0.4,
        white_edges=True,
    ),
    "grayling": Skin(
        back=(0.32, 0.35, 0.36),
        flank=(0.64, 0.65, 0.60),
        belly=(0.86, 0.84, 0.77),
        fin=(0.44, 0.36, 0.38),
        pale_fin=(0.66, 0.52, 0.38),
        spots=26,
        spot_size=0.0045,
        spots_below=0.1,
        silver=0.55,
        scale_rows=84,
        scale_edge=0.14,
        eye=(0.66, 0.58, 0.34),
    ),
    "carp": Skin(
        back=(0.30, 0.26, 0.14),
        flank=(0.64, 0.52, 0.28),
        belly=(0.84, 0.74, 0.50),
        fin=(0.42, 0.36, 0.24),
        pale_fin=(0.66, 0.44, 0.28),
        silver=0.3,
        scale_rows=36,
        scale_edge=0.42,
    ),
    "tench": Skin(
        back=(0.18, 0.20, 0.09),
        flank=(0.38, 0.37, 0.17),
        belly=(0.66, 0.55, 0.26),
        fin=(0.17, 0.17, 0.11),
        pale_fin=(0.20, 0.19, 0.12),
        silver=0.15,
        scale_rows=105,
        scale_edge=0.08,
        eye=(0.70, 0.24, 0.12),
    ),
    "sunfish": Skin(
        back=(0.20, 0.24, 0.18),
        flank=(0.44, 0.46, 0.36),
        belly=(0.80, 0.62, 0.34),
        fin=(0.29, 0.30, 0.24),
        pale_fin=(0.62, 0.52, 0.34),
        bars=7,
        bar_colour=(0.17, 0.21, 0.18),
        bar_width=0.5,
        ear=(0.04, 0.04, 0.06),
        silver=0.35,
        scale_rows=44,
        scale_edge=0.22,
        eye=(0.40, 0.26, 0.16),
    ),
    "tilapia": Skin(
        back=(0.34, 0.35, 0.31),
        flank=(0.58, 0.58, 0.53),
        belly=(0.83, 0.81, 0.76),
        fin=(0.38, 0.36, 0.34),
        pale_fin=(0.58, 0.50, 0.46),
        bars=8,
        bar_colour=(0.32, 0.33, 0.30),
        bar_width=0.42,
        silver=0.45,
        scale_rows=33,
        scale_edge=0.26,
    ),
    "tilapia-red": Skin(
        back=(0.80, 0.46, 0.34),
        flank=(0.90, 0.64, 0.52),
        belly=(0.94, 0.84, 0.76),
        fin=(0.84, 0.52, 0.42),
        pale_fin=(0.90, 0.66, 0.56),
        silver=0.3,
        scale_rows=33,
        scale_edge=0.18,
    ),
    "bass": Skin(
        back=(0.20, 0.25, 0.14),
        flank=(0.52, 0.55, 0.38),
        belly=(0.87, 0.86, 0.78),
        fin=(0.36, 0.38, 0.26),
        pale_fin=(0.60, 0.56, 0.42),
        stripe=(0.12, 0.15, 0.10),
        silver=0.4,
        scale_rows=64,
        scale_edge=0.16,
        eye=(0.52, 0.42, 0.22),
    ),
    "perch": Skin(
        back=(0.22, 0.26, 0.12),
        flank=(0.54, 0.52, 0.28),
        belly=(0.86, 0.82, 0.70),
        fin=(0.36, 0.35, 0.24),
        pale_fin=(0.78, 0.30, 0.14),
        bars=7,
        bar_colour=(0.13, 0.16, 0.09),
        bar_width=0.46,
        bar_span=(-0.45, 1.0),
        silver=0.3,
        scale_rows=62,
        scale_edge=0.14,
        eye=(0.62, 0.46, 0.20),
    ),
    "bream": Skin(
        back=(0.26, 0.26, 0.22),
        flank=(0.60, 0.57, 0.48),
        belly=(0.85, 0.82, 0.74),
        fin=(0.31, 0.31, 0.30),
        pale_fin=(0.46, 0.42, 0.38),
        silver=0.55,
        scale_rows=54,
        scale_edge=0.20,
        eye=(0.66, 0.58, 0.36),
    ),
    "silver-perch": Skin(
        back=(0.30, 0.32, 0.32),
        flank=(0.62, 0.63, 0.62),
        belly=(0.88, 0.88, 0.86),
        fin=(0.36, 0.37, 0.37),
        pale_fin=(0.60, 0.58, 0.54),
        silver=0.55,
        scale_rows=60,
        scale_edge=0.20,
    ),
}
