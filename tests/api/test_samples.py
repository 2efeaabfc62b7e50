"""Samples over HTTP: saved as they grow, estimated, entered in the book."""

from typing import Any
from uuid import uuid4

import pytest
from starlette.testclient import TestClient

# Nets of an invented tank: 8 or 9 fish each.
NETS = [
    {"fish": 8, "gross_g": 1912, "tare_g": 640},
    {"fish": 9, "net_g": 1431},
    {"fish": 8, "net_g": 1301},
]


def put(client: TestClient, identity: str, **fields: Any) -> dict[str, Any]:
    sent = {"date": "2026-05-02", "unit": "Tank A", "nets": [], **fields}
    answer = client.put(f"/v1/samples/{identity}", json=sent)
    assert answer.status_code == 200, answer.text
    body: dict[str, Any] = answer.json()
    return body


def test_weighings_alone_give_the_mean_of_the_netted_fish(client: TestClient) -> None:
    """The handled fish's mean is total weight over count, drip water apart."""
    sample = put(client, str(uuid4()), nets=NETS)
    estimate = sample["estimate"]
    total_g, count = 1912 - 640 + 1431 + 1301, 25
    # less 1 % drip water by default (common practice, no source)
    assert estimate["handled_mean_weight_g"] == pytest.approx(total_g / count, rel=0.02)
    low, high = estimate["mean_weight_interval_g"]
    assert low < estimate["mean_weight_g"] < high


def test_a_sample_without_nets_is_kept_with_the_reason(client: TestClient) -> None:
    """Nothing is lost while nothing can be said."""
    identity = str(uuid4())
    sample = put(client, identity)
    assert sample["estimate"] is None
    assert sample["problems"][0]["message"]
    grown = put(client, identity, nets=NETS)
    assert grown["revision"] == 2
    assert not any(problem["fatal"] for problem in grown["problems"])
    assert put(client, identity, nets=NETS)["revision"] == 2


def test_weights_that_no_fish_has_are_shown_and_not_entered(
    client: TestClient,
) -> None:
    """A 180 mm trout does not weigh 1.4 kg: the figures are there, with the reason."""
    identity = str(uuid4())
    net = {"fish": 2, "net_g": 2800, "lengths_mm": [180, 182]}
    sample = put(client, identity, nets=[net])
    assert sample["problems"][0]["code"] == "far-from-published"
    assert sample["problems"][0]["fatal"]
    where = {"unit_id": str(uuid4()), "cohort_id": str(uuid4())}
    answer = client.post(f"/v1/samples/{identity}/record", json=where)
    assert (answer.status_code, answer.json()["code"]) == (422, "sample-not-entered")


def test_photos_join_in_and_their_corrections_change_the_estimate(
    client: TestClient, net_photo: bytes
) -> None:
    """Dropping fish of a photo changes what the sample says."""
    photo = client.post("/v1/photos", files={"photos": ("a.jpg", net_photo)}).json()
    photo_id = photo["items"][0]["id"]
    identity = str(uuid4())
    nets = [{"fish": 7, "net_g": 1500, "photos": [photo_id]}, *NETS]
    before = put(client, identity, nets=nets)["estimate"]
    assert before["fish_measured"] >= 5
    corrections = [{"kind": "drop", "fish": 0}, {"kind": "drop", "fish": 1}]
    client.put(f"/v1/photos/{photo_id}/corrections", json={"corrections": corrections})
    after = client.get(f"/v1/samples/{identity}").json()["estimate"]
    assert after["fish_measured"] == before["fish_measured"] - 2
    assert after["cv"] != before["cv"]


def test_a_sample_is_entered_in_the_book_once(client: TestClient) -> None:
    """With its interval, under its own id, whatever number of times."""
    unit, cohort, identity = (str(uuid4()) for _ in range(3))
    client.put(
        f"/v1/units/{unit}",
        json={
            "id": unit,
            "name": unit[:8],
            "kind": "tank",
            "volume_m3": 6,
            "depth_m": 1,
        },
    )
    client.put(
        f"/v1/cohorts/{cohort}",
        json={"id": cohort, "name": cohort[:8], "species_key": "rainbow-trout"},
    )
    sample = put(client, identity, nets=NETS)
    where = {"unit_id": unit, "cohort_id": cohort}
    for _ in range(2):
        answer = client.post(f"/v1/samples/{identity}/record", json=where)
        assert answer.status_code == 200, answer.text
        assert answer.json()["entry_id"] == identity
    entry = client.get(f"/v1/entries/{identity}").json()
    assert entry["mean_weight_g"] == sample["estimate"]["mean_weight_g"]
    listed = client.get("/v1/entries", params={"unit_id": unit}).json()["items"]
    assert len(listed) == 1


@pytest.mark.parametrize(
    ("nets", "status"),
    [
        ([{"fish": 0, "net_g": 100}], 422),
        ([{"fish": 3, "net_g": -1}], 422),
        ([{"fish": 3, "gross_g": 100, "tare_g": 200}], 422),
        ([{"fish": 3, "net_g": 100, "photos": ["0" * 64]}], 404),
        ([{"fish": 3, "weight": 100}], 422),
    ],
)
def test_nets_that_cannot_be_are_refused(
    client: TestClient, nets: list[dict[str, Any]], status: int
) -> None:
    """With the net and the reason."""
    answer = client.put(
        f"/v1/samples/{uuid4()}", json={"date": "2026-05-02", "nets": nets}
    )
    assert answer.status_code == status
    assert answer.json()["message"]


def test_what_has_no_estimate_is_not_entered(client: TestClient) -> None:
    """The book takes no empty sample."""
    identity = str(uuid4())
    put(client, identity)
    where = {"unit_id": str(uuid4()), "cohort_id": str(uuid4())}
    answer = client.post(f"/v1/samples/{identity}/record", json=where)
    assert (answer.status_code, answer.json()["code"]) == (422, "no-estimate")


def test_a_plan_and_pictures_follow_from_a_sample(client: TestClient) -> None:
    """More nets for a tighter interval; both pictures are SVG."""
    identity = str(uuid4())
    put(client, identity, nets=NETS)

    def nets(within: float) -> int:
        answer = client.get(
            f"/v1/samples/{identity}/plan", params={"precision_percent": within}
        ).json()
        assert answer["advice"]
        return int(answer["plans"][0]["nets"])

    assert nets(5.0) > nets(20.0)
    for name in ("distribution.svg", "length-weight.svg"):
        answer = client.get(f"/v1/samples/{identity}/{name}")
        assert answer.headers["content-type"] == "image/svg+xml"
        assert b"<svg" in answer.content


def test_a_sample_says_whether_one_more_net_is_worth_it(client: TestClient) -> None:
    """Enough for a wide aim, worth it for a closer one; nets for time and for parts."""
    identity = str(uuid4())
    put(client, identity, nets=NETS)

    def plan(within: float, **more: Any) -> Any:
        asked = {"precision_percent": within, **more}
        return client.get(f"/v1/samples/{identity}/plan", params=asked).json()

    wide, close = plan(60.0)["next_net"], plan(8.0)["next_net"]
    assert (wide["verdict"], wide["nets_more"]) == ("enough", 0)
    assert close["verdict"] == "worth-it"
    assert close["nets_more"] >= 1
    assert close["one_more"]["nets"] == len(NETS) + 1
    assert close["one_more"]["half_width_percent"] < close["half_width_percent"]
    # Where a net takes no longer than a fish, small nets tell most for the time.
    (quick,), (slow,) = (plan(20.0, net_per_fish=n)["plans"] for n in (1.0, 60.0))
    assert quick["fish_per_net"] < slow["fish_per_net"]
    parts = plan(20.0, fish_in_part=[600, 200, 200])["parts"]
    assert parts["nets"][0] == max(parts["nets"])
    assert parts["half_width_percent"] <= 20.0
    assert plan(20.0)["parts"] is None


@pytest.mark.parametrize(
    ("species", "day", "said"),
    [
        (
            "rainbow-trout",
            "2026-05-02",
            "is of rainbow-trout, the cohort {name} of arctic-char. Not entered.",
        ),
        ("arctic-char", "2099-05-02", "2099-05-02 is in the future; today is"),
    ],
)
def test_other_fish_and_days_to_come_are_not_entered(
    client: TestClient, species: str, day: str, said: str
) -> None:
    """As on the command line; the sample stays to be mended."""
    unit, cohort, identity = (str(uuid4()) for _ in range(3))
    tank = {"id": unit, "name": unit[:8], "kind": "tank", "volume_m3": 6, "depth_m": 1}
    assert client.put(f"/v1/units/{unit}", json=tank).status_code == 200
    fish = {"id": cohort, "name": cohort[:8], "species_key": "arctic-char"}
    assert client.put(f"/v1/cohorts/{cohort}", json=fish).status_code == 200
    put(client, identity, nets=NETS, species=species, date=day)
    where = {"unit_id": unit, "cohort_id": cohort}
    answer = client.post(f"/v1/samples/{identity}/record", json=where)
    assert answer.status_code == 422
    assert said.format(name=fish["name"]) in answer.json()["message"]
    assert client.get(f"/v1/entries/{identity}").status_code == 404
