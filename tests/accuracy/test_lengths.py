"""Floors of the length error on the rendered sample images; see lengths.py."""

import pytest

from tests.accuracy import lengths

pytestmark = [pytest.mark.accuracy, pytest.mark.slow]


@pytest.fixture(scope="module")
def sheet_cases() -> list[lengths.Case]:
    """Return the photos measured by four markers."""
    found = lengths.cases([lengths.SAMPLE_IMAGES])
    return [case for case in found if len(case.plane.marker_ids) == 4]


def figures(cases: list[lengths.Case], outlines: str) -> dict[str, float]:
    make = lengths.found_by(outlines)
    return lengths.figures([lengths.tally(case, make(case)) for case in cases])


def test_lengths_from_true_outlines(sheet_cases: list[lengths.Case]) -> None:
    """The project's target for a whole fish and four markers: 1 % and 0.3 %.

    2.5 % for one in twenty (design of the measurement, "ambitious, honest target").
    """
    found = figures(sheet_cases, "true")
    assert found["recall"] == 1.0
    assert found["mape"] <= 1.0
    assert abs(found["bias"]) <= 0.3
    assert found["p95"] <= 2.5


def test_lengths_from_boards(sheet_cases: list[lengths.Case]) -> None:
    """The classical method: no false fish and the same error.

    It meets 98 % recall only where fish do not lie on white paper; 94 % is its floor.
    """
    found = figures(sheet_cases, "boards")
    assert found["false"] == 0
    assert found["recall"] >= 0.94
    assert found["mape"] <= 1.0
    assert abs(found["bias"]) <= 0.3


def test_errors_are_as_large_as_said(sheet_cases: list[lengths.Case]) -> None:
    """Scores against the stated error: not above one, or the intervals lie."""
    assert figures(sheet_cases, "boards")["z_sd"] <= 1.0
