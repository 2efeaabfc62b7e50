"""What a length read on a ruler says of how high snout and fork lay."""

import math

from fishmeasure.photo.length.budget import LAID, Course
from fishmeasure.photo.length.measure import bend_share, pose_of
from fishmeasure.photo.length.parallax import Camera
from fishmeasure.photo.length.record import FishLength, FishShape
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.species.heights_fit import RuledFish


def ruled_fish(
    fish: FishLength,
    plane: PlaneScale,
    shape: FishShape,
    *,
    photo: str,
    ruler_mm: float,
) -> RuledFish:
    """Return what a fish of a photo and its length on a ruler tell.

    Parameters
    ----------
    fish
        As measured with that shape.
    photo
        Its name.
    ruler_mm
        Its fork length as read.
    """
    course = Course(
        points_mm=plane.to_plane_mm(fish.midline_px),
        bend_share=bend_share(
            math.radians(fish.bend_deg), fish.seen_depth_per_length or 0.0
        ),
    )
    camera, pose = Camera.of(plane), pose_of(shape, 0.5 * fish.thickness_mm)
    higher, lower = (course.length_mm(camera, pose.stiffer(t)) for t in (0.5, -0.5))

    def sd(*scopes: str) -> float:
        return math.sqrt(
            sum(
                source.relative_sd**2
                for source in fish.sources
                if source.scope in scopes and source.name != LAID
            )
        )

    return RuledFish(
        photo=photo,
        length_mm=fish.fork_length_mm,
        ruler_mm=ruler_mm,
        slope=math.log(higher / lower),
        own_sd=sd("fish"),
        photo_sd=sd("photo"),
        shared_sd=sd("sample", "species"),
        camera_mm=camera.height_mm,
        thickness_mm=fish.thickness_mm,
    )
