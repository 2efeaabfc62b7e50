"""``python -m sample_images.training all|start|export|pack``; see ``--help``."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sample_images.training.train import Plan


def main() -> None:
    """Train the networks, or do what comes before and after."""
    parser = argparse.ArgumentParser(prog="sample_images.training")
    tasks = parser.add_subparsers(dest="task", required=True)
    _add_all(tasks.add_parser("all", help="train all three networks at once"))
    start = tasks.add_parser("start", help="weights to start from, of ONNX files")
    start.add_argument("photos", type=Path)
    start.add_argument("out", type=Path)
    export = tasks.add_parser("export", help="ONNX files of trained weights")
    export.add_argument("weights", type=Path)
    export.add_argument("out", type=Path)
    pack = tasks.add_parser("pack", help="copy the photos that training reads")
    pack.add_argument("photos", type=Path)
    pack.add_argument("out", type=Path)
    given = parser.parse_args()
    # late imports: each task needs but a part, and not every machine has all
    if given.task == "all":
        from sample_images.training.train import train  # noqa: PLC0415

        train(_plan(given))
    elif given.task == "start":
        from sample_images.training.start import write_start  # noqa: PLC0415

        write_start(given.photos, given.out)
    elif given.task == "export":
        from sample_images.training.export import export_all  # noqa: PLC0415

        export_all(given.weights, given.out)
    else:
        from sample_images.training.supply import pack_photos  # noqa: PLC0415

        pack_photos(given.photos, given.out)


def _add_all(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("photos", type=Path, help="the shared photos' folder")
    parser.add_argument("out", type=Path, help="where the weights go")
    parser.add_argument("--minutes", type=float, default=8.0)
    parser.add_argument("--workers", type=int, default=15)
    parser.add_argument("--batch", type=int, default=48)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--rate", type=float, default=1.5e-3)
    parser.add_argument("--device", default="cuda")
    parser.add_argument("--resume", type=Path, help="folder of weights to start from")
    parser.add_argument(
        "--dry-run", action="store_true", help="three small steps, on any computer"
    )


def _plan(given: argparse.Namespace) -> "Plan":
    from sample_images.training.train import Plan  # noqa: PLC0415

    dry = given.dry_run
    return Plan(
        photos=given.photos,
        out=given.out,
        minutes=given.minutes,
        steps=3 if dry else 1_000_000,
        batch=2 if dry else given.batch,
        workers=1 if dry else given.workers,
        pool=16 if dry else 48_000,
        seed=given.seed,
        rate=given.rate,
        resume=given.resume,
        device=given.device,
    )


if __name__ == "__main__":
    main()
