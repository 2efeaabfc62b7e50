"""``fishmeasure book``: units, cohorts and dated entries, in and out."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated
from uuid import UUID, uuid4

import typer

from fishmeasure.cli.book_options import BookOption, opened
from fishmeasure.cli.checked import CheckedTyper
from fishmeasure.cli.options import JsonTo, read_day
from fishmeasure.cli.output import data_only, write_bytes
from fishmeasure.errors import ImportFileError, OptionFormatError, UnknownRecordError

if TYPE_CHECKING:
    from rich.table import Table

    from fishmeasure.ledger.entries import Entry
    from fishmeasure.ledger.store import Book, BookContent

book_app = CheckedTyper(
    help="The stock book: units, cohorts and dated entries that are never overwritten.",
)

Fields = Annotated[
    list[str],
    typer.Argument(
        help='FIELD=VALUE, such as unit="Tank A" cohort=Trout fish_count=2; '
        "see `fishmeasure book fields KIND`.",
        metavar="FIELD=VALUE...",
    ),
]
OwnRecords = ("unit", "cohort")
_SHORT_ID = 8  # enough to tell entries apart, short enough to type


# --- looking ----------------------------------------------------------------------


@book_app.command("units")
def units_command(json_to: JsonTo = None, book: BookOption = None) -> None:
    """List the units."""
    with opened(book) as open_:
        units = open_.units()
    if data_only(json_to, _as_entered(units)):
        return
    table = _table("unit", "kind", "m³", "inflow L/min", "bed m²", "version")
    for unit in units:
        table.add_row(
            unit.name,
            unit.kind,
            f"{unit.volume_m3:g}",
            f"{unit.inflow_l_per_min:g}",
            f"{unit.plant_bed_area_m2:g}",
            str(unit.version),
        )
    _show(table)


@book_app.command("cohorts")
def cohorts_command(json_to: JsonTo = None, book: BookOption = None) -> None:
    """List the cohorts."""
    with opened(book) as open_:
        cohorts = open_.cohorts()
    if data_only(json_to, _as_entered(cohorts)):
        return
    table = _table("cohort", "species", "origin", "version")
    for item in cohorts:
        table.add_row(item.name, item.species_key, item.origin, str(item.version))
    _show(table)


@book_app.command("entries")
def entries_command(
    unit: Annotated[str | None, typer.Option("--unit", help="Of this unit.")] = None,
    cohort: Annotated[
        str | None, typer.Option("--cohort", help="Of these fish.")
    ] = None,
    everything: Annotated[
        bool, typer.Option("--all", help="Also what was corrected or taken back.")
    ] = False,
    json_to: JsonTo = None,
    book: BookOption = None,
) -> None:
    """List the entries, oldest first."""
    from fishmeasure.ledger.entries import entry_to_plain

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
    table = _table("date", "entry", "unit", "cohort", "what", "id")
    for entry in found:
        table.add_row(
            str(entry.on),
            entry.kind,
            "" if entry.place_id is None else names[entry.place_id],
            "" if entry.fish_id is None else names[entry.fish_id],
            _what(entry, names),
            str(entry.id)[:_SHORT_ID],
        )
    _show(table)


@book_app.command("state")
def state_command(
    on: Annotated[
        str | None, typer.Option("--on", help="The day, 2026-05-02; else today.")
    ] = None,
    json_to: JsonTo = None,
    book: BookOption = None,
) -> None:
    """Show what is in every unit: count, mean weight and kilograms."""
    from fishmeasure.words import span

    with opened(book) as open_:
        balance = open_.balance(read_day("--on", on))
    if data_only(json_to, balance):
        return
    table = _table("unit", "cohort", "fish", "mean weight g", "kg", "last sample")
    for state in balance.units:
        for item in state.cohorts:
            count = item.fish_count
            table.add_row(
                state.unit.name,
                item.cohort.name,
                f"{count.value:.0f} ({count.low:.0f} to {count.high:.0f})",
                "" if item.mean_weight_g is None else span(item.mean_weight_g),
                "" if item.biomass_kg is None else span(item.biomass_kg),
                str(item.last_sampled_on or ""),
            )
    _show(table)
    for state in balance.units:
        for problem in state.problems:
            print(f"{state.unit.name}: {problem.message}")


@book_app.command("fields")
def fields_command(
    kind: Annotated[
        str | None, typer.Argument(help="unit, cohort, or a kind of entry.")
    ] = None,
) -> None:
    """List the kinds of entries, or the fields of one."""
    kinds = _kinds()
    if kind is None:
        print("\n".join(kinds))
        return
    from fishmeasure.ledger.codec import field_help

    for name, text in field_help(_kind(kind)).items():
        if name in {"unit_id", "to_unit_id", "cohort_id"}:
            shown = name.removesuffix("_id")
            print(f"{shown}: {text.replace('id', f'name of the {_last(shown)}', 1)}")
        else:
            print(f"{name}: {text}")


# --- writing ----------------------------------------------------------------------


@book_app.command("add")
def add_command(
    kind: Annotated[str, typer.Argument(help="unit, cohort, or a kind of entry.")],
    fields: Fields,
    book: BookOption = None,
) -> None:
    """Add a unit, a cohort or an entry (dated today, unless on=2026-05-02)."""
    from fishmeasure.ledger.codec import from_plain
    from fishmeasure.ledger.entries import entry_from_plain
    from fishmeasure.ledger.units import Cohort, Unit
    from fishmeasure.species import load_species

    record = _kind(kind)
    with opened(book) as open_:
        plain = _typed(record, fields, open_) | {"id": str(uuid4())}
        if record is Unit:
            saved = open_.save_unit(from_plain(Unit, plain)).id
        elif record is Cohort:
            cohort = from_plain(Cohort, plain)
            load_species(cohort.species_key)  # a slip here would only show much later
            saved = open_.save_cohort(cohort).id
        else:
            today = read_day("on", None)
            entry = entry_from_plain({"on": today.isoformat()} | plain | {"kind": kind})
            if entry.on > today:
                raise OptionFormatError("on", str(entry.on), f"{today}, none later")
            saved = open_.add(entry).added[0]
    print(saved)


@book_app.command("change")
def change_command(
    kind: Annotated[str, typer.Argument(help="unit or cohort.")],
    name: Annotated[str, typer.Argument(help="Its name.")],
    fields: Fields,
    book: BookOption = None,
) -> None:
    """Change a unit or cohort; the old version stays in the book."""
    from fishmeasure.ledger.codec import from_plain, to_plain

    if kind not in OwnRecords:
        raise OptionFormatError("KIND", kind, "unit or cohort")
    with opened(book) as open_:
        old = open_.unit(name) if kind == "unit" else open_.cohort(name)
        plain = to_plain(replace(old, version=old.version + 1, recorded_at=None))
        changed = from_plain(type(old), plain | _typed(type(old), fields, open_))
        if kind == "unit":
            open_.save_unit(changed)  # type: ignore[arg-type]
        else:
            open_.save_cohort(changed)  # type: ignore[arg-type]
    print(f"{changed.name}, version {changed.version}")


@book_app.command("correct")
def correct_command(
    entry: Annotated[str, typer.Argument(help="Id of the wrong entry, or its start.")],
    fields: Fields,
    book: BookOption = None,
) -> None:
    """Write a corrected entry in place of a wrong one, which stays in the book."""
    from fishmeasure.ledger.entries import entry_from_plain, entry_to_plain

    with opened(book) as open_:
        old = _entry(open_, entry)
        plain = entry_to_plain(replace(old, recorded_at=None))
        plain |= _typed(type(old), fields, open_)
        plain |= {"id": str(uuid4()), "replaces": str(old.id)}
        print(open_.add(entry_from_plain(plain)).added[0])


@book_app.command("cancel")
def cancel_command(
    entry: Annotated[str, typer.Argument(help="Id of the entry, or its start.")],
    note: Annotated[str, typer.Option("--note", help="Why.")] = "",
    book: BookOption = None,
) -> None:
    """Take an entry back; it stays in the book, but no longer counts."""
    from fishmeasure.ledger.entries import Cancelled

    with opened(book) as open_:
        old = _entry(open_, entry)
        back = Cancelled(id=uuid4(), on=old.on, replaces=old.id, note=note)
        print(open_.add(back).added[0])


# --- export and import ------------------------------------------------------------


@book_app.command("export")
def export_command(
    target: Annotated[
        Path, typer.Argument(help="FILE.json, or a folder for CSV tables.")
    ],
    book: BookOption = None,
) -> None:
    """Write the whole book as one JSON file or as CSV tables."""
    from fishmeasure.ledger.exchange import book_to_csv, book_to_json

    with opened(book) as open_:
        content = open_.content()
    if target.suffix == ".json":
        write_bytes(target, book_to_json(content).encode())
    else:
        for name, text in book_to_csv(content).items():
            write_bytes(target / f"{name}.csv", text.encode())
    print(f"{len(content.entries)} entries written to {target}")


@book_app.command("import")
def import_command(
    source: Annotated[
        Path, typer.Argument(help="FILE.json, a CSV table, or a folder of them.")
    ],
    book: BookOption = None,
) -> None:
    """Add what a file holds; what is in the book already is left as it is."""
    with opened(book) as open_:
        added = open_.add_content(_read(source, open_))
    print(f"{len(added.added)} entries added, {len(added.repeated)} were there.")


def _read(source: Path, book: "Book") -> "BookContent":
    from fishmeasure.ledger.exchange import TABLES, book_from_csv, book_from_json

    try:
        if source.suffix == ".json":
            return book_from_json(source.read_text(encoding="utf-8"), source.name)
        paths = (
            [source / f"{name}.csv" for name in TABLES] if source.is_dir() else [source]
        )
        tables = {
            path.stem: path.read_bytes().decode("utf-8")
            for path in paths
            if path.exists() or not source.is_dir()
        }
    except (OSError, UnicodeDecodeError) as error:
        raise ImportFileError(str(source), _reason(error)) from None
    if not tables:
        raise ImportFileError(str(source), f"it has no {TABLES[0]}.csv or the like")
    return book_from_csv(tables, book.content())


def _reason(error: OSError | UnicodeDecodeError) -> str:
    if isinstance(error, UnicodeDecodeError):
        return "it is not text in UTF-8"
    return (error.strerror or "it cannot be read").lower()


# --- helpers ----------------------------------------------------------------------


def _kinds() -> tuple[str, ...]:
    from fishmeasure.ledger.entries import ENTRY_KINDS

    return (*OwnRecords, *ENTRY_KINDS)


def _kind(word: str) -> type:
    from fishmeasure.ledger.entries import ENTRY_KINDS
    from fishmeasure.ledger.units import Cohort, Unit

    kinds: dict[str, type] = {"unit": Unit, "cohort": Cohort, **ENTRY_KINDS}
    if word not in kinds:
        raise OptionFormatError("KIND", word, ", ".join(kinds))
    return kinds[word]


def _typed(record: type, fields: list[str], book: "Book") -> dict[str, object]:
    """Return the typed fields of FIELD=VALUE arguments."""
    from fishmeasure.ledger.exchange import plain_from_cells
    from fishmeasure.ledger.store import BookContent

    cells = {}
    for text in fields:
        name, equals, cell = text.partition("=")
        if not equals:
            raise OptionFormatError("FIELD=VALUE", text, "fish_count=2")
        cells[name] = cell
    known = BookContent(units=book.units(), cohorts=book.cohorts())
    return plain_from_cells(record, cells, known)


def _last(words: str) -> str:
    return words.rsplit("_", 1)[-1]


def _entry(book: "Book", text: str) -> "Entry":
    """Return the entry whose id begins so."""
    wanted = text.strip().lower()
    found = [entry for entry in book.entries() if str(entry.id).startswith(wanted)]
    if len(found) > 1:
        raise OptionFormatError("ENTRY", text, f"such as {found[0].id}")
    if not found:
        raise UnknownRecordError("entry", text)
    return found[0]


def _what(entry: "Entry", names: dict[UUID, str]) -> str:
    """Return an entry's own fields in a few words."""
    from fishmeasure.ledger.entries import entry_to_plain

    common = {"kind", "id", "on", "unit_id", "cohort_id", "recorded_at", "result_json"}
    shown = []
    for name, value in entry_to_plain(entry).items():
        if name not in common and value != []:
            text = str(value)
            if name == "to_unit_id":
                name, text = "to", names[UUID(text)]  # noqa: PLW2901
            shown.append(f"{name} {text}")
    return ", ".join(shown)


def _as_entered(records: tuple[object, ...]) -> list[object]:
    from fishmeasure.ledger.codec import to_plain

    return [to_plain(record, sparse=False) for record in records]


def _table(*columns: str) -> "Table":
    from rich.table import Table

    table = Table(box=None, padding=(0, 2, 0, 0))
    for column in columns:
        table.add_column(column, overflow="fold")
    return table


def _show(table: "Table") -> None:
    from rich.console import Console

    Console(highlight=False, markup=False, emoji=False).print(table)
