"""What is in the book: units, cohorts, entries, and the state on a day."""

from typing import TYPE_CHECKING, Annotated
from uuid import UUID

import typer

from fishmeasure.base.words import wording
from fishmeasure.cli.book_options import BookOption, opened
from fishmeasure.cli.options import JsonTo, read_day
from fishmeasure.cli.output import columns, data_only

if TYPE_CHECKING:
    from datetime import date

    from rich.table import Table

    from fishmeasure.book.entries import Entry


_SHORT_ID = 8  # enough to tell entries apart, short enough to type


def units_command(json_to: JsonTo = None, book: BookOption = None) -> None:
    """List the units."""
    with opened(book) as open_:
        units = open_.units()
    if data_only(json_to, _as_entered(units)):
        return
    table = _table(wording("cli-columns", case="units"))
    for unit in units:
        table.add_row(
            unit.name,
            unit.kind,
            wording("cli-figure", case="cell-m3", value_m3=unit.volume_m3),
            wording(
                "cli-figure",
                case="cell-l-per-min",
                value_l_per_min=unit.inflow_l_per_min,
            ),
            wording("cli-figure", case="cell-m2", value_m2=unit.plant_bed_area_m2),
            str(unit.version),
        )
    _show(table)


def cohorts_command(json_to: JsonTo = None, book: BookOption = None) -> None:
    """List the cohorts."""
    with opened(book) as open_:
        cohorts = open_.cohorts()
    if data_only(json_to, _as_entered(cohorts)):
        return
    table = _table(wording("cli-columns", case="cohorts"))
    for item in cohorts:
        table.add_row(item.name, item.species_key, item.origin, str(item.version))
    _show(table)


def entries_command(
    unit: Annotated[str | None, typer.Option("--unit", help="help-unit")] = None,
    cohort: Annotated[str | None, typer.Option("--cohort", help="help-cohort")] = None,
    everything: Annotated[bool, typer.Option("--all", help="help-everything")] = False,
    json_to: JsonTo = None,
    book: BookOption = None,
) -> None:
    """List the entries, oldest first."""
    from fishmeasure.book.entries import entry_to_plain

    with opened(book) as open_:
        found = open_.entries(
            unit_id=None if unit is None else open_.unit(unit).id,
            cohort_id=None if cohort is None else open_.cohort(cohort).id,
            only_in_force=not everything,
        )
        names = {item.id: item.name for item in open_.units()}
        names |= {item.id: item.name for item in open_.cohorts()}
    if data_only(json_to, [entry_to_plain(entry) for entry in found]):
        return
    table = _table(wording("cli-columns", case="entries"))
    for entry in found:
        table.add_row(
            _day(entry.on),
            entry.kind,
            "" if entry.place_id is None else names[entry.place_id],
            "" if entry.fish_id is None else names[entry.fish_id],
            _what(entry, names),
            str(entry.id)[:_SHORT_ID],
        )
    _show(table)


def state_command(
    on: Annotated[str | None, typer.Option("--on", help="help-on")] = None,
    json_to: JsonTo = None,
    book: BookOption = None,
) -> None:
    """Show what is in every unit: count, mean weight and kilograms."""
    with opened(book) as open_:
        balance = open_.balance(read_day("--on", on))
    if data_only(json_to, balance):
        return
    table = _table(wording("cli-columns", case="state"))
    for state in balance.units:
        for item in state.cohorts:
            count, mean_g, kg = item.fish_count, item.mean_weight_g, item.biomass_kg
            table.add_row(
                state.unit.name,
                item.cohort.name,
                wording("cli-figure", case="fish", fish=count),
                ""
                if mean_g is None
                else wording("cli-figure", case="cell-g-span", span_g=mean_g),
                ""
                if kg is None
                else wording("cli-figure", case="cell-kg-span", span_kg=kg),
                _day(item.last_sampled_on),
            )
    _show(table)
    for state in balance.units:
        for problem in state.problems:
            print(f"{state.unit.name}: {problem.message}")


def _what(entry: "Entry", names: dict[UUID, str]) -> str:
    """Return an entry's own fields in a few words."""
    from fishmeasure.book.entries import entry_to_plain

    common = {"kind", "id", "on", "unit_id", "cohort_id", "recorded_at", "device_id"}
    shown = []
    for name, value in entry_to_plain(entry).items():
        if name not in common and value != []:
            text = str(value)
            if name == "to_unit_id":
                name, text = "to", names[UUID(text)]  # noqa: PLW2901
            if name == "recorded_by":
                name = "by"  # noqa: PLW2901
            shown.append(name if value is True else f"{name} {text}")
    return ", ".join(shown)


def _day(day: "date | None") -> str:
    return "" if day is None else wording("cli-figure", case="cell-day", on=day)


def _as_entered(records: tuple[object, ...]) -> list[object]:
    from fishmeasure.base.record import plain

    return [plain(record) for record in records]


def _table(headings: str) -> "Table":
    from rich.table import Table

    table = Table(box=None, padding=(0, 2, 0, 0))
    for column in columns(headings):
        table.add_column(column, overflow="fold")
    return table


def _show(table: "Table") -> None:
    from rich.console import Console

    Console(highlight=False, markup=False, emoji=False).print(table)
