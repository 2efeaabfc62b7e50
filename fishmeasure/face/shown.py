"""Small tables, as text and as HTML."""

from abc import ABC, abstractmethod
from collections.abc import Iterable, Sequence
from html import escape
from typing import NamedTuple

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem

Rows = Sequence[Sequence[str]]


class Table(NamedTuple):
    """A table; an empty header is left out."""

    title: str
    header: Sequence[str]
    rows: Rows


class Shown(ABC):
    """Shown by tables and what is wrong: as text, and in a notebook."""

    @property
    @abstractmethod
    def problems(self) -> tuple[Problem, ...]:
        """What is wrong, worst first."""

    @abstractmethod
    def _tables(self) -> tuple[Table, ...]:
        """Return the tables; the title of the first heads them."""

    def __str__(self) -> str:
        tables = self._tables()
        texts = (text_table(table.header, table.rows) for table in tables)
        return with_problems("\n".join((tables[0].title, *texts)), self.problems)

    def _repr_html_(self) -> str:
        first, *others = self._tables()
        return html_table(*first, self.problems) + "".join(
            html_table(*table) for table in others
        )


def interval(figure: Estimate | None, digits: int = 0, unit: str = "") -> str:
    """Return "value unit (low to high)", or that it is not known."""
    if figure is None:
        return "not known"
    unit = f" {unit}" if unit else ""
    return (
        f"{figure.value:.{digits}f}{unit} "
        f"({figure.low:.{digits}f} to {figure.high:.{digits}f})"
    )


def count(number: int, noun: str, many: str = "") -> str:
    """Return a number with its noun, such as "1 net", "5 nets"."""
    return f"{number} {noun if number == 1 else many or f'{noun}s'}"


def text_table(header: Sequence[str], rows: Rows) -> str:
    """Return a table in columns; an empty header is left out."""
    lines = [*([header] if any(header) else []), *rows]
    if not lines:
        return ""
    widths = [max(map(len, column)) for column in zip(*lines, strict=True)]
    return "\n".join(
        "  ".join(
            cell.ljust(width) for cell, width in zip(line, widths, strict=True)
        ).rstrip()
        for line in lines
    )


def with_problems(text: str, problems: Iterable[Problem]) -> str:
    """Return a text and, below it, what is wrong."""
    said = (f"{problem.code}: {problem.message}" for problem in problems)
    return "\n".join((text, *said))


def html_table(
    title: str,
    header: Sequence[str],
    rows: Rows,
    problems: Iterable[Problem] = (),
) -> str:
    """Return a table, its title and what is wrong, for a notebook.

    All words are escaped: names of photos, units and nets are what somebody typed.
    """
    head = "".join(f'<th scope="col">{escape(cell)}</th>' for cell in header)
    body = "".join(
        "<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in row) + "</tr>"
        for row in rows
    )
    said = "".join(
        f"<li><b>{escape(problem.code)}</b> {escape(problem.message)}</li>"
        for problem in problems
    )
    return (
        f"<table><caption>{escape(title)}</caption>"
        + (f"<thead><tr>{head}</tr></thead>" if any(header) else "")
        + f"<tbody>{body}</tbody></table>"
        + (f"<ul>{said}</ul>" if said else "")
    )
