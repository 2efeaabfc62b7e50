"""Small tables, as text and as HTML."""

from collections.abc import Iterable, Sequence
from html import escape

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem

Rows = Sequence[Sequence[str]]


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
