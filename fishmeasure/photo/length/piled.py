"""A fish that lies on others: higher than on the board, and aslope.

How high the fish below are is not seen. In rendered heaps of stiff fish, two layers
deep, the middle of an upper one lies 0.80 of its thickness (sd 0.33) higher than on the
board, and it looks shorter by 1.2 % (sd 1.7 %), its ends being at unlike heights
(computed from 36 fish of eight heaps; limp ones hang lower, so the first is widened).
"""

import math
from dataclasses import replace
from typing import Final

from fishmeasure.photo.length.parallax import Pose

RAISED_SHARE, RAISED_SHARE_SD = 0.8, 0.4
"""Of the thickness: stand-in, see above."""
SHORTER: Final = 0.012
SHORTER_SD: Final = 0.017
"""Of the length: stand-in, see above."""
TILT_SD: Final = 0.155
"""Of the ends' difference in height over the length, rms of the same 36: stand-in. Seen
at a slant along the fish, the higher end is moved by it, outward."""
MOST_SD: Final = 0.03
"""Relative standard error of a length beyond which a fish that may lie on others is not
used: by 5 % it would be wrong too often."""


def piled(pose: Pose, share: float) -> Pose:
    """Return the pose of a fish that lies on others with that probability."""
    if share <= 0.0:
        return pose
    thickness_mm = 2.0 * pose.half_thickness_mm
    variance = share * RAISED_SHARE_SD**2 + share * (1.0 - share) * RAISED_SHARE**2
    shorter = share * SHORTER_SD**2 + share * (1.0 - share) * SHORTER**2
    return replace(
        pose,
        clear_mm=pose.clear_mm + share * RAISED_SHARE * thickness_mm,
        clear_own_sd_mm=math.hypot(
            pose.clear_own_sd_mm, math.sqrt(variance) * thickness_mm
        ),
        aslope_shorter=share * SHORTER,
        aslope_sd=math.sqrt(shorter),
        tilt_sd=math.sqrt(share) * TILT_SD,
    )
