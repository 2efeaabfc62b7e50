"""The whole book as JSON or as CSV tables, and back, without loss.

JSON is one document. CSV is four tables, one text each; an empty cell is a field
that was not given, a list or object inside a cell is JSON, and a text that a
spreadsheet would take for a formula has an apostrophe in front.

A row written by hand may name its unit and cohort instead of giving their ids,
and may leave its own ``id`` empty: it is then made from the row's content, so that
importing the same file twice adds nothing twice.
"""

import csv
import io
import json
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from difflib import get_close_matches
from typing import Annotated, Any, ClassVar, TypeVar
from uuid import UUID, uuid5

from fishmeasure.base.cells import text_from_cell, text_to_cell
from fishmeasure.base.errors import BadEntryError, ImportFileError, UnknownRecordError
from fishmeasure.base.record import (
    Refusal,
    field_names,
    longest,
    plain,
    read,
    record,
)
from fishmeasure.base.record_help import is_text
from fishmeasure.base.words import Message, Reason
from fishmeasure.book.entries import (
    ENTRY_KINDS,
    Entry,
    entry_from_plain,
    entry_to_plain,
)
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.store.book import BookContent

FORMAT = "fishmeasure-book"
FORMAT_VERSION = 1
TABLES = ("units", "cohorts", "entries", "remarks")
# Ids of rows that bring none are made in this namespace, so they never change.
_ROW_IDS = UUID("6a1f6a2e-92c8-4a52-8f0e-0d7a6f2f4b1d")
_NAMED_FIELDS = {
    "unit_id": "units",
    "to_unit_id": "units",
    "cohort_id": "cohorts",
}
# What people say of a field whose name begins otherwise.
_FIELDS_SAID = {
    "count": "fish_count",
    "number": "fish_count",
    "date": "on",
    "day": "on",
    "oxygen": "do_mg_per_l",
    "weight": "mean_weight_g",
    "tank": "unit_id",
    "pond": "unit_id",
}
_FILE = Message.of("import-where", case="file")
_R = TypeVar("_R")
_Plain = dict[str, Any]
_Row = tuple[Reason, _Plain]  # where it stands, and what it says
_Names = Mapping[str, Mapping[str, str]]


# --- JSON -------------------------------------------------------------------------


def book_to_json(content: BookContent) -> str:
    """Return the book as one JSON document."""
    document = {
        "format": FORMAT,
        "version": FORMAT_VERSION,
        "remarks": dict(content.remarks),
        "units": [_sparse(unit) for unit in content.units],
        "cohorts": [_sparse(cohort) for cohort in content.cohorts],
        "entries": [entry_to_plain(entry) for entry in content.entries],
    }
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"


def book_from_json(text: str, where: Reason = _FILE) -> BookContent:
    """Return the book that a JSON document holds.

    Raises
    ------
    ImportFileError
        Saying which item is wrong, and why.
    """
    try:
        document = json.loads(text)
    except (ValueError, RecursionError) as error:
        reason = Message.of("import-no-json", told=str(error))
        raise ImportFileError(where, reason) from None
    return book_from_document(document, where)


def book_from_document(document: Any, where: Reason = _FILE) -> BookContent:
    """Return the book that a JSON document holds, read already.

    Raises
    ------
    ImportFileError
        As ``book_from_json``.
    """
    if not isinstance(document, dict) or document.get("format") != FORMAT:
        raise ImportFileError(where, Message.of("import-format", format=FORMAT))
    if document.get("version") != FORMAT_VERSION:
        reason = Message.of(
            "import-version",
            version=repr(document.get("version"))[:60],
            known_version=FORMAT_VERSION,
        )
        raise ImportFileError(where, reason)
    remarks = document.get("remarks", {})
    if not isinstance(remarks, dict):
        raise ImportFileError(where, Message.of("import-remarks"))
    rows = {name: _json_rows(document, name, where) for name in TABLES[:3]}
    said = [("remarks", {"name": n, "value": v}) for n, v in remarks.items()]
    return _content(rows, _remarks(said, where), {}, where)


def _json_rows(document: _Plain, name: str, where: Reason) -> Iterator[_Row]:
    rows = document.get(name, [])
    if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
        raise ImportFileError(where, Message.of("import-no-list", name=name))
    return ((f"{name} {number}", row) for number, row in enumerate(rows, 1))


# --- CSV --------------------------------------------------------------------------


def book_to_csv(content: BookContent) -> dict[str, str]:
    """Return the tables of the book as CSV texts, by table name."""
    return {
        "units": _table(_columns(Unit), map(_sparse, content.units)),
        "cohorts": _table(_columns(Cohort), map(_sparse, content.cohorts)),
        "entries": _table(_entry_columns(), map(entry_to_plain, content.entries)),
        "remarks": _table(
            ["name", "value"],
            ({"name": name, "value": value} for name, value in content.remarks),
        ),
    }


def book_from_csv(
    tables: Mapping[str, str], book: BookContent | None = None
) -> BookContent:
    """Return what CSV tables hold; tables may be missing.

    Parameters
    ----------
    tables
        Texts by table name, see ``TABLES``.
    book
        What the book has already, so that rows may name its units and cohorts.

    Raises
    ------
    ImportFileError
        Saying which line is wrong, and why.
    """
    unknown = sorted(tables.keys() - set(TABLES))
    if unknown:
        table = f"{unknown[0]}.csv"
        raise ImportFileError(table, Message.of("import-tables", tables=TABLES))
    rows = {name: _csv_rows(name, tables.get(name, "")) for name in TABLES}
    where = Message.of("import-where", case="tables")
    remarks = _remarks(rows.pop("remarks"), where)
    return _content(rows, remarks, _names(book or BookContent()), where)


def _sparse(made: object) -> _Plain:
    values: _Plain = plain(made, sparse=True)
    return values


def _columns(kind: type) -> list[str]:
    first = ("id", "name", "kind")  # what a row is known by
    return sorted(field_names(kind), key=lambda name: name not in first)


def _entry_columns() -> list[str]:
    """Return every field of every kind of entry, once."""
    columns = ["kind"]
    for kind in ENTRY_KINDS.values():
        columns += [name for name in field_names(kind) if name not in columns]
    return columns


def _table(columns: list[str], rows: Iterable[_Plain]) -> str:
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(columns)
    for row in rows:
        writer.writerow([_to_cell(row.get(name)) for name in columns])
    return out.getvalue()


def _to_cell(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, str):
        return text_to_cell(value)
    return json.dumps(value, ensure_ascii=False)


def _text_fields(name: str) -> set[str]:
    kinds: tuple[type, ...] = {
        "units": (Unit,),
        "cohorts": (Cohort,),
        "entries": tuple(ENTRY_KINDS.values()),
        "remarks": (),
    }[name]
    found = {"kind", "name", "value"} if name in {"entries", "remarks"} else set()
    for kind in kinds:
        found |= {field for field in field_names(kind) if is_text(kind, field)}
    return found


def _csv_rows(name: str, text: str) -> Iterator[_Row]:
    """Yield the rows of a table with the place of each."""
    text_fields = _text_fields(name)
    reader = csv.reader(
        io.StringIO(text.removeprefix("\ufeff"), newline=""), strict=True
    )
    try:
        columns = next(reader, [])
        for cells in reader:
            place = Message.of("import-line", name=name, line=reader.line_num)
            if len(cells) > len(columns):
                raise ImportFileError(place, Message.of("import-cells"))
            named = zip(columns, cells, strict=False)
            row = {column: cell for column, cell in named if cell}
            if not row:
                continue
            try:
                typed = _typed(row, text_fields)
            except BadEntryError as error:
                reason = Message.of(
                    "import-field", field=error.field, reason=error.reason
                )
                raise ImportFileError(place, reason) from None
            yield place, typed
    except csv.Error as error:
        table = f"{name}.csv"
        reason = Message.of("import-no-csv", told=str(error))
        raise ImportFileError(table, reason) from None


def _typed(row: Mapping[str, str], text_fields: set[str]) -> _Plain:
    """Read the cells that are no text."""
    typed: _Plain = {}
    for column, cell in row.items():
        if column in text_fields:
            typed[column] = text_from_cell(cell)
            continue
        try:
            typed[column] = json.loads(cell)
        except (ValueError, RecursionError):
            reason = Message.of("field-no-number", given=cell[:60])
            raise BadEntryError(field=column, reason=reason) from None
    return typed


def plain_from_cells(
    kind: type, cells: Mapping[str, str], book: BookContent | None = None
) -> _Plain:
    """Return typed fields from texts, names turned into ids.

    For what is typed on the command line; ``unit``, ``to_unit`` and ``cohort``
    stand for the fields with ``_id``.

    Raises
    ------
    BadEntryError
        If a field is not known, or a text cannot be what it holds.
    UnknownRecordError
        If the book has no unit or cohort of a name.
    """
    full = {
        f"{name}_id" if f"{name}_id" in _NAMED_FIELDS else name: cell
        for name, cell in cells.items()
    }
    text_fields = {name for name in field_names(kind) if is_text(kind, name)}
    for name in full:
        if name not in field_names(kind):
            near = _field_meant(name, field_names(kind))
            reason = Message.of(
                "field-of-no-kind", case="near" if near else "far", near=near
            )
            raise BadEntryError(field=name, reason=reason)
    content = book or BookContent()
    named = _with_ids(_typed(full, text_fields), _names(content))
    for field, table in _NAMED_FIELDS.items():
        if field in named and not _is_id(named[field]):
            members = content.units if table == "units" else content.cohorts
            raise UnknownRecordError(
                table.removesuffix("s"),
                str(named[field]),
                tuple(member.name for member in members),
            )
    return named


def _field_meant(name: str, known: tuple[str, ...]) -> str:
    """Return the field that a word begins or resembles; empty where none does."""
    word = _FIELDS_SAID.get(name.lower(), name.lower())
    found = [field for field in known if field == word or field.startswith(f"{word}_")]
    found += [field for field in known if field.startswith(word)]
    found += get_close_matches(word, known, n=1)
    return found[0].removesuffix("_id") if found and word else ""


def _is_id(text: object) -> bool:
    try:
        UUID(str(text))
    except ValueError:
        return False
    return True


# --- both -------------------------------------------------------------------------


@record(frozen=True, slots=True, kw_only=True)
class _Remark:
    """What the book says of itself."""

    refusal: ClassVar[Refusal] = BadEntryError
    name: Annotated[str, longest(40)]  # as long as the table's column
    value: str = ""


def _remarks(rows: Iterable[_Row], where: Reason) -> tuple[tuple[str, str], ...]:
    """Return the remarks by name."""
    found = _read(rows, lambda row: read(_Remark, row), where)
    return tuple(sorted((remark.name, remark.value) for remark in found))


def _content(
    rows: Mapping[str, Iterable[_Row]],
    remarks: tuple[tuple[str, str], ...],
    known: _Names,
    where: Reason,
) -> BookContent:
    full = {table: _with_own_ids(table, members) for table, members in rows.items()}
    units = _read(full["units"], lambda row: read(Unit, row), where)
    cohorts = _read(full["cohorts"], lambda row: read(Cohort, row), where)
    here = _names(BookContent(units=units, cohorts=cohorts))
    names = {table: {**known.get(table, {}), **here[table]} for table in here}

    def entry(row: _Plain) -> Entry:
        return entry_from_plain(_with_ids(row, names))

    return BookContent(
        units=units,
        cohorts=cohorts,
        entries=_read(full["entries"], entry, where),
        remarks=remarks,
    )


def _read(
    rows: Iterable[_Row], build: Callable[[_Plain], _R], where: Reason
) -> tuple[_R, ...]:
    built = []
    for place, row in rows:
        try:
            built.append(build(row))
        except BadEntryError as error:
            reason = Message.of(
                "import-row", place=place, field=error.field, reason=error.reason
            )
            raise ImportFileError(where, reason) from None
    return tuple(built)


def _names(content: BookContent) -> dict[str, dict[str, str]]:
    return {
        "units": {unit.name.casefold(): str(unit.id) for unit in content.units},
        "cohorts": {item.name.casefold(): str(item.id) for item in content.cohorts},
    }


def _with_ids(row: _Plain, names: _Names) -> _Plain:
    """Return the row with ids where it has names."""
    changed = dict(row)
    for field, table in _NAMED_FIELDS.items():
        name = row.get(field)
        if isinstance(name, str):
            changed[field] = names[table].get(name.strip().casefold(), name)
    return changed


def _with_own_ids(table: str, rows: Iterable[_Row]) -> Iterator[_Row]:
    """Give an id to each row that has none: the same for the same content.

    One after the other: the first row that is wrong ends it.
    """
    seen: Counter[str] = Counter()
    for place, row in rows:
        if "id" in row:
            yield place, row
            continue
        text = table + json.dumps(row, sort_keys=True)
        seen[text] += 1
        yield place, {**row, "id": str(uuid5(_ROW_IDS, f"{seen[text]}{text}"))}
