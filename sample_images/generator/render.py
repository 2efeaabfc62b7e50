"""Path tracing with Mitsuba 3: a scene to linear radiance."""

from collections.abc import Callable
from typing import Any

import drjit as dr
import mitsuba as mi
import numpy as np

from sample_images.generator import boards, mouths, skins
from sample_images.generator.boards import Board
from sample_images.generator.camera import Array, Camera
from sample_images.generator.clutter import Part, parts
from sample_images.generator.coats_kinds import coat_of
from sample_images.generator.fish import Body
from sample_images.generator.mesh import Mesh
from sample_images.generator.scene import Scene

Shade = Callable[[Any, Any], Any]  # sampler and rays to radiance

BATCH_RAYS = 2_000_000
MAX_DEPTH = 4
THIN_DEPTH = 7  # a path through a fin meets both its sides
_CORD = {  # wet polyester or nylon twine
    "type": "principled",
    "base_color": {"type": "mesh_attribute", "name": "face_color"},
    "roughness": 0.42,
    "specular": 0.5,
}
GLINT_LIMIT = 40.0  # a wet glint saturates any sensor; caps the noise it leaves


def choose_variant(name: str) -> None:
    """Select Mitsuba's backend, for instance llvm_ad_rgb or cuda_ad_rgb."""
    mi.set_variant(name)


def _texture(colours: Array) -> dict[str, Any]:
    """Return an sRGB colour map."""
    bytes_ = np.ascontiguousarray(
        np.round(np.clip(colours, 0, 1) * 255), dtype=np.uint8
    )
    return {"type": "bitmap", "bitmap": mi.Bitmap(bytes_), "raw": False}


def to_mitsuba(
    name: str,
    mesh: Mesh,
    bsdf: Any,
    *,
    flat: bool,
    normals: Array | None = None,
) -> Any:
    """Return a Mitsuba mesh, with its own normals if none are given."""
    properties = mi.Properties()
    properties["bsdf"] = mi.load_dict(bsdf) if isinstance(bsdf, dict) else bsdf
    target = mi.Mesh(
        name,
        len(mesh.vertices_mm),
        len(mesh.faces),
        has_vertex_normals=not flat,
        has_vertex_texcoords=True,
        props=properties,
    )
    if mesh.face_colours is not None:
        target.add_attribute(
            "face_color", 3, mesh.face_colours.astype(np.float32).ravel()
        )
    parameters = mi.traverse(target)
    parameters["vertex_positions"] = mesh.vertices_mm.astype(np.float32).ravel()
    parameters["vertex_texcoords"] = mesh.uv.astype(np.float32).ravel()
    parameters["faces"] = mesh.faces.astype(np.uint32).ravel()
    if not flat:
        known = mesh.normals() if normals is None else normals
        parameters["vertex_normals"] = known.astype(np.float32).ravel()
    parameters.update()
    return target


def _map(values: Array) -> dict[str, Any]:
    """Return a map of plain numbers."""
    plain = np.ascontiguousarray(values[..., None], dtype=np.float32)
    return {"type": "bitmap", "bitmap": mi.Bitmap(plain), "raw": True}


def _with_relief(bsdf: dict[str, Any], relief_mm: Array) -> dict[str, Any]:
    """Return the surface with its normals tilted by a relief."""
    return {"type": "bumpmap", "arbitrary": _map(relief_mm), "bsdf": bsdf}


def _fish_bsdf(colours: Array, relief_mm: Array, silver: float) -> dict[str, Any]:
    """Return wet skin: silvery scales under a thin clear film of water."""
    skin = {
        "type": "principled",
        "base_color": _texture(colours),
        "roughness": 0.32,
        "specular": 0.5,
        "metallic": 0.10 + 0.35 * silver,
        "clearcoat": 0.9,
        "clearcoat_gloss": 0.93,
    }
    return _with_relief(skin, relief_mm)


def _thin_fins(body: Body, skin: dict[str, Any]) -> dict[str, Any]:
    """Return the skin with the light that passes through the fins."""
    skin = {"type": "twosided", "bsdf": skin}
    if body.spec.tail.whole:
        return skin
    return {"type": "mask", "opacity": _map(skins.opacity(body)), "bsdf": skin}


def _skin(body: Body, scene: Scene) -> dict[str, Any]:
    """Return the surface of one fish."""
    colours, relief = skins.paint(body)
    surface = _fish_bsdf(colours, relief, coat_of(body.spec.skin).silver)
    if scene.surface is not None:  # no film of water shines under water
        surface["bsdf"] |= {"clearcoat": 0.0, "specular": 0.2}
    return surface


def _fish(
    index: int,
    body: Body,
    mesh: Mesh,
    scene: Scene,
    worn: dict[tuple[str, int], Any],
) -> dict[str, Any]:
    """Return a fish and its feelers; ``worn`` are skins that others have, too."""
    name, key = f"fish_{index}", (body.spec.skin, body.spec.seed)
    if key in worn:
        return {name: to_mitsuba(name, mesh, worn[key], flat=False)}
    surface = _skin(body, scene)
    if not scene.spec.full_truth:
        return {name: to_mitsuba(name, mesh, surface, flat=False)}
    worn[key] = mi.load_dict(_thin_fins(body, surface))
    content = {name: to_mitsuba(name, mesh, worn[key], flat=False)}
    feelers = mouths.barbels(body)
    if feelers is not None:
        both = {"type": "twosided", "bsdf": surface}
        content[f"{name}b"] = to_mitsuba(f"{name}b", feelers, both, flat=False)
    return content


def _board_bsdf(board: Board) -> dict[str, Any]:
    """Return the board's surface, smoother where it is wet."""
    surface = {
        "type": "principled",
        "base_color": _texture(board.colours),
        "roughness": _map(board.roughness_map),
        "specular": board.specular,
        "metallic": board.metallic,
    }
    if board.relief_mm is None:
        return surface
    return _with_relief(surface, board.relief_mm)


def lamp(scene: Scene) -> dict[str, Any]:
    """Return the lamp as a disc that faces the board's middle."""
    light = scene.light
    position = np.array(light.lamp_mm)
    target = np.zeros(3)
    if light.at_camera:
        camera = scene.camera
        position = camera.position_mm + camera.rotation.T @ np.array(light.lamp_mm)
        target = position + camera.rotation[2]
    to_world = mi.ScalarTransform4f().look_at(
        origin=position.tolist(), target=target.tolist(), up=[0.02, 1.0, 0.03]
    )
    return {
        "type": "disk",
        "to_world": to_world @ mi.ScalarTransform4f().scale(light.lamp_radius_mm),
        "emitter": {
            "type": "area",
            "radiance": {"type": "rgb", "value": list(light.lamp_colour)},
        },
    }


def _rim(scene: Scene) -> dict[str, Any]:
    """Return the four walls of a tray."""
    board, rim = scene.board, boards.RIMS.get(scene.spec.board)
    if rim is None:
        return {}
    (w, h), top = rim.size_mm, rim.height_mm
    walls = {
        "left": ((-w / 2 - 6, 0), (6, h / 2 + 12)),
        "right": ((w / 2 + 6, 0), (6, h / 2 + 12)),
        "near": ((0, -h / 2 - 6), (w / 2 + 12, 6)),
        "far": ((0, h / 2 + 6), (w / 2 + 12, 6)),
    }
    transform = mi.ScalarTransform4f
    return {
        f"wall_{name}": {
            "type": "cube",
            "to_world": transform().translate([x, y, top / 2])
            @ transform().scale([half_w, half_h, top / 2]),
            "bsdf": {
                "type": "principled",
                "base_color": {"type": "rgb", "value": list(rim.colour)},
                "roughness": board.roughness,
                "specular": board.specular,
            },
        }
        for name, ((x, y), (half_w, half_h)) in walls.items()
    }


def surround(values: Array) -> dict[str, Any]:
    """Return the light from all around."""
    return {
        "type": "envmap",
        "bitmap": mi.Bitmap(np.ascontiguousarray(values, dtype=np.float32)),
        "to_world": mi.ScalarTransform4f().rotate([1, 0, 0], 90),
    }


def painted(part: Part) -> dict[str, Any]:
    """Return the surface of a thing in one colour or coloured by face."""
    paint: dict[str, Any] = {"type": "rgb", "value": list(part.colour)}
    if part.mesh.face_colours is not None:
        paint = {"type": "mesh_attribute", "name": "face_color"}
    return {
        "type": "principled",
        "base_color": paint,
        "roughness": part.roughness,
        "metallic": part.metallic,
    }


def things(scene: Scene) -> dict[str, Any]:
    """Return all that lies on the board, without light."""
    content: dict[str, Any] = {}
    worn: dict[tuple[str, int], Any] = {}
    for index, part in enumerate(p for item in scene.spec.items for p in parts(item)):
        name = f"item_{index}"
        content[name] = to_mitsuba(name, part.mesh, painted(part), flat=False)
    for index, net in enumerate(scene.nets):
        content[f"net_{index}"] = to_mitsuba(
            f"net_{index}", net.mesh(), _CORD, flat=False
        )
    for index, piece in enumerate(scene.papers):
        reflectance = {"type": "mesh_attribute", "name": "face_color"}
        content[f"paper_{index}"] = to_mitsuba(
            f"paper_{index}",
            piece.mesh,
            {"type": "diffuse", "reflectance": reflectance},
            flat=True,
        )
    for index, (body, mesh) in enumerate(
        zip(scene.bodies, scene.fish_meshes, strict=True)
    ):
        content |= _fish(index, body, mesh, scene, worn)
    return content


def board(scene: Scene, surface: Board, *, matt: bool = False) -> Any:
    """Return the plane on which all lies, or a tub stands; matt under water."""
    paint = _board_bsdf(surface)
    if matt:
        paint = {"type": "diffuse", "reflectance": _texture(surface.colours)}
    return to_mitsuba("board", scene.board_mesh(), paint, flat=True)


def in_air(scene: Scene) -> Shade:
    """Return what gives the radiance along rays in the scene."""
    content: dict[str, Any] = {
        "type": "scene",
        "surround": surround(scene.light.surround),
        "board": board(scene, scene.board),
        **_rim(scene),
    }
    if scene.light.lamp_radius_mm > 0:
        content["lamp"] = lamp(scene)
    world = mi.load_dict(content | things(scene))
    depth = THIN_DEPTH if scene.spec.full_truth else MAX_DEPTH
    integrator = mi.load_dict({"type": "path", "max_depth": depth})
    return lambda sampler, rays: integrator.sample(world, sampler, rays)[0]


def rays(camera: Camera, x: Any, y: Any) -> Any:
    """Return rays through (distorted) photo positions."""
    distorted_x = (x - camera.centre_px[0]) / camera.focal_px
    distorted_y = (y - camera.centre_px[1]) / camera.focal_px
    flat_x, flat_y = distorted_x, distorted_y
    for _ in range(7):  # fixed point; below 1e-4 px for |k1| <= 0.1
        gain = 1.0 + camera.k1 * (flat_x * flat_x + flat_y * flat_y)
        flat_x, flat_y = distorted_x / gain, distorted_y / gain
    right, down, forward = (mi.Vector3f(*row.tolist()) for row in camera.rotation)
    direction = dr.normalize(flat_x * right + flat_y * down + forward)
    return mi.RayDifferential3f(o=mi.Point3f(*camera.position_mm.tolist()), d=direction)


def radiance(scene: Scene, samples: int, shade: Shade) -> Array:
    """Return (height, width, 3) linear radiance, one box-filtered value a pixel."""
    camera = scene.camera
    width, height = camera.width_px, camera.height_px
    count = width * height
    block = min(BATCH_RAYS // samples, count)
    image = np.empty((count, 3), dtype=np.float32)
    for number, start in enumerate(range(0, count, block)):
        start_ = min(start, count - block)
        # Stratified: at 16 rays two to four times less noise than independent ones
        # (standard deviation on paper, measured on two of the scenes).
        sampler = mi.load_dict({"type": "multijitter", "sample_count": samples})
        sampler.set_samples_per_wavefront(samples)
        sampler.seed(
            dr.opaque(mi.UInt32, (scene.spec.seed * 4096 + number) % (1 << 32)),
            block * samples,
        )
        pixel = dr.arange(mi.UInt32, block * samples) // samples
        pixel += dr.opaque(mi.UInt32, start_)
        jitter = sampler.next_2d()
        x = mi.Float(pixel % width) + jitter.x - 0.5
        y = mi.Float(pixel // width) + jitter.y - 0.5
        colour = shade(sampler, rays(camera, x, y))
        values = np.array(dr.minimum(colour, GLINT_LIMIT)).T
        means = values.reshape(block, samples, 3).mean(axis=1)
        image[start_ : start_ + block] = means
    return image.reshape(height, width, 3).astype(np.float64)
