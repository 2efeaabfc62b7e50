"""Body shapes of the sets ``unseen``, ``sizes``, ``tub`` and ``heap``.

All drawn by hand and invented, apart from the shapes in ``families.py`` and from every
figure of the program: what judges a program must not share its numbers. K(FL) is the
condition 100 W / FL^3 (g, cm); the values are common practice, no source.
"""

from sample_images.generator.families import FAMILIES, Family, Fin, Row


def _rows(stations: str, dorsal: str, ventral: str, thick: str) -> tuple[Row, ...]:
    """Return profile rows; dorsal and ventral in thousandths, thick in hundredths."""
    columns = [
        [float(v) / unit for v in text.split()]
        for text, unit in ((stations, 1e3), (dorsal, 1e3), (ventral, 1e3), (thick, 1e2))
    ]
    return tuple((s, d, v, t) for s, d, v, t in zip(*columns, strict=True))


# A farmed rainbow trout: small head, deep behind it, thick to the adipose fin.
_FARM_RAINBOW = Family(
    profile=_rows(
        "0 6 20 45 80 125 180 250 330 410 500 590 680 760 830 880 915 945",
        "0 70 128 190 258 325 400 465 505 512 490 435 350 268 212 190 188 172",
        "0 62 112 165 228 300 372 440 482 488 478 440 362 270 208 186 182 168",
        "0 22 36 50 64 77 88 96 100 100 96 88 74 56 40 30 18 5",
    ),
    depth=1.0,
    body_end=0.945,
    caudal_base=0.915,
    tail_root=0.178,
    fins=(
        Fin(base=(0.415, 0.555), reach=(0.058, 0.028), sweep=0.050),
        Fin(base=(0.745, 0.772), reach=(0.024, 0.015), sweep=0.030),
        Fin(base=(0.505, 0.550), reach=(-0.030, -0.014), sweep=0.052, pale=True),
        Fin(base=(0.690, 0.785), reach=(-0.046, -0.018), sweep=0.040, pale=True),
    ),
    fork_depth=(0.022, 0.062),
    section=0.90,
    tail_spread=(0.070, 0.100),
    thickness=(0.47, 0.60),
    gill=0.190,
    mouth=0.088,
    eye=(0.056, 0.32, 0.0150),
)

# A char: slim, long head with a wide mouth, thin stem, deep fork.
_LAKE_CHAR = Family(
    profile=_rows(
        "0 7 24 52 92 140 200 275 355 440 530 620 710 785 845 890 920 940",
        "0 62 118 178 248 322 402 462 492 495 468 405 312 232 182 160 158 150",
        "0 66 122 186 256 328 405 470 505 505 482 425 328 236 180 156 152 146",
        "0 20 36 52 67 80 91 98 100 99 94 83 66 48 34 25 15 5",
    ),
    depth=1.0,
    body_end=0.940,
    caudal_base=0.908,
    tail_root=0.150,
    fins=(
        Fin(base=(0.425, 0.545), reach=(0.072, 0.030), sweep=0.055),
        Fin(base=(0.740, 0.762), reach=(0.026, 0.014), sweep=0.036),
        Fin(base=(0.515, 0.560), reach=(-0.045, -0.018), sweep=0.062, pale=True),
        Fin(base=(0.690, 0.770), reach=(-0.058, -0.020), sweep=0.050, pale=True),
    ),
    fork_depth=(0.060, 0.095),
    section=0.94,
    tail_spread=(0.066, 0.090),
    thickness=(0.48, 0.60),
    gill=0.218,
    mouth=0.118,
    eye=(0.064, 0.36, 0.0155),
)

# A catfish of ponds: flat broad head, no scales, feelers, long anal fin.
_CATFISH = Family(
    profile=_rows(
        "0 6 20 50 95 150 215 290 370 455 545 635 720 795 850 890 915",
        "0 75 140 225 320 410 480 505 490 455 410 355 300 250 222 212 195",
        "0 85 150 225 305 385 455 495 505 495 460 400 325 258 222 208 190",
        "0 45 66 84 95 100 100 94 85 76 66 56 44 33 24 17 5",
    ),
    depth=1.0,
    body_end=0.915,
    caudal_base=0.888,
    tail_root=0.200,
    fins=(
        Fin(base=(0.335, 0.410), reach=(0.105, 0.050), sweep=0.060),
        Fin(base=(0.740, 0.785), reach=(0.034, 0.022), sweep=0.045),
        Fin(base=(0.480, 0.525), reach=(-0.062, -0.030), sweep=0.045, pale=True),
        Fin(base=(0.575, 0.800), reach=(-0.075, -0.055), sweep=0.040),
    ),
    fork_depth=(0.080, 0.150),
    section=0.95,
    tail_spread=(0.085, 0.115),
    thickness=(0.78, 0.95),
    gill=0.215,
    mouth=0.070,
    eye=(0.090, 0.38, 0.0085),
    back=(0.33, 0.50, 0.10),
    keel=(0.47, 0.84, 0.08),
    barbels=6,
)

# A deep carp of the mirror form: high back behind a small head.
_DEEP_CARP = Family(
    profile=_rows(
        "0 6 20 55 105 170 245 325 405 490 580 670 755 830 885 915",
        "0 55 105 205 330 475 575 605 580 515 430 335 255 208 190 178",
        "0 62 110 180 255 325 375 395 400 388 350 292 232 192 176 164",
        "0 26 42 62 80 93 100 100 95 86 74 60 45 31 20 5",
    ),
    depth=1.0,
    body_end=0.915,
    caudal_base=0.885,
    tail_root=0.172,
    fins=(
        Fin(base=(0.385, 0.715), reach=(0.092, 0.038), sweep=0.050),
        Fin(base=(0.425, 0.475), reach=(-0.078, -0.032), sweep=0.060, pale=True),
        Fin(base=(0.700, 0.765), reach=(-0.070, -0.028), sweep=0.050, pale=True),
    ),
    fork_depth=(0.070, 0.120),
    section=1.05,
    tail_spread=(0.105, 0.140),
    thickness=(0.44, 0.54),
    gill=0.240,
    mouth=0.050,
    eye=(0.088, 0.34, 0.0100),
    back=(0.38, 0.77, 0.085),
    keel=(0.42, 0.83, 0.07),
    barbels=4,
)

# A perch-like fish whose tail is rounded, without a fork: FL is TL.
_ROUND_PERCH = Family(
    profile=_rows(
        "0 6 20 50 95 150 220 300 380 460 540 620 700 760 805 835",
        "0 55 105 185 285 385 475 520 520 480 415 335 255 215 200 190",
        "0 65 120 200 295 380 450 485 485 455 400 325 245 205 190 180",
        "0 24 40 60 79 92 100 100 95 85 72 57 42 31 21 5",
    ),
    depth=1.0,
    body_end=0.835,
    caudal_base=0.802,
    tail_root=0.190,
    fins=(
        Fin(base=(0.300, 0.520), reach=(0.060, 0.045), sweep=0.035),
        Fin(base=(0.530, 0.690), reach=(0.095, 0.070), sweep=0.070),
        Fin(base=(0.320, 0.365), reach=(-0.085, -0.035), sweep=0.080, pale=True),
        Fin(base=(0.560, 0.680), reach=(-0.085, -0.062), sweep=0.070),
    ),
    fork_depth=(0.0, 0.0),
    tail_rounding=0.055,
    section=1.15,
    tail_spread=(0.080, 0.110),
    thickness=(0.46, 0.56),
    gill=0.262,
    mouth=0.105,
    pectoral=(-0.32, 1.2),
    eye=(0.088, 0.38, 0.0175),
    back=(0.29, 0.76, 0.085),
    keel=(0.32, 0.75, 0.08),
)

# A cichlid of ponds: very deep, long back fin, tail nearly square.
_CICHLID = Family(
    profile=_rows(
        "0 6 18 45 90 145 210 285 360 435 515 595 670 735 785 820",
        "0 58 108 190 320 440 535 572 560 515 440 350 260 205 188 172",
        "0 55 100 165 255 335 400 430 436 422 380 312 235 186 172 160",
        "0 22 38 58 79 93 100 99 94 85 73 58 43 31 22 5",
    ),
    depth=1.0,
    body_end=0.820,
    caudal_base=0.795,
    tail_root=0.166,
    fins=(
        Fin(base=(0.250, 0.515), reach=(0.050, 0.062), sweep=0.040),
        Fin(base=(0.505, 0.660), reach=(0.090, 0.045), sweep=0.100),
        Fin(base=(0.310, 0.358), reach=(-0.098, -0.035), sweep=0.105, pale=True),
        Fin(base=(0.535, 0.650), reach=(-0.070, -0.045), sweep=0.095),
    ),
    fork_depth=(0.0, 0.0),
    tail_rounding=0.018,
    section=1.30,
    tail_spread=(0.095, 0.125),
    thickness=(0.38, 0.46),
    gill=0.255,
    mouth=0.058,
    pectoral=(-0.22, 1.5),
    eye=(0.082, 0.36, 0.0165),
    back=(0.25, 0.75, 0.075),
    keel=(0.30, 0.73, 0.075),
)

KINDS = {
    "farm-rainbow": _FARM_RAINBOW,
    "lake-char": _LAKE_CHAR,
    "catfish": _CATFISH,
    "deep-carp": _DEEP_CARP,
    "round-perch": _ROUND_PERCH,
    "cichlid": _CICHLID,
}


def shape_of(name: str) -> Family:
    """Return a family by its name, of these or of ``families.py``."""
    return KINDS[name] if name in KINDS else FAMILIES[name]
