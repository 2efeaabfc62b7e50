"""A sample goes from its file into the book by one command."""

import hashlib
import io
import json
import re
import shlex
import sys
import tarfile
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
from PIL import ExifTags, Image

from fishmeasure import cli
from fishmeasure.book.entries import Harvested, Sample, Stocked
from fishmeasure.store.book import open_book

# Far enough ahead to be later wherever the clock stands.
TOMORROW = date.today() + timedelta(days=2)  # noqa: DTZ011
PHOTO = Path(__file__).parents[2] / "sample_images" / "bent_brown.jpg"
FILE = """
date = 2026-05-02
unit = "Tank A"
species = "rainbow-trout"

[[net]]
fish = 8
gross_g = 1912
tare_g = 640

[[net]]
fish = 9
net_g = 1431
"""


def run(monkeypatch: pytest.MonkeyPatch, *words: object) -> int:
    monkeypatch.setattr(sys, "argv", ["fishmeasure", *map(str, words)])
    try:
        cli.main()
    except SystemExit as end:
        return int(end.code or 0)
    return 0


@pytest.fixture
def book(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """A book with one unit and one cohort, named by the environment."""
    path = tmp_path / "book.sqlite"
    monkeypatch.setenv("FISHMEASURE_BOOK", str(path))
    monkeypatch.setenv("FISHMEASURE_DATA_DIR", str(tmp_path / "data"))
    unit = "name=Tank A", "kind=tank", "volume_m3=6", "depth_m=1.2"
    assert run(monkeypatch, "book", "add", "unit", *unit) == 0
    fish = "name=Trout", "species_key=rainbow-trout"
    assert run(monkeypatch, "book", "add", "cohort", *fish) == 0
    return path


def samples(path: Path) -> list[Sample]:
    with open_book(str(path)) as open_:
        return [entry for entry in open_.entries() if isinstance(entry, Sample)]


def test_a_sample_is_entered_once(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, book: Path
) -> None:
    """With its interval and counts; the same file again changes nothing."""
    file = tmp_path / "sample.toml"
    file.write_text(FILE, encoding="utf-8")
    for _ in range(2):
        assert run(monkeypatch, "sample", file, "--record", "Trout") == 0
    (found,) = samples(book)
    assert str(found.on) == "2026-05-02"
    assert found.fish_weighed == 17
    # (1912 - 640 + 1431) g of 17 fish, less the water that drips off
    assert 0.95 < found.mean_weight_g / (2703 / 17) < 1.0
    assert found.mean_weight_low_g < found.mean_weight_g < found.mean_weight_high_g
    assert found.condition_factor_low is None  # no lengths, so no condition factor


def test_a_harvest_says_what_the_next_samples_nets_choose(
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    book: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Sampled at 110 g, 3.5 %, and the 500 fish then harvested at 100 g: what the nets
    choose is said with the next sample, and was not before.
    """
    file = tmp_path / "sample.toml"
    file.write_text(FILE, encoding="utf-8")
    with open_book(str(book)) as open_:
        place: dict[str, Any] = {
            "unit_id": open_.unit("Tank A").id,
            "cohort_id": open_.cohort("Trout").id,
        }
        first = date(2026, 4, 30)
        exact = Stocked(
            id=uuid4(), on=first, fish_count=500, fish_count_sd=0.0, **place
        )
        low_g, high_g = (110.0 * (1.0 + sign * 1.645 * 0.035) for sign in (-1, 1))
        netted = Sample(
            id=uuid4(),
            on=first,
            mean_weight_g=110.0,
            mean_weight_low_g=low_g,
            mean_weight_high_g=high_g,
            level=0.9,
            fish_measured=0,
            fish_weighed=300,
            **place,
        )
        open_.add(exact)
        open_.add(netted)
        harvest = Harvested(
            id=uuid4(),
            on=first + timedelta(days=1),
            fish_count=500,
            weight_kg=50.0,
            **place,
        )
        open_.add(harvest)
        open_.add(replace(exact, id=uuid4(), on=first + timedelta(days=2)))
    assert run(monkeypatch, "sample", file, "--record", "Trout") == 0
    said = " ".join(capsys.readouterr().err.split())
    found = re.search(r"its samples weigh ([0-9.]+) % more than all its fish", said)
    assert found is not None
    # ln (110 / 100) = 0.095, of which 0.001 / (0.001 + 0.0003 + 0.0001) at most is it
    assert 3.0 < float(found[1]) < 8.0
    assert "the book does" in said


def test_weights_of_other_fish_are_not_entered(
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    book: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Eight trout of 24 cm do not weigh 12 kg: status 2, and the book stays clean."""
    file = tmp_path / "sample.toml"
    lengths = "lengths_mm = [231, 240, 222, 251, 236, 244, 229, 238]"
    text = FILE.replace("gross_g = 1912", f"gross_g = 12720\n{lengths}")
    file.write_text(text.partition("[[net]]\nfish = 9")[0], encoding="utf-8")
    assert run(monkeypatch, "sample", file, "--record", "Trout") == 2
    shown = capsys.readouterr().err
    assert "do not use these figures" in shown
    assert "not entered in the book" in shown
    assert not samples(book)


def test_the_condition_factor_keeps_its_interval(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, book: Path
) -> None:
    """The book has the figure and both ends that the sample gave."""
    file, answer = tmp_path / "sample.toml", tmp_path / "sample.json"
    lengths = "lengths_mm = [231, 240, 222, 251, 236, 244, 229, 238]"
    file.write_text(FILE.replace("fish = 8", f"fish = 8\n{lengths}"), encoding="utf-8")
    words = "sample", file, "--record", "Trout", "--json", answer
    assert run(monkeypatch, *words) == 0
    said = json.loads(answer.read_text(encoding="utf-8"))
    (found,) = samples(book)
    assert found.condition_factor == said["condition_factor"]
    ends = [found.condition_factor_low, found.condition_factor_high]
    assert ends == said["condition_factor_interval"]


@pytest.mark.parametrize(
    ("change", "cohort", "said"),
    [
        (('unit = "Tank A"', ""), "Trout", "date"),
        (('unit = "Tank A"', 'unit = "Pond"'), "Trout", "no unit Pond"),
        (("", ""), "Char", "no cohort Char"),
        (("2026-05-02", str(TOMORROW)), "Trout", f"{TOMORROW} is in the future; today"),
    ],
)
def test_what_cannot_be_entered_is_said(
    change: tuple[str, str],
    cohort: str,
    said: str,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    book: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """One line and status 2; nothing is written."""
    file = tmp_path / "sample.toml"
    file.write_text(FILE.replace(*change, 1), encoding="utf-8")
    assert run(monkeypatch, "sample", file, "--record", cohort) == 2
    assert said in capsys.readouterr().err
    assert not samples(book)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("unit", "name=Pond", "colour=blue"), "colour is no field"),
        (("cohort", "name=Char", "species=arctic-char"), "is species_key meant? Corr"),
        (("died", "unit=Tank A", "cohort=Trout", "fish=2"), "is fish_count meant?"),
        (("water", "unit=Tank A", "temp=9"), "is temperature_deg_c meant?"),
        (("feed", "tank=Tank A", "feed_kg=2"), "is unit meant?"),
        (("water", "unit=Tank A", "ph=-1"), "ph must be 2 or more, not -1."),
        (("feed", "unit=Tank A", "feed_kg=1e7"), "feed_kg must be 1000000 or less"),
        (("dead", "unit=Tank A", "cohort=Trout", "fish_count=2"), "Is died meant?"),
        (("harvest", "unit=Tank A", "fish_count=2"), "Is harvested meant?"),
        (("unit", "name=Pond", "volume_m3=big"), "volume_m3 is 'big'"),
        (("cohort", "name=Char", "species_key=chat"), 'no species "chat"'),
        (("died", "unit=Tank A", "cohort=Char", "fish_count=2"), "has: Trout"),
        (
            ("died", "unit=Tank A", "cohort=Trout", "fish_count=2", f"on={TOMORROW}"),
            "is in the future; today is",
        ),
    ],
)
def test_slips_at_the_book_are_said(
    words: tuple[str, ...],
    said: str,
    monkeypatch: pytest.MonkeyPatch,
    book: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """An unknown field, name or species, and a day that has not been."""
    assert book.exists()
    assert run(monkeypatch, "book", "add", *words) == 2
    assert said in capsys.readouterr().err


def test_a_sample_of_other_fish_is_not_entered(
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    book: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Trout do not go into a cohort of char, not even unsaid; a stock of trout does."""
    words = "cohort", "name=Char", "species_key=arctic-char"
    assert run(monkeypatch, "book", "add", *words) == 0
    file = tmp_path / "sample.toml"
    for text in (FILE, FILE.replace('species = "rainbow-trout"', "")):
        file.write_text(text, encoding="utf-8")
        assert run(monkeypatch, "sample", file, "--record", "Char") == 2
        said = (
            "The sample is of rainbow-trout, the cohort Char of arctic-char. "
            "Not entered."
        )
        assert said in capsys.readouterr().err
    assert not samples(book)
    own = "--species", "arctic-char", "--record", "Char"
    assert run(monkeypatch, "sample", file, *own) == 0
    assert len(samples(book)) == 1


def test_a_sample_of_lengths_alone_is_told_with_the_level_learned_before(
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    book: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Weighed and measured in May: in June lengths alone are known to 35 %.

    Alone they stand on the published line, whose error is a quarter.
    """
    with open_book(str(book)) as open_:
        place: dict[str, Any] = {
            "unit_id": open_.unit("Tank A").id,
            "cohort_id": open_.cohort("Trout").id,
        }
        open_.add(Stocked(id=uuid4(), on=date(2026, 4, 1), fish_count=500, **place))
    lengths = [int(180 * (1.0 + 0.08 * x)) for x in (-1.5, -1, -0.5, 0, 0, 0.5, 1, 1.5)]
    told = []
    for on, longer, weighed in (("2026-05-02", 0, 1), ("2026-06-02", 20, 0)):
        file = tmp_path / f"{on}.toml"
        net = f"[[net]]\nfish = 8\nlengths_mm = {[mm + longer for mm in lengths]}\n"
        net += "net_g = 680\n" * weighed
        head = f'date = {on}\nunit = "Tank A"\nspecies = "rainbow-trout"\n'
        file.write_text(head + 4 * net, encoding="utf-8")
        words = "sample", file, "--record", "Trout", "--confirm"
        assert run(monkeypatch, *words) == 0
        captured = capsys.readouterr()
        said = " ".join((captured.out + captured.err).split())
        told.append(
            [
                tuple(map(float, found.groups()))
                for place_ in (r"mean weight in the unit", rf"mean weight on {on} is")
                if (
                    found := re.search(
                        place_ + r" ([\d.]+) (?:g )?\(([\d.]+) to ([\d.]+)\)", said
                    )
                )
            ]
        )
    (_, alone), (_, joined) = zip(*told, strict=True)
    assert (alone[2] - alone[1]) / alone[0] > 0.7
    assert (joined[2] - joined[1]) / joined[0] < 0.35


def test_a_moved_photo_makes_no_other_sample(
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    book: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """The same photos in another folder, or called otherwise, are the same sample."""
    file = tmp_path / "sample.toml"
    for place in ("a.jpg", "net/b.jpg"):
        photo = tmp_path / place
        photo.parent.mkdir(exist_ok=True)
        photo.write_bytes(PHOTO.read_bytes())
        text = FILE.replace("fish = 8", f'fish = 8\nphotos = ["{place}"]')
        file.write_text(text, encoding="utf-8")
        assert run(monkeypatch, "sample", file, "--record", "Trout") == 0
    assert "Already in the book: the sample of 2026-05-02" in capsys.readouterr().err
    assert len(samples(book)) == 1


def with_tags(photo: Path) -> bytes:
    """Return a photo with a place and an owner in it, as a phone writes them."""
    out = io.BytesIO()
    with Image.open(photo) as image:
        exif = image.getexif()
        exif[ExifTags.Base.Artist] = "Somebody at the pond"
        exif.get_ifd(ExifTags.IFD.GPSInfo)[1] = "N"
        image.save(out, "JPEG", quality=95, exif=exif)
    return out.getvalue()


def test_a_backup_holds_the_photos_of_a_recorded_sample(
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    book: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """As the README says, without the private tags; once, however often recorded."""
    file, photo, saved = tmp_path / "s.toml", tmp_path / "a.jpg", tmp_path / "b.tar"
    photo.write_bytes(with_tags(PHOTO))
    text = FILE.replace("fish = 8", 'fish = 8\nphotos = ["a.jpg"]')
    file.write_text(text, encoding="utf-8")
    for _ in range(2):
        assert run(monkeypatch, "sample", file, "--record", "Trout") == 0
    (entry,) = samples(book)
    # Under the hash of what was sent, as the server keeps photos.
    assert entry.photos == (hashlib.sha256(photo.read_bytes()).hexdigest(),)
    photo.unlink()  # the grower's own copy may go

    capsys.readouterr()
    assert run(monkeypatch, "backup", saved) == 0
    said = capsys.readouterr()
    assert "The book and 1 photos" in said.out
    assert said.err == ""  # none is missing
    (digest,) = entry.photos
    name = f"photos/{digest[:2]}/{digest}"
    with tarfile.open(saved) as archive, archive.extractfile(name) as stream:  # type: ignore[union-attr]
        kept = stream.read()
    assert b"Somebody at the pond" not in kept
    with Image.open(io.BytesIO(kept)) as image, Image.open(PHOTO) as original:
        assert image.size == original.size
        assert not image.getexif().get_ifd(ExifTags.IFD.GPSInfo)
    with open_book(str(book)) as open_:
        stored = open_.archive.photo(digest)
        sample = open_.archive.sample(entry.id)
    # The page opens it with its nets, as one that was made there.
    assert sample.body["nets"][0]["photos"] == [digest]
    assert sample.body["unit_id"] == str(entry.unit_id)
    assert sample.result is not None
    assert sample.result["estimate"]["mean_weight_g"] == entry.mean_weight_g
    assert sample.result["photos"] == {digest: stored.revision}
    assert stored.name == "a.jpg"
    assert stored.settings["species"] == "rainbow-trout"
    assert stored.measurement["fish"]


def test_a_photo_that_cannot_be_kept_is_said(
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    book: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Then the sample is not entered either, so that it can be recorded again."""
    (tmp_path / "data").write_text("where the folder of photos should be")
    (tmp_path / "a.jpg").write_bytes(PHOTO.read_bytes())
    file = tmp_path / "sample.toml"
    text = FILE.replace("fish = 8", 'fish = 8\nphotos = ["a.jpg"]')
    file.write_text(text, encoding="utf-8")
    assert run(monkeypatch, "sample", file, "--record", "Trout") == 2
    assert "a.jpg cannot be kept in" in capsys.readouterr().err
    assert not samples(book)


def test_the_folder_of_the_environment_holds_the_book_too(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Book and backup commands mean one book where only the folder is said."""
    monkeypatch.delenv("FISHMEASURE_BOOK", raising=False)
    monkeypatch.setenv("FISHMEASURE_DATA_DIR", str(tmp_path / "farm"))
    fish = "name=Trout", "species_key=rainbow-trout"
    assert run(monkeypatch, "book", "add", "cohort", *fish) == 0
    assert (tmp_path / "farm" / "book.sqlite").exists()
    assert run(monkeypatch, "backup", tmp_path / "monday.tar") == 0


def test_a_corrected_date_is_corrected_in_the_book(
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    book: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """What the message says to do is done, word for word, and then all is well."""
    pond = "name=North pond", "kind=pond", "volume_m3=60", "depth_m=1.2"
    assert run(monkeypatch, "book", "add", "unit", *pond) == 0
    file = tmp_path / "sample.toml"
    file.write_text(FILE, encoding="utf-8")
    assert run(monkeypatch, "sample", file, "--record", "Trout") == 0
    text = FILE.replace("05-02", "05-03").replace("Tank A", "North pond")
    file.write_text(text, encoding="utf-8")
    capsys.readouterr()
    assert run(monkeypatch, "sample", file, "--record", "Trout") == 2
    said = capsys.readouterr().err
    assert "has this sample already, of 2026-05-02 in Tank A" in said
    words = shlex.split(said.partition("fishmeasure book correct ")[2])
    assert run(monkeypatch, "book", "correct", *words) == 0
    assert run(monkeypatch, "sample", file, "--record", "Trout") == 0
    assert "Already in the book: the sample of 2026-05-03" in capsys.readouterr().err
    (found,) = (entry for entry in samples(book) if entry.replaces)
    assert str(found.on) == "2026-05-03"


def test_a_sample_that_was_taken_back_is_entered_anew(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, book: Path
) -> None:
    """On the same day or another one."""
    file = tmp_path / "sample.toml"
    for day in ("05-02", "05-02", "05-04"):
        file.write_text(FILE.replace("05-02", day), encoding="utf-8")
        assert run(monkeypatch, "sample", file, "--record", "Trout") == 0
        with open_book(str(book)) as open_:
            (counts,) = open_.entries(only_in_force=True)
        assert str(counts.on) == f"2026-{day}"
        assert run(monkeypatch, "book", "cancel", str(counts.id)) == 0


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (
            ("gross_g = 1912", "gross_g = -1912"),
            "must be more than 0, not -1912. Correct",
        ),
        (
            ("gross_g = 1912", "gross_g = 1e9"),
            "must be 10000000 or less, not 1000000000.0. Correct",
        ),
        (("gross_g", "gros_g"), "is gross_g meant? Correct"),
    ],
)
def test_a_wrong_file_is_answered_in_whole_sentences(
    change: tuple[str, str],
    said: str,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """No range that nobody asked about, and one mark at the end."""
    file = tmp_path / "sample.toml"
    file.write_text(FILE.replace(*change, 1), encoding="utf-8")
    assert run(monkeypatch, "sample", file) == 2
    assert said in capsys.readouterr().err


def test_a_file_that_is_not_there(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Is said to be not there."""
    assert run(monkeypatch, "sample", "nothere.toml") == 2
    assert "There is no file nothere.toml." in capsys.readouterr().err


def test_what_the_book_lacks_is_added_as_it_says(
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    book: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """The commands of the messages work once their dots are filled in."""
    file = tmp_path / "sample.toml"
    file.write_text(FILE.replace("Tank A", "North pond"), encoding="utf-8")
    fields = {"kind": "pond", "volume_m3": "60", "depth_m": "1.5"}
    fields["species_key"] = "rainbow-trout"
    for _ in range(2):
        assert run(monkeypatch, "sample", file, "--record", "Big trout") == 2
        said = capsys.readouterr().err.partition("To add it: fishmeasure ")[2]
        words = [
            word if "…" not in word else word.replace("…", fields[word[:-2]])
            for word in shlex.split(said)
        ]
        assert run(monkeypatch, *words) == 0
    assert run(monkeypatch, "sample", file, "--record", "Big trout") == 0
    assert len(samples(book)) == 1
