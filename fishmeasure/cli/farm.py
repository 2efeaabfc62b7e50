"""``fishmeasure farm`` and ``fishmeasure order``: all units, and fish for a harvest."""

from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.base.words import wording
from fishmeasure.cli import output
from fishmeasure.cli.book_options import BookOption, opened
from fishmeasure.cli.options import CsvTo, JsonTo, Species, one_on_stdout, read_day

if TYPE_CHECKING:
    from fishmeasure.book.register import Register
    from fishmeasure.husbandry.costs import Costs, Prices
    from fishmeasure.husbandry.temperature import TemperatureForecast
    from fishmeasure.outlook.farm import FarmOutlook
    from fishmeasure.store.book import Book

_YEAR = timedelta(days=365)
_DAYS_PER_MONTH = 365.25 / 12.0


def farm_command(
    on: Annotated[str | None, typer.Option("--on", help="help-on")] = None,
    since: Annotated[str | None, typer.Option(help="help-farm-since")] = None,
    pdf: Annotated[Path | None, typer.Option(help="help-farm-pdf")] = None,
    csv_to: CsvTo = None,
    fingerling_price: Annotated[
        float | None, typer.Option(help="help-fingerling-price")
    ] = None,
    feed_price: Annotated[float | None, typer.Option(help="help-feed-price")] = None,
    other_costs: Annotated[float | None, typer.Option(help="help-other-costs")] = None,
    json_to: JsonTo = None,
    book: BookOption = None,
) -> None:
    """Show all units, feed in store, the register of fish, and what a kilogram cost."""
    from fishmeasure.base.record import plain, read
    from fishmeasure.husbandry.costs import Prices
    from fishmeasure.render.farm_words import register_cells

    one_on_stdout(json_to, csv_to)
    day = read_day("--on", on)
    first = day - _YEAR if since is None else read_day("--since", since)
    prices = read(
        Prices,
        {
            "fingerling": fingerling_price or 0.0,
            "feed_per_kg": feed_price or 0.0,
            "other_per_month": other_costs or 0.0,
        },
    )
    with opened(book) as open_:
        farm, register = open_.farm(day), open_.register(first, day)
        spent = _costs(open_, farm, prices) if prices != Prices() else None
    if pdf is not None:
        from fishmeasure.render.farm_pdf import farm_pdf

        output.write_bytes(pdf, farm_pdf(farm, register))
    if csv_to is not None:
        headings = tuple(wording("register-columns").split(" | "))
        output.write_csv(csv_to, [headings, *map(register_cells, register.rows)])
    if json_to is not None:
        answer = {"register": plain(register), "costs": spent and plain(spent)}
        output.write_json(json_to, plain(farm) | answer)
    if pdf is None and "-" not in {json_to, csv_to}:
        _show(farm, register, spent)


def _costs(book: "Book", farm: "FarmOutlook", prices: "Prices") -> "Costs":
    """Return what was spent since the first fish came, and on how many kilograms."""
    from fishmeasure.book.entries import Feed
    from fishmeasure.husbandry.costs import costs
    from fishmeasure.husbandry.propagation import exact, total

    entries = [one for one in book.entries(only_in_force=True) if one.on <= farm.on]
    register = book.register(date.min, farm.on)
    of = {one.kind: one for one in register.totals}
    taken = sum(of[kind].weight_kg for kind in ("harvested", "sold") if kind in of)
    first = min((row.on for row in register.rows), default=farm.on)
    return costs(
        prices,
        fish_stocked=sum(one.stocked for one in book.balance(farm.on).cohorts),
        feed_kg=sum(one.feed_kg for one in entries if isinstance(one, Feed)),
        months=(farm.on - first).days / _DAYS_PER_MONTH,
        fish_kg=total(farm.biomass_kg, exact(taken)),
    )


def _show(farm: "FarmOutlook", register: "Register", spent: "Costs | None") -> None:
    from rich.console import Console
    from rich.padding import Padding
    from rich.table import Table

    from fishmeasure.render import farm_words as words

    console = Console(highlight=False, markup=False, emoji=False)
    console.print(wording("farm-title", on=farm.on), style="bold")
    if farm.about:
        console.print(farm.about, style="italic")
    table = Table(box=None, padding=(0, 2, 0, 0))
    for name in wording("farm-columns").split(" | "):
        table.add_column(name)
    for unit in farm.units:
        table.add_row(*words.unit_row(unit))
    console.print(table)
    for unit in farm.units:
        lines = list(words.unit_lines(unit))
        if lines:
            console.print(unit.name, style="bold")
        for line in lines:
            console.print(Padding(line, (0, 0, 0, 3)))
    title = wording("register-title", since=register.since, until=register.until)
    console.print(title, style="bold")
    costs = () if spent is None else words.cost_lines(spent)
    for line in (*words.total_lines(register), *words.sum_lines(farm), *costs):
        console.print(Padding(line, (0, 0, 0, 3)))
    console.print(" ".join(map(str, farm.cautions)), style="dim")


def order_command(
    kilograms: Annotated[float, typer.Argument(help="help-order-kg", metavar="KG")],
    on: Annotated[str, typer.Option("--on", help="help-order-on")],
    species: Species = None,
    temp: Annotated[float | None, typer.Option(help="help-order-temp")] = None,
    unit: Annotated[str | None, typer.Option(help="help-order-unit")] = None,
    plate: Annotated[float | None, typer.Option(help="help-order-plate")] = None,
    size: Annotated[float, typer.Option(help="help-order-size")] = 20.0,
    survival: Annotated[float | None, typer.Option(help="help-order-survival")] = None,
    json_to: JsonTo = None,
    book: BookOption = None,
) -> None:
    """Say how many fingerlings of what size to order, and when, for a harvest."""
    from fishmeasure.base.estimate import Estimate
    from fishmeasure.cli.kept import usual_species
    from fishmeasure.husbandry.checks import require
    from fishmeasure.husbandry.ordering import SURVIVAL, order_fingerlings
    from fishmeasure.species import farmed_species

    key = usual_species(species)
    figures = farmed_species(key).growth
    alive = SURVIVAL
    if survival is not None:
        require("survival", survival, "%", 5.0, 100.0)
        share = survival / 100.0
        alive = Estimate(value=share, sd=0.0, low=share, high=share)
    today = read_day("--on", None)
    order = order_fingerlings(
        species_key=key,
        temperature=_temperature(temp, unit, book, today),
        harvest_kg=kilograms,
        harvest_on=read_day("--on", on),
        plate_g=figures.plate_size_g.value if plate is None else plate,
        fingerling_g=size,
        today=today,
        survival=alive,
    )
    if output.data_only(json_to, order):
        return
    stock = order.stock_on
    lines = [
        wording(
            "order-fish",
            fish_count=order.fish_count,
            size_g=order.fingerling_g,
            weight_kg=order.weight_kg,
            harvest_kg=order.harvest_kg,
            harvest_on=order.harvest_on,
            plate_g=order.plate_g,
        ),
        wording(
            "order-when",
            case="never" if stock.day is None else "by",
            by_on=stock.day,
            early_on=stock.earliest or today,
            early="known" if stock.earliest else "past",
        ),
        wording("order-survival", low=order.survival.low, high=order.survival.high),
    ]
    output.write_lines(lines, problems=order.problems, notes=order.notes)


def _temperature(
    temp: float | None, unit: str | None, book: str | None, today: date
) -> "TemperatureForecast":
    """Return the water's temperature: as said, else as the book has it of a unit."""
    from fishmeasure.base.errors import BadOptionError
    from fishmeasure.base.words import Message
    from fishmeasure.husbandry.temperature import ConstantTemperature

    if (temp is None) == (unit is None):
        wanted = Message.of("cli-wanted", case="one-of-two")
        raise BadOptionError("--temp", Message.of("cli-beside", other="--unit"), wanted)
    if temp is not None:
        return ConstantTemperature(temperature_deg_c=temp)
    with opened(book) as open_:
        found = open_.unit(str(unit))
        return open_.balance(today).unit(found.id).temperature
