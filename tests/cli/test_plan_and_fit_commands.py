"""``fishmeasure plan`` and ``fishmeasure fit`` from the command line."""

import json
import re
import sys
from pathlib import Path

import numpy as np
import pytest

from fishmeasure.cli import main
from fishmeasure.estimation.model import estimate_population, estimate_to_json
from fishmeasure.species import load_species
from tests.estimation.makers import Dip, Truth, draw, published_line


def run(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], *args: str
) -> tuple[int, str]:
    """Return the exit status, and what was printed."""
    monkeypatch.setattr(sys, "argv", ["fishmeasure", *args])
    with pytest.raises(SystemExit) as stop:
        main()
    printed = capsys.readouterr()
    return int(stop.value.code or 0), printed.out + printed.err


def table_of(folder: Path, header: str, rows: list[str]) -> str:
    path = folder / "fish.csv"
    path.write_text("\n".join([header, *rows]), encoding="utf-8")
    return str(path)


def rows_of(*, depth: bool) -> list[str]:
    rng = np.random.default_rng(1)
    rows = []
    for _ in range(30):
        length = rng.uniform(15, 35)
        deep = 0.25 * length * np.exp(rng.normal(0, 0.1))
        weight = 0.22 * length**1.5 * deep**1.5 * np.exp(rng.normal(0, 0.03))
        rows.append(f"{length:.1f},{weight:.1f}" + (f",{deep:.2f}" if depth else ""))
    return rows


def test_plan_prints_nets_and_advice(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Typical figures, a table, and how to net fairly."""
    status, text = run(monkeypatch, capsys, "plan", "--within", "8", "--count", "240")
    assert status == 0
    assert "fish a net" in text
    assert "typical" in text
    assert "Crowd the fish first" in text


def test_plan_uses_the_last_sample(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
) -> None:
    """The sample's own spread stands in the text."""
    nets = draw(Truth(), [Dip(fish=8)] * 4, np.random.default_rng(1)).nets
    values = estimate_to_json(estimate_population(nets, published=published_line()))
    path = tmp_path / "last.json"
    path.write_text(json.dumps(values), encoding="utf-8")
    status, text = run(
        monkeypatch, capsys, "plan", "--sample", str(path), "--fish-per-net", "8"
    )
    assert status == 0
    assert f"{100 * values['within_net_cv']:.0f} %" in text
    assert "one more net of 8 fish" in text
    path.write_text("[]", encoding="utf-8")
    status, text = run(monkeypatch, capsys, "plan", "--sample", str(path))
    assert status == 2
    assert "last.json does not hold" in text


def test_plan_says_what_size_of_net_is_worth_its_time(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """0.25 / 0.09 x sqrt(8 / 0.5) = 11.1 fish (Cochran 1977, 10.6); k nets of 11 take
    k x (8 + 11 x 0.5) = 13.5 k minutes.
    """
    words = ["plan", "--net-minutes", "8", "--fish-minutes", "0.5"]
    status, text = run(monkeypatch, capsys, *words)
    assert status == 0
    flat = " ".join(text.split())
    found = re.search(r"nets of 11 fish .* (\d+) of them take about (\d+) min", flat)
    assert found is not None
    assert abs(13.5 * int(found[1]) - int(found[2])) <= 0.5
    status, text = run(monkeypatch, capsys, "plan", "--net-minutes", "8")
    assert status == 2
    assert "--fish-minutes" in text


def test_plan_shares_nets_out_among_parts(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """By share times mean weight, as their spreads are alike in per cent (Neyman):
    75 % of 100 g and 25 % of 300 g get as many nets each, 66 and 33 % two to one.
    """
    nets = {}
    for parts in ("75:100/25:300", "66/33"):
        words = "plan", "--within", "6", "--fish-per-net", "10", "--strata", parts
        status, text = run(monkeypatch, capsys, *words)
        assert status == 0
        found = re.search(r"take (\d+) \+ (\d+) nets", " ".join(text.split()))
        assert found is not None
        nets[parts] = [int(n) for n in found.groups()]
    first, second = nets["75:100/25:300"]
    assert abs(first - second) <= 1
    first, second = nets["66/33"]
    assert abs(first - 2 * second) <= 2
    for wrong in ("50/30", "100", "50/x", "50:180/50", "150/-50"):
        status, text = run(monkeypatch, capsys, "plan", "--strata", wrong)
        assert status == 2
        assert "50/30/20" in text


def test_plan_out_of_reach_is_one_line(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Exit status 2 and what would be possible."""
    status, text = run(monkeypatch, capsys, "plan", "--within", "0.1")
    assert status == 2
    assert "cannot be had" in text


def test_fit_prints_saves_and_plots(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
) -> None:
    """The saved file is a species, the plot a picture, depth is judged."""
    table = table_of(tmp_path, "length_cm,weight_g,depth_cm", rows_of(depth=True))
    saved, plot = tmp_path / "mine.toml", tmp_path / "mine.png"
    status, text = run(
        monkeypatch, capsys, "fit", table, "--save", str(saved), "--plot", str(plot)
    )
    assert status == 0
    assert "depth helps" in text
    assert load_species(str(saved)).is_own_stock
    assert plot.read_bytes().startswith(b"\x89PNG")


@pytest.mark.parametrize(
    ("header", "rows", "words"),
    [
        ("length_cm,mass", ["25,200"] * 9, "no column weight_g"),
        ("length_cm,weight_g", ["25,200"] * 8 + ["x,200"], 'fish 9 has "x"'),
        ("length_cm,weight_g", ["25"] * 9, 'fish 1 has "None"'),
        ("", [], "no column length_mm"),
        ("length_cm,weight_g", ["25,200"] * 3, "3 fish"),
    ],
)
def test_fit_refuses_what_is_no_table(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
    header: str,
    rows: list[str],
    words: str,
) -> None:
    """One line with the fish and the column, exit status 2."""
    status, text = run(monkeypatch, capsys, "fit", table_of(tmp_path, header, rows))
    assert status == 2
    assert words in text


def test_fit_refuses_files_that_cannot_be(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
) -> None:
    """A missing table, and a plot of an unknown kind."""
    status, text = run(monkeypatch, capsys, "fit", str(tmp_path / "none.csv"))
    assert (status, "none.csv cannot be read" in text) == (2, True)
    table = table_of(tmp_path, "length_cm,weight_g", rows_of(depth=False))
    status, text = run(
        monkeypatch, capsys, "fit", table, "--plot", str(tmp_path / "a.bmp")
    )
    assert (status, "in .png, .svg or .pdf" in text) == (2, True)


def test_fit_points_at_a_slip(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
) -> None:
    """A weight with a digit too many is named."""
    rows = rows_of(depth=False)
    length, weight = rows[4].split(",")
    rows[4] = f"{length},{10 * float(weight)}"
    table = table_of(tmp_path, "length_cm,weight_g", rows)
    status, text = run(monkeypatch, capsys, "fit", table)
    assert (status, "Fish 5 is far off" in text) == (0, True)
