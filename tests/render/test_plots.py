"""The plots: files of the kind asked for, the same each time."""

import io
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

import numpy as np
import pytest
from PIL import Image

from fishmeasure.estimation.model import estimate_population
from fishmeasure.render.plots import (
    fit_plot,
    plot_format_of,
    sample_line_plot,
    weight_plot,
)
from fishmeasure.species.fit import fit_length_weight
from tests.estimation.makers import Dip, Truth, draw, published_line

DIPS = [Dip(fish=8)] * 4 + [Dip(fish=8, photographed=False), Dip(fish=8, weighed=False)]
NETS = draw(Truth(level=1.1), DIPS, np.random.default_rng(2)).nets
LENGTH = np.linspace(150, 350, 20)
WEIGHT = 0.0138 * (LENGTH / 10) ** 3 * np.exp(np.sin(np.arange(20)) / 10)


def pictures(plot_format: str) -> list[bytes]:
    wrong = (replace(NETS[0], fish_count=9), *NETS[1:])
    line = published_line()
    estimate = estimate_population(wrong, published=line)
    weight = WEIGHT.copy()
    weight[3] *= 4
    fit = fit_length_weight(LENGTH, weight)
    return [
        weight_plot(estimate, wrong, plot_format=plot_format),  # type: ignore[arg-type]
        sample_line_plot(estimate, wrong, plot_format=plot_format),  # type: ignore[arg-type]
        fit_plot(LENGTH, weight, fit, published=line, plot_format=plot_format),  # type: ignore[arg-type]
    ]


def test_pngs_are_pictures_that_read_on_a_phone() -> None:
    """About a thousand pixels wide, and not blank."""
    for data in pictures("png"):
        with Image.open(io.BytesIO(data)) as image:
            assert image.size == (1080, 690)
            assert len(image.convert("RGB").getcolors(1 << 20) or []) > 100


@pytest.mark.parametrize(("kind", "start"), [("pdf", b"%PDF"), ("svg", b"<?xml")])
def test_other_formats_begin_as_they_should(kind: str, start: bytes) -> None:
    """Magic bytes of PDF and XML."""
    assert all(data.startswith(start) for data in pictures(kind))


def test_threads_do_not_disturb_one_another() -> None:
    """Drawn at once in threads, each picture is what it is alone."""
    estimate = estimate_population(NETS, published=published_line())
    alone = weight_plot(estimate, NETS)
    with ThreadPoolExecutor(2) as pool:
        drawn = pool.map(lambda _: weight_plot(estimate, NETS), range(3))
        assert all(together == alone for together in drawn)


@pytest.mark.parametrize(
    ("name", "expected"),
    [("a.PNG", "png"), ("b.pdf", "pdf"), ("c.svg", "svg"), ("d.jpg", None)],
)
def test_the_ending_says_the_format(name: str, expected: str | None) -> None:
    """Other endings have no format."""
    assert plot_format_of(name) == expected
