"""Path tracing of a tub: each ray is bent or mirrored at the rippled surface.

A ray from the camera meets a mesh of the surface; Mitsuba's Fresnel equations and its
refraction give both ways on. What lies in the water is lit as under a level surface:
the light from around is squeezed into Snell's window, and the lamp shines from its
bent direction through the pattern that the ripples draw (the caustics).
"""

from typing import Any

import drjit as dr
import mitsuba as mi
import numpy as np

from sample_images.generator import render, tub
from sample_images.generator.camera import Array
from sample_images.generator.clutter import Part
from sample_images.generator.noise import blur
from sample_images.generator.scene import Scene
from sample_images.generator.water import Surface

_FAR_MM = 4000.0  # of the bent lamp
_PATTERN_MM = 1500.0  # side of the square of its pattern
_PATTERN_TEXEL_MM = 1.5
_RING = 0.10  # light from beyond Snell's window, of the mean within it


def _fresnel(cosine: Array, index: float) -> Array:
    """Return the mirrored share of unpolarised light that enters water."""
    bent = np.sqrt(1 - (1 - cosine**2) / index**2)
    across = ((cosine - index * bent) / (cosine + index * bent)) ** 2
    along = ((bent - index * cosine) / (bent + index * cosine)) ** 2
    share: Array = (across + along) / 2
    return share


def under_surround(values: Array, index: float) -> Array:
    """Return the light from around as it comes through a level surface."""
    rows = len(values)
    zenith = (np.arange(rows) + 0.5) / rows * np.pi
    sine = np.sin(zenith) * index
    window = (sine < 1) & (zenith < np.pi / 2)
    outside = np.arcsin(np.clip(sine, 0, 1))
    through = 1 - _fresnel(np.cos(np.minimum(outside, 1.56)), index)
    at = np.clip(outside / np.pi * rows - 0.5, 0, rows - 1)
    low = np.floor(at).astype(int)
    share = (at - low)[:, None, None]
    taken = values[low] * (1 - share) + values[np.minimum(low + 1, rows - 1)] * share
    taken = taken * through[:, None, None]
    dim = taken[window].mean(axis=(0, 1)) * _RING
    result: Array = np.where(window[:, None, None], taken, dim)
    return result


def caustics(surface: Surface, towards: Array, height_mm: float) -> Array:
    """Return where parallel light falls on a level, 1 on average.

    ``towards`` is the unit direction in which the light travels in the air.
    """
    count = int(_PATTERN_MM / _PATTERN_TEXEL_MM)
    fine = (np.arange(2 * count) + 0.5) * _PATTERN_TEXEL_MM / 2 - _PATTERN_MM / 2
    landed = np.zeros((count, count))
    for row in np.array_split(fine, 12):
        y, x = np.meshgrid(row, fine, indexing="ij")
        normal = surface.normals(x, y)
        cosine = -(normal @ towards)
        ratio = 1 / surface.spec.index
        bent = np.sqrt(1 - ratio**2 * (1 - cosine**2))
        way = ratio * towards + (ratio * cosine - bent)[..., None] * normal
        fall = (surface.height_mm(x, y) - height_mm) / -way[..., 2]
        places = np.stack([y + way[..., 1] * fall, x + way[..., 0] * fall])
        cells = (places / _PATTERN_TEXEL_MM).round().astype(int) % count
        np.add.at(landed, (cells[0], cells[1]), 1.0)
    soft = blur(np.pad(landed, 8, mode="wrap"), 1.1)[8:-8, 8:-8]
    pattern: Array = soft / soft.mean()
    return pattern


def _bent_lamp(scene: Scene, surface: Surface) -> tuple[dict[str, Any], Array]:
    """Return the lamp as it shines under water, and its irradiance on the level."""
    light = scene.light
    place = np.array(light.lamp_mm)
    distance = float(np.linalg.norm(place))
    towards = -place / distance
    power = np.array(light.lamp_colour) * np.pi * light.lamp_radius_mm**2 / distance**2
    power *= 1 - _fresnel(np.array(-towards[2]), surface.spec.index)
    flat = towards[:2] / surface.spec.index
    bent = np.array([*flat, -np.sqrt(1 - flat @ flat)])
    pattern = caustics(surface, towards, 0.3 * surface.spec.depth_mm)
    shown = np.ascontiguousarray(pattern[..., None] * power, dtype=np.float32)
    width = float(2 * np.degrees(np.arctan(_PATTERN_MM / 2 / _FAR_MM)))
    projector = {
        "type": "projector",
        "irradiance": {"type": "bitmap", "bitmap": mi.Bitmap(shown), "raw": True},
        "fov": width,
        "scale": _projector_scale(width),
        "to_world": mi.ScalarTransform4f().look_at(
            origin=(-bent * _FAR_MM).tolist(), target=[0, 0, 0], up=[0.02, 1, 0.03]
        ),
    }
    return projector, power * -bent[2]


def _projector_scale(width_deg: float) -> float:
    """Return the scale at which a projector gives irradiance 1 facing it, by trial."""
    white = {"type": "diffuse", "reflectance": {"type": "rgb", "value": [1.0] * 3}}
    transform = mi.ScalarTransform4f
    world = mi.load_dict(
        {
            "type": "scene",
            "screen": {
                "type": "rectangle",
                "to_world": transform().scale([900, 900, 1]),
                "bsdf": white,
            },
            "projector": {
                "type": "projector",
                "irradiance": {"type": "rgb", "value": [1.0] * 3},
                "fov": width_deg,
                "scale": 1.0,
                "to_world": transform().look_at(
                    origin=[0, 0, _FAR_MM], target=[0, 0, 0], up=[0, 1, 0]
                ),
            },
        }
    )
    sampler = mi.load_dict({"type": "independent"})
    sampler.seed(1, 64)
    start = mi.Point3f(dr.linspace(mi.Float, -20, 20, 64), 7.0, 500.0)
    rays = mi.RayDifferential3f(o=start, d=mi.Vector3f(0, 0, -1))
    integrator = mi.load_dict({"type": "path", "max_depth": 2})
    seen = float(np.mean(np.array(integrator.sample(world, sampler, rays)[0])))
    return 1.0 / (seen * np.pi)


def _solid(
    shape: str, place: list[float], size: list[float], paint: list[float]
) -> dict[str, Any]:
    transform = mi.ScalarTransform4f
    return {
        "type": shape,
        "to_world": transform().translate(place) @ transform().scale(size),
        "bsdf": {"type": "diffuse", "reflectance": {"type": "rgb", "value": paint}},
    }


def _photographer(scene: Scene) -> dict[str, Any]:
    """Return phone, head and body above the tub; seen only in the water's mirror."""
    rng = np.random.default_rng(scene.spec.seed + 6)
    turn = float(rng.uniform(0, 2 * np.pi))
    away = np.array([np.cos(turn), np.sin(turn), 0.0])
    cloth = rng.uniform(0.03, 0.35, 3).tolist()
    skin, shell = [0.45, 0.30, 0.22], [0.04, 0.04, 0.045]

    def at(reach: float, up: float) -> list[float]:
        place: list[float] = (
            scene.camera.position_mm + away * reach + np.array([0.0, 0.0, up])
        ).tolist()
        return place

    return {
        "phone": _solid("cube", at(0.0, 14.0), [78.0, 37.0, 4.0], shell),
        "head": _solid("sphere", at(330.0, 170.0), [110.0] * 3, skin),
        "body": _solid("sphere", at(480.0, -180.0), [250.0] * 3, cloth),
        "arm": _solid("sphere", at(210.0, -20.0), [85.0] * 3, cloth),
    }


def _level_light(values: Array) -> Array:
    """Return the (3,) irradiance on a level from all around."""
    rows = len(values)
    zenith = (np.arange(rows) + 0.5) / rows * np.pi
    weight = np.maximum(np.cos(zenith), 0) * np.sin(zenith)
    total: Array = (values.mean(axis=1) * weight[:, None]).sum(axis=0)
    return total * 2 * np.pi * np.pi / rows


class _Tub:
    """The worlds that a ray may meet: surface, water, air and what is mirrored."""

    def __init__(self, scene: Scene, surface: Surface) -> None:
        self.surface, box = surface, scene.spec.tub
        if box is None:
            message = "water stands in a tub"
            raise ValueError(message)
        self.film = mi.load_dict({"type": "scene", "water": _film(box, surface)})
        air: dict[str, Any] = {"surround": render.surround(scene.light.surround)}
        if scene.light.lamp_radius_mm > 0:
            air["lamp"] = render.lamp(scene)
        colour = {"type": "rgb", "value": list(box.colour)}
        paint = {"type": "diffuse", "reflectance": colour}
        both = {"type": "twosided", "bsdf": paint}
        wall = render.to_mitsuba("wall", tub.walls(box), both, flat=False)
        ground = render.board(scene, scene.beside, matt=True)
        self.air = mi.load_dict({"type": "scene", **air, "wall": wall, "board": ground})
        self.sky = mi.load_dict({"type": "scene", **air, **_photographer(scene)})
        squeezed = under_surround(scene.light.surround, surface.spec.index)
        water: dict[str, Any] = {"surround": render.surround(squeezed)}
        level = _level_light(squeezed)
        if scene.light.lamp_radius_mm > 0:
            water["lamp"], sunlit = _bent_lamp(scene, surface)
            level = level + sunlit
        self.veil = np.array(surface.spec.colour) * level / np.pi
        floor = render.board(scene, scene.board, matt=True)
        lying = render.things(scene) | _scraps(scene, box, surface)
        self.under = mi.load_dict(
            {"type": "scene", **water, "board": floor, "wall": wall, **lying}
        )
        self.deep, self.short, self.direct = (
            mi.load_dict({"type": "path", "max_depth": depth}) for depth in (6, 3, 2)
        )

    def shade(self, sampler: Any, rays: Any) -> Any:
        """Return the radiance along rays from the camera."""
        spec = self.surface.spec
        met = self.film.ray_intersect(rays)
        wet = met.is_valid() & (met.t < self.air.ray_intersect(rays).t)
        normal, back = met.sh_frame.n, -rays.d
        mirrored, bent, _, ratio = mi.fresnel(dr.dot(back, normal), spec.index)
        below = met.spawn_ray(mi.refract(back, normal, bent, ratio))
        above = met.spawn_ray(mi.reflect(back, normal))
        seen = _radiance(self.deep, self.under, sampler, below, wet)
        sky = _radiance(self.direct, self.sky, sampler, above, wet)
        plain = _radiance(self.short, self.air, sampler, rays, ~wet)
        way = dr.minimum(self.under.ray_intersect_preliminary(below, active=wet).t, 1e3)
        clear = dr.exp(-spec.turbidity_per_mm * way)
        seen = seen * clear + mi.Color3f(*self.veil.tolist()) * (1 - clear)
        mixed = (1 - mirrored) * seen + mirrored * sky
        return dr.select(wet, mixed, plain)


def _radiance(path: Any, world: Any, sampler: Any, ray: Any, active: Any) -> Any:
    ray = mi.RayDifferential3f(ray)
    return path.sample(world, sampler, ray, active=active)[0]


def _film(box: tub.TubSpec, surface: Surface) -> Any:
    """Return the renderer's mesh of the surface."""
    mesh, normals = tub.water_mesh(box, surface)
    plain = {"type": "diffuse"}
    return render.to_mitsuba("water", mesh, plain, flat=False, normals=normals)


def _scraps(scene: Scene, box: tub.TubSpec, surface: Surface) -> dict[str, Any]:
    """Return what floats in the water."""
    scraps = tub.matter(box, surface, np.random.default_rng(scene.spec.seed + 7))
    if scraps is None:
        return {}
    part = Part(mesh=scraps, colour=(0, 0, 0), roughness=0.8)
    both = {"type": "twosided", "bsdf": render.painted(part)}
    return {"scraps": render.to_mitsuba("scraps", scraps, both, flat=True)}


def through(scene: Scene) -> render.Shade:
    """Return what gives the radiance along rays of a scene under water.

    Raises
    ------
    ValueError
        Where there is no water.
    """
    if scene.surface is None:
        message = "there is no water in this scene"
        raise ValueError(message)
    return _Tub(scene, scene.surface).shade


def worst_miss_px(scene: Scene) -> float:
    """Return how far the renderer's rays miss what the truth says they meet, in px.

    The ray through each marker corner's pixel is bent at the renderer's mesh and
    followed to the height of the paper.
    """
    if scene.surface is None or scene.spec.tub is None:
        return 0.0
    corners = np.concatenate([c for p in scene.papers for c in p.corners_mm.values()])
    pixels = scene.project(corners).astype(np.float32)
    film = _film(scene.spec.tub, scene.surface)
    world = mi.load_dict({"type": "scene", "water": film})
    rays = render.rays(scene.camera, mi.Float(pixels[:, 0]), mi.Float(pixels[:, 1]))
    met = world.ray_intersect(rays)
    cosine = dr.dot(-rays.d, met.sh_frame.n)
    _, bent, _, ratio = mi.fresnel(cosine, scene.surface.spec.index)
    into = np.array(mi.refract(-rays.d, met.sh_frame.n, bent, ratio)).T
    place = np.array(met.p).T
    fall = (corners[:, 2] - place[:, 2]) / into[:, 2]
    landed = place + into * fall[:, None]
    off = np.linalg.norm((landed - corners)[:, :2], axis=1)
    scale = scene.camera.focal_px / scene.camera.position_mm[2]
    return float(off.max() * scale)
