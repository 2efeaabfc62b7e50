"""Command line: ``python -m sample_images.generator --help``."""

import argparse
import sys
import time
from dataclasses import replace
from pathlib import Path

from sample_images.generator.blind import BLIND
from sample_images.generator.crowds import CROWDS
from sample_images.generator.fresh import FRESH
from sample_images.generator.heaps import HEAPS
from sample_images.generator.held_out import HELD_OUT
from sample_images.generator.output import write_photo, write_truth
from sample_images.generator.recipes import make
from sample_images.generator.scene import Scene, SceneSpec
from sample_images.generator.sets import SAMPLES
from sample_images.generator.tank import write_tank
from sample_images.generator.thin_to_fat import THIN_TO_FAT
from sample_images.generator.tubs import TUBS
from sample_images.generator.unseen import SIZES, UNSEEN

SETS = {
    "samples": SAMPLES,
    "held-out": HELD_OUT,
    "blind": BLIND,
    "unseen": UNSEEN,
    "fresh": FRESH,
    "sizes": SIZES,
    "tub": TUBS,
    "heap": HEAPS,
    "count": CROWDS,
    "thin-to-fat": THIN_TO_FAT,
}


def _scaled(spec: SceneSpec, scale: float) -> SceneSpec:
    camera = replace(
        spec.camera,
        width_px=round(spec.camera.width_px * scale),
        height_px=round(spec.camera.height_px * scale),
    )
    return replace(spec, camera=camera)


def main() -> None:
    """Render the chosen set."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--set", default="samples", choices=sorted(SETS))
    parser.add_argument("--only", nargs="*", default=[], help="names to render")
    parser.add_argument("--scale", type=float, default=1.0, help="smaller photos")
    parser.add_argument(
        "--samples", type=int, default=16, help="rays a pixel (square numbers are best)"
    )
    parser.add_argument("--out", type=Path, default=Path("sample_images"))
    parser.add_argument("--variant", default="llvm_ad_rgb")
    parser.add_argument("--missing", action="store_true", help="skip photos there")
    parser.add_argument("--truth-only", action="store_true")
    options = parser.parse_args()
    options.out.mkdir(parents=True, exist_ok=True)
    if options.set == "samples" and not options.only:
        write_tank(options.out)
    for recipe in SETS[options.set]:
        if options.only and recipe.name not in options.only:
            continue
        there = options.out / f"{recipe.name}.{recipe.file_type}"
        if options.missing and there.exists():
            continue
        started = time.perf_counter()
        spec = make(recipe)
        scene = Scene(_scaled(spec, options.scale))
        write_truth(scene, options.out)
        if not options.truth_only:
            # Late, so that the truth can be written without Mitsuba.
            from sample_images.generator import (  # noqa: PLC0415
                render,
                render_water,
                sensor,
            )

            render.choose_variant(options.variant)
            wet = scene.surface is not None
            shade = render_water.through(scene) if wet else render.in_air(scene)
            light = render.radiance(scene, options.samples, shade)
            picture = sensor.develop(scene, light)
            write_photo(scene, picture, options.out)
        took = time.perf_counter() - started
        sys.stdout.write(f"{spec.name}: {len(spec.fish)} fish, {took:.0f} s\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main()
