"""Who may import whom, where lint cannot say it."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]


def imports(path: Path) -> set[str]:
    """Return the dotted names that a module imports, at any depth."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            names.add(node.module)
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
    return names


def offenders(folder: str, *banned: str, but: tuple[str, ...] = ()) -> list[str]:
    found = []
    place = ROOT / folder
    paths = [place.with_suffix(".py")] if not place.is_dir() else place.rglob("*.py")
    for path in sorted(paths):
        inside = path.relative_to(ROOT).as_posix()
        if but and inside.startswith(but):
            continue
        found += [
            f"{inside}: {name}"
            for name in imports(path)
            if name in banned or name.startswith(tuple(f"{b}." for b in banned))
        ]
    return found


ROOMS = (
    "base",
    "species",
    "husbandry",
    "photo",
    "estimation",
    "pipeline",
    "batch",
    "book",
    "outlook",
    "store",
    "render",
    "face",
)
"""From the ground up: what a room imports lies before it."""


@pytest.mark.parametrize("room", ROOMS)
def test_no_import_runs_back_up(room: str) -> None:
    """A room knows those before it alone; above all of them are cli and api."""
    above = ROOMS[ROOMS.index(room) + 1 :]
    banned = ("api", "fishmeasure.cli", *(f"fishmeasure.{name}" for name in above))
    assert offenders(f"fishmeasure/{room}", *banned) == []


@pytest.mark.parametrize(
    ("folder", "banned"),
    [
        ("fishmeasure/species", ("cv2", "PIL", "skimage")),
        ("fishmeasure/husbandry", ("cv2", "PIL", "skimage")),
        ("fishmeasure/book", ("cv2", "PIL", "sqlalchemy")),
        ("fishmeasure/outlook", ("cv2", "PIL", "sqlalchemy")),
        (
            "fishmeasure/photo/segment",
            ("fishmeasure.species", "fishmeasure.photo.weight"),
        ),
        ("fishmeasure", ("torch", "fastapi", "starlette", "sample_images")),
    ],
)
def test_rooms_know_only_what_they_need(folder: str, banned: tuple[str, ...]) -> None:
    """Sums know no pictures, outlines no species, none of them the web."""
    assert offenders(folder, *banned) == []
