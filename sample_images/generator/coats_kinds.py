"""Skins of the fish in ``kinds.py``; invented, in no other set."""

from sample_images.generator.coats import SKINS, Skin

KIND_SKINS: dict[str, Skin] = {
    "farm-rainbow": Skin(
        back=(0.25, 0.28, 0.22),
        flank=(0.60, 0.61, 0.57),
        belly=(0.89, 0.88, 0.86),
        fin=(0.38, 0.38, 0.31),
        pale_fin=(0.66, 0.60, 0.52),
        band=(0.68, 0.44, 0.45),
        spots=260,
        spot_size=0.0038,
        silver=0.5,
    ),
    "lake-char": Skin(
        back=(0.22, 0.26, 0.24),
        flank=(0.50, 0.50, 0.43),
        belly=(0.88, 0.64, 0.44),
        fin=(0.32, 0.31, 0.27),
        pale_fin=(0.76, 0.46, 0.30),
        spots=110,
        spot_colour=(0.78, 0.70, 0.56),
        spot_size=0.0062,
        spots_below=-0.5,
        silver=0.3,
        white_edges=True,
    ),
    "catfish-spotted": Skin(
        back=(0.24, 0.26, 0.26),
        flank=(0.50, 0.51, 0.49),
        belly=(0.90, 0.89, 0.87),
        fin=(0.33, 0.33, 0.32),
        pale_fin=(0.52, 0.50, 0.47),
        spots=60,
        spot_size=0.0050,
        spots_below=-0.1,
        silver=0.0,
        eye=(0.30, 0.28, 0.22),
    ),
    "catfish-mottled": Skin(
        back=(0.17, 0.16, 0.11),
        flank=(0.34, 0.32, 0.22),
        belly=(0.78, 0.73, 0.60),
        fin=(0.22, 0.20, 0.15),
        pale_fin=(0.38, 0.33, 0.25),
        marbling=(0.14, 0.14, 0.10),
        silver=0.0,
        eye=(0.30, 0.26, 0.18),
    ),
    "mirror-carp": Skin(
        back=(0.28, 0.24, 0.14),
        flank=(0.58, 0.46, 0.26),
        belly=(0.86, 0.77, 0.56),
        fin=(0.38, 0.31, 0.21),
        pale_fin=(0.62, 0.44, 0.28),
        silver=0.15,
        scale_rows=30,
        scale_edge=0.18,
    ),
    "round-perch": Skin(
        back=(0.26, 0.30, 0.22),
        flank=(0.58, 0.58, 0.46),
        belly=(0.88, 0.86, 0.80),
        fin=(0.42, 0.40, 0.30),
        pale_fin=(0.66, 0.56, 0.42),
        bars=6,
        bar_colour=(0.22, 0.25, 0.20),
        bar_width=0.40,
        silver=0.4,
        scale_rows=58,
        scale_edge=0.16,
    ),
    "cichlid": Skin(
        back=(0.30, 0.32, 0.33),
        flank=(0.60, 0.61, 0.59),
        belly=(0.86, 0.85, 0.82),
        fin=(0.42, 0.41, 0.40),
        pale_fin=(0.62, 0.55, 0.52),
        bars=9,
        bar_colour=(0.38, 0.39, 0.38),
        bar_width=0.35,
        silver=0.5,
        scale_rows=31,
        scale_edge=0.22,
    ),
}


def coat_of(name: str) -> Skin:
    """Return a skin by its name, of these or of ``coats.py``."""
    return KIND_SKINS[name] if name in KIND_SKINS else SKINS[name]
