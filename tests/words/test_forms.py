"""How figures are written inside sentences, and how the page gets its messages."""

from typing import Any

import pytest
from babel import Locale

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.words import Message, Parameters
from fishmeasure.base.words.compiled import compiled, entry_of
from fishmeasure.base.words.functions import Functions, argument
from fishmeasure.base.words.units import UNITS

WORDS = {"list-or": "{first} or {last}", "span": "{value} ({low} to {high})"}
WORDS |= {"span-low": "{low} (likely {value})", "percent": "{value} %"}
WORDS |= {"percent-past-all": "over 999 %", "day-format": "yyyy-MM-dd"}


def lookup(name: str, **texts: str) -> str:
    return WORDS.get(name, name.removeprefix("unit-")).format(**texts)


def written(
    function: str, name: str, value: Any, locale: str = "en", **form: Any
) -> str:
    units: Any = form.pop("units", "metric")
    made = Functions(Locale.parse(locale), units, lookup).table()[function]
    given: Any = made
    return str(given(argument(name, value, str), **form))


BIOMASS = Estimate(value=212.4, sd=8.0, low=199.2, high=1225.0)


@pytest.mark.parametrize(
    ("value", "form", "text"),
    [
        (1234567.0, {}, "1234567"),
        (0.00001234, {}, "0.00001234"),
        (212.0, {}, "212"),
        (0.25, {"decimals": 1}, "0.2"),
        (1.25, {"decimals": 0}, "1"),
        (0.0012345, {"digits": 3}, "0.00123"),
        (123456.0, {"digits": 3}, "123000"),
        (-0.04, {"decimals": 1}, "0.0"),
        (BIOMASS, {"digits": 3}, "212 (199 to 1225)"),
        (BIOMASS, {"decimals": 1, "end": "low"}, "199.2 (likely 212.4)"),
    ],
)
def test_numbers_are_rounded_and_never_powers_of_ten(
    value: Any, form: dict[str, Any], text: str
) -> None:
    """Half to even, as IEEE 754 has it and Python does; no zero has a sign."""
    assert written("NUMBER", "x", value, **form) == text


def test_an_amount_has_the_unit_of_its_name() -> None:
    """International pound: 0.45359237 kg; water freezes at 32 °F, boils at 212 °F."""
    assert written("AMOUNT", "x_kg", 45.359237, decimals=1) == "45.4 kg"
    us: dict[str, Any] = {"units": "us", "decimals": 1}
    assert written("AMOUNT", "x_kg", 45.359237, **us) == "100.0 lb"
    assert written("AMOUNT", "x_deg_c", 100.0, **us) == "212.0 deg-f"
    assert written("AMOUNT", "x_deg_c", 0, **us) == "32.0 deg-f"
    assert written("AMOUNT", "sd_deg_c", 3.0, **us) == "5.4 deg-f"  # no 32 degrees more
    assert written("AMOUNT", "x_mm", 254.0, **us) == "10.000 in"
    assert written("AMOUNT", "x_l_per_min", 3.785411784, **us) == "1.00 gal-per-min"
    assert written("AMOUNT", "x_mg_per_l", 6.0, **us) == "6.0 mg-per-l"
    assert written("AMOUNT", "x_g", 28.349523125, **us) == "1.00 oz"
    with pytest.raises(ValueError, match="no unit"):
        written("AMOUNT", "x", 1.0)


def test_a_longer_unit_goes_before_its_own_end() -> None:
    """kg per m3 is not m3, g per h not h: the table's order tells."""
    names = list(UNITS)
    for at, longer in enumerate(names):
        assert not any(longer.endswith(shorter) for shorter in names[:at]), longer


def test_shares_days_and_lists() -> None:
    assert written("PERCENT", "share", 0.934) == "93 %"
    assert written("PERCENT", "share", 12.0) == "over 999 %"
    assert written("PERCENT", "share", 0.0625, "de", decimals=1) == "6,2 %"
    assert written("DAY", "on", "2026-05-02") == "2026-05-02"
    assert written("LIST", "names", ("a", "b", "c")) == "a, b, c"
    assert written("LIST", "names", ("a", "b", "c"), last="or") == "a, b or c"
    assert written("LIST", "names", ("a",), last="or") == "a"
    assert written("STOP", "reason", "it is torn") == "it is torn."
    assert written("STOP", "reason", "Is it?") == "Is it?"
    assert written("QUOTED", "name", "a\nb") == r"'a\nb'"
    assert written("SHELL", "name", "Tank A", key="name") == '"name=Tank A"'


def test_parameters_go_to_json_and_back() -> None:
    """Also a figure with its interval, and a message inside a message."""
    inner = Message.of("no-marker", name="a.jpg")
    given = Parameters({"reason": inner, "x_kg": BIOMASS, "names": ("a", 1), "n": 3})
    assert Parameters(given.as_plain()) == given
    assert hash(Parameters(given.as_plain())) == hash(given)
    with pytest.raises(TypeError, match="no sentence can hold"):
        Parameters({"x": object()})


def test_a_page_gets_its_messages_as_json() -> None:
    """All whose ids begin so, with texts, figures, choices and what they refer to."""
    assert entry_of("markers-disagree")["value"] == [
        "The markers in ",
        {"var": "name"},
        " do not fit one flat plane (off by ",
        {"call": "AMOUNT", "args": [{"var": "rms_mm"}], "named": {"decimals": 1}},
        ").",
    ]
    [chosen] = entry_of("book-in-use")["value"]
    assert chosen["select"] == {"var": "case"}
    assert chosen["default"] == "restore"
    assert set(chosen["variants"]) == {"server", "restore"}
    assert set(compiled("book-f")) == {"book-full", "book-write"}
    assert compiled("book-f")["book-full"]["attributes"]["advice"] == [
        {"message": "book-write", "attribute": "advice"}
    ]
