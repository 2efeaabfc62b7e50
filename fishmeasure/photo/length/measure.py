"""One outline, or two points, to the lengths of a fish."""

from dataclasses import replace

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.length.budget import Course, error_sources, total_relative_sd
from fishmeasure.photo.length.checks import place_flags, shape_flags
from fishmeasure.photo.length.depth import squared_depth
from fishmeasure.photo.length.ends import Ends, find_ends, tail_odds_ln
from fishmeasure.photo.length.midline import Midline, trace_midline
from fishmeasure.photo.length.parallax import Camera, Pose, true_depth_mm
from fishmeasure.photo.length.piled import MOST_SD, piled
from fishmeasure.photo.length.record import FishLength, FishShape
from fishmeasure.photo.length.seen import Seen, area_of
from fishmeasure.photo.length.upright import of_the_fork, of_upright, swimming
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.segment.outline import FishOutline, Posture

STATIONS = 48
SEEN_DEPTH_RELATIVE_SD = 0.05
"""Of the depth of an outline, for what is left of fins in it."""
NATURAL_TURN_RAD, TURN_PER_DEPTH, MOST_TURN_RAD = 0.20, 5.4, 0.74
SLENDER = 0.25
"""Spread of the midline's turn in straight fish, as a back is seldom shaped as a
belly is; of a fish up to a quarter as deep as long, more for each share of depth
beyond it, and the most. In 446 outlines of straight fish (218 of Caillon et al. 2018,
Ecosphere 9, e02220; every fourth of 910 of Schwartz and Alfaro 2021) it is 0.20 to
0.26 below a depth of 0.25, 0.39 to 0.56 up to 0.30, 0.72 to 0.80 up to 0.35."""
STANDARD_RELATIVE_SD = 0.024
"""Of the tail fin's base on an outline against its landmark, same outlines."""
HEAD_SHARE = TAIL_SHARE = 0.25
TOLD_ODDS_LN, BY_HAND_ODDS_LN = 6.0, 100.0
"""What a method's word for the tail counts, and a person's."""
MAX_GAP = 0.06
"""Of the length: method and outline disagree on an end, so one of them is wrong."""
MAX_SNOUT_GAP = 0.03
"""The same in front of a fish seen from above: outlines reach its broad head, within
0.007 in 20 rendered fish; an end farther off lies on the fish's shadow."""
MAX_TAIL_GAP = 0.16
"""The same behind, of a fish seen from above: so long may its thin tail fin be."""
MIN_AREA_MM2 = 1.0
MEAN_HEIGHT_SHARE = 0.85
"""Of the half thickness, over a whole outline."""


def measure_length(
    outline: FishOutline, plane: PlaneScale, shape: FishShape
) -> FishLength:
    """Return the lengths of the fish within an outline, parallax removed.

    End points that the outline brings along tell which end is the tail; put by hand,
    they are used as they are.

    Raises
    ------
    ValueError
        If the outline encloses no area.
    """
    camera = Camera.of(plane)
    contour_mm = plane.to_plane_mm(outline.contour_px)
    if not area_of(contour_mm) > MIN_AREA_MM2:
        message = "an outline without area has no length"
        raise ValueError(message)
    midline, drawn_ends = _oriented(trace_midline(contour_mm), outline, plane)
    ends = _placed(midline, drawn_ends, outline, plane)
    flags = _flags(outline, plane, midline, ends, drawn_ends)
    upright = outline.posture == "upright"
    seen = Seen(
        outline=outline,
        plane=plane,
        camera=camera,
        midline=midline,
        ends=ends,
        course=_course(midline, ends),
        flags=flags,
    )
    return of_upright(seen, shape) if upright else _on_its_side(seen, shape)


def _on_its_side(seen: Seen, shape: FishShape) -> FishLength:
    """Return the lengths of a fish that lies on its side: its fork is seen."""
    outline, midline, ends = seen.outline, seen.midline, seen.ends
    plane, camera = seen.plane, seen.camera
    depth_mm = _depth_mm(midline, ends, camera, shape)
    pose = _pose(depth_mm, ends.fork_along - ends.snout_along, camera, shape)
    pose = piled(pose, outline.raised_share)
    fork_mm = seen.course.length_mm(camera, pose)
    per_seen = fork_mm / (ends.fork_along - ends.snout_along)
    sources = seen.sources(pose, _tail_sd(ends))
    relative_sd = total_relative_sd(sources)
    if outline.raised_share > 0.0 and relative_sd > MOST_SD:
        seen = replace(seen, flags=tuple(dict.fromkeys((*seen.flags, "touching"))))
    standard_sd = float(np.hypot(relative_sd, STANDARD_RELATIVE_SD))
    depth_sd = float(np.hypot(relative_sd, SEEN_DEPTH_RELATIVE_SD))
    total_mm = per_seen * (ends.tip_along - ends.snout_along)
    standard_mm = per_seen * (ends.base_along - ends.snout_along)
    return FishLength(
        fork_length_mm=fork_mm,
        fork_length_se_mm=relative_sd * fork_mm,
        total_length_mm=total_mm,
        total_length_se_mm=relative_sd * total_mm,
        standard_length_mm=standard_mm,
        standard_length_se_mm=standard_sd * standard_mm,
        body_depth_mm=depth_mm,
        body_depth_se_mm=depth_sd * depth_mm,
        thickness_mm=2.0 * pose.half_thickness_mm,
        area_mm2=seen.outlined_mm2 * _shrink(camera, pose) ** 2,
        squared_depth_mm3=_squared_depth_mm3(
            outline, plane, midline, ends, pose, shape.thickness_per_depth
        ),
        sources=sources,
        **seen.common(),
    )


def _flags(
    outline: FishOutline,
    plane: PlaneScale,
    midline: Midline,
    ends: Ends,
    drawn_ends: Ends,
) -> tuple[str, ...]:
    """Return what is doubtful: water is no doubt where its bending is known."""
    wet = plane.water is not None
    upright = outline.posture == "upright"
    shape = shape_flags(midline, ends)
    if upright:  # the proportions known are those of fish on their side
        shape = tuple(word for word in shape if word in {"bent", "coiled"})
    doubts = (
        *(word for word in outline.flags if not (wet and word == "under-water")),
        *shape,
        *(
            _upright_ends_flags(midline, ends)
            if upright
            else _ends_flags(drawn_ends, outline, plane)
        ),
        *place_flags(midline, plane),
    )
    return tuple(dict.fromkeys(doubts))


def measure_between(
    snout_px: FloatArray,
    fork_px: FloatArray,
    plane: PlaneScale,
    shape: FishShape,
    posture: Posture | None = None,
) -> FishLength:
    """Return the lengths of a straight fish of which two points (2,) are given.

    Depth and the other lengths follow from the kind of fish; the outline is empty.
    Under water a fish of which nothing else is said is upright, and the second point
    the tip of its tail.
    """
    upright = (posture or ("side" if plane.water is None else "upright")) == "upright"
    camera = Camera.of(plane)
    ends_mm = plane.to_plane_mm(np.vstack([snout_px, fork_px]))
    stations = np.linspace(0.0, 1.0, STATIONS)[:, None]
    points_mm = ends_mm[0] + stations * (ends_mm[1] - ends_mm[0])
    course = Course(points_mm=points_mm)
    seen_mm = float(np.linalg.norm(ends_mm[1] - ends_mm[0]))
    pose = _pose(None, seen_mm, camera, shape)
    if upright:
        pose = swimming(shape, seen_mm, camera, plane.water)
    fork_mm = course.length_mm(camera, pose)
    sources = error_sources(course, camera, pose, plane)
    if upright:
        fork_mm *= shape.fork_per_total
        sources = (*sources, *of_the_fork(shape))
    relative_sd = total_relative_sd(sources)
    depth_mm = shape.depth_per_fork_length * fork_mm
    depth_sd = shape.depth_per_fork_length_sd / shape.depth_per_fork_length
    total_mm = fork_mm / shape.fork_per_total
    standard_sd = float(np.hypot(relative_sd, STANDARD_RELATIVE_SD))
    standard_mm = shape.standard_per_total * total_mm
    return FishLength(
        fork_length_mm=fork_mm,
        fork_length_se_mm=relative_sd * fork_mm,
        total_length_mm=total_mm,
        total_length_se_mm=standard_sd * total_mm,
        standard_length_mm=standard_mm,
        standard_length_se_mm=standard_sd * standard_mm,
        body_depth_mm=depth_mm,
        body_depth_se_mm=depth_sd * depth_mm,
        thickness_mm=2.0 * pose.half_thickness_mm,
        area_mm2=ELLIPSE_AREA * depth_mm * fork_mm,
        bend_deg=0.0,
        outline_px=np.empty((0, 2)),
        midline_px=plane.to_photo_px(course.points_mm),
        snout_px=np.asarray(snout_px, dtype=float),
        fork_px=np.asarray(fork_px, dtype=float),
        posture="upright" if upright else "side",
        confidence=1.0,
        complete=True,
        flags=("edited",),
        sources=sources,
    )


ELLIPSE_AREA = 0.25 * np.pi
"""Of a fish's outline over depth times length: about that of an ellipse."""


def _oriented(
    midline: Midline, outline: FishOutline, plane: PlaneScale
) -> tuple[Midline, Ends]:
    """Return the midline from head to tail and its ends as the outline has them."""
    snout, fork = _given_ends(outline, plane)
    # Seen from above a fish has another profile: the method's word is all there is.
    odds = 0.0 if outline.posture == "upright" else tail_odds_ln(midline)
    if snout is not None or fork is not None:
        middle = float(midline.contour_along.mean())
        snout_at, fork_at = (
            middle if point is None else float(midline.locate(point[None])[0][0])
            for point in (snout, fork)
        )
        told = BY_HAND_ODDS_LN if outline.ends_by_hand else TOLD_ODDS_LN
        odds += told if fork_at > snout_at else -told
    if odds < 0.0:
        midline = midline.reversed()
    return midline, replace(find_ends(midline), tail_odds_ln=abs(odds))


def _placed(
    midline: Midline, ends: Ends, outline: FishOutline, plane: PlaneScale
) -> Ends:
    """Return the ends where a person put them, or the method knows them to be."""
    if not outline.ends_by_hand and outline.ends_se_mm is None:
        return ends
    snout, fork = _given_ends(outline, plane)
    if snout is not None:
        along = float(midline.locate(snout[None])[0][0])
        ends = replace(ends, snout=snout, snout_along=along)
    if fork is not None:
        along = float(midline.locate(fork[None])[0][0])
        ends = replace(ends, fork=fork, fork_along=along)
    return ends


def _given_ends(
    outline: FishOutline, plane: PlaneScale
) -> tuple[FloatArray | None, FloatArray | None]:
    """Return snout and fork of the outline on the plane, where it has them."""
    snout, fork = (
        None if point is None else plane.to_plane_mm(np.asarray(point)[None])[0]
        for point in (outline.snout_px, outline.fork_px)
    )
    return snout, fork


def _ends_flags(ends: Ends, outline: FishOutline, plane: PlaneScale) -> tuple[str, ...]:
    """Return whether method and outline see the ends in different places.

    What counts is the distance along the fish, which is length. Across it they may
    differ by the fish's depth: an open mouth has two jaws to choose from.
    """
    axis = ends.fork - ends.snout
    axis = axis / max(float(np.linalg.norm(axis)), 1e-9)
    given = zip(_given_ends(outline, plane), (ends.snout, ends.fork), strict=True)
    gaps = [told - seen for told, seen in given if told is not None]
    far = MAX_GAP * (ends.fork_along - ends.snout_along)
    differ = any(
        abs(float(gap @ axis)) > far or float(np.linalg.norm(gap)) > ends.depth
        for gap in gaps
    )
    return ("not-fish-shaped",) if differ else ()


def _upright_ends_flags(midline: Midline, ends: Ends) -> tuple[str, ...]:
    """Return whether the ends of a fish seen from above lie off its outline.

    A tail on edge may be too thin to be outlined, so there it may end before the tip.
    """
    low, high = midline.contour_along.min(), midline.contour_along.max()
    length = ends.fork_along - ends.snout_along
    before = abs(ends.snout_along - float(low)) > MAX_SNOUT_GAP * length
    gap = (ends.fork_along - float(high)) / length
    behind = not -MAX_GAP < gap < MAX_TAIL_GAP
    return ("not-fish-shaped",) if before or behind else ()


def _tail_sd(ends: Ends) -> float:
    """Return the error, as a fraction, from the chance that the tail is the head.

    Taken the wrong way round, a fish is measured to the tips of its tail.
    """
    wrong = 1.0 / (1.0 + float(np.exp(ends.tail_odds_ln)))
    beyond = (ends.tip_along - ends.fork_along) / (ends.fork_along - ends.snout_along)
    return float(np.sqrt(wrong * (1.0 - wrong))) * abs(beyond)


def _course(midline: Midline, ends: Ends) -> Course:
    """Return the midline from snout to fork, led to these points at its ends.

    It leaves the middle of the body only where the head or the tail begins, so that
    the length is never below the distance of the two points.
    """
    share = np.linspace(0.0, 1.0, STATIONS)
    along = ends.snout_along + share * (ends.fork_along - ends.snout_along)
    middle = midline.at(along)
    off_snout, off_fork = ends.snout - middle[0], ends.fork - middle[-1]
    to_snout = np.clip(1.0 - share / HEAD_SHARE, 0.0, 1.0)[:, None]
    to_fork = np.clip(1.0 - (1.0 - share) / TAIL_SHARE, 0.0, 1.0)[:, None]
    return Course(
        points_mm=middle + to_snout * off_snout + to_fork * off_fork,
        bend_share=bend_share(
            midline.turn_rad, ends.depth / (ends.fork_along - ends.snout_along)
        ),
    )


def bend_share(turn_rad: float, depth_per_length: float) -> float:
    """Return how much of the midline's curvature is likely a bend.

    The turn seen is that of the bend and that of the shape, of which the spread is
    known; the nearer it is to the latter, the more it is taken for shape.
    """
    deeper = max(depth_per_length - SLENDER, 0.0)
    natural = min(NATURAL_TURN_RAD + TURN_PER_DEPTH * deeper, MOST_TURN_RAD)
    seen = turn_rad**2
    return seen / (seen + natural**2)


def _depth_mm(midline: Midline, ends: Ends, camera: Camera, shape: FishShape) -> float:
    """Return the body's depth."""
    point = midline.at(np.array([ends.depth_along]))[0]
    across = midline.normals[int(np.searchsorted(midline.along, ends.depth_along))]
    slope = camera.slope(point, across)
    return true_depth_mm(ends.depth, slope, shape.thickness_per_depth, camera.rise_mm)


def _squared_depth_mm3(
    outline: FishOutline,
    plane: PlaneScale,
    midline: Midline,
    ends: Ends,
    pose: Pose,
    thickness_per_depth: float,
) -> float | None:
    """Return V of a fish on its side whose body without fins was outlined."""
    if outline.body_px is None or outline.posture != "side":
        return None
    return squared_depth(
        plane.to_plane_mm(outline.body_px),
        midline,
        (ends.snout_along, ends.fork_along),
        Camera.of(plane),
        pose,
        thickness_per_depth,
    )


def _pose(
    depth_mm: float | None, seen_mm: float, camera: Camera, shape: FishShape
) -> Pose:
    """Return how the fish lies, its thickness from its depth and its kind.

    The depth seen and the depth of the kind at that length are averaged, each with
    the inverse of its variance.
    """
    kind_mm = shape.depth_per_fork_length * seen_mm
    for _ in range(3):  # the length depends on the thickness in turn, by h/H
        half = 0.5 * shape.thickness_per_depth * kind_mm
        kind_mm = shape.depth_per_fork_length * seen_mm * (1 - half / camera.rise_mm)
    if depth_mm is None:
        return pose_of(shape, 0.5 * shape.thickness_per_depth * kind_mm)
    kind_sd = kind_mm * shape.depth_per_fork_length_sd / shape.depth_per_fork_length
    seen_weight = 1.0 / (SEEN_DEPTH_RELATIVE_SD * depth_mm) ** 2
    kind_weight = 1.0 / max(kind_sd, 1e-6) ** 2
    mean = np.average([depth_mm, kind_mm], weights=[seen_weight, kind_weight])
    return pose_of(shape, 0.5 * shape.thickness_per_depth * float(mean))


def pose_of(shape: FishShape, half_thickness_mm: float) -> Pose:
    """Return how a fish of a kind and a thickness lies."""
    return Pose(
        half_thickness_mm=half_thickness_mm,
        snout_share=shape.snout_height,
        fork_share=shape.fork_height,
        snout_share_sd=shape.snout_height_sd,
        fork_share_sd=shape.fork_height_sd,
        snout_radius_share=shape.snout_radius,
        snout_radius_share_sd=shape.snout_radius_sd,
    )


def _shrink(camera: Camera, pose: Pose) -> float:
    """Return what lengths on the plane are too long by, at the outline's height."""
    return 1.0 - MEAN_HEIGHT_SHARE * pose.half_thickness_mm / camera.rise_mm
