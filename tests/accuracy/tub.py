"""Live fish in rendered tubs: found, used, lengths, counts, and photos refused.

``python -m tests.accuracy.tub FOLDER [--depth]`` measures the photos of the
generator's set ``tub`` (fish under water, refracted by the renderer) and its wet
boards, which are in the air. ``--depth`` tells the water's depth. README.md says what
was chosen on that set.
"""

import argparse
import json
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from fishmeasure.photo.measurement import MeasuredFish, PhotoMeasurement
from fishmeasure.pipeline import PhotoSettings, measure_photo
from fishmeasure.species import load_species

SPECIES = {
    "lake-char": "arctic-char",
    "catfish": "channel-catfish",
    "round-perch": "perch",
    "cichlid": "nile-tilapia",
}
"""Of the generator's families; any other is a rainbow trout."""
NEAR = 0.25
"""Of the length: both ends of a fish are nearer than this to their truth, or it is
another fish."""
UNCOVERED = 0.02


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """One true fish: errors and standard errors are fractions, None where not used."""

    upright: bool
    whole: bool
    found: bool
    used: bool
    total: tuple[float, float] | None = None
    fork: tuple[float, float] | None = None


def measured(path: Path, *, water: bool, depth: bool) -> PhotoMeasurement:
    """Return a photo's measurement, its species as rendered."""
    truth = truth_of(path)
    family = truth["fish"][0]["family"] if truth["fish"] else ""
    settings = PhotoSettings(
        species=load_species(SPECIES.get(family, "rainbow-trout")),
        in_water=water,
        water_depth_mm=truth["water"]["depth_mm"] if depth else None,
    )
    return measure_photo(path.read_bytes(), path.name, settings)


def truth_of(path: Path) -> dict[str, Any]:
    """Return what is true of a photo."""
    told: dict[str, Any] = json.loads(path.with_suffix(".truth.json").read_text())
    return told


def judged(photo: PhotoMeasurement, truth: dict[str, Any]) -> Iterator[Judged]:
    """Yield each true fish with what was found of it."""
    taken: set[int] = set()
    for fish in truth["fish"]:
        upright = fish["lies"] == "upright"
        whole = fish["occluded_fraction"] < UNCOVERED and fish["cut_fraction"] < 0.005
        at = _nearest(photo.fish, fish, taken)
        if at is None:
            yield Judged(upright=upright, whole=whole, found=False, used=False)
            continue
        taken.add(at)
        found = photo.fish[at]
        yield Judged(
            upright=upright,
            whole=whole,
            found=True,
            used=found.complete,
            total=(
                found.total_length_mm / fish["total_length_mm"] - 1.0,
                found.total_length_se_mm / found.total_length_mm,
            ),
            fork=(
                found.fork_length_mm / fish["fork_length_mm"] - 1.0,
                found.fork_length_se_mm / found.fork_length_mm,
            ),
        )


def _nearest(
    found: tuple[MeasuredFish, ...], fish: dict[str, Any], taken: set[int]
) -> int | None:
    hind = fish["tail_tip_px"] if fish["lies"] == "upright" else fish["fork_px"]
    ends = np.array([fish["snout_px"], hind])
    reach = NEAR * float(np.linalg.norm(ends[0] - ends[1]))
    best: tuple[float, int] | None = None
    for at, one in enumerate(found):
        if at in taken:
            continue
        own = np.array([one.snout_px, one.fork_px])
        ways = (own, own[::-1])
        miss = min(float(np.linalg.norm(w - ends, axis=1).max()) for w in ways)
        if miss < reach and (best is None or miss < best[0]):
            best = (miss, at)
    return None if best is None else best[1]


def summary(name: str, figures: list[tuple[float, float]]) -> str:
    """Return a line: mean absolute error, bias, worst, what the intervals hold."""
    if not figures:
        return f"{name}: none"
    error = np.array([e for e, _ in figures])
    z = error / np.array([sd for _, sd in figures])
    return (
        f"{name}: n {len(error)}, mean abs. {100 * np.abs(error).mean():.2f} %, "
        f"bias {100 * error.mean():+.2f} %, worst {100 * np.abs(error).max():.1f} %, "
        f"90 % intervals hold {100 * np.mean(np.abs(z) < 1.645):.0f} %"
    )


def main() -> None:
    """Print the tables."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--depth", action="store_true", help="tell the water's depth")
    options = parser.parse_args()
    fish: list[tuple[str, Judged]] = []
    counts, refused, wrongly, dry = [], 0, 0, 0
    for path in sorted(options.folder.glob("*.jpg")):
        truth = truth_of(path)
        if not truth["in_water"]:
            dry += 1
            photo = measured(path, water=False, depth=False)
            wrongly += any(one.code == "in-water" for one in photo.problems)
            continue
        photo = measured(path, water=False, depth=False)
        refused += not photo.complete_fish
        photo = measured(path, water=True, depth=options.depth)
        fish += [(truth["board"], one) for one in judged(photo, truth)]
        if photo.fish_count is not None:
            counts.append((photo.fish_count, len(truth["fish"])))
    for board in ("", *sorted({board for board, _ in fish})):
        some = [one for of, one in fish if board in {"", of}]
        whole = [one for one in some if one.upright and one.whole]
        used = [one for one in whole if one.used]
        sys.stdout.write(
            f"\n{board or 'all'}: upright, uncovered {len(whole)}, "
            f"found {sum(one.found for one in whole)}, used {len(used)}\n"
            + summary("  total length", [one.total for one in used if one.total])
            + "\n"
            + summary("  fork length", [one.fork for one in used if one.fork])
            + "\n"
        )
    side = [one.fork for _, one in fish if not one.upright and one.used and one.fork]
    sys.stdout.write(summary("\non their side, fork length", side) + "\n")
    sure = sum(count.low <= true <= count.high for count, true in counts)
    seen, true = sum(c.value for c, _ in counts), sum(t for _, t in counts)
    sys.stdout.write(
        f"count: {seen} of {true}, interval holds {sure} of {len(counts)}\n"
        f"refused without --water: {refused} of {len(counts)}; "
        f"wrongly refused in the air: {wrongly} of {dry}\n"
    )


if __name__ == "__main__":
    main()
