"""Texts as cells of a CSV table.

A spreadsheet takes a cell that starts with =, +, -, @ or a tab for a formula and works
it out, whoever wrote it. Such a text gets an apostrophe in front, which keeps it a text
there, and which the reader of a book takes away again.
"""

import re

# The characters that OWASP's page on CSV injection names; the last four are wide.
_FORMULA = re.compile("'*[-=+@\t\r\uff1d\uff0b\uff0d\uff20]")


def text_to_cell(text: str) -> str:
    """Return the text so that no spreadsheet works it out."""
    return f"'{text}" if _FORMULA.match(text) else text


def text_from_cell(cell: str) -> str:
    """Return the text that ``text_to_cell`` was given."""
    return cell[1:] if cell.startswith("'") and _FORMULA.match(cell) else cell
