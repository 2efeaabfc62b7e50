"""The plane seen from straight above, turned and scaled as the networks need it."""

from dataclasses import dataclass

import cv2
import numpy as np

from fishmeasure.base.arrays import BoolArray, ByteArray, FloatArray
from fishmeasure.photo.image import Photo
from fishmeasure.photo.plane import PlaneScale

OUTSIDE_GREY = 128
"""Where the photo ends; the networks were trained with the same tone."""
_GRID_PX = 16
_FARTHEST_SPAN_MM = 2500.0
"""A tilted photo shows the plane up to its horizon; fish are sought near by."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Frame:
    """A picture of the plane: its shape, and where its pixels lie.

    ``matrix`` is (2, 3): plane millimetres = matrix @ (x, y, 1) of view pixels.
    """

    matrix: FloatArray
    shape: tuple[int, int]

    @property
    def px_per_mm(self) -> float:
        """Scale along the rows."""
        return 1.0 / float(np.hypot(self.matrix[0, 0], self.matrix[1, 0]))

    def to_mm(self, points_view: FloatArray) -> FloatArray:
        """Return (n, 2) plane points of view pixels."""
        points_mm: FloatArray = points_view @ self.matrix[:, :2].T + self.matrix[:, 2]
        return points_mm

    def to_view(self, points_mm: FloatArray) -> FloatArray:
        """Return (n, 2) view pixels of plane points."""
        inverse = np.linalg.inv(self.matrix[:, :2])
        points: FloatArray = (points_mm - self.matrix[:, 2]) @ inverse.T
        return points


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class View:
    """A rectified picture; ``inside`` tells where the photo reaches."""

    frame: Frame
    rgb: ByteArray
    inside: BoolArray


def whole_frame(
    photo: Photo, plane: PlaneScale, most_px: float, most_scale: float
) -> Frame:
    """Return a frame of all that the photo shows of the plane.

    At most ``most_px`` pixels in all and ``most_scale`` pixels per millimetre.
    """
    steps = np.linspace(0.0, 1.0, 13)
    right, bottom = photo.width_px - 1.0, photo.height_px - 1.0
    edge = np.vstack(
        [
            np.column_stack([steps * right, steps * 0]),
            np.column_stack([steps * right, steps * 0 + bottom]),
            np.column_stack([steps * 0, steps * bottom]),
            np.column_stack([steps * 0 + right, steps * bottom]),
        ]
    )
    points = plane.to_plane_mm(edge)
    middle = plane.to_plane_mm(np.array([[right / 2, bottom / 2]]))[0]
    reach = _FARTHEST_SPAN_MM / 2
    low = np.maximum(points.min(axis=0), middle - reach)
    high = np.minimum(points.max(axis=0), middle + reach)
    size = np.maximum(high - low, 1.0)
    scale = min(most_scale, float(np.sqrt(most_px / size.prod())))
    rows, columns = (max(64, -(-int(side * scale) // 32) * 32) for side in size[::-1])
    matrix = np.array([[1 / scale, 0, low[0]], [0, 1 / scale, low[1]]])
    return Frame(matrix=matrix, shape=(rows, columns))


def rectify(photo: Photo, plane: PlaneScale, frame: Frame) -> View:
    """Return the frame's picture, averaged over what each pixel covers."""
    map_x, map_y = _maps(plane, frame)
    inside = (map_x >= 0) & (map_x <= photo.width_px - 1)
    inside &= (map_y >= 0) & (map_y <= photo.height_px - 1)
    source, corner, step = _source(photo, map_x, map_y)
    rgb = cv2.remap(
        source,
        (map_x + np.float32(0.5)) / step - np.float32(0.5) - np.float32(corner[0]),
        (map_y + np.float32(0.5)) / step - np.float32(0.5) - np.float32(corner[1]),
        cv2.INTER_LINEAR,
        borderMode=cv2.BORDER_REPLICATE,
    )
    rgb[~inside] = OUTSIDE_GREY
    return View(frame=frame, rgb=np.asarray(rgb, dtype=np.uint8), inside=inside)


def _source(
    photo: Photo, map_x: FloatArray, map_y: FloatArray
) -> tuple[ByteArray, tuple[int, int], np.float32]:
    """Return the part of the raster in view, shrunk, its corner and its step.

    The corner is in shrunk pixels, the step in photo pixels.
    """
    row, column = map_x.shape[0] // 2, map_x.shape[1] // 2
    dx = float(map_x[row, column + 1] - map_x[row, column])
    dy = float(map_y[row, column + 1] - map_y[row, column])
    shrink = max(1, int(float(np.hypot(dx, dy)) / photo.reduction / 1.3))
    step = photo.reduction * shrink
    rows, columns = photo.rgb.shape[0] // shrink, photo.rgb.shape[1] // shrink
    left = int(np.clip(map_x.min() / step - 2, 0, columns - 1))
    top = int(np.clip(map_y.min() / step - 2, 0, rows - 1))
    right = int(np.clip(map_x.max() / step + 3, left + 1, columns))
    bottom = int(np.clip(map_y.max() / step + 3, top + 1, rows))
    part = photo.rgb[top * shrink : bottom * shrink, left * shrink : right * shrink]
    if shrink > 1:
        size = (right - left, bottom - top)
        part = np.asarray(
            cv2.resize(part, size, interpolation=cv2.INTER_AREA), np.uint8
        )
    return part, (left, top), np.float32(step)


def _maps(plane: PlaneScale, frame: Frame) -> tuple[FloatArray, FloatArray]:
    """Return the photo x and y of every view pixel.

    Computed on a grid and enlarged: over 16 pixels a homography with lens
    distortion is straight to far below a tenth of a pixel.
    """
    rows, columns = frame.shape
    xs = (np.arange(columns // _GRID_PX + 3) - 0.5) * _GRID_PX - 0.5
    ys = (np.arange(rows // _GRID_PX + 3) - 0.5) * _GRID_PX - 0.5
    grid = np.stack(np.meshgrid(xs, ys), axis=-1).reshape(-1, 2)
    points = plane.to_photo_px(frame.to_mm(grid)).astype(np.float32)
    coarse = points.reshape(len(ys), len(xs), 2)
    size = (len(xs) * _GRID_PX, len(ys) * _GRID_PX)
    fine = cv2.resize(coarse, size, interpolation=cv2.INTER_LINEAR)
    part = fine[_GRID_PX : _GRID_PX + rows, _GRID_PX : _GRID_PX + columns]
    return np.ascontiguousarray(part[..., 0]), np.ascontiguousarray(part[..., 1])
