"""Commands stand in what the command line says; a phone reads the same errors."""

import pytest

from fishmeasure.base import errors
from fishmeasure.base.words import Voice, advice

ID = "5f0c0b5e-0000-4000-8000-000000000001"
CLI = Voice(teller="cli")


@pytest.mark.parametrize(
    ("error", "command"),
    [
        (errors.UnknownRecordError("unit", "North pond"), "book add unit"),
        (errors.UnknownRecordError("cohort", "Trout"), "book add cohort"),
        (errors.UnknownRecordError("unit", ID), ""),
        (errors.UnknownRecordError("entry", "x"), ""),
        (errors.NoBookError("/b.sqlite"), "book add unit"),
        (errors.BookDamagedError("/b.sqlite", "torn"), "restore"),
        (errors.BookInUseError("/b.sqlite", by_servers=True), "serve"),
        (errors.NoBackupError("a.tar"), "backup"),
        (errors.LensFileError("lens.json", "it is not JSON"), "lens"),
    ],
)
def test_commands_are_said_at_the_command_line_alone(
    error: errors.FishMeasureError, command: str
) -> None:
    """The sentence itself names none; the command line does, where there is one."""
    for text in (str(error), error.advice):
        assert "fishmeasure" not in text
        assert "--" not in text
    told = advice(error.said, CLI)
    assert (
        (f"fishmeasure {command}" in told) if command else ("fishmeasure" not in told)
    )
