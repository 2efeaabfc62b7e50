"""``fishmeasure book``: units, cohorts and dated entries, in and out."""

from fishmeasure.cli.book.exchange import export_command, import_command
from fishmeasure.cli.book.show import (
    cohorts_command,
    entries_command,
    state_command,
    units_command,
)
from fishmeasure.cli.book.write import (
    add_command,
    cancel_command,
    change_command,
    correct_command,
    fields_command,
)
from fishmeasure.cli.checked import CheckedTyper

book_app = CheckedTyper(
    help="help-book-app",
)
for _name, _command in (
    ("units", units_command),
    ("cohorts", cohorts_command),
    ("entries", entries_command),
    ("state", state_command),
    ("fields", fields_command),
    ("add", add_command),
    ("change", change_command),
    ("correct", correct_command),
    ("cancel", cancel_command),
    ("export", export_command),
    ("import", import_command),
):
    book_app.command(_name)(_command)
