"""``fishmeasure species``: the table of species, or one of them with its sources."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.base.words import Message, wording
from fishmeasure.cli.output import columns

if TYPE_CHECKING:
    from fishmeasure.species import Species


def species_command(
    name: Annotated[
        str | None,
        typer.Argument(help="help-species-name"),
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
    first, *figures, stock, confidence = columns(wording("cli-columns", case="species"))
    table.add_column(first, no_wrap=True)
    for column in figures:
        table.add_column(column, justify="right", no_wrap=True)
    table.add_column(stock, no_wrap=True)
    table.add_column(confidence, no_wrap=True)
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
            wording("cli-species-word", case=line.stock),
            wording("cli-species-word", case=line.confidence),
        )
    console = Console()
    console.print(table)
    console.print("\n" + wording("cli-species-columns"))
    console.print(wording("cli-species-level"))


def _print_one(name: str) -> None:
    from rich.console import Console

    from fishmeasure.species import load_species
    from fishmeasure.species.record import figures_of

    species = load_species(name)
    print_line = Console(highlight=False, markup=False).print
    print_line(f"{species.title} ({species.latin_name}), {species.key}")
    print_line(species.photos.sentence)
    print_line("\n" + wording("cli-species-lengths"))
    for line in _length_weight_lines(species):
        print_line(f"  {line}")
    heading = ""
    for place, _, figure in figures_of(species):
        part, field = place.split(".")
        if part != heading:
            heading = part
            print_line("\n" + wording("cli-species-part", case=part))
            for line in _part_lines(species, part):
                print_line(f"  {line}")
        spread = f" ± {figure.sd:.2g}" if figure.sd else ""
        of_all = field in species.water.generic and part == "water"
        whose = wording("cli-species-general") + ", " if of_all else ""
        words = wording("cli-species-figure", case=field)
        print_line(f"  {words}: {figure.value:g}{spread} ({whose}{figure.origin})")
    if species.growth is None:
        print_line("\n" + wording("cli-species-no-growth"))


def _length_weight_lines(species: "Species") -> Iterator[str]:
    published, line = species.length_weight, species.on_fork_length()
    yield wording(
        "cli-species-line",
        a=f"{published.a_g_cm:.6g}",
        b=f"{published.b:.5g}",
        length_kind=published.length_kind,
        least_mm=published.min_length_mm,
        most_mm=published.max_length_mm,
    )
    if published.length_kind != "fork":
        a, b = f"{line.a_g_cm:.6g}", f"{line.b:.5g}"
        yield wording("cli-species-fork-line", a=a, b=b)
    yield wording(
        "cli-species-spread",
        level=line.relative_sd,
        b_sd=line.b_sd,
        single=line.residual_sd_ln,
    )
    yield wording(
        "cli-species-stock",
        stock=Message.of("cli-species-word", case=line.stock),
        confidence=Message.of("cli-species-word", case=line.confidence),
        origin=line.origin,
    )


def _part_lines(species: "Species", part: str) -> Iterator[str]:
    if part == "feed" and species.feed is not None:
        chart = species.feed.rule == "chart"
        yield wording("cli-species-ration", case="chart" if chart else "growth")
    if part == "oxygen" and species.oxygen is not None:
        use = species.oxygen.respiration
        yield wording(
            "cli-species-oxygen",
            form=Message.of("cli-species-word", case=use.form),
            share=use.relative_sd,
            least_deg_c=use.min_temperature_deg_c,
            most_deg_c=use.max_temperature_deg_c,
            least_g=use.min_weight_g,
            most_g=use.max_weight_g,
            origin=use.origin,
        )
