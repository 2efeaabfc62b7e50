"""Lays fish on the board so that they keep clear of markers and of each other."""

from dataclasses import dataclass, replace

import cv2
import numpy as np

from sample_images.generator import paper
from sample_images.generator.camera import Array, Camera, CameraSpec
from sample_images.generator.clutter import Item
from sample_images.generator.fish import Body, FishSpec
from sample_images.generator.paper import PaperSpec
from sample_images.generator.swim import body_of

CELL_MM = 1.5
SPAN_MM = 1400.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """How fish are laid.

    ``clearance_mm`` around each, ``inset`` share of the frame kept free at its
    edge, ``on_sheet`` lets fish lie on the sheet, ``heading_spread_deg`` around
    ``heading_deg`` or its opposite.
    """

    clearance_mm: float = 7.0
    inset: float = 0.03
    on_sheet: bool = True
    heading_deg: float = 0.0
    heading_spread_deg: float = 180.0
    area_mm: tuple[float, float] | None = None


class Ground:
    """Occupancy of the board on a coarse raster."""

    def __init__(self) -> None:
        size = int(SPAN_MM / CELL_MM)
        self.taken = np.ones((size, size), dtype=np.uint8)

    @classmethod
    def of(
        cls, camera_spec: CameraSpec, papers: tuple[PaperSpec, ...], rules: Rules
    ) -> "Ground":
        """Return free ground: inside the frame, off the markers."""
        return _ground(Camera.from_spec(camera_spec), papers, rules)

    def cells(self, points_mm: Array) -> np.ndarray:
        """Return integer raster points of board points."""
        return np.round((points_mm[:, :2] + SPAN_MM / 2) / CELL_MM).astype(np.int32)

    def fill(self, points_mm: Array, value: int) -> None:
        """Take (1) or free (0) the ground within an outline."""
        cv2.fillPoly(self.taken, [self.cells(points_mm)], value)

    def stamp(self, body: Body, margin_mm: float) -> np.ndarray:
        """Return the raster of one fish with a margin."""
        mask = np.zeros_like(self.taken)
        cv2.fillPoly(mask, [self.cells(body.footprint_mm())], 1)
        reach = 2 * round(margin_mm / CELL_MM) + 1
        return cv2.dilate(mask, np.ones((reach, reach), np.uint8))


def _ground(camera: Camera, papers: tuple[PaperSpec, ...], rules: Rules) -> Ground:
    """Return free ground: inside the frame, off the markers."""
    ground = Ground()
    frame = camera.frame_on_board()
    centre = frame.mean(axis=0)
    ground.fill(centre + (frame - centre) * (1 - 2 * rules.inset), 0)
    if rules.area_mm is not None:
        w, h = (v / 2 for v in rules.area_mm)
        inside = np.ones_like(ground.taken)
        box = np.array([[-w, -h], [w, -h], [w, h], [-w, h]])
        cv2.fillPoly(inside, [ground.cells(box)], 0)
        ground.taken |= inside
    for spec in papers:
        piece = paper.build(spec)
        if spec.kind == "sheet" and rules.on_sheet:
            for corners in piece.corners_mm.values():
                middle = corners.mean(axis=0)
                ground.fill(middle + (corners - middle) * 1.45, 1)
        else:
            middle = piece.outline_mm.mean(axis=0)
            ground.fill(middle + (piece.outline_mm - middle) * 1.08, 1)
    return ground


def lay(
    fish: list[FishSpec],
    camera_spec: CameraSpec,
    papers: tuple[PaperSpec, ...],
    rng: np.random.Generator,
    rules: Rules,
    fixed: tuple[FishSpec, ...] = (),
    items: tuple[Item, ...] = (),
) -> tuple[FishSpec, ...]:
    """Return the ``fixed`` fish and the others, placed clear of all else.

    Raises
    ------
    RuntimeError
        Where the board is too crowded; choose other seeds, fewer or smaller fish.
    """
    ground = _ground(Camera.from_spec(camera_spec), papers, rules)
    for item in items:
        ground.fill(item.footprint(), 1)
    for other in fixed:
        ground.taken |= ground.stamp(body_of(other), rules.clearance_mm)
    placed: dict[int, FishSpec] = {}
    order = sorted(range(len(fish)), key=lambda k: -fish[k].fork_length_mm)
    for number in order:
        trial = _try_places(fish[number], ground, rng, rules)
        if trial is None:
            message = f"no room for fish {number + 1} of {len(fish)}"
            raise RuntimeError(message)
        ground.taken |= ground.stamp(body_of(trial), rules.clearance_mm)
        placed[number] = trial
    return fixed + tuple(placed[k] for k in range(len(fish)))


def _try_places(
    fish: FishSpec, ground: Ground, rng: np.random.Generator, rules: Rules
) -> FishSpec | None:
    """Return the fish at a free place, or None."""
    free_rows, free_columns = np.nonzero(ground.taken == 0)
    if len(free_rows) == 0:
        return None
    for _ in range(1200):
        pick = int(rng.integers(len(free_rows)))
        x = float(free_columns[pick] * CELL_MM - SPAN_MM / 2)
        y = float(free_rows[pick] * CELL_MM - SPAN_MM / 2)
        turn = float(rng.uniform(-1, 1) * rules.heading_spread_deg)
        heading = rules.heading_deg + turn + 180.0 * float(rng.integers(2))
        trial = replace(
            fish,
            position_mm=(round(x, 1), round(y, 1)),
            heading_deg=round(heading % 360, 1),
        )
        if not np.any(ground.stamp(body_of(trial), rules.clearance_mm) & ground.taken):
            return trial
    return None


def scatter(
    kinds: tuple[str, ...],
    camera_spec: CameraSpec,
    papers: tuple[PaperSpec, ...],
    rng: np.random.Generator,
    area_mm: tuple[float, float] | None = None,
) -> tuple[Item, ...]:
    """Return things laid anywhere clear of the papers and of each other.

    Raises
    ------
    RuntimeError
        Where one of them finds no room.
    """
    rules = Rules(on_sheet=False, area_mm=area_mm)
    ground = _ground(Camera.from_spec(camera_spec), papers, rules)
    items: list[Item] = []
    for kind in kinds:
        rows, columns = np.nonzero(ground.taken == 0)
        for _ in range(400):
            pick = int(rng.integers(len(rows)))
            item = Item(
                kind=kind,
                position_mm=(
                    round(float(columns[pick] * CELL_MM - SPAN_MM / 2), 1),
                    round(float(rows[pick] * CELL_MM - SPAN_MM / 2), 1),
                ),
                heading_deg=round(float(rng.uniform(0, 360)), 1),
                seed=int(rng.integers(1000)),
            )
            mask = np.zeros_like(ground.taken)
            cv2.fillPoly(mask, [ground.cells(item.footprint())], 1)
            if not np.any(mask & ground.taken):
                break
        else:
            message = f"no room for the {kind}"
            raise RuntimeError(message)
        ground.taken |= mask
        items.append(item)
    return tuple(items)


def beside(anchor: FishSpec, fish: FishSpec, rng: np.random.Generator) -> FishSpec:
    """Return the fish lying against the flank of another, touching it."""
    turn = np.radians(anchor.heading_deg)
    gap = 0.5 * (Body(anchor).body_depth_mm + Body(fish).body_depth_mm) * 0.985
    side = 1.0 if rng.integers(2) else -1.0
    along = float(rng.uniform(-0.08, 0.08)) * anchor.fork_length_mm
    x = anchor.position_mm[0] - np.sin(turn) * side * gap + np.cos(turn) * along
    y = anchor.position_mm[1] + np.cos(turn) * side * gap + np.sin(turn) * along
    heading = anchor.heading_deg + float(rng.uniform(-4, 4))
    return replace(
        fish,
        position_mm=(round(float(x), 1), round(float(y), 1)),
        heading_deg=round(heading % 360, 1),
    )


def across(anchor: FishSpec, fish: FishSpec, rng: np.random.Generator) -> FishSpec:
    """Return the fish lying across another, on top of it."""
    turn = np.radians(anchor.heading_deg)
    along = float(rng.uniform(-0.25, 0.25)) * anchor.fork_length_mm
    x = anchor.position_mm[0] + np.cos(turn) * along
    y = anchor.position_mm[1] + np.sin(turn) * along
    heading = anchor.heading_deg + float(rng.choice([-1, 1]) * rng.uniform(35, 90))
    return replace(
        fish,
        position_mm=(round(float(x), 1), round(float(y), 1)),
        heading_deg=round(heading % 360, 1),
        base_mm=round(anchor.base_mm + 1.6 * Body(anchor).half_thickness_mm, 1),
    )


def through_edge(
    fish: FishSpec, camera_spec: CameraSpec, rng: np.random.Generator
) -> FishSpec:
    """Return the fish with head or tail outside the right edge of the frame."""
    camera = Camera.from_spec(camera_spec)
    row = float(rng.uniform(0.25, 0.75)) * camera.height_px
    edge = camera.to_board(np.array([[camera.width_px - 1.0, row]]))[0]
    inward = float(rng.uniform(0.1, 0.3)) * fish.fork_length_mm
    heading = float(rng.uniform(-25, 25)) + 180.0 * float(rng.integers(2))
    return replace(
        fish,
        position_mm=(round(float(edge[0]) - inward, 1), round(float(edge[1]), 1)),
        heading_deg=round(heading % 360, 1),
    )
