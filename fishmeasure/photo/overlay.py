"""The measured photo as a picture for people: outlines, lengths, weights, doubts.

Sizes follow the picture's width, so that the text reads when the whole picture is
shown 390 px wide, as on a phone held upright.
"""

import io
from collections.abc import Sequence
from typing import Final

import cv2
import numpy as np
from PIL import Image, ImageDraw

from fishmeasure.base.arrays import ByteArray, FloatArray
from fishmeasure.base.errors import NotDrawnError
from fishmeasure.base.flags import FLAGS, Problem
from fishmeasure.base.words import Message, wording
from fishmeasure.photo.image import Photo
from fishmeasure.photo.label_layout import (
    Box,
    LabelLayout,
    load_font,
    text_size_px,
    wrap,
)
from fishmeasure.photo.measurement import MeasuredFish, PhotoMeasurement
from fishmeasure.photo.picture_size import fitted
from fishmeasure.photo.plane import PlaneScale

Colour = tuple[int, int, int]

# Okabe & Ito 2008, "Color Universal Design", the eight-colour set; used, doubtful
# and excluded fish differ in lightness too, and excluded ones are dashed.
SKY_BLUE: Final[Colour] = (86, 180, 233)
YELLOW: Final[Colour] = (240, 228, 66)
VERMILLION: Final[Colour] = (213, 94, 0)
REDDISH_PURPLE: Final[Colour] = (204, 121, 167)
BLACK: Final[Colour] = (0, 0, 0)
WHITE: Final[Colour] = (255, 255, 255)

MIN_WIDTH_PX: Final = 780  # twice a phone's 390, so that small photos stay sharp
MAX_WIDTH_PX: Final = 1600  # sharp on a phone of 3 pixels to the CSS pixel, < 1 MB
MIN_HEIGHT_PX: Final = 16  # less cannot hold a line of text
_PHONE_WIDTH_PX: Final = 390
_TEXT_PX_ON_PHONE: Final = 11.5  # small print of phone systems; looked at, reads
_LINE_PX_ON_PHONE: Final = 1.0
_SUBPIXEL_BITS: Final = 4
_CORNERS: Final = np.array([[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]])


def draw_overlay(
    photo: Photo,
    plane: PlaneScale | None,
    fish: Sequence[MeasuredFish],
    problems: Sequence[Problem] = (),
) -> ByteArray:
    """Return the photo with its fish drawn in, as (rows, columns, 3) uint8 sRGB.

    The picture is ``MIN_WIDTH_PX`` to ``MAX_WIDTH_PX`` wide; a strip of text is
    added below it.

    Raises
    ------
    NotDrawnError
        If it would have more than ``picture_size.MOST_PIXELS`` at the least width.
    """
    canvas = _Canvas(photo)
    if plane is not None:
        for corners_px in plane.markers_px:
            canvas.line(corners_px, REDDISH_PURPLE, closed=True)
    for one in fish:
        _draw_fish(canvas, one)
    _draw_labels(canvas, plane, fish)
    return canvas.with_footer(_footer(plane, fish, problems), _warning(problems))


def overlay_jpeg(photo: Photo, measured: PhotoMeasurement) -> bytes:
    """Return ``draw_overlay`` of a photo's measurement as a JPEG."""
    stream = io.BytesIO()
    drawn = draw_overlay(photo, measured.scale, measured.fish, measured.problems)
    Image.fromarray(drawn).save(stream, "JPEG", quality=88)
    return stream.getvalue()


class _Canvas:
    """A copy of the photo at the output size; takes points of the photo."""

    def __init__(self, photo: Photo) -> None:
        wanted_px = min(max(photo.width_px, MIN_WIDTH_PX), MAX_WIDTH_PX)
        self.width_px, self.height_px = fitted(
            photo.width_px, photo.height_px, wanted_px
        )
        # Nor is one drawn that has no row for what stands in it.
        if self.width_px < MIN_WIDTH_PX or self.height_px < MIN_HEIGHT_PX:
            raise NotDrawnError(photo.name, photo.width_px, photo.height_px)
        self.scale = self.width_px / photo.width_px
        shrinks = self.width_px < photo.rgb.shape[1]
        self.rgb = cv2.resize(
            photo.rgb,
            (self.width_px, self.height_px),
            interpolation=cv2.INTER_AREA if shrinks else cv2.INTER_CUBIC,
        )
        self.unit_px = self.width_px / _PHONE_WIDTH_PX
        self.line_px = max(1, round(_LINE_PX_ON_PHONE * self.unit_px))
        self.text_px = round(_TEXT_PX_ON_PHONE * self.unit_px)

    def to_canvas(self, points_px: FloatArray) -> FloatArray:
        """Return photo points in canvas pixels, pixel centres at whole numbers."""
        points: FloatArray = (np.asarray(points_px) + 0.5) * self.scale - 0.5
        return points

    def to_photo(self, points: FloatArray) -> FloatArray:
        """Return canvas points in photo pixels."""
        points_px: FloatArray = (points + 0.5) / self.scale - 0.5
        return points_px

    def line(
        self,
        points_px: FloatArray,
        colour: Colour,
        *,
        closed: bool = False,
        dashed: bool = False,
        thin: bool = False,
    ) -> None:
        """Draw a line through photo points, with a dark halo."""
        points = self.to_canvas(points_px)
        if closed:
            points = np.vstack([points, points[:1]])
        pieces = _dashes(points, 5.0 * self.unit_px) if dashed else [points]
        fixed = [np.round(p * 2**_SUBPIXEL_BITS).astype(np.int32) for p in pieces]
        width = max(1, self.line_px // 2) if thin else self.line_px
        halo = width + max(2, self.line_px // 2)
        for ink, ink_px in ((BLACK, halo), (colour, width)):
            cv2.polylines(
                self.rgb,
                fixed,
                isClosed=False,
                color=ink,
                thickness=ink_px,
                lineType=cv2.LINE_AA,
                shift=_SUBPIXEL_BITS,
            )

    def with_footer(self, text: str, warning: str) -> ByteArray:
        """Return the picture with a strip of text below it, a warning in yellow."""
        font = load_font(self.text_px)
        margin = round(4 * self.unit_px)
        room = self.width_px - 2 * margin
        lines = [(line, WHITE) for line in wrap(text, font, room)]
        if warning:
            lines += [(line, YELLOW) for line in wrap(warning, font, room)]
        step = round(1.3 * self.text_px)
        strip = Image.new("RGB", (self.width_px, step * len(lines) + 2 * margin), BLACK)
        pen = ImageDraw.Draw(strip)
        for i, (line, ink) in enumerate(lines):
            pen.text((margin, margin + i * step), line, font=font, fill=ink)
        return np.vstack([self.rgb, np.asarray(strip)])


def _colour(fish: MeasuredFish) -> Colour:
    if not fish.complete:
        return VERMILLION
    return YELLOW if _doubts(fish) else SKY_BLUE


def _doubts(fish: MeasuredFish) -> tuple[str, ...]:
    """Return the flags to show; the footer says "published-weight" once for all."""
    return tuple(flag for flag in fish.flags if flag != "published-weight")


def _draw_fish(canvas: _Canvas, fish: MeasuredFish) -> None:
    colour = _colour(fish)
    canvas.line(fish.outline_px, colour, closed=True, dashed=not fish.complete)
    if not fish.complete:
        return
    canvas.line(fish.midline_px, WHITE, thin=True)
    radius = 3.0 * canvas.unit_px / canvas.scale
    turn = np.linspace(0.0, 2.0 * np.pi, 17)[:-1]
    circle = radius * np.column_stack([np.cos(turn), np.sin(turn)])
    canvas.line(fish.snout_px + circle, colour, closed=True)
    for sign in (-1.0, 1.0):
        arm = radius * np.array([[-1.0, -sign], [1.0, sign]])
        canvas.line(fish.fork_px + arm, colour)


def _dashes(points: FloatArray, dash_px: float) -> list[FloatArray]:
    """Return the pieces of a polyline that a dashed pen draws."""
    steps = np.hypot(*np.diff(points, axis=0).T)
    along = np.concatenate([[0.0], np.cumsum(steps)])
    pieces = []
    for start in np.arange(0.0, along[-1], 2.0 * dash_px):
        end = min(start + dash_px, along[-1])
        inner = along[(along > start) & (along < end)]
        at = np.concatenate([[start], inner, [end]])
        piece = [np.interp(at, along, points[:, axis]) for axis in (0, 1)]
        pieces.append(np.column_stack(piece))
    return pieces


def _label_lines(
    number: int, fish: MeasuredFish, *, with_error: bool = True
) -> list[str]:
    if not fish.complete:
        reasons = [f for f in fish.flags if FLAGS[f].disqualifying]
        unused = wording("overlay-not-used", number=number)
        return [unused, *(_words(f) for f in reasons[:1])]
    lines = [
        wording(
            "overlay-length",
            case="error" if with_error else "bare",
            number=number,
            length_mm=fish.fork_length_mm,
            error_mm=_error_mm(fish),
        )
    ]
    if fish.weight_g is not None:
        lines.append(wording("overlay-weight", weight_g=fish.weight_g))
    return lines + [_words(f) for f in _doubts(fish)[:2]]


def _error_mm(fish: MeasuredFish) -> float:
    """Return the standard error; no length is shown surer than its last digit."""
    return max(fish.fork_length_se_mm, 1.0)


def _words(flag: str) -> str:
    return wording("flag-words", case=flag)


def _draw_labels(
    canvas: _Canvas,
    plane: PlaneScale | None,
    fish: Sequence[MeasuredFish],
) -> None:
    pad = max(2, round(1.5 * canvas.unit_px))
    layout = LabelLayout(canvas.width_px, canvas.height_px)
    for one in fish:
        layout.occupy(canvas.to_canvas(one.outline_px))
        for end_px in (one.snout_px, one.fork_px):
            around = 5.0 * canvas.unit_px * _CORNERS + canvas.to_canvas(end_px)
            layout.occupy(around, worth=5.0)  # the marks must be seen to be checked
    for corners_px in plane.markers_px if plane is not None else ():
        layout.occupy(canvas.to_canvas(corners_px))
    labels, sizes = _fitting_labels(canvas, fish, pad)
    targets = [_middle(canvas, one) for one in fish]
    boxes = [layout.place(s, t) for s, t in zip(sizes, targets, strict=True)]
    _add_errors(layout, boxes, labels, fish, (pad, canvas.text_px))
    for box, target, one in zip(boxes, targets, fish, strict=True):
        end = box.nearest(target)
        if end != target:
            leader = np.array([end, target])
            canvas.line(canvas.to_photo(leader), _colour(one), thin=True)
    picture = Image.fromarray(canvas.rgb)
    pen = ImageDraw.Draw(picture)
    for box, one, lines in zip(boxes, fish, labels, strict=True):
        _draw_label(pen, box, lines, _colour(one), (pad, canvas.text_px))
    canvas.rgb = np.array(picture)


def _fitting_labels(
    canvas: _Canvas, fish: Sequence[MeasuredFish], pad: int
) -> tuple[list[list[str]], list[tuple[int, int]]]:
    """Return labels without errors that leave the fish in view, and their sizes."""
    font = load_font(canvas.text_px)
    labels = [
        _label_lines(i, one, with_error=False) for i, one in enumerate(fish, start=1)
    ]
    sizes = [text_size_px(lines, font, pad) for lines in labels]
    # A fifth of the picture under labels was about where fish began to vanish.
    area = sum(width * height for width, height in sizes)
    if area <= 0.2 * canvas.width_px * canvas.height_px:
        return labels, sizes
    labels = [lines[:1] for lines in labels]
    return labels, [text_size_px(lines, font, pad) for lines in labels]


def _add_errors(
    layout: LabelLayout,
    boxes: list[Box],
    labels: list[list[str]],
    fish: Sequence[MeasuredFish],
    sizes_px: tuple[int, int],
) -> None:
    """Say each length's error where its label has room to grow."""
    pad, text_px = sizes_px
    for i, (box, lines) in enumerate(zip(boxes, labels, strict=True)):
        longer = [_label_lines(i + 1, fish[i])[0], *lines[1:]]
        width, _ = text_size_px(longer, load_font(text_px), pad)
        grown = box if width <= box.width else layout.widen(box, width)
        if grown is not None:
            boxes[i], labels[i] = grown, longer


def _draw_label(
    pen: ImageDraw.ImageDraw,
    box: Box,
    lines: list[str],
    colour: Colour,
    sizes_px: tuple[int, int],
) -> None:
    pad, text_px = sizes_px
    font = load_font(text_px)
    corners = (box.left, box.top, box.left + box.width, box.top + box.height)
    pen.rounded_rectangle(
        corners, radius=2 * pad, fill=BLACK, outline=colour, width=max(1, pad // 2)
    )
    for i, line in enumerate(lines):
        at = (box.left + 2 * pad, box.top + pad + round(1.2 * i * text_px))
        pen.text(at, line, font=font, fill=WHITE)


def _middle(canvas: _Canvas, fish: MeasuredFish) -> tuple[float, float]:
    line = fish.midline_px if len(fish.midline_px) else fish.outline_px
    point = line[len(line) // 2] if line is fish.midline_px else line.mean(axis=0)
    x, y = canvas.to_canvas(point[None])[0]
    return float(x), float(y)


def _footer(
    plane: PlaneScale | None,
    fish: Sequence[MeasuredFish],
    problems: Sequence[Problem] = (),
) -> str:
    used = [one for one in fish if one.complete]
    refused = [_problem_words(problem) for problem in problems if problem.fatal]
    if refused and not used:
        return wording("overlay-footer", case="refused", reasons=tuple(refused))
    parts = [
        *_scale_parts(plane),
        wording("overlay-footer", case="used", used=len(used), fish=len(fish)),
    ]
    booked = {one.species for one in used if "published-weight" in one.flags}
    if booked:
        names = tuple(sorted(booked))
        parts.append(wording("overlay-footer", case="published", names=names))
    if used:
        errors = [_error_mm(one) for one in used]
        least, most = min(errors), max(errors)
        case = "error" if round(least) == round(most) else "errors"
        parts.append(wording("overlay-errors", case=case, least_mm=least, most_mm=most))
    return " · ".join(parts)


def _scale_parts(plane: PlaneScale | None) -> list[str]:
    """Return what gave the scale, and how well it is known."""
    if plane is None:
        return [wording("overlay-footer", case="no-scale")]
    ids = ", ".join(str(i) for i in plane.marker_ids)
    return [
        wording(
            "overlay-scale",
            method=Message.of("scale-method", case=plane.method),
            markers=f" {ids}" if ids else "",
        ),
        wording("overlay-scale-error", share=plane.relative_se),
        wording("overlay-tilt", tilt=plane.tilt_deg),
    ]


def _warning(problems: Sequence[Problem]) -> str:
    """Return what is doubtful about a photo that was measured."""
    words = [_problem_words(problem) for problem in problems if not problem.fatal]
    return wording("overlay-look", reasons=tuple(words)) if words else ""


def _problem_words(problem: Problem) -> str:
    return wording("problem-words", case=problem.code)
