"""``fishmeasure lens``: a lens profile from photos of the printed board."""

from pathlib import Path
from typing import Annotated

import typer

from fishmeasure.base.words import wording


def lens_command(
    photos: Annotated[
        list[Path],
        typer.Argument(help="help-photos"),
    ],
    name: Annotated[str, typer.Option(help="help-lens-name")] = "",
    out: Annotated[Path, typer.Option(help="help-out")] = Path("lens.json"),
) -> None:
    """Measure a phone's lens once; the profile sharpens every photo it takes."""
    from fishmeasure.cli.options import read_bytes
    from fishmeasure.cli.output import write_bytes
    from fishmeasure.photo.image import FILM_DIAGONAL_MM, read_photo
    from fishmeasure.photo.lens import lens_to_text
    from fishmeasure.photo.lens_calibration import calibrate_lens

    read = [read_photo(read_bytes(path), path.name) for path in photos]
    profile = calibrate_lens(read, name or out.stem)
    write_bytes(out, lens_to_text(profile).encode())
    focal_35mm = profile.focal_fraction * FILM_DIAGONAL_MM
    typer.echo(
        wording(
            "cli-lens",
            case="named" if profile.camera_model else "unnamed",
            file=out,
            photos=profile.photo_count,
            camera=profile.camera_model,
            focal_mm=focal_35mm,
            k1=f"{profile.k1:+.4f}",
            rms_px=profile.rms_px,
        )
    )
