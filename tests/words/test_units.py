"""US customary units in and out; what is computed and kept stays metric.

Factors are those of NIST SP 811 (2008), appendix B.8: 1 lb = 0.45359237 kg, 1 in =
25.4 mm, 1 gal = 3.785411784 l, t/°C = (t/°F - 32)/1.8.
"""

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from babel import Locale
from matplotlib.figure import Figure
from starlette.testclient import TestClient
from typer.testing import CliRunner

from api.app import create_app
from api.settings import Settings
from fishmeasure import cli
from fishmeasure.base.errors import OptionFormatError
from fishmeasure.base.estimate import Estimate
from fishmeasure.base.words import Message, Voice, say, speaking, wording
from fishmeasure.base.words.functions import Functions, argument
from fishmeasure.base.words.units import UNITS, unit_of
from fishmeasure.cli.options import read_day
from fishmeasure.render.plots.axis_words import write_figures

US = Voice(units="us")


@pytest.mark.parametrize(
    ("name", "metric", "us"),
    [
        ("x_kg", 0.45359237, 1.0),  # lb
        ("x_g", 28.349523125, 1.0),  # oz: a sixteenth of the pound
        ("x_mm", 25.4, 1.0),  # in
        ("x_m", 0.3048, 1.0),  # ft
        ("x_m2", 0.09290304, 1.0),  # ft2
        ("x_l", 3.785411784, 1.0),  # gal
        ("x_m3", 3.785411784e-3, 1.0),  # gal
        ("x_l_per_min", 3.785411784, 1.0),  # gpm
        ("x_m3_per_day", 3.785411784e-3, 1.0),
        ("x_kg_per_day", 0.45359237, 1.0),
        ("x_kg_per_m3", 16.01846, 1.0),  # lb/ft3: SP 811 has 1.601 846 E+01
        ("x_deg_c", 0.0, 32.0),
        ("x_deg_c", 100.0, 212.0),
    ],
)
def test_factors_are_those_of_nist(name: str, metric: float, us: float) -> None:
    unit = unit_of(name)
    assert unit is not None
    assert unit.shown(metric) == pytest.approx(us, rel=1e-6)
    assert unit.metric(us) == pytest.approx(metric, rel=1e-6)


def test_every_us_unit_has_its_name() -> None:
    for unit in UNITS.values():
        for name in {unit.name, unit.us} - {""}:
            for language in ("en", "de", "es"):
                assert say(Message.of(f"unit-{name}"), Voice(language=language))


WORDS = {"unit-oz": "oz", "unit-lb": "lb", "span": "{value} ({low} to {high})"}


def written(function: str, name: str, value: Any, **form: Any) -> str:
    def lookup(code: str, **texts: str) -> str:
        return WORDS[code].format(**texts)

    made: Any = Functions(Locale.parse("en"), "us", lookup).table()[function]
    return str(made(argument(name, value, str), **form))


def test_fish_are_weighed_in_pounds_and_ounces_together() -> None:
    """524 g is 18.483 oz by the factor above: 1 lb 2.5 oz."""
    assert written("AMOUNT", "x_g", 524.0, decimals=0) == "1 lb 2.5 oz"
    assert written("NUMBER", "x_g", 524.0, decimals=0) == "1 lb 2.5 oz"
    assert written("NUMBER", "x_g", 524.0, decimals=0, bare=1) == "18.5"
    assert written("WEIGHT", "x_g", 20.0) == "0.71 oz"
    assert written("AMOUNT", "x_g", 453.5, decimals=0) == "1 lb 0.0 oz"
    span = Estimate(value=524.0, sd=10.0, low=440.0, high=540.0)
    assert written("AMOUNT", "x_g", span, decimals=0) == (
        "1 lb 2.5 oz (15.5 oz to 1 lb 3.0 oz)"
    )


def test_fingerlings_are_told_as_they_are_sold() -> None:
    """5 g: 200 to the kilogram, 5 kg a thousand; 0.45359237 kg / 5 g = 90.7."""
    told = Message.of(
        "cli-room-ahead", days=30, fish="100", weight_g=5.0
    )  # as in the command line
    assert "5 g" in say(told)
    case: dict[str, Any] = {"until": "2026-06-01", "species": "trout", "case": "now"}
    fish = Message.of("outlook-fingerlings", fish=9, each_g=5.0, in_all_kg=0.1, **case)
    assert "200 fish a kg, 5.00 kg a thousand" in say(fish)
    assert "90.7 fish a lb, 11.0 lb a thousand" in say(fish, US)


FEED = ("feed", "rainbow-trout")
METRIC: tuple[str, ...] = (
    *FEED,
    "--temp",
    "12.777777777777779",
    "--mean-weight",
    "524.4661778125",
)
METRIC += ("--biomass", "54.4310844", "--json", "-")


def run(*arguments: str) -> str:
    result = CliRunner().invoke(cli.app, arguments)
    assert result.exit_code == 0, result.output + str(result.exception)
    return result.stdout


def test_the_command_line_reads_what_its_help_names_and_answers_alike() -> None:
    """55 °F, 1 lb 2.5 oz and 120 lb; JSON is metric always."""
    with speaking(Voice(teller="cli")):
        metric = json.loads(run(*METRIC))
    for weight in ("18.5", "1 lb 2.5 oz"):
        given = ("--temp", "55", "--mean-weight", weight, "--biomass", "120")
        with speaking(Voice(teller="cli")):
            us = json.loads(run("--units", "us", *FEED, *given, "--json", "-"))
        for end in ("value", "low", "high"):
            same = pytest.approx(metric["total_kg"][end], rel=1e-9)
            assert us["total_kg"][end] == same
    with speaking(Voice(teller="cli")):
        shown = run("--units", "us", *FEED, *given)
    assert " lb" in shown
    with speaking(Voice(teller="cli")):
        assert "°F" in run("--units", "us", "feed", "--help")


def test_the_command_line_reads_numbers_of_the_language() -> None:
    """12,5 is understood; 1.250 is asked where a comma parts decimals."""
    given = ("--temp", "12,5", "--biomass", "54,4", "--json", "-")
    with speaking(Voice(teller="cli")):
        german = run("--language", "de", *FEED, "--mean-weight", "524,5", *given)
    with speaking(Voice(teller="cli")):
        english = run(*FEED, "--mean-weight", "524.5", *given)
    german_figures, english_figures = json.loads(german), json.loads(english)
    assert german_figures["total_kg"] == english_figures["total_kg"]
    with speaking(Voice(teller="cli")):
        asked = CliRunner().invoke(
            cli.app, ["--language", "de", *FEED, "--mean-weight", "1.250", *given]
        )
    assert "can be read in two ways. Write 1250 or 1,250" in str(asked.exception)
    with speaking(Voice(teller="cli")):
        sold = json.loads(run(*FEED, "--mean-weight", "200/kg", *given))
    with speaking(Voice(teller="cli")):
        assert sold == json.loads(run(*FEED, "--mean-weight", "5", *given))


def test_a_day_is_read_as_the_language_writes_it() -> None:
    """2 May 2026; what is no day in that form is refused, never turned round."""
    for language, text in (
        ("en", "2026-05-02"),
        ("de", "2026-05-02"),
        ("de", "02.05.2026"),
        ("es", "02/05/2026"),
    ):
        with speaking(Voice(language=language)):
            assert read_day("--on", text) == date(2026, 5, 2)
    with pytest.raises(OptionFormatError), speaking(Voice(language="es")):
        read_day("--on", "05/22/2026")
    with pytest.raises(OptionFormatError):
        read_day("--on", "02/05/2026")


def test_units_are_set_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FISHMEASURE_DATA_DIR", str(tmp_path))
    with speaking(Voice(teller="cli")):
        run("settings", "units=us")
    with speaking(Voice(teller="cli")):
        assert "°F" in run("feed", "--help")
    monkeypatch.setenv("FISHMEASURE_UNITS", "metric")
    with speaking(Voice(teller="cli")):
        assert "°C" in run("feed", "--help")


def test_the_server_says_them_and_keeps_its_figures(tmp_path: Path) -> None:
    settings = Settings(book=str(tmp_path / "b.sqlite"), data_dir=tmp_path)
    path = "/v1/calculations/feed"
    sent = {"species_key": "rainbow-trout", "mean_weight_g": 200.0, "biomass_kg": 50.0}
    sent |= {"temperature_deg_c": 30.0}
    with TestClient(create_app(settings), base_url="http://localhost") as client:
        metric = client.post(path, json=sent)
        us = client.post(path, json=sent, headers={"Fishmeasure-Units": "us"})
    if metric.status_code == 200:
        told, told_us = metric.json(), us.json()
        assert told["problems"][0]["message"] != told_us["problems"][0]["message"]
        assert "86.0 °F" in told_us["problems"][0]["message"]
        assert told["problems"][0]["parameters"] == told_us["problems"][0]["parameters"]
    assert "Fishmeasure-Units" in us.headers["Vary"]


def test_a_chart_has_round_ticks_of_the_unit() -> None:
    """0 to 500 g are 0 to 17.6 oz: 2, 4, 6 ... oz, not 3.5, 7.1."""
    with speaking(US):
        axes = Figure().add_subplot()
        axes.set_xlim(0.0, 500.0)
        write_figures(axes.xaxis, "weight_g")
        axes.figure.canvas.draw()
        shown = [label.get_text() for label in axes.get_xticklabels()]
        assert "2" in shown
        assert "16" in shown
        assert wording("plot-weight") == "weight, oz"
    with speaking(Voice(language="de")):
        axes = Figure().add_subplot()
        axes.set_xlim(0.0, 1.0)
        write_figures(axes.xaxis)
        axes.figure.canvas.draw()
        assert "0,2" in [label.get_text() for label in axes.get_xticklabels()]
