"""The stocking calculations without a book, one module per subject."""

import typer

from fishmeasure.cli.stock.feed import conversion_command, feed_command
from fishmeasure.cli.stock.growth import growth_command
from fishmeasure.cli.stock.harvest import harvest_command
from fishmeasure.cli.stock.nitrogen import (
    ammonia_command,
    nitrate_command,
    plant_bed_command,
)
from fishmeasure.cli.stock.oxygen import outage_command, oxygen_command
from fishmeasure.cli.stock.stocking import stocking_command


def register(app: typer.Typer) -> None:
    """Add the stocking commands to the program."""
    for name, command in (
        ("growth", growth_command),
        ("harvest", harvest_command),
        ("feed", feed_command),
        ("conversion", conversion_command),
        ("oxygen", oxygen_command),
        ("outage", outage_command),
        ("ammonia", ammonia_command),
        ("nitrate", nitrate_command),
        ("plant-bed", plant_bed_command),
        ("stocking", stocking_command),
    ):
        app.command(name)(command)
