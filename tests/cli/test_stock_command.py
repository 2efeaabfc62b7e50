"""The stocking commands as a grower sees them."""

import json
import sys
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from fishmeasure import cli
from fishmeasure.base.estimate import Estimate
from fishmeasure.base.record import plain
from fishmeasure.base.words import number, span
from fishmeasure.husbandry import cautions
from fishmeasure.husbandry.outage import time_words
from fishmeasure.husbandry.propagation import exact, lognormal

UNIT = "--mean-weight 250 --temp 12 --biomass 90 --volume 6 --depth 0.857 --inflow 60"
SAMPLES = "--sample 2026-03-01=60 --sample 2026-04-01=85/5 --temp 10"
WEEKLY = f"harvest perch {SAMPLES} --count 90 --from 2026-05-01"

COMMANDS = {
    "growth": f"growth rainbow-trout {SAMPLES}",
    "growth by month": (
        "growth arctic-char --sample 2026-03-01=60 --size 90 "
        "--monthly 3,3,4,6,8,10,12,12,10,8,6,4"
    ),
    "growth by wave": "growth perch --sample 2026-03-01=60 --wave 12,8,205",
    "harvest": f"harvest rainbow-trout {SAMPLES} --count 90 --take 2026-05-01=60 "
    "--take 2026-06-01=60",
    "harvest at plate size": f"harvest perch {SAMPLES} --count 90 --size 90 "
    "--weekly size --from 2026-05-01 --until 2026-07-01",
    "harvest in kilograms": f"harvest perch {SAMPLES} --count 90 "
    "--weekly 1.5kg --from 2026-05-01 --until 2026-07-01",
    "feed": "feed brown-trout --mean-weight 100 --temp 10 --biomass 30",
    "conversion": "conversion --feed 40 --start 30 --end 65 --dead 1",
    "oxygen": f"oxygen rainbow-trout {UNIT} --standard-transfer 100",
    "outage": f"outage rainbow-trout {UNIT} --oxygen 9 --backup-transfer 30 --fasted",
    "ammonia": "ammonia nile-tilapia --tan 0.8 --ph 7.8 --temp 27",
    "nitrate": "nitrate nile-tilapia --feed 500 --volume 8 --bed 5",
    "nitrate settling": "nitrate nile-tilapia --feed 50 --volume 8 --exchange 4",
    "plant-bed": "plant-bed --feed 1000 --bed 20 --crop raft",
    "stocking": f"stocking rainbow-trout {UNIT} --ph 7.4 --condition 1.2",
}


def run(words: str) -> str:
    result = CliRunner().invoke(cli.app, words.split())
    assert result.exit_code == 0, result.output
    return result.output


@pytest.mark.parametrize("words", COMMANDS.values(), ids=COMMANDS.keys())
def test_every_command_answers_in_words_and_json(words: str) -> None:
    """Text for people, one JSON object for programs."""
    assert run(words).strip()
    assert isinstance(json.loads(run(f"{words} --json -")), dict)


def test_json_goes_into_a_file_beside_the_words(tmp_path: Path) -> None:
    """The same rule for all commands: FILE, or - for stdout instead of words."""
    target = tmp_path / "feed.json"
    words = COMMANDS["feed"]
    assert run(f"{words} --json {target}") == run(words)
    assert json.loads(target.read_text("utf-8")) == json.loads(run(f"{words} --json -"))


def test_cautions_and_what_is_from_memory_are_shown() -> None:
    """The screen carries the cautions and says which figures are unchecked."""
    shown = run(COMMANDS["outage"])
    assert str(cautions.OXYGEN) in shown
    assert str(cautions.ELECTRICAL) in shown
    shown = run("ammonia arctic-char --tan 0.2 --ph 7 --temp 8")
    assert "from memory, not checked against its source" in shown


def test_published_answers_come_through_the_commands() -> None:
    """Raft beds: 1000 g at 60-100 g/m2 (Rakocy 2007); pH 8, 24 °C is 5.02 %."""
    bed = json.loads(run("plant-bed --feed 1000 --crop raft --json -"))
    assert bed["bed_needed_m2"]["value"] == pytest.approx(12.5)
    assert "5.02 %" in run("ammonia nile-tilapia --tan 1 --ph 8 --temp 24")
    assert "Saturation: 11.29 mg/L" in run(
        "oxygen perch --mean-weight 100 --temp 10 --biomass 1 --volume 1"
    )


def test_a_weekly_harvest_of_all_at_plate_size() -> None:
    """The screen says how many fish each week, and how many are too small still."""
    shown = run(f"{WEEKLY} --weekly size --size 90 --until 2026-05-20")
    assert [line[:10] for line in shown.splitlines()[:3]] == [
        "2026-05-01",
        "2026-05-08",
        "2026-05-15",
    ]
    assert "fish are not yet at 90 g on 2026-05-15" in shown
    assert "fish under the plate size" not in shown
    shown = run(f"{WEEKLY} --weekly 40 --size 90 --until 2026-05-20")
    assert "From 2026-05-08 on, fish under the plate size of 90 g are taken." in shown
    assert "2026-05-15: the 10 largest fish, " in shown
    assert "none left" in shown


def test_outage_writes_its_chart(tmp_path: Path) -> None:
    """A PNG where asked for."""
    chart = tmp_path / "outage.png"
    run(f"{COMMANDS['outage']} --chart {chart}")
    assert chart.read_bytes().startswith(b"\x89PNG")


def test_a_limit_of_nothing_is_said_to_be_past_full() -> None:
    """Without any supply of oxygen no fish are carried; no powers of ten."""
    shown = run(
        "stocking rainbow-trout --mean-weight 240 --temp 9 --biomass 56 --volume 6"
    )
    assert "oxygen: over 999 % used; by it alone at least 0 kg" in shown
    assert "56.0 kg too much at the unsafe end" in shown


def test_the_end_to_act_on_comes_first() -> None:
    """An estimate is no measurement: what a grower reads first is its unsafe end."""
    result = json.loads(run(f"{COMMANDS['outage']} --json -"))["outage"]
    shown = run(COMMANDS["outage"])
    minutes = result["to_critical"]["minutes"]
    low, middle = time_words(minutes["low"]), time_words(minutes["value"])
    assert low != middle
    assert f"mg/L) after {low} (likely {middle}, at most " in shown
    gained = result["measures"][0]["gained_min"]
    assert (
        f": {time_words(gained['low'])} (likely {time_words(gained['value'])})" in shown
    )
    reading = run("ammonia nile-tilapia --tan 1 --ph 8 --temp 24")
    found = json.loads(run("ammonia nile-tilapia --tan 1 --ph 8 --temp 24 --json -"))
    high = found["unionised_n_mg_per_l"]["high"]
    assert f"nitrogen: up to {high:.3f} (likely 0.050) mg/L" in reading


def test_an_inflow_that_is_not_said_to_be_a_spring_stops_and_that_is_said() -> None:
    """The safe side, and how to say otherwise."""
    said = "Taken as pumped: no new water in a power cut; say --inflow-by-gravity"
    assert said in run(COMMANDS["outage"])
    assert said not in run(f"{COMMANDS['outage']} --inflow-by-gravity")
    assert said not in run(COMMANDS["outage"].replace("--inflow 60", "--inflow 0"))


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("growth perch --sample x --temp 9", "--sample"),
        ("growth perch --sample today=5 --temp 9", "2026-05-02"),
        ("growth perch --sample 2026-05-01=50", "--monthly or --wave"),
        ("growth perch --sample 2026-05-01=50 --monthly 1,2", "--monthly"),
        ("growth perch --sample 2026-05-01=50 --wave a,b,c", "--wave"),
        (f"harvest perch {SAMPLES} --count 9 --take 2026-05-01", "--take"),
        (f"outage perch {UNIT} --oxygen 9 --cause storm", "power, pump, blower"),
        ("feed unicorn --mean-weight 9 --temp 9 --biomass 9", "unicorn"),
        ("feed perch --mean-weight 9 --temp 90 --biomass 9", "water temperature"),
        (
            "conversion --feed 1 --start 30 --end 31",
            "not significantly different from zero",
        ),
        ("growth perch --sample 2026-05-01=nan --temp 9", "mean weight"),
        ("growth perch --sample 2026-05-01=50/nan --temp 9", "standard error"),
        ("growth perch --sample 2026-05-01=50 --temp nan", "--temp nan"),
        ("growth perch --sample 2026-05-01=50 --temp 9 --wave 9,5,205", "--temp"),
        ("growth perch --sample 2026-05-01=50 --wave 9,5,inf", "--wave"),
        ("growth perch --sample 2026-05-01=50 --wave 9,-5,205", "amplitude"),
        ("growth perch --sample 2026-05-01=50 --monthly " + "99," * 11 + "9", "99 °C"),
        (f"harvest perch {SAMPLES} --count 9 --take 2026-01-01=1", "--take"),
        (f"harvest perch {SAMPLES} --count 9 --take 2026-05-01=1 --cv inf", "--cv"),
        (f"harvest perch {SAMPLES} --count 9", "--weekly size"),
        (f"{WEEKLY} --weekly 9 --take 2026-05-01=1", "beside --weekly"),
        (f"{WEEKLY} --weekly some --until 2026-06-01", "20kg, or size"),
        (f"{WEEKLY} --weekly 0kg --until 2026-06-01", "at least 0.001 kg"),
        (f"{WEEKLY} --weekly size", "--until 2026-10-31"),
        (f"{WEEKLY} --weekly size --until 2026-06-01 --size 0", "at least 0.1 g"),
        (f"growth perch {SAMPLES} --size 0", "at least 0.1 g"),
        (f"{WEEKLY} --weekly size --until 2026-04-01", "from 2026-05-01 on"),
        (f"{WEEKLY} --weekly 9 --until 2026-06-01 --from 2026-01-01", "last sample"),
        ("feed perch --mean-weight 9 --temp 9 --biomass nan", "--biomass nan"),
        ("feed perch --mean-weight 9 --temp 9 --biomass -9", "biomass"),
        ("feed perch --mean-weight 9 --temp 9 --biomass 9 --biomass-error -9", "error"),
        (f"oxygen perch {UNIT} --water-use nan", "--water-use nan"),
        (f"oxygen perch {UNIT} --inflow-do 900", "--inflow-do must be 40 or less"),
        (f"oxygen perch {UNIT} --volume -6", "--volume must be 0.001 or more"),
        (f"outage perch {UNIT} --oxygen 9 --chart outage.xyz", ".png, .svg or .pdf"),
        (f"outage perch {UNIT} --oxygen 9 --chart /dev/null/a.png", "written"),
        (f"stocking perch {UNIT} --density -5", "--density must be 0.1 or more"),
        (f"stocking perch {UNIT} --json", "a value after --json"),
        (f"oxygen perch {UNIT} --json --fasted", "--fasted is no file for results"),
    ],
)
def test_bad_input_is_one_clear_line_and_status_2(
    words: str,
    said: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """No traceback; what is wrong and how to write it."""
    monkeypatch.setattr(sys, "argv", ["fishmeasure", *words.split()])
    with pytest.raises(SystemExit) as caught:
        cli.main()
    assert caught.value.code == cli.output.STATUS_UNUSABLE_INPUT
    shown = capsys.readouterr().err
    assert said in shown
    assert shown.count("\n") == 1


@pytest.mark.parametrize(
    ("estimate", "shown"),
    [
        (exact(12.5), "12.5"),
        (exact(0.0), "0"),
        (lognormal(1234.0, 0.1), "1230 (1050 to 1450)"),
        (Estimate(value=0.4, sd=0.2, low=0.00004, high=0.8), "0.400 (0.000 to 0.800)"),
    ],
)
def test_figures_keep_one_number_of_decimals(estimate: Estimate, shown: str) -> None:
    """Ends have the decimals of their figure."""
    assert span(estimate) == shown


def test_numbers_are_never_powers_of_ten() -> None:
    """Neither large nor small."""
    assert number(1234567.0) == "1230000"
    assert number(0.000012345) == "0.0000123"


def test_plain_passes_what_json_knows() -> None:
    """Words, numbers and nothing stay as they are."""
    given: list[Any] = [1, "a", None, True, (2.0, exact(1.0))]
    assert plain(given)[:4] == [1, "a", None, True]
    assert plain(given)[4][1]["value"] == 1.0
