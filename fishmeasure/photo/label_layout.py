"""Where labels go on a picture, and how large their text is."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Final

import cv2
import matplotlib as mpl
import numpy as np
from PIL import ImageFont

from fishmeasure.base.arrays import FloatArray

_CELLS_ACROSS: Final = 200  # of the placing grid: 8 px of 1600, a sixth of a letter
_FISH_COST: Final = 2.0  # a label wholly over fish is worth two widths of leader
_LABEL_COST: Final = 40.0  # labels over labels cannot be read at all
_LINE_STEP: Final = 1.2  # of the text's size


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A label's place in pixels of the picture."""

    left: int
    top: int
    width: int
    height: int

    def nearest(self, point: tuple[float, float]) -> tuple[float, float]:
        """Return the point of the box that is nearest to another point."""
        x = min(max(point[0], self.left), self.left + self.width)
        y = min(max(point[1], self.top), self.top + self.height)
        return float(x), float(y)


class LabelLayout:
    """Puts labels near their fish, clear of fish and of each other.

    Every place on a coarse grid is tried: what a label would cover, plus its
    distance from its fish, decides.
    """

    def __init__(self, width_px: int, height_px: int) -> None:
        self._cell_px = max(1, width_px // _CELLS_ACROSS)
        shape = (height_px // self._cell_px, width_px // self._cell_px)
        self._width_px = width_px
        self._cost = np.zeros(shape, dtype=np.float64)

    def occupy(self, polygon_px: FloatArray, *, worth: float = 1.0) -> None:
        """Say that something lies here which a label should not cover.

        ``worth`` is 1 for a fish's body, more for what must be seen.
        """
        mask = np.zeros(self._cost.shape, dtype=np.uint8)
        cells = np.round(polygon_px / self._cell_px).astype(np.int32)
        cv2.fillPoly(mask, [cells], 1)
        wider = cv2.dilate(mask, np.ones((3, 3), dtype=np.uint8))  # a cell's margin
        self._cost = np.maximum(self._cost, worth * _FISH_COST * wider)

    def place(self, size_px: tuple[int, int], target_px: tuple[float, float]) -> Box:
        """Return the best box of (width, height) for a fish at the target.

        The box is then occupied. It stays in the picture where it fits there.
        """
        width, height = (
            min(-(-side // self._cell_px), limit)
            for side, limit in zip(size_px, self._cost.shape[::-1], strict=True)
        )
        covered = _box_means(self._cost, width, height)
        rows, columns = np.indices(covered.shape)
        x = (columns + width / 2.0) * self._cell_px - target_px[0]
        y = (rows + height / 2.0) * self._cell_px - target_px[1]
        total = covered + np.hypot(x, y) / self._width_px
        row, column = np.unravel_index(int(np.argmin(total)), total.shape)
        rows_taken = slice(max(0, row - 1), row + height + 1)
        self._cost[rows_taken, max(0, column - 1) : column + width + 1] = _LABEL_COST
        return Box(
            left=int(column) * self._cell_px,
            top=int(row) * self._cell_px,
            width=size_px[0],
            height=size_px[1],
        )

    def widen(self, box: Box, width_px: int) -> Box | None:
        """Return the box made wider to one side, or None where something lies there.

        The wider box is then occupied.
        """
        top, left = box.top // self._cell_px, box.left // self._cell_px
        high, wide, wider = (
            -(-side // self._cell_px) for side in (box.height, box.width, width_px)
        )
        rows = slice(max(0, top - 1), top + high + 1)
        columns = self._cost.shape[1]
        for start, new in (
            (left, slice(left + wide + 1, left + wider + 1)),
            (left + wide - wider, slice(left + wide - wider - 1, left - 1)),
        ):
            inside = start >= 0 and start + wider <= columns
            if inside and not self._cost[rows, max(new.start, 0) : new.stop].any():
                self._cost[rows, max(new.start, 0) : new.stop] = _LABEL_COST
                return replace(box, left=start * self._cell_px, width=width_px)
        return None


def _box_means(values: FloatArray, width: int, height: int) -> FloatArray:
    """Return the mean over every width x height window."""
    total = np.zeros((values.shape[0] + 1, values.shape[1] + 1))
    total[1:, 1:] = values.cumsum(axis=0).cumsum(axis=1)
    sums: FloatArray = (
        total[height:, width:]
        - total[:-height, width:]
        - total[height:, :-width]
        + total[:-height, :-width]
    )
    return sums / (width * height)


@cache
def load_font(size_px: int) -> ImageFont.FreeTypeFont:
    """Return the DejaVu Sans Bold that matplotlib brings, at a size."""
    path = Path(mpl.get_data_path()) / "fonts" / "ttf" / "DejaVuSans-Bold.ttf"
    return ImageFont.truetype(str(path), size_px)


def text_size_px(
    lines: Sequence[str], font: ImageFont.FreeTypeFont, pad_px: int
) -> tuple[int, int]:
    """Return the width and height of a box round the lines of text."""
    width = max(font.getlength(line) for line in lines)
    height = (_LINE_STEP * (len(lines) - 1) + 1.15) * font.size
    return round(width) + 4 * pad_px, round(height) + 2 * pad_px


def wrap(text: str, font: ImageFont.FreeTypeFont, width_px: int) -> list[str]:
    """Return the text as lines no wider than that, broken at its middle dots."""
    lines: list[str] = []
    for part in text.split(" · "):
        longer = f"{lines[-1]} · {part}" if lines else part
        if lines and font.getlength(longer) <= width_px:
            lines[-1] = longer
        else:
            lines.append(part)
    return lines
