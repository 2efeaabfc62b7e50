"""Numbers and weights as people of other countries type them."""

import pytest
from babel.numbers import format_decimal, get_decimal_symbol

from fishmeasure.base.errors import NoNumberError, UnclearNumberError
from fishmeasure.base.typed import decimal_mark, typed_number, typed_weight_g
from fishmeasure.base.words import Voice, speaking

# As Unicode's CLDR writes them, by Babel: a reference outside this program.
LOCALES = ("en_US", "de_DE", "de_CH", "de_AT", "es_ES", "es_MX", "fr_FR", "sv_SE", "pl")


@pytest.mark.parametrize("locale", LOCALES)
@pytest.mark.parametrize("number", [0.5, 12.5, 640, 1912.25, 18_790.5, 1_234_567.5])
def test_a_number_is_read_as_its_country_writes_it(locale: str, number: float) -> None:
    text = format_decimal(number, locale=locale)
    assert typed_number(text, get_decimal_symbol(locale)) == number


@pytest.mark.parametrize("text", ["1,250", "12,500", "-1,250"])
def test_three_digits_after_the_other_mark_are_asked(text: str) -> None:
    with pytest.raises(UnclearNumberError) as refused:
        typed_number(text, ".")
    assert text.replace(",", "") in refused.value.advice
    assert text.replace(",", ".") in refused.value.advice
    assert typed_number(text, ",") == float(text.replace(",", "."))


@pytest.mark.parametrize("text", ["0,125", "1,25", "1,2500", ",125", "1234,125"])
def test_what_can_only_be_decimals_is_not_asked(text: str) -> None:
    assert typed_number(text, ".") == float(text.replace(",", "."))


@pytest.mark.parametrize(
    "text", ["", "-", "a", "1.2.3", "1,2,3", "1e3", "nan", "inf", "12 kg", "1.234.56,7"]
)
def test_what_is_no_number_is_refused(text: str) -> None:
    with pytest.raises(NoNumberError):
        typed_number(text, ".")


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("1912", 1912.0),
        ("1.912 kg", 1912.0),
        ("1,5kg", 1500.0),
        # NIST Handbook 44, appendix C: 1 lb = 453.592 37 g = 16 oz.
        ("4 lb 3 oz", 67 * 453.592_37 / 16),
        ("4 lbs. 3 oz.", 67 * 453.592_37 / 16),
        ("2 lb", 907.184_74),
        ("8oz", 453.592_37 / 2),
    ],
)
def test_a_weight_is_read_with_its_units(text: str, grams: float) -> None:
    assert typed_weight_g(text, "g", ".") == pytest.approx(grams, rel=1e-12)


@pytest.mark.parametrize("text", ["4 3", "4 lb 3", "2 stone", "lb", "1912 g or so"])
def test_an_unknown_unit_is_refused(text: str) -> None:
    with pytest.raises(NoNumberError):
        typed_weight_g(text, "g", ".")


def test_a_number_alone_is_in_the_usual_unit() -> None:
    assert typed_weight_g("2", "lb", ".") == pytest.approx(907.184_74)


def test_the_mark_is_that_of_the_language() -> None:
    with speaking(Voice(language="en", teller="cli")):
        assert decimal_mark() == "."
