"""The page's queue, store, forms, figures and camera, in Node without a browser."""

import os
import shutil
import subprocess
from pathlib import Path

import pytest

from api.routes.page import page_files
from tests.page.views import write_views

ROOT = Path(__file__).resolve().parents[2]
TOOLS = ROOT / ".ci" / "page" / "node_modules"
HERE = Path("tests/page")


def test_the_pages_code_does_what_its_own_tests_say(tmp_path: Path) -> None:
    """Its tests are in JavaScript, beside this one; `node --test` runs them."""
    node = shutil.which("node")
    if node is None or not TOOLS.exists():
        reason = "Node or its packages are missing: .ci/page/check --setup-only"
        if os.environ.get("CI") == "true":
            pytest.fail(reason)
        pytest.skip(reason)
    files = page_files().files
    (tmp_path / "schemas.json").write_bytes(files["schemas.json"])
    (tmp_path / "camera.json").write_bytes(files["camera.json"])
    write_views(tmp_path)
    (tmp_path / "texts.json").write_bytes(files["texts/en.json"])
    tests = sorted(str(path) for path in HERE.glob("*.test.js"))
    done = subprocess.run(  # noqa: S603 - our own command
        [node, "--import", f"./{HERE}/node.mjs", "--test", *tests],
        cwd=ROOT,
        env={**os.environ, "FISHMEASURE_PAGE_FILES": str(tmp_path)},
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )
    assert done.returncode == 0, done.stdout[-8000:] + done.stderr[-2000:]
