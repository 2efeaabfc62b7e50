"""Water over the plane of the markers: what is seen through it, and how it is bent.

Markers lie on the bottom of a tub, the camera looks down through a level surface. A
ray that meets the surface at the angle whose tangent is t goes on at the tangent
t_w = s / sqrt(1 - s^2) with s = t / (n sqrt(1 + t^2)) (Snell's law). Near the axis the
bottom looks as if seen in air from the *apparent* height, air path + depth / n, and a
point z over the bottom as if it were z / n up. All heights of a camera over a plane
under water are apparent ones: they are what a pinhole finds from the markers.
"""

from typing import Annotated, Final

import numpy as np
from pydantic import Field

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.record import record

USUAL_DEPTH_MM: Final = 100.0
USUAL_DEPTH_SD_MM: Final = 30.0
"""Of a tub with water just over the backs of fish of 150 to 300 mm, where nobody
measured it. Common practice, no source."""
DEPTH_READ_SD_MM: Final = 5.0
"""Of a depth read with a ruler in moving water. Common practice, no source."""
RIPPLE_MM: Final = 1.0
"""Standard deviation with which ripples move what lies on the bottom: depth (1 - 1/n)
times the surface's slope; 100 mm and slopes of two degrees make 0.9 mm. The slope is
common practice for water that has come to rest, no source."""
TEMPERATURE_DEG_C: Final = 12.0
"""Of water whose temperature was not said. From 0 to 30 C the index falls by 0.002,
which moves a length by less than 0.01 %."""
GREEN_NM: Final = 550.0
"""Middle of what a camera sees."""


def refractive_index(
    temperature_deg_c: float = TEMPERATURE_DEG_C, wavelength_nm: float = GREEN_NM
) -> float:
    """Return the refractive index of fresh water over air.

    Quan & Fry 1995, Applied Optics 34:3477-3480, at no salinity; 0 to 30 C, 400 to 700
    nm. Seen as quoted by three programs alike; it agrees with Tilton & Taylor 1938.
    """
    t, w = temperature_deg_c, wavelength_nm
    return (
        1.31405
        - 2.02e-6 * t**2
        + (15.868 - 0.00423 * t) / w
        - 4382.0 / w**2
        + 1.1455e6 / w**3
    )


@record(frozen=True, slots=True, kw_only=True)
class Water:
    """A level layer of water over the plane."""

    depth_mm: Annotated[float, Field(description="From plane to surface, mm.")]
    depth_sd_mm: Annotated[float, Field(description="Its standard error, mm.")]
    depth_known: Annotated[
        bool, Field(description="Whether somebody measured it, or it is the usual one.")
    ] = False
    index: Annotated[
        float, Field(description="Refractive index: times slower than in air.")
    ]

    @classmethod
    def of(cls, depth_mm: float | None = None) -> "Water":
        """Return fresh water so deep, or of the usual depth."""
        known = depth_mm is not None
        return cls(
            depth_mm=depth_mm if depth_mm is not None else USUAL_DEPTH_MM,
            depth_sd_mm=DEPTH_READ_SD_MM if known else USUAL_DEPTH_SD_MM,
            depth_known=known,
            index=refractive_index(),
        )

    def reach_mm(
        self,
        tangents: FloatArray,
        camera_height_mm: float,
        height_mm: FloatArray | float = 0.0,
    ) -> FloatArray:
        """Return how far from the camera's foot rays reach a height over the plane.

        Parameters
        ----------
        tangents
            Of the rays' angles from straight down, in air.
        camera_height_mm
            Apparent height of the camera.
        height_mm
            Over the plane.
        """
        air_mm, water_mm = self._paths_mm(camera_height_mm, height_mm)
        reach: FloatArray = air_mm * tangents + water_mm * self._bent(tangents)[0]
        return reach

    def tangents(
        self,
        reach_mm: FloatArray,
        camera_height_mm: float,
        height_mm: FloatArray | float = 0.0,
    ) -> FloatArray:
        """Return the rays' tangents in air, of points so far from the camera's foot."""
        air_mm, water_mm = self._paths_mm(camera_height_mm, height_mm)
        found: FloatArray = reach_mm / (air_mm + water_mm / self.index)
        for _ in range(6):  # Newton; off by under 1e-9 by then
            bent, slope = self._bent(found)
            miss = air_mm * found + water_mm * bent - reach_mm
            found = found - miss / (air_mm + water_mm * slope)
        return found

    def _paths_mm(
        self, camera_height_mm: float, height_mm: FloatArray | float
    ) -> tuple[FloatArray, FloatArray]:
        """Return the vertical ways through air and through water."""
        height = np.asarray(height_mm, dtype=np.float64)
        water_mm = np.clip(self.depth_mm - height, 0.0, None)
        over_mm = np.clip(height - self.depth_mm, 0.0, None)
        air_mm = camera_height_mm - self.depth_mm / self.index - over_mm
        return np.asarray(air_mm), np.asarray(water_mm)

    def _bent(self, tangents: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return the tangents under water, and how they change with those in air."""
        secant = np.sqrt(1.0 + tangents**2)
        sine = tangents / secant / self.index
        cosine = np.sqrt(1.0 - sine**2)
        return sine / cosine, 1.0 / (self.index * secant**3 * cosine**3)
