"""A fast case of ``tests.accuracy.asking``: slips are asked, right entries are not."""

import numpy as np
import pytest

from fishmeasure.book.entries import Counted, Entry, Harvested, Sample
from tests.accuracy.asking import GROSS, Stock, asked, stock
from tests.accuracy.histories import CASES


@pytest.fixture(scope="module")
def steady() -> Stock:
    """Return one history whose truth is not drawn from the book's priors."""
    return stock(CASES[0], 77)


@pytest.mark.parametrize("kind", [Sample, Counted, Harvested])
def test_the_last_right_entry_is_stored_unasked(
    steady: Stock, kind: type[Entry]
) -> None:
    """Nobody is asked about what is likely."""
    place = max(n for n, e in enumerate(steady.entries) if type(e) is kind)
    assert asked(steady, place, steady.entries[place]) is None


@pytest.mark.parametrize(
    "name",
    [
        "ten times, counted fish_count",
        "grams for kilograms, sample",
        "pounds for kilograms, sample",
        "more out than in, harvested",
    ],
)
def test_a_gross_slip_is_asked(steady: Stock, name: str) -> None:
    """The same entry with the slip in it."""
    kind, slip = next((kind, slip) for said, kind, slip in GROSS if said == name)
    place = max(n for n, e in enumerate(steady.entries) if type(e) is kind)
    wrong = slip(steady.entries[place], np.random.default_rng(1))
    assert wrong is not None
    assert asked(steady, place, wrong) is not None
