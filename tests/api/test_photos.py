"""Photos over HTTP: measured, kept once, corrected, shown."""

import io
from typing import Any

import pytest
from PIL import Image
from starlette.testclient import TestClient

from api.settings import Settings


def send(client: TestClient, data: bytes, name: str = "net.jpg") -> dict[str, Any]:
    answer = client.post("/v1/photos", files={"photos": (name, data, "image/jpeg")})
    assert answer.status_code == 200, answer.text
    item: dict[str, Any] = answer.json()["items"][0]
    return item


def uncorrected(client: TestClient, data: bytes) -> dict[str, Any]:
    url = f"/v1/photos/{send(client, data)['id']}"
    client.put(f"{url}/corrections", json={"corrections": []})
    photo: dict[str, Any] = client.get(url).json()
    return photo


def plain_jpeg(colour: str = "grey") -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (640, 480), colour).save(out, "JPEG")
    return out.getvalue()


def test_a_photo_is_measured_and_kept_once(
    client: TestClient, net_photo: bytes
) -> None:
    """The fish come back at once; the same file again is the same record."""
    first = send(client, net_photo)
    assert first["measurement"]["scale"]["method"] == "sheet"
    assert len(first["measurement"]["fish"]) >= 5
    again = send(client, net_photo, "another-name.jpg")
    assert again == first
    listed = client.get("/v1/photos").json()
    assert [photo["id"] for photo in listed["items"]].count(first["id"]) == 1


def test_a_photo_without_a_marker_says_so(client: TestClient) -> None:
    """It is kept, with the reason and no figures."""
    photo = send(client, plain_jpeg())
    assert photo["measurement"]["scale"] is None
    assert photo["measurement"]["problems"][0]["code"] == "no-marker"


@pytest.mark.parametrize(
    ("data", "status", "code"),
    [(b"no picture", 415, "not-an-image"), (b"", 415, "not-an-image")],
)
def test_what_is_no_photo_is_refused(
    client: TestClient, data: bytes, status: int, code: str
) -> None:
    """One body for every error, nothing kept."""
    before = client.get("/v1/photos").json()
    answer = client.post("/v1/photos", files={"photos": ("x.jpg", data)})
    assert (answer.status_code, answer.json()["code"]) == (status, code)
    assert answer.json()["advice"]
    assert client.get("/v1/photos").json() == before


def test_one_bad_photo_does_not_stop_the_others(
    client: TestClient, net_photo: bytes
) -> None:
    """Each file of an upload has its own outcome, in order."""
    answer = client.post(
        "/v1/photos",
        files=[("photos", ("a.jpg", b"bad")), ("photos", ("b.jpg", net_photo))],
    )
    refused, taken = answer.json()["items"]
    assert refused["error"]["code"] == "not-an-image"
    assert len(taken["measurement"]["fish"]) >= 5


def test_corrections_change_the_fish_and_can_be_taken_back(
    client: TestClient, net_photo: bytes
) -> None:
    """Drop one, add one by two points, then take both back."""
    photo = uncorrected(client, net_photo)
    fish = photo["measurement"]["fish"]
    url = f"/v1/photos/{photo['id']}/corrections"
    sent = {
        "corrections": [
            {"kind": "drop", "fish": 0},
            {
                "kind": "add",
                "snout_px": fish[1]["snout_px"],
                "fork_px": fish[1]["fork_px"],
            },
        ]
    }
    changed = client.put(url, json=sent).json()
    now = changed["measurement"]["fish"]
    assert not now[0]["complete"]
    assert "dropped" in now[0]["flags"]
    assert len(now) == len(fish) + 1
    # two taps on the ends of a straight fish: the same fish, to 3 %
    assert now[-1]["fork_length_mm"] == pytest.approx(
        fish[1]["fork_length_mm"], rel=0.03
    )
    back = client.put(url, json={"corrections": []}).json()
    assert back["measurement"]["fish"] == fish
    assert back["revision"] == photo["revision"] + 2


def test_a_stale_correction_is_refused(client: TestClient, net_photo: bytes) -> None:
    """Of two phones the second is told, by the entity tag."""
    photo = uncorrected(client, net_photo)
    url = f"/v1/photos/{photo['id']}"
    tag = client.get(url).headers["ETag"]
    sent = {"corrections": [{"kind": "drop", "fish": 0}]}
    assert client.put(f"{url}/corrections", json=sent).status_code == 200
    late = client.put(
        f"{url}/corrections", json={"corrections": []}, headers={"If-Match": tag}
    )
    assert (late.status_code, late.json()["code"]) == (409, "conflict")


@pytest.mark.parametrize("language", ["en", "de", "es"])
def test_a_correction_is_based_on_a_state_whatever_its_language(
    client: TestClient, net_photo: bytes, language: str
) -> None:
    """The page names the state by the photo's revision, and speaks any language."""
    photo = uncorrected(client, net_photo)
    url = f"/v1/photos/{photo['id']}/corrections"
    for revision, status in ((photo["revision"], 200), (photo["revision"], 409)):
        tag = f'"{photo["id"][:16]}-{revision}"'
        headers = {"If-Match": tag, "Accept-Language": language}
        sent = {"corrections": [{"kind": "drop", "fish": 0}]}
        answer = client.put(url, json=sent, headers=headers)
        assert answer.status_code == status, answer.text


def test_an_unchanged_photo_is_not_sent_again(
    client: TestClient, net_photo: bytes
) -> None:
    """If-None-Match with the present tag answers 304 (RFC 9110, 13.1.2)."""
    photo = uncorrected(client, net_photo)
    url = f"/v1/photos/{photo['id']}"
    tag = client.get(url).headers["ETag"]
    answer = client.get(url, headers={"If-None-Match": tag})
    assert (answer.status_code, answer.content) == (304, b"")


@pytest.mark.parametrize(
    "correction",
    [
        {"kind": "drop", "fish": 99},
        {"kind": "drop"},
        {"kind": "move", "fish": 0},
        {"kind": "add", "snout_px": [1, 1], "fork_px": [99999, 5]},
        {"kind": "add", "snout_px": [1, 1], "fork_px": [2, 2]},
        {"kind": "species", "fish": 0, "species": "unicorn"},
    ],
)
def test_corrections_that_cannot_be_are_refused(
    client: TestClient, net_photo: bytes, correction: dict[str, Any]
) -> None:
    """With a sentence, and the photo stays as it was."""
    photo = send(client, net_photo)
    url = f"/v1/photos/{photo['id']}"
    answer = client.put(f"{url}/corrections", json={"corrections": [correction]})
    assert answer.status_code == 422
    assert answer.json()["message"]
    assert client.get(url).json() == photo


def test_a_scale_by_hand_measures_anew(client: TestClient, net_photo: bytes) -> None:
    """Two points on the sheet's markers, 267 mm apart by its geometry, agree."""
    photo = uncorrected(client, net_photo)
    scale = photo["measurement"]["scale"]
    # Outer corners of the upper two markers: 297 - 2 x 15 mm (A4, ISO 216).
    left, right = scale["markers_px"][0][0], scale["markers_px"][1][1]
    url = f"/v1/photos/{photo['id']}/settings"
    known = {"points_px": [left, right], "distance_mm": 267.0}
    anew = client.put(url, json={"known": known}).json()["measurement"]
    client.put(url, json={})
    assert anew["scale"]["method"] == "known-distance"
    assert anew["scale"]["px_per_mm"] == pytest.approx(scale["px_per_mm"], rel=0.05)


@pytest.mark.parametrize("kind", ["picture", "thumbnail", "overlay"])
def test_pictures_are_jpegs(client: TestClient, net_photo: bytes, kind: str) -> None:
    """Each link of a photo gives a picture that opens."""
    photo = send(client, net_photo)
    answer = client.get(photo["links"][kind])
    assert answer.headers["content-type"] == "image/jpeg"
    with Image.open(io.BytesIO(answer.content)) as image:
        assert image.width == {"thumbnail": 240}.get(kind, image.width)


def test_a_thumbnail_is_made_once_and_goes_with_its_photo(
    client: TestClient, settings: Settings
) -> None:
    """What was made is shown, and nothing is left of a photo that is deleted."""
    photo = send(client, plain_jpeg("teal"))
    small = client.get(photo["links"]["thumbnail"]).content
    (kept,) = (settings.data_dir / "thumbnails").glob(f"??/{photo['id']}")
    assert kept.read_bytes() == small
    kept.write_bytes(plain_jpeg("red"))  # who asks again gets what is there
    assert client.get(photo["links"]["thumbnail"]).content == plain_jpeg("red")
    kept.write_bytes(b"")  # cut off by a crash: made anew
    assert client.get(photo["links"]["thumbnail"]).content == small
    assert client.delete(f"/v1/photos/{photo['id']}").is_success
    assert not kept.exists()
    assert client.get(photo["links"]["thumbnail"]).status_code == 410


def test_a_light_list_has_no_measurements(client: TestClient, net_photo: bytes) -> None:
    """The same photos in the same order, a hundredth of the bytes."""
    photo = send(client, net_photo)
    whole, light = (
        client.get("/v1/photos", params={"light": light}) for light in (False, True)
    )
    listed = light.json()["items"]
    assert [one["id"] for one in listed] == [one["id"] for one in whole.json()["items"]]
    (mine,) = (one for one in listed if one["id"] == photo["id"])
    assert mine["links"] == photo["links"]
    assert "measurement" not in mine
    assert 1000 * len(listed) > len(light.content)


def test_an_unknown_photo_is_404(client: TestClient) -> None:
    """Whatever is asked of it, and a path is never made of it."""
    for name in ("0" * 64, "..%2f..%2fetc%2fpasswd"):
        answer = client.get(f"/v1/photos/{name}")
        assert (answer.status_code, answer.json()["code"]) in [
            (404, "unknown-record"),
            (404, "not-found"),
        ]


def test_too_many_photos_are_refused(client: TestClient, settings: Settings) -> None:
    """The limit is told."""
    files = [("photos", ("a.jpg", b"x"))] * (settings.max_batch + 1)
    answer = client.post("/v1/photos", files=files)
    assert (answer.status_code, answer.json()["code"]) == (413, "too-many-photos")


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("print_scale", "9"),
        ("print_scale", "nan"),
        ("paper", "A0"),
        ("known", "1,2=3"),
        ("known", "1,2,3,4=0"),
        ("species", "x" * 61),
    ],
)
def test_a_form_takes_what_the_settings_take(
    client: TestClient, field: str, value: str
) -> None:
    """Sent with a photo or later: one record says what is right."""
    files = {"photos": ("a.jpg", b"no photo", "image/jpeg")}
    answer = client.post("/v1/photos", files=files, data={field: value})
    assert answer.status_code == 422
    assert field.replace("_", " ") in answer.text.replace("_", " ")
