"""What broken tables, documents and archives once did, and must not do again."""

import json
import os
import sys
import tarfile
import time
from pathlib import Path

import numpy as np
import pytest

from fishmeasure.base.errors import (
    ImportFileError,
    LedgerError,
    LengthWeightDataError,
    SampleJsonError,
)
from fishmeasure.base.files import read_at_most
from fishmeasure.cli import main
from fishmeasure.cli.fit import _columns
from fishmeasure.cli.photo import measure_file
from fishmeasure.estimation.plan import taken_from_json
from fishmeasure.pipeline import PhotoSettings
from fishmeasure.species import load_species
from fishmeasure.species.fit import fit_length_weight
from fishmeasure.store.backup import check_backup, restore_backup
from fishmeasure.store.exchange import book_from_json
from tests.fuzz.documents import PLAN


@pytest.mark.parametrize(
    "change",
    [
        {"fish_handled": float("inf")},
        {"mean_weight_g": float("nan")},
        {"mean_weight_g": 0},
        {"level": 1.0},
        {"count_in_unit": "240"},
        {"count_in_unit": -5},
        {"nets": []},
        {"nets": 3},
        {"within_net_cv": -0.1},
        {"within_net_cv": "0.3"},
        {"mean_weight_interval_g": [1]},
        {"mean_weight_interval_g": None},
    ],
)
def test_a_sample_that_cannot_be_plans_nothing(
    change: dict[str, object],
) -> None:
    """Infinity as a count, and nested lists, ended `fishmeasure plan` in a trace."""
    assert taken_from_json(json.dumps(PLAN), "a").nets == 3
    for text in (json.dumps({**PLAN, **change}), "[" * 100_000, "[]", "", "9" * 5000):
        with pytest.raises(SampleJsonError):
            taken_from_json(text, "a")


@pytest.mark.parametrize(
    "rows",
    [
        ["1e308,1"],
        ["200,1e-300"],
        ["1e-300,100"],
        ["200,1e300"],
        ["inf,100"],
        ["200,nan"],
        ["x" * 200_000 + ",100"],
        [f'"{chr(10) * 3}200,100'],
    ],
)
def test_single_fish_beyond_any_fish_are_refused(rows: list[str]) -> None:
    """Numbers near the end of a float overflowed in the fit."""
    good = [f"{200 + 9 * n},{90 + 13 * n}" for n in range(12)]
    text = "\n".join(["length_mm,weight_g", *good, *rows])

    def fit() -> None:
        columns = _columns(text, "a.csv")
        fit_length_weight(columns["length_mm"], columns["weight_g"])

    with pytest.raises(LengthWeightDataError):
        fit()


def test_one_fish_alone_makes_no_line() -> None:
    """All others of one length: left out, it leaves no line to predict it by."""
    length = np.array([200.0] * 11 + [300.0])
    weight = np.linspace(90.0, 110.0, 12)
    with pytest.raises(LengthWeightDataError, match="without fish 12"):
        fit_length_weight(length, weight)


def test_a_line_that_no_species_has_is_not_saved(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """b = 0.2 was written to a file that no command would read again."""
    table, saved_to = tmp_path / "a.csv", tmp_path / "own.toml"
    rows = [f"{200 + 9 * n},{(200 + 9 * n) ** 0.2}" for n in range(12)]
    table.write_text("\n".join(["length_mm,weight_g", *rows]))
    command = ["fishmeasure", "fit", str(table), "--save", str(saved_to)]
    monkeypatch.setattr(sys, "argv", command)
    with pytest.raises(SystemExit) as stop:
        main()
    assert stop.value.code == 2
    assert "outside" in capsys.readouterr().err
    assert not saved_to.exists()


@pytest.mark.parametrize("text", ["\ud800", "a\0b"])
def test_remarks_are_texts_that_can_be_kept(text: str) -> None:
    """Half a surrogate pair passed the reader and broke down in the database."""
    book = {"format": "fishmeasure-book", "version": 1}
    for remarks in ({"about": text}, {text: "a"}, {"a": 1}, {"a" * 41: "a"}, ["a"]):
        with pytest.raises(ImportFileError):
            book_from_json(json.dumps({**book, "remarks": remarks}))


# --- backups ----------------------------------------------------------------------


def member(size: int, kind: bytes = b"0", real: int | None = None) -> bytes:
    """Return the head of a tar member; sizes as GNU tar writes those beyond 8 GB."""
    info = tarfile.TarInfo("book.sqlite")
    info.type = kind
    head = bytearray(info.tobuf(tarfile.GNU_FORMAT))
    head[124:136] = (size % 256**12).to_bytes(12, "big")
    head[124] |= 0x80
    if real is not None:
        head[386:410] = b"00000000000\0" * 2
        head[483:495] = b"\x80" + real.to_bytes(11, "big")
    head[148:156] = b" " * 8
    head[148:156] = b"%06o\0 " % sum(head)
    return bytes(head)


@pytest.mark.parametrize(
    "tar",
    [
        member(0, b"S", real=10**12),  # a sparse file of a terabyte
        member(0) + member(-512),  # leads back to itself (CVE-2025-8194)
        member(0) + member(-1024),
        member(10**12),
        member(0, b"2"),  # links
        member(0, b"1"),
        member(0, b"3"),  # a device
        member(0, b"5"),
    ],
)
def test_an_archive_that_fills_the_disk_or_never_ends_is_refused(
    tar: bytes, tmp_path: Path
) -> None:
    """Three gigabytes of zeros were written for 1.5 KB before the end was missed."""
    source = tmp_path / "a.tar"
    source.write_bytes(tar + bytes(1024))
    start = time.monotonic()
    with pytest.raises(LedgerError):
        check_backup(source)
    with pytest.raises(LedgerError):
        restore_backup(source, tmp_path / "new", tmp_path / "new" / "book.sqlite")
    assert time.monotonic() - start < 5.0
    assert list((tmp_path / "new").iterdir()) == []


# --- files that are none ----------------------------------------------------------


@pytest.mark.parametrize(
    "place", ["/dev/zero", "{fifo}", "{large}", "{folder}", "a" * 5000, "a\0b"]
)
def test_what_is_no_file_is_no_photo(place: str, tmp_path: Path) -> None:
    """Without end, not written to yet, of gigabytes, or with a name that cannot be."""
    os.mkfifo(tmp_path / "fifo")
    with (tmp_path / "large").open("wb") as file:
        file.truncate(10**11)  # takes no room on the disk
    names = {"fifo": tmp_path / "fifo", "large": tmp_path / "large"}
    path = Path(place.format(**names, folder=tmp_path))
    settings = PhotoSettings(species=load_species("rainbow-trout"))
    found = measure_file(path, path.name, settings)
    assert found.width_px == 0
    assert found.problems[0].fatal


@pytest.mark.parametrize(
    "command",
    [
        ["sample"],
        ["fit"],
        ["plan", "--sample"],
        ["photo", "a.jpg", "--lens"],
        ["photo", "a.jpg", "--species"],
        ["batch", "--results", "b.jsonl"],
        ["book", "import"],
    ],
)
@pytest.mark.parametrize("place", ["{large}.toml", "a" * 5000 + ".toml"])
def test_a_text_without_end_is_refused(
    command: list[str],
    place: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """One line, and no more memory than the limit."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("FISHMEASURE_BOOK", str(tmp_path / "book.sqlite"))
    monkeypatch.setattr(read_at_most, "__defaults__", (1000,))
    with Path("large.toml").open("wb") as file:
        file.truncate(10**11)
    given = place.format(large=tmp_path / "large")
    monkeypatch.setattr(sys, "argv", ["fishmeasure", *command, given])
    with pytest.raises(SystemExit) as stop:
        main()
    said = capsys.readouterr().err
    assert stop.value.code == 2
    assert "Traceback" not in said
    assert "too large" in said or "too long" in said
