"""How often another species than the one named is told, on real outlines.

``python -m tests.accuracy.species_shapes SHARED`` takes the 218 outlines of North Sea
fish by name (Caillon et al. 2018, Ecosphere 9, e02220), each as one photo's only fish:
of species that the program knows, how often it takes them for others (false alarms);
of all others, how often it tells that they are no rainbow trout (hits), by how deep
they are. Outlines are drawn by hand or from plates and carry no scale.
"""

import argparse
from collections import defaultdict
from pathlib import Path

import numpy as np

from fishmeasure.photo.length.ends import find_ends, tail_odds_ln
from fishmeasure.photo.length.midline import trace_midline
from fishmeasure.species import load_species
from fishmeasure.species.likeness import other_species

OUTLINES = Path("photos/outlines_nsfishes_ccbysa/outlines_all218.npz")
KNOWN = {
    "Salmo_trutta": "brown-trout",
    "Salmo_salar": "atlantic-salmon",
    "Dicentrarchus_labrax": "sea-bass",
}
_BANDS = (0.0, 0.15, 0.20, 0.30, 0.35, 0.45, 2.0)


def depth_of(outline: np.ndarray) -> float:
    """Return depth over fork length as a photo's outline gives it."""
    points = np.asarray(outline, dtype=float)[:, :2]
    midline = trace_midline(points / np.ptp(points, axis=0).max() * 240.0)
    if tail_odds_ln(midline) < 0.0:
        midline = midline.reversed()
    ends = find_ends(midline)
    return float(ends.depth / (ends.fork_along - ends.snout_along))


def main() -> None:
    parser = argparse.ArgumentParser(prog="tests.accuracy.species_shapes")
    parser.add_argument("shared", type=Path)
    outlines = np.load(parser.parse_args().shared / OUTLINES)
    alarms: dict[str, list[bool]] = defaultdict(list)
    hits: dict[float, list[bool]] = defaultdict(list)
    trout = load_species("rainbow-trout")
    for name in outlines.files:
        depth = depth_of(outlines[name])
        known = next((key for part, key in KNOWN.items() if part in name), None)
        if known is not None:
            alarms[known].append(
                other_species([depth], load_species(known)) is not None
            )
            continue
        band = max(low for low in _BANDS if low <= depth)
        hits[band].append(other_species([depth], trout) is not None)
    for key, told in sorted(alarms.items()):
        print(f"{key}: told to be another {sum(told)} of {len(told)}")
    for low, told in sorted(hits.items()):
        print(
            f"others, depth from {low:.2f}: no rainbow trout {sum(told)} of {len(told)}"
        )


if __name__ == "__main__":
    main()
