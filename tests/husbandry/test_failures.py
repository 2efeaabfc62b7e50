"""What can stop in a unit, backup that runs out, and air as people buy it."""

import json
import math
from dataclasses import replace
from typing import Any

import pytest
from typer.testing import CliRunner

from fishmeasure import cli
from fishmeasure.base.errors import BadFieldError
from fishmeasure.base.estimate import Estimate
from fishmeasure.husbandry.failures import failures_of
from fishmeasure.husbandry.outage import OutageResult, outage, outages
from fishmeasure.husbandry.outage_fall import HORIZON_MIN, OutageCase
from fishmeasure.husbandry.outage_measures import TimeToLevel, levels_of
from fishmeasure.husbandry.outage_words import measure_line, outage_lines, time_line
from fishmeasure.husbandry.oxygen_supply import aerator_supply
from fishmeasure.husbandry.propagation import exact
from fishmeasure.husbandry.saturation import Water
from fishmeasure.husbandry.sources import OxygenSource, source_of
from fishmeasure.husbandry.transfer import gas_transfer, paddlewheel_transfer
from fishmeasure.husbandry.unit import Aerator, RearingUnit

AIR = Aerator(name="blower", standard_transfer_g_per_h=100.0)
OXYGEN = Aerator(name="cone", standard_transfer_g_per_h=200.0, kind="oxygen")
STILL = RearingUnit(volume_m3=6.0)
RACEWAY = replace(STILL, inflow_l_per_min=300.0, inflow_by_gravity=True)


@pytest.mark.parametrize(
    ("unit", "causes"),
    [
        (STILL, []),
        (RACEWAY, ["intake"]),
        (replace(RACEWAY, inflow_by_gravity=False), ["power", "pump", "intake"]),
        (replace(STILL, aeration=(AIR,)), ["power", "blower"]),
        (
            replace(STILL, aeration=(AIR,), recirculated_l_per_min=37.0),
            ["power", "pump", "blower"],
        ),
        (
            replace(STILL, aeration=(AIR, replace(AIR, name="second"))),
            ["power", "blower", "device", "device"],
        ),
        (replace(RACEWAY, aeration=(OXYGEN,)), ["power", "intake", "oxygen"]),
        (replace(RACEWAY, aeration=(replace(OXYGEN, standby=True),)), ["intake"]),
    ],
)
def test_only_what_the_unit_has_can_stop(unit: RearingUnit, causes: list[str]) -> None:
    """No pump where none lifts the water, no power cut where nothing needs power."""
    assert [failure.cause for failure in failures_of(unit)] == causes


def case_of(unit: RearingUnit, biomass_kg: float = 90.0) -> OutageCase:
    return OutageCase(
        unit=unit,
        species_key="rainbow-trout",
        biomass_kg=exact(biomass_kg),
        mean_weight_g=250.0,
        temperature_deg_c=12.0,
        start_do_mg_per_l=exact(9.0),
    )


def critical(result: OutageResult) -> float:
    return result.to_critical.minutes.value


def test_a_blocked_intake_of_a_spring_leaves_the_time_of_still_water() -> None:
    """A raceway of the same fish and water without any inflow lasts as long."""
    (blocked,) = outages(case_of(RACEWAY))
    assert blocked.case.cause == "intake"
    assert critical(blocked) == pytest.approx(critical(outage(case_of(STILL))))
    assert critical(blocked) < 180.0


def test_one_of_two_alone_leaves_the_other() -> None:
    """All aerators at once leave less time than either of them alone."""
    unit = replace(STILL, aeration=(AIR, replace(AIR, name="second")))
    found = outages(case_of(unit, biomass_kg=400.0))
    times = {(r.case.cause, r.case.device): critical(r) for r in found}
    assert times["device", "blower"] == times["device", "second"]
    assert times["blower", ""] < times["device", "blower"] < HORIZON_MIN
    lines = outage_lines(found)
    assert lines[0].startswith("Power cut; or all aerators stop: caution (")
    assert lines[1].startswith("Blower alone stops; or second alone stops: ")


@pytest.mark.parametrize(
    ("low", "likely", "high", "words"),
    [
        (0.0, 6.0, 70.0, "perhaps at once (likely 6 min, at most 1 h 10 min)"),
        (0.0, HORIZON_MIN, HORIZON_MIN, "perhaps at once (likely not within 24 h)"),
        (
            70.0,
            HORIZON_MIN,
            HORIZON_MIN,
            "after 1 h 10 min at the soonest (likely not within 24 h)",
        ),
    ],
)
def test_times_are_said_as_people_say_them(
    low: float, likely: float, high: float, words: str
) -> None:
    """Nobody says "after 0 min at the soonest"."""
    minutes = Estimate(value=likely, sd=1.0, low=low, high=high)
    time = TimeToLevel(level_mg_per_l=3.0, minutes=minutes, reached_fraction=1.0)
    assert time_line(time) == words


@pytest.mark.parametrize(
    ("own", "levels"),
    [
        ({"critical_mg_per_l": 6.0}, (6.0, 6.0)),  # above the species' caution of 5
        ({"caution_mg_per_l": 1.0}, (3.0, 3.0)),  # below its critical 3
        ({"caution_mg_per_l": 6.0}, (6.0, 3.0)),
    ],
)
def test_caution_never_comes_after_critical(
    own: dict[str, Any], levels: tuple[float, float]
) -> None:
    """A unit may set one of the two alone."""
    case = replace(case_of(RACEWAY), **own)
    assert levels_of(case) == levels


def test_backup_runs_out_and_the_fall_goes_on() -> None:
    """A battery that holds the level for 5 h buys 5 h and the fall that follows.

    Sum: without air 9 mg/L fall to 3 in t = V x 6 / use. With a blower that brings as
    much as the fish use at 9 mg/L, the oxygen stays at 9 for the 5 h; then it falls
    for t. So the time gained is 5 h, whatever t is.
    """
    plain = outage(case_of(STILL))
    use_g_per_h = 6.0 * 6.0 / (critical(plain) / 60.0)
    water = Water(temperature_deg_c=12.0)
    each = aerator_supply(source_of(AIR), water).at_g_per_h(9.0).value
    holding = replace(
        AIR,
        name="battery air",
        standard_transfer_g_per_h=100.0 * use_g_per_h / each,
        standby=True,
        backup_hours=5.0,
    )
    found = outage(case_of(replace(STILL, aeration=(holding,))))
    measure = next(m for m in found.measures if str(m.name) == "battery air")
    assert measure.gained_min is not None
    assert measure.gained_min.value == pytest.approx(300.0, abs=0.01)
    assert "its battery lasts 5 h" in measure_line(measure)
    endless = replace(holding, backup_hours=None)
    found = outage(case_of(replace(STILL, aeration=(endless,))))
    measure = next(m for m in found.measures if str(m.name) == "battery air")
    assert measure.gained_min is None
    assert measure.sure_min == 0.0
    assert "not entered" in measure_line(measure)


def test_two_backups_are_spent_one_after_the_other() -> None:
    """Together they gain more than each, and less than the sum of their hours more."""
    small = Aerator(
        name="first", standard_transfer_g_per_h=20.0, standby=True, backup_hours=2.0
    )
    # 80 Wh at 12 W: half to nine tenths of 6 h 40 min
    other = replace(
        small, name="second", backup_hours=None, capacity_wh=80.0, power_w=12.0
    )
    unit = replace(STILL, aeration=(small, other))
    gains = {
        str(m.name): m.gained_min.value
        for m in outage(case_of(unit)).measures
        if m.gained_min is not None
    }
    assert gains["first"] < gains["first and second"]
    assert gains["second"] < gains["first and second"] < 480.0


def test_a_battery_does_not_mend_a_broken_blower() -> None:
    """Backup counts in a power cut alone; what stands by counts always."""
    kept = replace(AIR, on_backup=True, backup_hours=5.0)
    found = {
        r.case.cause: r for r in outages(case_of(replace(STILL, aeration=(kept,))))
    }
    assert "blower" in {str(m.name) for m in found["power"].measures}
    assert "blower" not in {str(m.name) for m in found["blower"].measures}


# --- air as people buy it ---------------------------------------------------------


def test_litres_of_air_at_a_depth() -> None:
    """40 L/min through an air stone 1 m down, by hand.

    A litre of air at 20 °C weighs 1.204 g, of which 23.14 % by mass is oxygen: 0.2786
    g. 40 L/min are 2,400 L/h, so 668.7 g/h of oxygen go in. Coarse bubbles give 2 %
    of it to the water in a metre: 13.4 g/h; fine ones 5 %: 33.4 g/h.
    """
    sent = 40.0 * 60.0 * 1.204 * 0.2314
    for bubbles, percent in (("coarse", 2.0), ("medium", 3.3), ("fine", 5.0)):
        found = gas_transfer(l_per_min=40.0, depth_m=1.0, bubbles=bubbles)  # type: ignore[arg-type]
        assert found.g_per_h == pytest.approx(sent * percent / 100.0, rel=0.005)
    half = gas_transfer(l_per_min=40.0, depth_m=0.5, bubbles="coarse")
    assert half.g_per_h == pytest.approx(6.69, rel=0.005)


def test_coarse_air_at_a_metre_agrees_with_the_power_of_small_air_pumps() -> None:
    """Boyd 1998 (from memory): diffused air in ponds brings 0.7 to 1.2 kg/kWh.

    Ideal isothermal work on 40 L/min at 1 m of water and 0.1 bar of losses is
    101,325 Pa x 40/60,000 m3/s x ln(1 + 19,800/101,325) = 12.0 W; small blowers turn
    a third to a half of their power into that, so 24 to 36 W. 0.7 to 1.2 kg/kWh are
    then 17 to 43 g/h: between the coarse and the fine bubbles of the rule, or so.
    """
    work_w = 101_325.0 * 40.0 / 60_000.0 * math.log(1.0 + 19_800.0 / 101_325.0)
    assert work_w == pytest.approx(12.0, abs=0.1)
    coarse = gas_transfer(l_per_min=40.0, depth_m=1.0, bubbles="coarse").g_per_h
    fine = gas_transfer(l_per_min=40.0, depth_m=1.0, bubbles="fine").g_per_h
    assert coarse < 0.7 * 2.0 * work_w < fine < 1.2 * 3.0 * work_w


def test_pure_oxygen() -> None:
    """1 L/min of oxygen through fine bubbles 1 m down: 60 L/h x 1.331 g x 5 % = 4.0.

    In water at 9.09 mg/L air brings nothing more; oxygen, whose saturation is 9.09 /
    0.2095 = 43.4 mg/L, still brings 79 % of its standard rate.
    """
    found = gas_transfer(
        l_per_min=1.0, depth_m=1.0, bubbles="fine", pure_oxygen=True
    ).g_per_h
    assert found == pytest.approx(60.0 * 1.331 * 0.05, rel=0.001)
    clean = OxygenSource(
        name="feed", standard_transfer_g_per_h=100.0, alpha=1.0, beta=1.0
    )
    water = Water(temperature_deg_c=20.0)
    air = aerator_supply(clean, water).at_g_per_h(9.09).value
    pure = aerator_supply(replace(clean, drive="oxygen"), water).at_g_per_h(9.09).value
    assert air == pytest.approx(0.0, abs=0.1)
    assert pure == pytest.approx(79.0, abs=0.2)


def test_paddlewheel() -> None:
    """Ahmad & Boyd 1988: 7.5 kW brought 18.8 to 21.8 kg/h, more efficient than most.

    The rule's 2.2 kg/kWh (Boyd 1998, mean of all) gives 16.5: under them.
    """
    assert paddlewheel_transfer(power_w=7500.0).g_per_h == pytest.approx(16_500.0)


# --- the command ------------------------------------------------------------------


def run(words: str) -> str:
    result = CliRunner().invoke(cli.app, words.split())
    assert result.exit_code == 0, result.output
    return result.output


def test_the_command_asks_all_that_can_stop() -> None:
    """The same list, times and words as the outlook's."""
    words = (
        "outage rainbow-trout --mean-weight 250 --temp 12 --biomass 90 --volume 6 "
        "--oxygen 9 --inflow 300 --inflow-by-gravity --air 60 --air-depth 1"
    )
    shown = run(words)
    assert "Intake or screen blocked, or the supply cut: caution (" in shown
    assert "Power cut; or air pump stops: " in shown
    assert "from memory and not checked" in shown
    found = json.loads(run(f"{words} --json -"))
    assert [r["case"]["cause"] for r in found["outages"]] == [
        "intake",
        "power",
        "blower",
    ]
    one = json.loads(run(f"{words} --cause blower --json -"))
    assert [r["case"]["cause"] for r in one["outages"]] == ["blower"]


@pytest.mark.parametrize(
    ("figures", "lacks", "field"),
    [
        ({"capacity_wh": 500.0}, {"power_w": 100.0}, "power_w"),
        (
            {"cylinder_l": 7500.0, "diffuser_depth_m": 1.0},
            {"gas_l_per_min": 5.0},
            "gas_l_per_min",
        ),
        ({"gas_l_per_min": 40.0}, {"diffuser_depth_m": 1.0}, "diffuser_depth_m"),
        (
            {"gas_l_per_min": 40.0},
            {"standard_transfer_g_per_h": 50.0},
            "diffuser_depth_m",
        ),
    ],
)
def test_a_device_says_by_what_its_store_or_its_gas_counts(
    figures: dict[str, float], lacks: dict[str, float], field: str
) -> None:
    """A battery lasts by its power, a cylinder by its gas; gas goes by its depth."""
    plain: dict[str, Any] = {"name": "blower"} | figures
    with pytest.raises(BadFieldError, match=field):
        Aerator(**plain)
    Aerator(**(plain | lacks))
