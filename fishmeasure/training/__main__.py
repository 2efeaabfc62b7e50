"""``python -m fishmeasure.training WHICH PHOTOS OUT [--minutes M] [--dry-run]``."""

import argparse
from pathlib import Path

from fishmeasure.training.train import Plan, train


def main() -> None:
    """Train one of the two networks."""
    parser = argparse.ArgumentParser(prog="fishmeasure.training")
    parser.add_argument("which", choices=["find", "crop"])
    parser.add_argument("photos", type=Path, help="the shared photos' folder")
    parser.add_argument("out", type=Path, help="where weights and network go")
    parser.add_argument("--minutes", type=float, default=8.0)
    parser.add_argument("--workers", type=int, default=15)
    parser.add_argument("--batch", type=int, default=112)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--rate", type=float, default=2e-3)
    parser.add_argument("--device", default="cuda")
    parser.add_argument("--resume", type=Path)
    parser.add_argument(
        "--dry-run", action="store_true", help="three small steps, on any computer"
    )
    given = parser.parse_args()
    dry = given.dry_run
    plan = Plan(
        which=given.which,
        photos=given.photos,
        out=given.out,
        minutes=given.minutes,
        steps=3 if dry else 1_000_000,
        batch=2 if dry else given.batch,
        workers=1 if dry else given.workers,
        pool=16 if dry else 60_000,
        seed=given.seed,
        rate=given.rate,
        resume=given.resume,
        device=given.device,
    )
    train(plan)


if __name__ == "__main__":
    main()
