"""Which pixels of the photo a fish covers."""

import cv2
import numpy as np

from sample_images.generator.camera import Array
from sample_images.generator.mesh import Mesh
from sample_images.generator.net import Net
from sample_images.generator.scene import Scene

_OUTLINE_RASTER_PX = 4200  # the silhouette is filled on a raster about this large


class Silhouette:
    """Filled projection of a fish on a fine raster of its own."""

    def __init__(self, scene: Scene, mesh: Mesh) -> None:
        pixels = scene.project(mesh.vertices_mm)
        low = np.floor(pixels.min(axis=0)) - 3
        size = float(np.max(np.ceil(pixels.max(axis=0)) + 3 - low))
        self.low = low
        self.factor = max(2, min(8, int(_OUTLINE_RASTER_PX / size)))
        extent = np.ceil(pixels.max(axis=0) + 3 - low).astype(int)
        columns, rows = (int(v) for v in extent * self.factor)
        self.mask = np.zeros((rows, columns), dtype=np.uint8)
        fine = (pixels - low + 0.5) * self.factor - 0.5
        fixed = np.round(fine * 16).astype(np.int32)
        for triangle in fixed[mesh.faces]:
            cv2.fillConvexPoly(self.mask, triangle, 1, cv2.LINE_8, 4)

    def outline_px(self) -> Array:
        """Return (n, 2) photo points of the outer contour."""
        contours, _ = cv2.findContours(
            self.mask, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE
        )
        longest = max(contours, key=cv2.contourArea)
        # Below one raster step the contour's staircase would be kept.
        tolerance = max(0.12 * self.factor, 0.95)
        kept = cv2.approxPolyDP(longest, tolerance, closed=True)
        return self.to_photo(kept.reshape(-1, 2).astype(float))

    def to_photo(self, fine: Array) -> Array:
        """Return photo points of raster points."""
        photo: Array = (fine + 0.5) / self.factor - 0.5 + self.low
        return photo

    def centres_px(self, step: int) -> Array:
        """Return (n, 2) photo points of every ``step``-th filled raster cell."""
        rows, columns = np.nonzero(self.mask[::step, ::step])
        cells = np.column_stack([columns, rows]).astype(np.float64)
        return self.to_photo(cells * step)

    def share_behind(self, scene: Scene, net: Net) -> float:
        """Return the share of the silhouette behind the cords of a net."""
        camera = scene.camera
        cords = np.zeros_like(self.mask)
        depth = camera.position_mm[2] - float(net.knots_mm[:, 2].mean())
        wide = net.spec.cord_mm * camera.focal_px / depth * self.factor
        for line in net.lines:
            fine = (camera.project(line) - self.low + 0.5) * self.factor - 0.5
            fixed = np.round(fine * 16).astype(np.int32)
            cv2.polylines(
                cords,
                [fixed],
                isClosed=False,
                color=1,
                thickness=max(1, round(wide)),
                shift=4,
            )
        return float(cords[self.mask > 0].mean())

    def covers(self, points_px: Array) -> np.ndarray:
        """Return (n,) whether photo points lie inside."""
        fine = np.round((points_px - self.low + 0.5) * self.factor - 0.5).astype(int)
        rows, columns = self.mask.shape
        inside = (fine >= 0).all(axis=1)
        inside &= (fine[:, 0] < columns) & (fine[:, 1] < rows)
        clipped = np.clip(fine, 0, [columns - 1, rows - 1])
        covered: np.ndarray = inside & (self.mask[clipped[:, 1], clipped[:, 0]] > 0)
        return covered
