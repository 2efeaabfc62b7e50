"""Species, calibration pages and lens profiles over HTTP."""

import io
import json

import pypdfium2
import pytest
from starlette.testclient import TestClient

from fishmeasure.base.errors import LensFileError
from fishmeasure.photo.lens import read_lens
from fishmeasure.species import species_keys


def test_every_species_is_listed_with_its_sources(client: TestClient) -> None:
    """The list has them all; one has its coefficients' source."""
    listed = client.get("/v1/species").json()["items"]
    assert tuple(item["key"] for item in listed) == species_keys()
    trout = client.get("/v1/species/rainbow-trout").json()
    assert trout["length_weight"]["source"]
    assert trout["growth"]["tgc_x1000"]["status"] == "computed"
    assert trout["photos"]["real_count"] == 0
    assert client.get("/v1/species/tench").json()["growth"] is None
    assert client.get("/v1/species/unicorn").status_code == 404


@pytest.mark.parametrize(
    ("paper", "size_mm"),
    # ISO 216 (A4, A3) and ANSI/ASME Y14.1 size A (Letter), landscape
    [("A4", (297, 210)), ("A3", (420, 297)), ("Letter", (279.4, 215.9))],
)
def test_the_sheet_has_its_papers_size(
    client: TestClient, paper: str, size_mm: tuple[float, float]
) -> None:
    """The PDF's page is the paper's standard size, to 0.1 mm."""
    answer = client.get("/v1/sheets/sheet.pdf", params={"paper": paper})
    page = pypdfium2.PdfDocument(io.BytesIO(answer.content))[0]
    points = page.get_size()
    assert [p / 72 * 25.4 for p in points] == pytest.approx(size_mm, abs=0.1)


def test_every_listed_page_can_be_had(client: TestClient) -> None:
    """And no other."""
    for facts in client.get("/v1/sheets").json()["items"]:
        answer = client.get(f"/v1/sheets/{facts['kind']}.pdf")
        assert answer.headers["content-type"] == "application/pdf"
    assert client.get("/v1/sheets/poster.pdf").status_code == 404


def test_a_lens_profile_is_kept(client: TestClient) -> None:
    """It comes back as it was sent, and the list has it."""
    sent = {
        "camera_model": "Invented Phone",
        "focal_fraction": 0.62,
        "focal_relative_sd": 0.002,
        "k1": -0.03,
        "k1_sd": 0.002,
    }
    kept = client.put("/v1/lenses/my_phone", json=sent).json()
    assert kept == {**sent, "name": "my_phone", "photo_count": 0, "rms_px": 0.0}
    assert client.get("/v1/lenses/my_phone").json() == kept
    assert kept in client.get("/v1/lenses").json()["items"]


@pytest.mark.parametrize("name", ["..%2Fbook", ".hidden", "a b", "x" * 61])
def test_a_lens_name_leads_nowhere_else(client: TestClient, name: str) -> None:
    """Names are letters, digits, - and _."""
    assert client.get(f"/v1/lenses/{name}").status_code == 404


@pytest.mark.parametrize(
    "field", ["focal_fraction", "focal_relative_sd", "k1", "k1_sd", "rms_px"]
)
def test_a_profile_that_the_command_line_refuses_is_refused(
    client: TestClient, field: str
) -> None:
    """`read_lens` and the API have one idea of what a lens can be."""
    lens = {
        "camera_model": "",
        "focal_fraction": 0.62,
        "focal_relative_sd": 0.002,
        "k1": -0.03,
        "k1_sd": 0.002,
        field: 1e6,
    }
    with pytest.raises(LensFileError):
        read_lens(json.dumps({"name": "odd", **lens}), "odd.json")
    assert client.put("/v1/lenses/odd", json=lens).status_code == 422
