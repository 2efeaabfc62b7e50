"""Units, cohorts and entries written into the book, by FIELD=VALUE."""

import sys
from dataclasses import replace
from difflib import get_close_matches
from typing import TYPE_CHECKING, Annotated
from uuid import uuid4

import typer

from fishmeasure.base.errors import (
    OptionFormatError,
    UnknownKindError,
    UnknownRecordError,
)
from fishmeasure.base.words import Message, wording
from fishmeasure.cli.asking import ConfirmOption, entered
from fishmeasure.cli.book_options import BookOption, opened
from fishmeasure.cli.options import read_day

if TYPE_CHECKING:
    from fishmeasure.book.entries import Entry
    from fishmeasure.book.units import Unit
    from fishmeasure.store.book import Book


Fields = Annotated[
    list[str],
    typer.Argument(
        help="help-fields",
        metavar="FIELD=VALUE...",
    ),
]
OWN_RECORDS = ("unit", "cohort")
# What people say of what the book calls otherwise.
_KINDS_SAID = {
    "dead": "died",
    "death": "died",
    "deaths": "died",
    "mortality": "died",
    "fed": "feed",
    "feeding": "feed",
    "sale": "sold",
    "stock": "stocked",
    "stocking": "stocked",
    "weight": "sample",
    "weighing": "sample",
    "temperature": "water",
    "oxygen": "water",
    "reading": "water",
    "tank": "unit",
    "pond": "unit",
    "fish": "cohort",
}
_WRITTEN_BY_THE_BOOK = frozenset(
    (
        "id",
        "version",
        "replaces",
        "recorded_at",
        "recorded_by",
        "device_id",
        "confirmed",
    )
)


def fields_command(
    kind: Annotated[str | None, typer.Argument(help="help-kind")] = None,
) -> None:
    """List the kinds of entries, or the fields of one."""
    kinds = _kinds()
    if kind is None:
        print("\n".join(kinds))
        return
    from fishmeasure.base.record_help import field_help

    for name, text in field_help(_kind(kind)).items():
        if name in _WRITTEN_BY_THE_BOOK:
            continue
        if name == "on":
            print(wording("cli-field-day"))
        elif name in {"unit_id", "to_unit_id", "cohort_id"}:
            shown = name.removesuffix("_id")
            needed = text.partition("id")[2]
            print(f"{shown}: {wording('cli-field-name', what=_last(shown))}{needed}")
        else:
            print(f"{name}: {text}")


def add_command(
    kind: Annotated[str, typer.Argument(help="help-kind")],
    fields: Fields,
    confirm: ConfirmOption = False,
    book: BookOption = None,
) -> None:
    """Add a unit, a cohort or an entry (dated today, unless on=2026-05-02)."""
    from fishmeasure.base.record import read
    from fishmeasure.book.entries import entry_from_plain
    from fishmeasure.book.units import Cohort, Unit
    from fishmeasure.species import load_species
    from fishmeasure.store.entering import check_day

    record = _kind(kind)
    with opened(book, may_be_new=True) as open_:
        plain = _typed(record, fields, open_) | {"id": str(uuid4())}
        if record is Unit:
            unit = open_.save_unit(read(Unit, plain))
            saved = unit.id
            _ask_temperature(unit)
        elif record is Cohort:
            cohort = read(Cohort, plain)
            load_species(cohort.species_key)  # an error here would show much later
            saved = open_.save_cohort(cohort).id
        else:
            today = read_day("on", None)
            entry = entry_from_plain({"on": today.isoformat()} | plain | {"kind": kind})
            check_day(entry.on, today)
            saved = entered(open_, entry, today=today, confirm=confirm)
    print(saved)


def change_command(
    kind: Annotated[str, typer.Argument(help="help-change-kind")],
    name: Annotated[str, typer.Argument(help="help-name")],
    fields: Fields,
    book: BookOption = None,
) -> None:
    """Change a unit or cohort; the old version stays in the book."""
    from fishmeasure.base.record import plain, read

    if kind not in OWN_RECORDS:
        raise OptionFormatError("KIND", kind, Message.of("cli-example", case="kind"))
    with opened(book) as open_:
        old = open_.unit(name) if kind == "unit" else open_.cohort(name)
        next_one = replace(old, version=old.version + 1, recorded_at=None)
        values = plain(next_one, sparse=True) | _typed(type(old), fields, open_)
        changed = read(type(old), values)
        if kind == "unit":
            open_.save_unit(changed)  # type: ignore[arg-type]
        else:
            open_.save_cohort(changed)  # type: ignore[arg-type]
    print(wording("cli-version", name=changed.name, version=changed.version))


def correct_command(
    entry: Annotated[str, typer.Argument(help="help-entry")],
    fields: Fields,
    confirm: ConfirmOption = False,
    book: BookOption = None,
) -> None:
    """Write a corrected entry in place of a wrong one, which stays in the book."""
    from fishmeasure.book.entries import entry_from_plain, entry_to_plain
    from fishmeasure.store.entering import check_day

    with opened(book) as open_:
        old = _entry(open_, entry)
        unmarked = replace(old, recorded_by="", device_id=None, confirmed=False)
        plain = entry_to_plain(replace(unmarked, recorded_at=None))
        plain |= _typed(type(old), fields, open_)
        plain |= {"id": str(uuid4()), "replaces": str(old.id)}
        changed = entry_from_plain(plain)
        if changed.on != old.on:
            check_day(changed.on, read_day("on", None))
        today = read_day("on", None)
        print(entered(open_, changed, today=today, confirm=confirm))


def cancel_command(
    entry: Annotated[str, typer.Argument(help="help-cancel-entry")],
    note: Annotated[str, typer.Option("--note", help="help-note")] = "",
    book: BookOption = None,
) -> None:
    """Take an entry back; it stays in the book, but no longer counts."""
    from fishmeasure.book.entries import Cancelled

    with opened(book) as open_:
        old = _entry(open_, entry)
        back = Cancelled(id=uuid4(), on=old.on, replaces=old.id, note=note)
        print(open_.add(back).added[0])


def _ask_temperature(unit: "Unit") -> None:
    """Ask for the year's water temperature, which growth and feed go by."""
    if unit.monthly_temperature_deg_c:
        return
    print(
        wording("cli-ask-temperature", unit=unit.name),
        file=sys.stderr,
    )


def _kinds() -> tuple[str, ...]:
    from fishmeasure.book.entries import ENTRY_KINDS

    return (*OWN_RECORDS, *ENTRY_KINDS)


def _kind(word: str) -> type:
    from fishmeasure.book.entries import ENTRY_KINDS
    from fishmeasure.book.units import Cohort, Unit

    kinds: dict[str, type] = {"unit": Unit, "cohort": Cohort, **ENTRY_KINDS}
    if word not in kinds:
        lower = word.lower()
        near = _KINDS_SAID.get(lower) or next(
            iter(get_close_matches(lower, kinds, n=1)), ""
        )
        raise UnknownKindError(word, near, tuple(kinds))
    return kinds[word]


def _typed(record: type, fields: list[str], book: "Book") -> dict[str, object]:
    """Return the typed fields of FIELD=VALUE arguments."""
    from fishmeasure.store.book import BookContent
    from fishmeasure.store.exchange import plain_from_cells

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
        example = Message.of("cli-example", case="such-as", example=str(found[0].id))
        raise OptionFormatError("ENTRY", text, example)
    if not found:
        raise UnknownRecordError("entry", text)
    return found[0]
