"""``fishmeasure species``: the table of species, or one of them with its sources."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from fishmeasure.species import Species


def species_command(
    name: Annotated[
        str | None,
        typer.Argument(help="A species' name, or your own stock's TOML file."),
    ] = None,
) -> None:
    """List the species, or show one with its sources and confidence."""
    if name is None:
        _print_table()
    else:
        _print_one(name)


def _print_table() -> None:
    from rich.console import Console
    from rich.table import Table

    from fishmeasure.species import load_species, species_keys

    table = Table(box=None, padding=(0, 2, 0, 0))  # fits a screen of 80 letters
    table.add_column("species", no_wrap=True)
    for column in ("a", "b", "K", "range mm", "level"):
        table.add_column(column, justify="right", no_wrap=True)
    table.add_column("of fish", no_wrap=True)
    table.add_column("confidence", no_wrap=True)
    for key in species_keys():
        species = load_species(key)
        line = species.on_fork_length()
        table.add_row(
            key,
            f"{line.a_g_cm:.5f}",
            f"{line.b:.3f}",
            f"{100.0 * line.a_g_cm * 25.0 ** (line.b - 3.0):.2f}",
            f"{line.min_length_mm:.0f}-{line.max_length_mm:.0f}",
            f"± {100.0 * line.relative_sd:.0f} %",
            line.stock,
            line.confidence,
        )
    console = Console()
    console.print(table)
    console.print(
        "\nW = a L^b, W in g, L = fork length in cm; K = 100 W / L^3 at 25 cm.\n"
        "A stock not weighed may be this far off: weigh a net sample."
    )


def _print_one(name: str) -> None:
    from rich.console import Console

    from fishmeasure.species import load_species
    from fishmeasure.species.record import figures_of

    species = load_species(name)
    print_line = Console(highlight=False, markup=False).print
    print_line(f"{species.title} ({species.latin_name}), {species.key}")
    print_line(species.photos.sentence)
    print_line("\nlength and weight")
    for line in _length_weight_lines(species):
        print_line(f"  {line}")
    heading = ""
    for place, words, figure in figures_of(species):
        part, field = place.split(".")
        if part != heading:
            heading = part
            print_line(f"\n{part}")
            for line in _part_lines(species, part):
                print_line(f"  {line}")
        spread = f" ± {figure.sd:.2g}" if figure.sd else ""
        of_all = field in species.water.generic and part == "water"
        whose = "food fish in general, " if of_all else ""
        print_line(f"  {words}: {figure.value:g}{spread} ({whose}{figure.origin})")
    if species.growth is None:
        print_line(
            "\nNo growth, feed and oxygen figures: what follows from them is not "
            "answered for this species."
        )


def _length_weight_lines(species: "Species") -> Iterator[str]:
    published, line = species.length_weight, species.on_fork_length()
    yield (
        f"W = {published.a_g_cm:.6g} L^{published.b:.5g}, W in g, "
        f"L = {published.length_kind} length in cm, "
        f"{published.min_length_mm:.0f} to {published.max_length_mm:.0f} mm"
    )
    if published.length_kind != "fork":
        yield f"W = {line.a_g_cm:.6g} FL^{line.b:.5g} on fork length"
    yield (
        f"Level ± {100.0 * line.relative_sd:.0f} % for an unknown stock, b ± "
        f"{line.b_sd:.2f}, single fish ± {100.0 * line.residual_sd_ln:.0f} % about "
        "their stock's line"
    )
    yield (f"Of {line.stock} fish; confidence {line.confidence} ({line.origin})")


def _part_lines(species: "Species", part: str) -> Iterator[str]:
    if part == "feed" and species.feed is not None:
        chart = species.feed.rule == "chart"
        yield "Ration: " + ("the trout chart" if chart else "growth x feed conversion")
    if part == "oxygen" and species.oxygen is not None:
        use = species.oxygen.respiration
        yield (
            f"Oxygen use of fasted fish: {use.form} in temperature, ± "
            f"{100.0 * use.relative_sd:.0f} %, {use.min_temperature_deg_c:g} to "
            f"{use.max_temperature_deg_c:g} °C, {use.min_weight_g:g} to "
            f"{use.max_weight_g:g} g ({use.origin})"
        )
