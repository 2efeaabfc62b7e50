"""What the water says heads the outlook and gates it; every problem reaches its top."""

import dataclasses
import io
from dataclasses import replace
from typing import Any

import pypdfium2
import pytest

from fishmeasure.base.flags import Problem
from fishmeasure.base.record import plain
from fishmeasure.book.entries import Entry, Sample, Stocked, WaterReading
from fishmeasure.outlook import feed, fish, load, now, outage
from fishmeasure.outlook.collect import SEVERITY, collected, problems_in
from fishmeasure.outlook.unit import UnitOutlook, unit_outlook
from fishmeasure.render.now_words import head
from fishmeasure.render.outlook_pdf import outlook_pdf
from fishmeasure.render.outlook_words import sections
from tests.book.build import cohort, day, entry_about, same, tank

TROUT = cohort("trout", id=same(11), plate_weight_g=250.0)
TANK = tank("Tank", id=same(1), inflow_l_per_min=90.0)
BAD = {
    "temperature_deg_c": 14.0,
    "do_mg_per_l": 2.5,
    "ph": 8.3,
    "tan_mg_per_l": 4.0,
    "nitrate_n_mg_per_l": 3.0,
}
GOOD = {"temperature_deg_c": 12.0, "do_mg_per_l": 9.0}


def outlook(
    *more: Entry, fish: Any = TROUT, unit: Any = TANK, **read: float
) -> UnitOutlook:
    """Return the outlook of 100 fish of 100 g whose water was read on the day."""
    entries = [
        entry_about(
            unit,
            fish,
            Stocked,
            0,
            fish_count=100,
            fish_count_sd=0.0,
            mean_weight_g=100.0,
        ),
        entry_about(
            unit,
            fish,
            Sample,
            10,
            mean_weight_g=110.0,
            mean_weight_low_g=100.0,
            mean_weight_high_g=120.0,
            cv=0.4,
            condition_factor=1.3,
        ),
    ]
    if read:
        entries.append(entry_about(unit, fish, WaterReading, 10, **read))
    return unit_outlook(
        (unit,), (fish,), (*entries, *more), unit_id=unit.id, on=day(10)
    )


def text_of(found: UnitOutlook) -> str:
    """Return the text of the page on paper."""
    (page,) = pypdfium2.PdfDocument(io.BytesIO(outlook_pdf(found)))
    text: str = page.get_textpage().get_text_range()
    return " ".join(text.split())


def words_of(found: UnitOutlook) -> str:
    """Return the head and the sections as the terminal has them."""
    first = head(found)
    lines = [first.headline, first.do_now, *first.lines, *first.warnings]
    lines += [line for section in sections(found) for line in section.lines]
    return "\n".join(lines)


# --- the gate -----------------------------------------------------------------------


def test_lethal_water_stops_feed_room_and_grading() -> None:
    """DO 2.5, TAN 4, pH 8.3, 14 °C: act, no ration, no room, nothing handled."""
    found = outlook(**BAD)
    assert found.now.verdict == "act"
    for figure in (found.ration_kg, found.room_kg):
        assert figure is not None
        assert (figure.value, figure.low, figure.high) == (0.0, 0.0, 0.0)
    assert found.feeding is not None
    assert found.feeding.today_kg.high == found.feeding.week_kg.high == 0.0
    assert {d.feed_kg.high for plan in found.feeding.plans for d in plan.days} == {0.0}
    assert found.limits is not None
    assert found.limits.ahead.fingerlings == 0
    assert found.limits.load.room_kg <= 0.0
    (item,) = found.cohorts
    assert item.grading is not None
    assert not item.grading.advised
    words = words_of(found)
    assert words.startswith("Act now. Oxygen is 2.5 mg/L")
    assert "No feed before the water is better (oxygen, see above)." in words
    assert "Add no fish before the water is better (oxygen, see above)." in words
    assert "Do not net, sample, grade or move fish before the water is" in words
    for silly in ("may be added", "must have gone", "surely carries", "worth while"):
        assert silly not in words


def test_good_water_gates_nothing() -> None:
    """The same fish at 9 mg/L have a ration, room, and are worth grading."""
    found = outlook(**GOOD)
    assert found.now.verdict == "good"
    assert found.feeding is not None
    assert found.ration_kg == found.feeding.today_kg
    assert found.ration_kg is not None
    assert found.ration_kg.low > 0.0
    assert found.room_kg is not None
    assert found.limits is not None
    assert found.room_kg.value == max(0.0, found.limits.load.room_kg)
    assert found.room_kg.low <= found.room_kg.value <= found.room_kg.high
    (item,) = found.cohorts
    assert item.grading is not None
    assert item.grading.advised
    assert "Ammonia not judged" in words_of(found)


def test_no_reading_asks_for_one_before_fish_are_added() -> None:
    """What is planned stands, and says so."""
    found = outlook()
    assert found.now.verdict == "unknown"
    words = words_of(found)
    assert words.startswith("The water is not known. Oxygen was never read.")
    assert "add none before temperature and oxygen were read" in words


def test_a_species_without_figures_of_growth_has_no_ration_in_bad_water() -> None:
    """Tench: nothing else is known of them, but that they must not be fed."""
    found = outlook(
        fish=cohort("tench", id=same(11), species_key="tench"),
        temperature_deg_c=20.0,
        do_mg_per_l=0.8,
    )
    assert found.feeding is None
    assert found.ration_kg == found.room_kg == now.NOTHING
    assert "No feed before" in words_of(found)
    well = outlook(
        fish=cohort("tench", id=same(11), species_key="tench"),
        temperature_deg_c=20.0,
        do_mg_per_l=8.0,
    )
    assert well.ration_kg is well.room_kg is None


def test_room_is_not_known_beside_fish_of_unknown_weight() -> None:
    """They use water, oxygen and all else too."""
    other = cohort("other", id=same(12))
    stocked = entry_about(TANK, other, Stocked, 1, fish_count=50)
    found = unit_outlook(
        (TANK,),
        (TROUT, other),
        (
            entry_about(TANK, TROUT, Stocked, 0, fish_count=100, mean_weight_g=100.0),
            stocked,
            entry_about(TANK, TROUT, WaterReading, 10, **GOOD),
        ),
        unit_id=TANK.id,
        on=day(10),
    )
    assert found.room_kg is None


def test_a_units_own_critical_oxygen_is_obeyed() -> None:
    """6.5 mg/L where the grower wants no less than 7."""
    own = replace(TANK, limits=replace(TANK.limits, critical_do_mg_per_l=7.0))
    found = outlook(unit=own, temperature_deg_c=12.0, do_mg_per_l=6.5)
    assert found.now.verdict == "act"
    assert "this unit" in str(found.now.headline)


def test_a_closed_loop_without_ammonia_is_not_known() -> None:
    """In flow-through water the same is good."""
    loop = replace(TANK, recirculated_l_per_min=50.0)
    assert outlook(unit=loop, **GOOD).now.verdict == "unknown"
    assert outlook(**GOOD).now.verdict == "good"


# --- one collector ------------------------------------------------------------------


def test_the_paper_has_the_sentence_first() -> None:
    """After the title, before the questions."""
    text = text_of(outlook(**BAD))
    assert text.index("Act now. Oxygen is 2.5 mg/L") < text.index("1 How heavy")


def results(found: UnitOutlook) -> list[str]:
    """Return the names of all records of an outlook that have a field for problems."""
    names: set[str] = set()

    def walk(record: Any) -> None:
        if dataclasses.is_dataclass(record) and not isinstance(record, type):
            for field in dataclasses.fields(record):
                if field.name == "problems" and record is not found:
                    names.add(type(record).__name__)
                walk(getattr(record, field.name))
        elif isinstance(record, tuple | list):
            for item in record:
                walk(item)

    walk(found)
    return sorted(names)


def marked(record: Any) -> Any:
    """Return a copy in which every result has a problem named after its record."""
    if isinstance(record, Problem):
        return record
    if dataclasses.is_dataclass(record) and not isinstance(record, type):
        changes = {
            field.name: marked(getattr(record, field.name))
            for field in dataclasses.fields(record)
            if field.name != "problems"
        }
        if "problems" in record.__dataclass_fields__:
            name = type(record).__name__
            changes["problems"] = (Problem(code="test", message=f"Trouble of {name}."),)
        return replace(record, **changes)
    if isinstance(record, tuple):
        return tuple(marked(item) for item in record)
    return record


def test_every_calculations_problem_reaches_the_top_on_every_surface(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """One is planted in each result; none is lost, and none is there twice."""
    plain_outlook = outlook(**BAD)
    names = results(plain_outlook)
    assert {"UnitLoad", "FeedPlan", "OutageResult", "AmmoniaReading"} <= set(names)
    steps = {
        "feeding": feed,
        "limits": load,
        "outages": outage,
        "cohort_outlook": fish,
    }
    for step, place in steps.items():
        real = getattr(place, step)
        monkeypatch.setattr(
            place,
            step,
            lambda *args, real=real: marked(real(*args)),
        )
    found = outlook(**BAD)
    paper, words = text_of(found), words_of(found)
    data = [problem["message"] for problem in plain(found)["problems"]]
    assert "UnitLoad" in names
    for name in set(names) - {"UnitState", "CohortInUnit"}:
        sentence = f"Trouble of {name}."
        assert words.count(sentence) == 1
        assert paper.count(sentence) == 1
        assert data.count(sentence) == 1


def test_the_collector_finds_what_is_nested_anywhere() -> None:
    """In records, tuples, lists and dictionaries; each sentence once."""
    one, two = Problem(code="a", message="One."), Problem(code="b", message="Two.")
    nested = ({"x": [one]}, (two, one), None, 3.0)
    assert list(problems_in(nested)) == [one, two, one]
    assert collected(nested, {}) == (one, two)


def test_the_worst_problem_comes_first() -> None:
    """Fish that suffer now, then limits passed, then doubts."""
    codes = [problem.code for problem in outlook(**BAD).problems]
    assert codes[:3] == ["oxygen-low", "ammonia-high", "ammonia-over-limit"]
    doubt = Problem(code="outside-source-range", message="A rough guide.")
    strange = Problem(code="never-heard-of", message="Something.")
    near = Problem(code="near-limit", message="Near.")
    watch = Problem(code="oxygen-low", message="Watch.")
    wanted = (watch, near, strange, doubt)
    assert collected(reversed(wanted), {watch: "watch"}) == wanted


def test_no_code_ranks_twice() -> None:
    """Else its rank would hang on the order of a table."""
    listed = [code for codes in SEVERITY for code in codes]
    assert len(listed) == len(set(listed))
