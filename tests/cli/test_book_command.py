"""The book on the command line, as a grower uses it."""

import io
import json
import os
import shlex
import sys
from pathlib import Path
from typing import Any
from uuid import UUID

import pypdfium2
import pytest

from fishmeasure import cli


@pytest.fixture
def run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Any:
    """Return a function that runs a command and gives (status, out, err)."""
    monkeypatch.setenv("FISHMEASURE_BOOK", str(tmp_path / "book.db"))
    monkeypatch.setenv("COLUMNS", "200")
    monkeypatch.chdir(tmp_path)

    def call(*words: str) -> tuple[int, str, str]:
        monkeypatch.setattr(sys, "argv", ["fishmeasure", *words])
        with pytest.raises(SystemExit) as ended:
            cli.main()
        out, err = capsys.readouterr()
        return int(ended.value.code or 0), out, err

    return call


@pytest.fixture
def filled(run: Any) -> Any:
    """Return the same, on a book with a tank and trout in it."""
    run("book", "add", "unit", "name=Tank A", "kind=tank", "volume_m3=6", "depth_m=1.2")
    run("book", "add", "cohort", "name=Trout", "species_key=rainbow-trout")
    run(
        "book", "add", "stocked", "on=2026-03-01", "unit=tank a", "cohort=trout",
        "fish_count=300", "mean_weight_g=24.5",
    )  # fmt: skip
    return run


def died(run: Any, *more: str) -> str:
    """Enter two dead fish; return the entry's id."""
    status, out, err = run(
        "book", "add", "died", "unit=Tank A", "cohort=Trout", "fish_count=2", *more
    )
    assert (status, err) == (0, "")
    return str(UUID(out.strip()))


def test_units_and_cohorts(filled: Any) -> None:
    """Units and cohorts are listed, and changed as new versions."""
    assert "Tank A" in filled("book", "units")[1]
    assert "rainbow-trout" in filled("book", "cohorts")[1]
    status, out, _ = filled("book", "change", "unit", "tank a", "inflow_l_per_min=45")
    assert (status, out) == (0, "Tank A, version 2\n")
    filled("book", "change", "cohort", "Trout", "plate_weight_g=300")
    units = json.loads(filled("book", "units", "--json", "-")[1])
    assert (units[0]["inflow_l_per_min"], units[0]["version"]) == (45, 2)
    cohorts = json.loads(filled("book", "cohorts", "--json", "-")[1])
    assert cohorts[0]["plate_weight_g"] == 300


def test_entries_are_corrected_and_taken_back(filled: Any) -> None:
    """A correction replaces, a cancellation takes back; all of it stays readable."""
    first = died(filled, "on=2026-03-05", "cause=heron")
    _, out, _ = filled("book", "correct", first, "fish_count=3")
    second = out.strip()
    assert "fish_count 3" in filled("book", "entries", "--unit", "Tank A")[1]
    assert first[:8] in filled("book", "entries", "--all")[1]
    status, _, err = filled("book", "cancel", "")
    assert (status, err.count("such as ")) == (2, 1)
    shown = json.loads(filled("book", "entries", "--cohort", "Trout", "--json", "-")[1])
    assert [entry["kind"] for entry in shown] == ["stocked", "died"]
    assert shown[1]["cause"] == "heron"
    filled("book", "cancel", second[:8].upper(), "--note", "not ours")
    shown = json.loads(filled("book", "entries", "--json", "-")[1])
    assert [entry["kind"] for entry in shown] == ["stocked"]
    assert "cancelled" in filled("book", "entries", "--all")[1]


def test_moved_fish_are_shown_by_name(filled: Any) -> None:
    """A move names both units."""
    filled(
        "book", "add", "unit", "name=Tank B", "kind=tank", "volume_m3=4", "depth_m=1"
    )
    filled(
        "book", "add", "moved", "on=2026-03-09", "unit=Tank A", "to_unit=Tank B",
        "cohort=Trout", "fish_count=40",
    )  # fmt: skip
    assert "to Tank B" in filled("book", "entries", "--unit", "Tank B")[1]


def test_state_of_the_book(filled: Any) -> None:
    """Every unit's fish, and what is doubtful."""
    died(filled)
    out = filled("book", "state", "--on", "2026-04-01")[1]
    assert "298 (" in out  # a month of 0.6 % went unseen
    state = json.loads(filled("book", "state", "--on", "2026-04-01", "--json", "-")[1])
    assert state["units"][0]["fish_count"]["value"] == pytest.approx(300, rel=0.01)
    filled(
        "book", "add", "sold", "on=2026-03-02", "unit=Tank A", "cohort=Trout",
        "fish_count=400", "--confirm",
    )  # fmt: skip
    out = filled("book", "state", "--on", "2026-04-01")[1]
    assert "more fish going out" in out
    assert "Tank A" in filled("book", "state")[1]


def test_fields_are_explained(run: Any) -> None:
    """Kinds and fields are listed, with what they take."""
    assert "water" in run("book", "fields")[1]
    out = run("book", "fields", "graded")[1]
    assert "groups: list of (object with to_unit_id" in out
    out = run("book", "fields", "unit")[1]
    assert "volume_m3: number from 0.001 to 10000000, needed" in out
    assert "kind: tank or pond or raceway or cage, needed" in out
    assert "inflow_by_gravity: true or false" in out


@pytest.mark.parametrize("form", ["book.json", "tables"])
def test_export_and_import(filled: Any, form: str, tmp_path: Path) -> None:
    """What is written is read back, once, into the same book or another."""
    died(filled)
    assert filled("book", "export", form)[:2] == (0, f"2 entries written to {form}\n")
    assert "0 entries added, 2 were there" in filled("book", "import", form)[1]
    other = str(tmp_path / "other.db")
    out = filled("book", "import", form, "--book", other)[1]
    assert "2 entries added, 0 were there" in out
    filled("book", "export", "again.json", "--book", other)
    filled("book", "export", "first.json")
    assert Path("again.json").read_bytes() == Path("first.json").read_bytes()


def test_one_table_is_imported(filled: Any) -> None:
    """A table made in a spreadsheet is added, and named rows are found."""
    Path("entries.csv").write_text(
        "kind,on,unit_id,feed_kg\nfeed,2026-03-02,Tank A,0.4\n", encoding="utf-8"
    )
    assert "1 entries added" in filled("book", "import", "entries.csv")[1]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("book", "add", "eaten", "a=1"), "eaten"),
        (("book", "add", "died", "fish_count"), "fish_count"),
        (("book", "add", "died", "fish_count=two"), "fish_count is 'two'"),
        (("book", "add", "died", "unit=Tank Z", "cohort=Trout"), "Tank Z"),
        (("book", "add", "died", "colour=blue"), "colour"),
        (("book", "change", "fish", "Trout", "name=X"), "fish"),
        (("book", "change", "unit", "Tank Z", "name=X"), "no unit Tank Z"),
        (("book", "correct", "x", "fish_count=1"), "no entry x"),
        (("book", "cancel", str(UUID(int=1))), "no entry"),
        (("book", "entries", "--unit", "Tank Z"), "Tank A"),
        (("book", "import", "none.json"), "none.json"),
        (("book", "import", "none.csv"), "none.csv"),
        (("book", "import", "."), "units.csv"),
        (("book", "import", "bad.json"), "UTF-8"),
        (("book", "export", "bad.json/x.json"), "bad.json"),
        (("book", "export", "bad.json"), ""),
        (("outlook", "Tank Z"), "Tank A"),
        (("outlook", "Tank A", "--on", "May"), "May"),
        (("outlook", "Tank A", "--on", "0206-05-02"), "0206-05-02"),
        (("outlook", "Tank A", "--hours", "nan"), "hours"),
        (("outlook", "Tank A", "--fingerlings", "-3"), "weight of the fingerlings"),
        (("outlook", "Tank A", "--days", "4000"), "days ahead"),
        (("book", "units", "--book", "bad.json"), "bad.json"),
    ],
)
def test_wrong_words_are_answered_in_one_line(
    filled: Any, words: tuple[str, ...], said: str
) -> None:
    """Status 2, one line that names what is wrong, no traceback."""
    Path("bad.json").write_bytes(b"\xff\xfe\x00" * 2000)
    status, _, err = filled(*words)
    if said:
        assert status == 2
        assert said in err
        assert err.count("\n") == 1
    else:
        assert status == 0


def test_demo_and_outlook(run: Any) -> None:
    """One command fills the book with the invented tanks, another shows a page."""
    status, out, _ = run("demo", "--on", "2026-08-01", "--book", "d.sqlite")
    assert status == 0
    assert "invented" in out
    assert 'outlook "Tank A" --book d.sqlite' in out
    assert "already" in run("demo", "--book", "d.sqlite")[1]
    outlook = ("outlook", "Tank A", "--on", "2026-08-01", "--book", "d.sqlite")
    status, out, err = run(*outlook)
    assert (status, err) == (0, "")
    assert "invented" in out
    for number in range(1, 8):
        assert f"\n{number}  " in out
    assert "residual-current" in out
    assert "Sources and allowances" in out


def test_the_demo_goes_into_no_real_book(
    filled: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """By default into one of its own; a book with other tanks takes none of it."""
    monkeypatch.setenv("FISHMEASURE_DATA_DIR", str(Path.cwd() / "mine"))
    before = filled("book", "export", "-")[1]
    status, out, _ = filled("demo")
    assert (status, "demo.sqlite" in out) == (0, True)
    assert Path("mine/demo.sqlite").exists()
    status, _, err = filled("demo", "--book", os.environ["FISHMEASURE_BOOK"])
    assert status == 2
    assert "something in it already" in err
    assert filled("book", "export", "-")[1] == before


def test_outlook_as_json_and_on_paper(
    run: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The same answers for programs and for the wall."""
    run("demo", "--on", "2026-08-01", "--book", "d.sqlite")
    monkeypatch.setenv("FISHMEASURE_BOOK", "d.sqlite")
    out = run(
        "outlook", "Tank B", "--on", "2026-08-01", "--json", "-", "--pdf", "b.pdf"
    )[1]
    found = json.loads(out)
    assert found["state"]["unit"]["name"] == "Tank B"
    assert found["outages"]["results"][0]["to_critical"]["minutes"]["value"] > 0
    assert found["biomass_kg"] == found["state"]["biomass_kg"]
    assert found["fish_count"] == found["state"]["fish_count"]
    for item in found["cohorts"]:
        for name in ("mean_weight_g", "cv"):
            assert item[name]["low"] < item[name]["value"] < item[name]["high"]
    together = sum(
        item["mean_weight_g"]["value"] * item["fish"]["fish_count"]["value"] / 1000.0
        for item in found["cohorts"]
    )
    assert found["biomass_kg"]["value"] == pytest.approx(together, rel=0.01)
    assert len(pypdfium2.PdfDocument("b.pdf")) == 1
    assert run("outlook", "Tank B", "--on", "2026-08-01", "--pdf", "c.pdf")[1] == ""


def test_outlook_of_a_grower(filled: Any) -> None:
    """The page of a real book says nothing of invented data."""
    out = filled("outlook", "Tank A", "--on", "2026-04-01")[1]
    assert "Trout" in out
    assert "invented" not in out


def test_own_book_by_default(run: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without option and setting the book lies in the user's own folder."""
    monkeypatch.delenv("FISHMEASURE_BOOK")
    monkeypatch.setenv("HOME", str(Path.cwd() / "home"))
    tank = ("name=Tank", "kind=tank", "volume_m3=20", "depth_m=1")
    assert run("book", "add", "unit", *tank)[0] == 0
    assert run("book", "units")[0] == 0
    assert Path("home/.local/share/fishmeasure/book.sqlite").exists()


@pytest.mark.parametrize(
    "words",
    [
        ("book", "units"),
        ("book", "cohorts"),
        ("book", "entries"),
        ("book", "state"),
        ("book", "export", "all.json"),
        ("book", "cancel", "1234"),
        ("outlook", "Tank A"),
    ],
)
def test_a_slip_in_the_place_makes_no_book(run: Any, words: tuple[str, ...]) -> None:
    """Status 2, and nothing is there that was not there before."""
    status, out, err = run(*words, "--book", "folder/nowhere.sqlite")
    assert (status, out) == (2, "")
    assert "There is no book at folder/nowhere.sqlite." in err
    assert not list(Path().iterdir())


@pytest.mark.parametrize("kind", ["died", "harvested", "sold"])
def test_more_fish_out_than_in_is_asked(filled: Any, kind: str) -> None:
    """Status 3 and nothing stored; confirmed it is kept with its mark and the doubt."""
    add = "book", "add", kind, "on=2026-03-09", "unit=Tank A", "cohort=Trout"
    status, out, err = filled(*add, "fish_count=5000")
    assert (status, out) == (3, "")
    assert "5000 fish are to leave Tank A" in err
    assert "--confirm" in err
    assert kind not in filled("book", "entries")[1]
    status, out, _ = filled(*add, "fish_count=5000", "--confirm")
    entry = str(UUID(out.strip()))
    said = "The book has 4700 more fish going out than came in."
    assert "confirmed" in filled("book", "entries")[1]
    assert said in filled("outlook", "Tank A", "--on", "2026-04-01")[1]
    assert filled("book", "correct", entry, "fish_count=5")[2] == ""
    assert said not in filled("outlook", "Tank A", "--on", "2026-04-01")[1]
    assert "confirmed" not in filled("book", "entries")[1]


@pytest.mark.parametrize(
    ("answers", "kept"), [("y\n", "3000"), ("what\nc\n", "300"), ("n\n", ""), ("", "")]
)
def test_a_terminal_is_asked(
    filled: Any, monkeypatch: pytest.MonkeyPatch, answers: str, kept: str
) -> None:
    """It is right, the corrected one is right, or it is left: nothing is stored."""
    terminal = io.StringIO(answers)
    monkeypatch.setattr(terminal, "isatty", lambda: True)
    monkeypatch.setattr(sys, "stdin", terminal)
    status, _, err = filled(
        "book", "add", "counted", "unit=Tank A", "cohort=Trout", "on=2026-03-06",
        "fish_count=3000",
    )  # fmt: skip
    assert "Were it 300 fish, it would fit." in err
    assert status == (0 if kept else 3)
    shown = json.loads(filled("book", "entries", "--json", "-")[1])
    counts = [str(e["fish_count"]) for e in shown if e["kind"] == "counted"]
    assert counts == ([kept] if kept else [])


def said_commands(text: str) -> list[list[str]]:
    """Return the commands in an outlook's warnings, with figures for their dots."""
    flat = " ".join(text.split()).partition("Warnings")[2]
    flat = flat.partition(" 1 How heavy")[0].replace(" or fishmeasure", " fishmeasure")
    found = flat.replace("on=…", "on=2026-03-01").replace("cohort=…", "cohort=Trout")
    found = found.replace('depth_m": …', 'depth_m": 1')
    found = found.replace("…", "30").replace("\n", " ")
    return [
        shlex.split(part.strip()) for part in found.split("fishmeasure ")[1:] if part
    ]


def test_a_unit_without_oxygen_says_how_to_enter_it(filled: Any) -> None:
    """Each of the commands works, and then there is an answer."""
    show = "outlook", "Tank A", "--on", "2026-04-01"
    out = filled(*show)[1]
    assert "999" not in out
    assert json.loads(filled(*show, "--json", "-")[1])["outages"] is None
    commands = said_commands(out)
    assert len(commands) == 2
    for command in commands:
        assert command[:4] == ["book", "change", "unit", "Tank A"]
        assert filled(*command)[0] == 0
        assert "cannot be worked out" not in filled(*show)[1]
        filled("book", "change", "unit", "Tank A", "inflow_l_per_min=0")


def test_an_empty_unit_says_how_to_stock_it(filled: Any) -> None:
    """The command works, and the fish are there."""
    pond = "name=North pond", "kind=pond", "volume_m3=60", "depth_m=1.2"
    filled("book", "add", "unit", *pond)
    show = "outlook", "North pond", "--on", "2026-04-01"
    (command,) = said_commands(filled(*show)[1])
    assert command[:3] == ["book", "add", "stocked"]
    assert filled(*command)[0] == 0
    assert "no fish in" not in filled(*show)[1]
