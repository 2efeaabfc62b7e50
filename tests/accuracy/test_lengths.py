"""Floors of the length error on the rendered sample images; see lengths.py.

Targets: 98 % found, mean absolute error 1 %, bias 0.3 %, one in twenty beyond 2.5 %,
no false fish, on clean boards with four markers.
"""

import pytest

from tests.accuracy import lengths

pytestmark = pytest.mark.accuracy

RECALL = {"true": 1.0, "learned": 0.98}


@pytest.fixture(scope="module")
def clean_cases() -> list[lengths.Case]:
    """Return the photos with four markers and no fish that touch or are hidden."""
    return [
        case
        for case in lengths.cases([lengths.SAMPLE_IMAGES])
        if len(case.plane.marker_ids) == 4
        and all(fish["occluded_fraction"] == 0.0 for fish in case.truth["fish"])
        and "touching" not in case.truth["tags"]
    ]


@pytest.mark.parametrize("outlines", RECALL)
def test_lengths_of_fish_on_clean_boards(
    clean_cases: list[lengths.Case], outlines: str
) -> None:
    """Truth of the scenes; scores above one would mean that intervals lie.

    How fish lie no photo tells: these lie limp, others stiff. So the bias is held to
    0.3 % with their true heights given, and without them to the error stated for that.
    """
    make = lengths.found_by(outlines)
    seen = [(case, make(case)) for case in clean_cases]
    found = lengths.figures([lengths.tally(case, fish) for case, fish in seen])
    assert found["false"] == 0
    assert found["recall"] >= RECALL[outlines]
    assert found["mape"] <= 1.0
    assert abs(found["bias"]) <= found["laid_sd"]
    assert found["p95"] <= 2.5
    assert found["z_sd"] <= 1.0
    known = [lengths.tally(case, fish, lengths.laid(case)) for case, fish in seen]
    told = lengths.figures(known)
    assert abs(told["bias"]) <= 0.3
    assert told["mape"] <= 0.5
