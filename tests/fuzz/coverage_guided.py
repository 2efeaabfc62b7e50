"""Coverage-guided fuzzing of one reader with atheris; see ``README.md`` here."""

import sys
import tempfile
import warnings
from collections.abc import Callable
from datetime import date
from pathlib import Path

import atheris

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
with atheris.instrument_imports(include=["fishmeasure", "PIL", "tomllib", "json"]):
    from fishmeasure.errors import FishMeasureError
    from fishmeasure.ledger.demo import demo_book
    from fishmeasure.ledger.exchange import (
        book_from_csv,
        book_from_json,
        book_to_csv,
        book_to_json,
    )
    from fishmeasure.lens import read_lens
    from fishmeasure.photo import read_photo
    from fishmeasure.privacy import strip_private_tags
    from fishmeasure.samplefile import read_sample
    from fishmeasure.species.loader import _parse
    from tests.fuzz.bases import base_photos
    from tests.fuzz.test_texts import LENS, SPECIES_TEXT

ROOT = Path(__file__).resolve().parents[2]


def photo(data: bytes) -> None:
    for read in (strip_private_tags, read_photo):
        try:
            read(data, "a")
        except FishMeasureError:
            continue


def text(read: Callable[[str], object]) -> Callable[[bytes], None]:
    def try_text(data: bytes) -> None:
        try:
            read(data.decode(errors="replace"))
        except FishMeasureError:
            return

    return try_text


def _csv(content: str) -> None:
    book_from_csv({"units": content, "cohorts": content, "entries": content})


def targets() -> dict[str, tuple[Callable[[bytes], None], list[bytes]]]:
    """Return what to call and what to start from, by name."""
    photos = base_photos()
    book = demo_book(date(2026, 6, 1))
    sample = (ROOT / "sample_images" / "spring_tanks.toml").read_bytes()
    found: dict[str, tuple[Callable[[bytes], None], list[bytes]]] = {
        name: (photo, [data for key, data in photos.items() if key.endswith(ending)])
        for name, ending in (
            ("jpeg", ".jpg"),
            ("png", ".png"),
            ("webp", ".webp"),
            ("heic", ".heic"),
        )
    }
    return found | {
        "sample": (text(read_sample), [sample]),
        "species": (
            text(lambda content: _parse(content, "a.toml", is_own_stock=True)),
            [SPECIES_TEXT.encode()],
        ),
        "lens": (text(lambda content: read_lens(content, "a")), [LENS.encode()]),
        "book-json": (text(book_from_json), [book_to_json(book).encode()[:20_000]]),
        "book-csv": (
            text(_csv),
            [table.encode()[:5000] for table in book_to_csv(book).values()],
        ),
    }


def main() -> None:
    """Fuzz the reader that is named first, with libFuzzer's options after it."""
    warnings.simplefilter("ignore")
    call, seeds = targets()[sys.argv[1]]
    with tempfile.TemporaryDirectory() as corpus:
        for number, data in enumerate(seeds):
            (Path(corpus) / str(number)).write_bytes(data)
        atheris.Setup([sys.argv[0], *sys.argv[2:], corpus], call)
        atheris.Fuzz()


if __name__ == "__main__":
    main()
