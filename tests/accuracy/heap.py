"""Net samples tipped on a tray, fish on one another: found, used, lengths, counts.

``python -m tests.accuracy.heap FOLDER`` measures the photos of the generator's set
``heap``. README.md says what was chosen on which of them.
"""

import argparse
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from fishmeasure.photo.measurement import MeasuredFish, PhotoMeasurement
from tests.accuracy.tub import measured, summary, truth_of

NEAR = 0.15
"""Of the length: both ends are nearer than this to their truth, or it is another."""
WRONG = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Piled:
    """One true fish: the error of its length and its standard error are fractions."""

    ends_seen: bool
    uncovered: bool
    upper: bool
    found: bool
    used: bool
    length: tuple[float, float] | None = None


def judged(photo: PhotoMeasurement, truth: dict[str, Any]) -> Iterator[Piled]:
    """Yield each true fish with what was found of it."""
    free = list(photo.fish)
    for fish in truth["fish"]:
        found = _nearest(free, fish)
        if found is not None:
            free.remove(found)
        yield Piled(
            ends_seen=fish["snout_seen"] and fish["fork_seen"],
            uncovered=fish["occluded_fraction"] < 0.02,
            upper=fish["layer"] > 0,
            found=found is not None,
            used=found is not None and found.complete,
            length=None
            if found is None
            else (
                found.fork_length_mm / fish["fork_length_mm"] - 1.0,
                found.fork_length_se_mm / found.fork_length_mm,
            ),
        )


def strangers(photo: PhotoMeasurement, truth: dict[str, Any]) -> list[MeasuredFish]:
    """Return what is used and is no true fish."""
    return [
        one
        for one in photo.complete_fish
        if all(_miss(one, fish) >= NEAR for fish in truth["fish"])
    ]


def _nearest(free: list[MeasuredFish], fish: dict[str, Any]) -> MeasuredFish | None:
    near = [one for one in free if _miss(one, fish) < NEAR]
    return min(near, key=lambda one: _miss(one, fish)) if near else None


def _miss(one: MeasuredFish, fish: dict[str, Any]) -> float:
    """Return how far the worse end is from the true one, in lengths."""
    ends = np.array([fish["snout_px"], fish["fork_px"]])
    own = np.array([one.snout_px, one.fork_px])
    apart = [np.linalg.norm(way - ends, axis=1).max() for way in (own, own[::-1])]
    return float(min(apart) / np.linalg.norm(ends[0] - ends[1]))


def main() -> None:
    """Print the tables."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("photos", type=Path, nargs="+")
    options = parser.parse_args()
    fish: list[Piled] = []
    held, seen, true, wrong = 0, 0, 0, 0
    paths = [
        path
        for given in options.photos
        for path in (sorted(given.glob("*.jpg")) if given.is_dir() else [given])
    ]
    for path in paths:
        truth = truth_of(path)
        photo = measured(path, water=False, depth=False)
        fish += judged(photo, truth)
        wrong += len(strangers(photo, truth))
        count = photo.fish_count
        if count is not None:
            held += count.low <= len(truth["fish"]) <= count.high
            seen, true = seen + count.value, true + len(truth["fish"])
            sys.stdout.write(
                f"{path.stem}: {len(truth['fish'])} fish, counted {count.value} "
                f"({count.low} to {count.high})\n"
            )
    for name, some in (
        ("both ends seen", [one for one in fish if one.ends_seen]),
        ("uncovered", [one for one in fish if one.uncovered]),
        ("upper", [one for one in fish if one.upper]),
        ("an end covered", [one for one in fish if not one.ends_seen]),
    ):
        used = [one for one in some if one.used]
        errors = [one.length for one in used if one.length]
        far = sum(abs(error) > WRONG for error, _ in errors)
        sys.stdout.write(
            f"{name}: {len(some)}, found {sum(one.found for one in some)}, "
            f"used {len(used)}, by more than 5 % wrong {far}\n"
            + summary("  fork length", errors)
            + "\n"
        )
    sys.stdout.write(
        f"used and no fish: {wrong}\n"
        f"count: {seen} of {true}, interval holds {held} of {len(paths)}\n"
    )


if __name__ == "__main__":
    main()
