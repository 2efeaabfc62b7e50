"""The command line's help is quick: nothing heavy is imported for it."""

import subprocess
import sys

HEAVY = (
    "numpy",
    "scipy",
    "cv2",
    "PIL",
    "skimage",
    "matplotlib",
    "sqlalchemy",
    "fastapi",
)


def test_help_imports_nothing_heavy() -> None:
    """Each of these takes from 0.1 to 1 s."""
    code = (
        "import sys, fishmeasure.cli as c; sys.argv = ['fishmeasure', '--help']\n"
        "try: c.main()\n"
        f"except SystemExit: print('loaded', [n for n in {HEAVY} if n in sys.modules])"
    )
    done = subprocess.run(  # noqa: S603 - our own interpreter
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip().endswith("loaded []")
