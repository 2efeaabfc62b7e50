"""The command line's help is quick: nothing heavy is imported for it."""

import subprocess
import sys

from typer.main import get_command

from fishmeasure.cli import app

HEAVY = (
    "numpy",
    "scipy",
    "cv2",
    "PIL",
    "skimage",
    "matplotlib",
    "sqlalchemy",
    "fastapi",
    "pydantic",
)


def commands() -> list[list[str]]:
    """Return the words of every command, groups among them."""
    found: list[list[str]] = [[]]
    for name, command in get_command(app).commands.items():  # type: ignore[attr-defined]
        found += [
            [name],
            *([name, inner] for inner in getattr(command, "commands", ())),
        ]
    return found


def test_help_of_no_command_imports_anything_heavy() -> None:
    """Each of these takes from 0.1 to 1 s."""
    code = (
        "import sys, contextlib, fishmeasure.cli as c\n"
        f"for words in {commands()}:\n"
        "    sys.argv = ['fishmeasure', *words, '--help']\n"
        "    with contextlib.suppress(SystemExit): c.main()\n"
        f"    print('loaded', words, [n for n in {HEAVY} if n in sys.modules])"
    )
    done = subprocess.run(  # noqa: S603 - our own interpreter
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    loaded = [line for line in done.stdout.splitlines() if line.startswith("loaded")]
    assert len(loaded) == len(commands()) > 30
    assert [line for line in loaded if not line.endswith("[]")] == []
