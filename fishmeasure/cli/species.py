"""``fishmeasure species``: the table of species, or one of them with its sources."""

from typing import Annotated

import typer


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

    species = load_species(name)
    published, line = species.length_weight, species.on_fork_length()
    print_line = Console(highlight=False, markup=False).print
    print_line(f"{species.common_name} ({species.latin_name}), {species.key}")
    print_line(
        f"W = {published.a_g_cm:.6g} L^{published.b:.5g}, W in g, "
        f"L = {published.length_kind} length in cm, "
        f"{published.min_length_mm:.0f} to {published.max_length_mm:.0f} mm"
    )
    if published.length_kind != "fork":
        print_line(f"W = {line.a_g_cm:.6g} FL^{line.b:.5g} on fork length")
    print_line(
        f"Level ± {100.0 * line.relative_sd:.0f} % for an unknown stock, b ± "
        f"{line.b_sd:.2f}, single fish ± {100.0 * line.residual_sd_ln:.0f} % about "
        "their stock's line"
    )
    print_line(
        f"Of {line.stock} fish; confidence {line.confidence} ({_known(line.status)})"
    )
    print_line(line.source)
    thickness, depth = species.thickness_per_depth, species.depth_per_fork_length
    values = {
        "fork_per_total": ("fork / total length", f"{species.fork_per_total:.3f}"),
        "standard_per_total": (
            "standard / total length",
            f"{species.standard_per_total:.3f}",
        ),
        "thickness_per_depth": (
            "thickness / body depth",
            f"{thickness:.2f} ± {species.thickness_per_depth_sd:.2f}",
        ),
        "depth_per_fork_length": (
            "body depth / fork length",
            f"{depth:.3f} ± {species.depth_per_fork_length_sd:.3f}",
        ),
    }
    for figure in species.figure_sources:
        label, value = values[figure.figure]
        print_line(f"{label}: {value} ({_known(figure.status)}: {figure.source})")


def _known(status: str) -> str:
    return {
        "seen": "seen",
        "relative": "of a related species",
        "memory": "from memory, unchecked",
        "common-practice": "common practice, no source",
    }[status]
