"""Every reader of what comes from outside, as a function of bytes.

The first kind gets the bytes as its file. The second, named ``...-values``, gets a
whole document in which the bytes choose what is replaced by what, so that it is the
checks of values that are tried and not the parser. Each lets its own typed error
pass and nothing else.
"""

import json
import struct
import tempfile
import tomllib
from collections.abc import Callable
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from api.calculations import CALCULATIONS, input_model
from api.estimates import SampleIn
from api.schemas import CorrectionsIn
from api.settings import SettingError, Settings
from fishmeasure.base.errors import FishMeasureError
from fishmeasure.base.record import read
from fishmeasure.cli.fit import _columns
from fishmeasure.estimation.plan import one_more_net, taken_from_json
from fishmeasure.estimation.sample import read_sample
from fishmeasure.photo.corrections import apply_corrections
from fishmeasure.photo.image import read_photo
from fishmeasure.photo.lens import read_lens
from fishmeasure.photo.markers import KnownDistance
from fishmeasure.photo.measurement import PhotoMeasurement
from fishmeasure.photo.privacy import strip_private_tags
from fishmeasure.photo.settings import PhotoChoices
from fishmeasure.pipeline import measure_photo
from fishmeasure.species import load_species
from fishmeasure.species.fit import (
    fit_length_weight,
    own_line,
    published_for,
    second_predictor,
)
from fishmeasure.species.loader import _own_stock, read_own_stock
from fishmeasure.store.backup import check_backup, make_backup, restore_backup
from fishmeasure.store.book import open_book
from fishmeasure.store.demo import demo_book
from fishmeasure.store.engine import open_engine
from fishmeasure.store.exchange import (
    book_from_csv,
    book_from_json,
    book_to_csv,
    book_to_json,
)
from tests.fuzz.bases import base_photos, exif, saved, scene
from tests.fuzz.documents import (
    CALCULATIONS as BODIES,
)
from tests.fuzz.documents import (
    CORRECTIONS,
    FISH_TABLE,
    NETS,
    PHOTO_SETTINGS,
    PLAN,
)
from tests.fuzz.nasty import NASTY, changed, places, removed
from tests.fuzz.test_texts import LENS, SAMPLE, SPECIES_TEXT, estimated, whole_sample

ROOT = Path(__file__).resolve().parents[2]
Reader = Callable[[bytes], object]
Target = tuple[Callable[[bytes], None], list[bytes]]


def photo(data: bytes) -> None:
    for reader in (strip_private_tags, read_photo):
        quiet(partial(reader, name="a"))(data)


def quiet(read: Reader) -> Callable[[bytes], None]:
    """Return the reader without the errors that it may raise."""

    def attempt(data: bytes) -> None:
        try:
            read(data)
        except (FishMeasureError, ValidationError, SettingError):
            return

    return attempt


def text(read: Callable[[str], object]) -> Callable[[bytes], None]:
    return quiet(lambda data: read(data.decode(errors="replace")))


def values(document: Any, read: Callable[[Any], object]) -> Callable[[bytes], None]:
    """Return a reader of bytes that choose changes of a document."""

    def attempt(data: bytes) -> None:
        read(altered(document, data))

    return quiet(attempt)


def altered(document: Any, data: bytes) -> Any:
    """Return the document with up to four places changed as the bytes say."""
    for at in range(0, min(len(data), 48), 12):
        part = data[at : at + 12].ljust(12, b"\0")
        where_number, what, number = struct.unpack("<HHd", part)
        where = list(places(document))
        if not where:
            break
        place = where[where_number % len(where)]
        kind = what % (len(NASTY) + 4)
        if kind < len(NASTY):
            document = changed(document, place, NASTY[kind])
        elif kind == len(NASTY):
            document = removed(document, place)
        elif kind == len(NASTY) + 1:
            text_value = part[4:].decode("utf-16", errors="surrogatepass")
            document = changed(document, place, text_value)
        elif kind == len(NASTY) + 2:
            document = changed(document, place, number)
        else:  # another value of the same document
            other = where[what // len(NASTY) % len(where)]
            document = changed(document, place, _at(document, other))
    return document


def _at(document: Any, where: tuple[Any, ...]) -> Any:
    for key in where:
        document = document[key]
    return document


def _exif(data: bytes) -> None:
    """A JPEG with these bytes for its tags."""
    block = b"Exif\0\0" + data[:65_000]
    segment = b"\xff\xe1" + struct.pack(">H", len(block) + 2) + block
    plain = _exif.plain  # type: ignore[attr-defined]
    photo(plain[:2] + segment + plain[2:])


_exif.plain = saved(scene(size=(32, 32)), "JPEG")  # type: ignore[attr-defined]


def _csv(content: str) -> None:
    book_from_csv({"units": content, "cohorts": content, "entries": content})


def _book(content: str) -> None:
    """What a reader of books takes must be written again as it was read."""
    book = book_from_json(content)
    assert book_from_json(book_to_json(book)) == book


def _fit(content: str) -> None:
    columns = _columns(content, "a.csv")
    fit = fit_length_weight(columns["length_mm"], columns["weight_g"])
    json.dumps([fit.b, fit.left_out_error_percent, fit.mean_factor], allow_nan=False)
    if "depth_mm" in columns:
        second_predictor(columns["length_mm"], columns["depth_mm"], columns["weight_g"])
    own_line(fit, published_for(load_species("rainbow-trout"), "fork"), note="")


def _settings(content: str) -> None:
    names = list(Settings.__dataclass_fields__)
    lines = content.replace("\0", "").splitlines()
    Settings.from_environment(
        {f"FISHMEASURE_{name.upper()}": line for name, line in zip(names, lines)}  # noqa: B905
    )


def _backup(data: bytes) -> None:
    with tempfile.TemporaryDirectory() as folder:
        source, target = Path(folder, "a.tar"), Path(folder, "new")
        source.write_bytes(data)
        try:
            restore_backup(source, target, target / "book.sqlite")
        finally:
            assert set(Path(folder).iterdir()) <= {source, target}


def _small_backup() -> bytes:
    with tempfile.TemporaryDirectory() as folder:
        data_dir, target = Path(folder, "data"), Path(folder, "a.tar")
        (data_dir / "lenses").mkdir(parents=True)
        (data_dir / "lenses" / "a.json").write_text(LENS)
        with open_book(data_dir / "book.sqlite"):
            pass
        engine = open_engine(str(data_dir / "book.sqlite"))
        make_backup(engine, data_dir, target)
        engine.dispose()
        check_backup(target)
        return target.read_bytes()


def _corrections(measured: PhotoMeasurement) -> Callable[[Any], None]:
    def correct(sent: Any) -> None:
        items = CorrectionsIn.model_validate(sent).corrections
        found = apply_corrections(measured, items, load_species, "rainbow-trout")
        json.dumps(found.to_json(), allow_nan=False)

    return correct


def _nets(sent: Any) -> None:
    estimated(read(SampleIn, sent))


def _calculation(name: str) -> Callable[[Any], None]:
    model = input_model(name)

    def calculate(sent: Any) -> None:
        given = model.model_validate(sent)
        try:
            CALCULATIONS[name](**{f: getattr(given, f) for f in model.model_fields})
        except ArithmeticError:
            return  # the route answers it as outside-range

    return calculate


def targets() -> dict[str, Target]:
    """Return what to call and what to start from, by name."""
    photos = base_photos()
    book = demo_book(date(2026, 6, 1))
    document = json.loads(book_to_json(book))
    kinds = {entry["kind"]: entry for entry in document["entries"]}
    small = {
        **document,
        "units": document["units"][:1],
        "cohorts": document["cohorts"][:1],
        "entries": list(kinds.values()),
    }
    sample = (ROOT / "sample_images" / "spring_tanks.toml").read_bytes()
    random = [b"", *(bytes(range(n, n + 48)) for n in range(0, 200, 20))]
    measured = measure_photo(photos["net.jpg"], "a")
    found: dict[str, Target] = {
        name: (photo, [data for key, data in photos.items() if key.endswith(ending)])
        for name, ending in (
            ("jpeg", ".jpg"),
            ("png", ".png"),
            ("webp", ".webp"),
            ("heic", ".heic"),
        )
    }
    return found | {
        "exif": (_exif, [exif(n).tobytes()[6:] for n in (1, 6, 99)]),
        "sample": (text(read_sample), [sample]),
        "sample-values": (values(SAMPLE, whole_sample), random),
        "species": (
            text(lambda content: read_own_stock(content, "a.toml")),
            [SPECIES_TEXT.encode()],
        ),
        "species-values": (
            values(
                tomllib.loads(SPECIES_TEXT),
                lambda d: _own_stock(d | {"key": "a"}),
            ),
            random,
        ),
        "lens": (text(lambda content: read_lens(content, "a")), [LENS.encode()]),
        "lens-values": (
            values(json.loads(LENS), lambda d: read_lens(json.dumps(d), "a")),
            random,
        ),
        "book-json": (text(_book), [book_to_json(book).encode()[:20_000]]),
        "book-values": (values(small, lambda d: _book(json.dumps(d))), random),
        "book-csv": (
            text(_csv),
            [table.encode()[:5000] for table in book_to_csv(book).values()],
        ),
        "backup": (quiet(_backup), [_small_backup()]),
        "fit": (text(_fit), [FISH_TABLE.encode()]),
        "plan": (
            values(PLAN, lambda d: one_more_net(taken_from_json(json.dumps(d), "a"))),
            random,
        ),
        "settings": (text(_settings), [b"\n".join([b"a.db", b"/x", b"2", b"6"] * 4)]),
        "known": (
            text(KnownDistance.plain_from_text),
            [b"120,80,940,85=300", b" +1.5,-2,3,4 = 5"],
        ),
        "corrections": (values(CORRECTIONS, _corrections(measured)), random),
        "photo-settings": (
            values(PHOTO_SETTINGS, partial(read, PhotoChoices)),
            random,
        ),
        "nets": (values(NETS, _nets), random),
        **{
            name: (values(body, _calculation(name)), random)
            for name, body in BODIES.items()
        },
    }
