"""Two servers, one book on PostgreSQL, one folder of photos."""

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import httpx2

from tests.api.live import small_photo, unit_body
from tests.api.running import running
from tests.store.conftest import postgres_url

__all__ = ["postgres_url"]  # the fixture


def send(url: str, number: int) -> tuple[str, str]:
    """Send a photo that the other server gets too, and a unit; return their ids."""
    files = {"photos": ("a.jpg", small_photo(number))}
    while True:
        answer = httpx2.post(f"{url}/v1/photos", files=files, timeout=60)
        if answer.status_code != 503:
            break
    path, unit = unit_body()
    assert httpx2.put(f"{url}{path}", json=unit, timeout=60).status_code == 200
    return answer.json()["items"][0]["id"], unit["id"]


def test_both_take_and_show_the_same(postgres_url: str, tmp_path: Path) -> None:
    """The same photos sent to both at once are kept once; both see all units."""
    data = tmp_path / "data"
    with (
        running(data, "--workers", "1", book=postgres_url) as one,
        running(data, "--workers", "1", book=postgres_url) as two,
        ThreadPoolExecutor(4) as pool,
    ):
        jobs = [
            pool.submit(send, server.url, number)
            for number in range(6)
            for server in (one, two)
        ]
        done = [job.result() for job in jobs]
        photos, units = {photo for photo, _ in done}, {unit for _, unit in done}
        assert (len(photos), len(units)) == (6, 12)
        for server in (one, two):
            shown = httpx2.get(f"{server.url}/v1/photos", timeout=60).json()["items"]
            assert sorted(photo["id"] for photo in shown) == sorted(photos)
            found = httpx2.get(f"{server.url}/v1/units", timeout=60).json()["items"]
            assert {unit["id"] for unit in found} == units
            picture = httpx2.get(
                f"{server.url}{shown[0]['links']['picture']}", timeout=60
            )
            assert picture.headers["Content-Type"] == "image/jpeg"
