"""``fishmeasure weigh`` asks net by net and loses none."""

import io
import sys
from pathlib import Path

import pytest

from fishmeasure import cli
from fishmeasure.estimation.sample import read_sample


@pytest.fixture(autouse=True)
def _own_folder(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("FISHMEASURE_DATA_DIR", str(tmp_path / "data"))
    monkeypatch.chdir(tmp_path)


def run(monkeypatch: pytest.MonkeyPatch, *words: str, typed: str = "") -> int:
    monkeypatch.setattr(sys, "argv", ["fishmeasure", *words])
    monkeypatch.setattr(sys, "stdin", io.StringIO(typed))
    try:
        cli.main()
    except SystemExit as end:
        return int(end.code or 0)
    return 0


# Day, unit, species, count; the scale's step, the tare's kind.
NEW = "2026-05-02\nTank A\n\n420\n1\ny\n"


def test_a_sample_is_asked_for_net_by_net(
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    (tmp_path / "a 1.jpg").write_bytes(b"")
    nets = "8\n1.912 kg; 1908\n640\na 1.jpg\nby the inlet\n9\n2071\n\n\n\n\nn\n"
    assert run(monkeypatch, "weigh", "s.toml", typed=NEW + nets) == 0
    sample = read_sample((tmp_path / "s.toml").read_text())
    assert (sample.unit, sample.count_in_unit) == ("Tank A", 420)
    assert sample.scale.resolution_g == 1.0
    first, second = sample.nets
    assert first.gross_g == (1912.0, 1908.0)
    assert (first.photos, first.label) == (("a 1.jpg",), "by the inlet")
    assert second.tare_g == 640.0  # that of the net before, taken as usual
    assert "fishmeasure sample s.toml" in capsys.readouterr().out


def test_habits_are_asked_once(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    assert (
        run(monkeypatch, "weigh", "s.toml", typed=NEW + "8\n1912\n640\n\n\n\nn\n") == 0
    )
    again = "\n\n\n\n8\n1912\n640\n\n\n\nn\n"
    assert run(monkeypatch, "weigh", "t.toml", typed=again) == 0
    written = read_sample((tmp_path / "t.toml").read_text())
    assert (written.scale.resolution_g, written.drip.wet_tare) == (1.0, True)


def test_a_file_is_gone_on_with_and_its_remarks_stay(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    file = tmp_path / "s.toml"
    file.write_text("# mine\n[[net]]\nfish = 8\nnet_g = 1272\n")
    assert run(monkeypatch, "weigh", "s.toml", typed="9\n2071\n640\n\n\n\nn\n") == 0
    assert file.read_text().startswith("# mine\n")
    assert [net.fish for net in read_sample(file.read_text()).nets] == [8, 9]


def test_what_was_typed_before_the_end_of_input_is_kept(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    status = run(monkeypatch, "weigh", "s.toml", typed=NEW + "8\n1912\n640\n\n\n9\n20")
    assert status != 0
    assert len(read_sample((tmp_path / "s.toml").read_text()).nets) == 1


def test_the_last_net_can_be_taken_back(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    nets = "8\n1912\n640\n\n\n7\n1700\n\n\n\n-\n9\n2071\n\n\n\n\nn\n"
    assert run(monkeypatch, "weigh", "s.toml", typed=NEW + nets) == 0
    sample = read_sample((tmp_path / "s.toml").read_text())
    assert [net.fish for net in sample.nets] == [8, 9]


@pytest.mark.parametrize(("answer", "kept"), [("n", [8, 9]), ("y", [8, 9, 8])])
def test_a_net_far_from_the_others_is_asked(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, answer: str, kept: list[int]
) -> None:
    far = f"8\n1912\n640\n\n\n9\n2071\n\n\n\n8\n18790\n\n\n\n{answer}\n\nn\n"
    assert run(monkeypatch, "weigh", "s.toml", typed=NEW + far) == 0
    sample = read_sample((tmp_path / "s.toml").read_text())
    assert [net.fish for net in sample.nets] == kept


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ("many\n", "'many' is no number"),
        ("8.5\n", "'8.5' is no number"),
        ("8\n1,912\n1912\n640\n\n\n", "Write 1912 or 1.912."),
        ("8\n400\n640\n\n\n", "tare_g is 640 g, but the gross weight is 400 g"),
        ("8\n1912\n640\nb.jpg\n\n\n", "b.jpg is not there"),
    ],
)
def test_a_wrong_answer_is_asked_again(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    wrong: str,
    words: str,
) -> None:
    assert run(monkeypatch, "weigh", "s.toml", typed=f"{NEW}{wrong}\nn\n") == 0
    assert words in capsys.readouterr().err


def test_a_table_becomes_a_file(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    (tmp_path / "t.csv").write_text("fish;gross_kg;tare_g\n8;1,912;640\n9;2,05;640\n")
    assert run(monkeypatch, "weigh", "s.toml", "--table", "t.csv") == 0
    assert read_sample((tmp_path / "s.toml").read_text()).nets[1].gross_g == (2050.0,)
    assert run(monkeypatch, "weigh", "s.toml", "--table", "t.csv") == 2
    assert run(monkeypatch, "sample", "t.csv") == 0


def test_settings_are_kept_shown_and_taken_back(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    said = "print_scale=0.97", "weight_unit=kg", "wet_tare=no"
    assert run(monkeypatch, "settings", *said) == 0
    capsys.readouterr()
    assert run(monkeypatch, "settings") == 0
    shown = capsys.readouterr().out
    assert "print_scale=0.97\n" in shown
    assert "wet_tare=false\n" in shown
    assert run(monkeypatch, "settings", "print_scale=") == 0
    assert "print_scale=\n" in capsys.readouterr().out


@pytest.mark.parametrize("word", ["print_scale=7", "wet_tare=maybe", "colour=red", "x"])
def test_a_setting_that_cannot_be_is_refused(
    monkeypatch: pytest.MonkeyPatch, word: str
) -> None:
    assert run(monkeypatch, "settings", word) == 2


def test_a_kept_species_is_measured_where_none_is_named(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    from fishmeasure.cli.options import photo_settings

    given = {"print_scale": None, "paper": None, "known": None, "lens": None}
    assert photo_settings(species=None, **given).species.key == "rainbow-trout"
    assert run(monkeypatch, "settings", "species=arctic-char") == 0
    assert photo_settings(species=None, **given).species.key == "arctic-char"
    assert photo_settings(species="perch", **given).species.key == "perch"


def test_a_kept_print_scale_is_taken_and_told(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from fishmeasure.cli.options import photo_settings

    assert run(monkeypatch, "settings", "print_scale=0.97") == 0
    given = {"species": None, "paper": None, "known": None, "lens": None}
    assert photo_settings(print_scale=None, **given).print_scale == 0.97
    assert "0.97" in capsys.readouterr().err
    assert photo_settings(print_scale=1.0, **given).print_scale == 1.0
