"""A sample as a spreadsheet's table: a row for each net, a column for each figure.

Columns are named as the keys of SAMPLE.toml (``fish``, ``gross_kg``, ``tare_g``,
``photos``, ``label``), in capitals, with spaces or units in brackets as one likes; what
the sample has in common (``date``, ``unit``, ``species``, ``count_in_unit``) stands in
columns too, in the first row or in every one. Cells are parted by commas, semicolons or
tabs, several photos or lengths in a cell by ``|`` or ``;``.
"""

import csv
import io
import re
from collections.abc import Iterable, Iterator
from datetime import date
from difflib import get_close_matches
from typing import Any, Final

from fishmeasure.base.errors import (
    NoNumberError,
    SampleFileError,
    UnclearNumberError,
)
from fishmeasure.base.record import field_names
from fishmeasure.base.typed import GRAMS_PER, typed_number
from fishmeasure.base.words import Message
from fishmeasure.estimation.sample import Net, Sample, sample_from_document

_COMMON: Final = ("date", "unit", "species", "count_in_unit", "count_in_unit_sd")
_TEXTS: Final = frozenset(("unit", "species", "label"))
_WHOLE: Final = frozenset(("fish", "count_in_unit"))
_WEIGHTS: Final = tuple(
    f"{what}_{unit}" for what in ("gross", "tare", "net") for unit in GRAMS_PER
)
COLUMNS: Final = (
    *_COMMON,
    *(name for name in field_names(Net) if name not in _WEIGHTS),
    *_WEIGHTS,
)
"""Every column that a table may have."""

_SEVERAL: Final = re.compile(r"\s*[|;]\s*")
_DAY_FIRST: Final = re.compile(r"(\d{1,2})\.\s*(\d{1,2})\.\s*(\d{4})")
_DECIMAL_COMMA: Final = re.compile(r"[-+]?\d*,(\d{1,2}|\d{4,})")
_DECIMAL_POINT: Final = re.compile(r"[-+]?(\d*\.(\d{1,2}|\d{4,})|0?\.\d+)")

_Row = tuple[int, dict[str, str]]  # its line, and what stands in which column


def sample_from_table(text: str) -> Sample:
    """Return the sample in a table of nets.

    Raises
    ------
    SampleFileError
        Naming the line and the column that cannot be used, and why.
    """
    delimiter = _delimiter(text)
    rows = list(_rows(text, delimiter))
    mark = _decimal_mark(rows, delimiter)
    common: dict[str, Any] = {}
    nets = []
    for line, cells in rows:
        values = {name: _value(name, cell, mark, line) for name, cell in cells.items()}
        for name in _COMMON:
            if name in values:
                _agree(common, name, values.pop(name), line)
        nets.append(values)
    return sample_from_document(common | {"net": nets})


def _agree(common: dict[str, Any], name: str, value: object, line: int) -> None:
    """Take what holds for the whole sample, if no other row said another thing."""
    if common.setdefault(name, value) != value:
        reason = Message.of(
            "table-two", first=str(common[name]), second=str(value), line=line
        )
        raise SampleFileError(field=name, reason=reason)


def _delimiter(text: str) -> str:
    """Return what parts the cells of the heading."""
    heading = text.lstrip("\ufeff \r\n").partition("\n")[0]
    counted = {mark: heading.count(mark) for mark in ";\t,"}
    return max(counted, key=counted.__getitem__)


def _rows(text: str, delimiter: str) -> Iterator[_Row]:
    reader = csv.reader(
        io.StringIO(text.removeprefix("\ufeff"), newline=""),
        delimiter=delimiter,
        strict=True,
    )
    names: list[str] = []
    try:
        for cells in reader:
            bare = [cell.strip() for cell in cells]
            if not any(bare):
                continue
            if not names:
                names = [_column(cell) for cell in bare]
                _once(names)
                continue
            if any(bare[len(names) :]):
                reason = Message.of("import-cells")
                raise SampleFileError(field=_place(reader.line_num), reason=reason)
            named = zip(names, bare, strict=False)
            yield reader.line_num, {n: cell for n, cell in named if n and cell}
    except csv.Error as error:
        reason = Message.of("import-no-csv", told=str(error))
        raise SampleFileError(reason=reason) from None


def _column(heading: str) -> str:
    """Return the column that a heading names; an empty one names none."""
    name = re.sub(r"[^a-z0-9]+", "_", heading.lower()).strip("_")
    if not name or name in COLUMNS:
        return name
    near = get_close_matches(name, COLUMNS, n=1)
    reason = Message.of(
        "table-column", case="near" if near else "far", near=near[0] if near else ""
    )
    raise SampleFileError(field=heading[:60], reason=reason)


def _once(names: Iterable[str]) -> None:
    seen: set[str] = set()
    for name in names:
        if name and name in seen:
            raise SampleFileError(field=name, reason=Message.of("table-twice"))
        seen.add(name)


def _numbers(rows: Iterable[_Row]) -> Iterator[str]:
    for _, cells in rows:
        for name, cell in cells.items():
            if name not in _TEXTS and name not in {"photos", "date", "in_water"}:
                yield from _SEVERAL.split(cell)


def _decimal_mark(rows: Iterable[_Row], delimiter: str) -> str:
    """Return the decimal mark of a table: what its numbers show, else its delimiter.

    Where commas have decimals, spreadsheets part cells by semicolons (RFC 4180 has
    none for that; common practice, no source).
    """
    comma = point = False
    for number in _numbers(rows):
        comma |= _DECIMAL_COMMA.fullmatch(number) is not None
        point |= _DECIMAL_POINT.fullmatch(number) is not None
    if comma != point:
        return "," if comma else "."
    return "," if delimiter == ";" and not point else "."


def _value(name: str, cell: str, mark: str, line: int) -> object:
    """Return what a cell holds, as SAMPLE.toml would have it."""
    if name in _TEXTS:
        return cell
    if name == "in_water":
        return {"0": False, "no": False, "false": False}.get(cell.lower(), True)
    if name == "photos":
        return [part for part in _SEVERAL.split(cell) if part]
    if name == "date":
        return _day(cell, line)
    try:
        figures = [typed_number(part, mark) for part in _SEVERAL.split(cell) if part]
    except NoNumberError:
        reason = Message.of("field-no-number", given=cell[:60])
        raise SampleFileError(field=f"{_place(line)}, {name}", reason=reason) from None
    except UnclearNumberError as error:
        reason = Message.of(
            "table-unclear",
            given=cell[:60],
            whole=error.whole,
            decimal=error.decimal,
        )
        raise SampleFileError(field=f"{_place(line)}, {name}", reason=reason) from None
    if name in _WHOLE and len(figures) == 1 and figures[0].is_integer():
        return int(figures[0])
    return figures if name == "lengths_mm" or len(figures) != 1 else figures[0]


def _day(cell: str, line: int) -> date:
    """Return a day written as 2026-05-02 or 2.5.2026, as points have the day first."""
    first = _DAY_FIRST.fullmatch(cell)
    try:
        if first is not None:
            return date(int(first[3]), int(first[2]), int(first[1]))
        return date.fromisoformat(cell)
    except ValueError:
        reason = Message.of("table-day", given=cell[:60])
        raise SampleFileError(field=_place(line), reason=reason) from None


def _place(line: int) -> str:
    return f"line {line}"
