"""Small pictures of every kind that phones, cameras and mischief send.

Each has the word ``SECRET`` in every place where private data can be, so that a
check can look for it after ``strip_private_tags``.
"""

import io
from pathlib import Path
from typing import Any

import numpy as np
import pillow_heif
from PIL import ExifTags, Image, ImageCms, PngImagePlugin

SECRET = b"SECRET"
SIDE_PX = (96, 64)
SAMPLES = Path(__file__).resolve().parents[2] / "sample_images"


def scene(mode: str = "RGB", size: tuple[int, int] = SIDE_PX) -> Image.Image:
    """Return a picture with gradients and noise, the same each time."""
    chance = np.random.default_rng(7)
    rows, columns = size[1], size[0]
    ramp = np.linspace(0, 200, columns)[None, :, None] + np.zeros((rows, 1, 3))
    noisy = np.clip(ramp + chance.normal(20, 12, (rows, columns, 3)), 0, 255)
    image = Image.fromarray(noisy.astype(np.uint8))
    if mode == "I;16":
        return Image.fromarray((noisy[..., 0] * 257).astype(np.uint16))
    return image.convert(mode)


def exif(orientation: Any = 1) -> Image.Exif:
    """Return an EXIF block with what a phone writes."""
    block = Image.Exif()
    block[ExifTags.Base.Orientation] = orientation
    block[ExifTags.Base.Make] = "Maker"
    block[ExifTags.Base.Model] = "Phone"
    block[ExifTags.Base.Artist] = SECRET.decode()
    block[ExifTags.Base.ImageDescription] = SECRET.decode()
    inner = block.get_ifd(ExifTags.IFD.Exif)
    inner[ExifTags.Base.FocalLengthIn35mmFilm] = 26
    inner[ExifTags.Base.BodySerialNumber] = SECRET.decode()
    inner[ExifTags.Base.MakerNote] = SECRET * 20
    place = block.get_ifd(ExifTags.IFD.GPSInfo)
    place[ExifTags.GPS.GPSAreaInformation] = SECRET
    return block


def saved(image: Image.Image, kind: str, **options: Any) -> bytes:
    """Return the picture as a file."""
    out = io.BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()


def icc() -> bytes:
    """Return an ICC profile that is not sRGB's."""
    return ImageCms.ImageCmsProfile(ImageCms.createProfile("LAB")).tobytes()


def srgb() -> bytes:
    """Return the sRGB profile."""
    return ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()


def _jpegs() -> dict[str, bytes]:
    found = {
        f"orientation-{number}.jpg": saved(scene(), "JPEG", exif=exif(number))
        for number in range(1, 9)
    }
    return found | {
        "progressive.jpg": saved(scene(), "JPEG", progressive=True, exif=exif()),
        "grey.jpg": saved(scene("L"), "JPEG"),
        "cmyk.jpg": saved(scene("CMYK"), "JPEG"),
        "cmyk-rgb-profile.jpg": saved(scene("CMYK"), "JPEG", icc_profile=srgb()),
        "ycck.jpg": saved(scene("CMYK"), "JPEG", subsampling=2, quality=40),
        "lab-profile.jpg": saved(scene(), "JPEG", icc_profile=icc()),
        "broken-profile.jpg": saved(scene(), "JPEG", icc_profile=b"no profile" * 9),
        "comment.jpg": saved(scene(), "JPEG", comment=SECRET, exif=exif()),
        "restarts.jpg": saved(scene(), "JPEG", restart_marker_blocks=1),
        "orientation-99.jpg": saved(scene(), "JPEG", exif=exif(99)),
        "mpo.jpg": saved(
            scene(), "MPO", save_all=True, append_images=[scene()], exif=exif()
        ),
        "trailing.jpg": saved(scene(), "JPEG") + b"PK\x03\x04" + SECRET * 50,
        "xmp.jpg": saved(
            scene(), "JPEG", xmp=b"<x:xmpmeta>" + SECRET + b"</x:xmpmeta>"
        ),
    }


def _pngs() -> dict[str, bytes]:
    text = PngImagePlugin.PngInfo()
    text.add_text("Author", SECRET.decode())
    text.add_text("Zipped", SECRET.decode(), zip=True)
    text.add_itxt("XML:com.adobe.xmp", SECRET.decode())
    modes = {
        f"{mode.lower().replace(';', '-')}.png": saved(scene(mode), "PNG")
        for mode in ("1", "L", "LA", "P", "RGB", "RGBA", "I;16")
    }
    clear = scene("P")
    clear.info["transparency"] = 3
    return modes | {
        "text.png": saved(scene(), "PNG", pnginfo=text, exif=exif(6)),
        "profile.png": saved(scene(), "PNG", icc_profile=icc()),
        "clear.png": saved(clear, "PNG", transparency=3),
        "animated.png": saved(
            scene(), "PNG", save_all=True, append_images=[scene("L").convert("RGB")]
        ),
    }


def _others() -> dict[str, bytes]:
    pillow_heif.register_heif_opener()
    many = pillow_heif.from_pillow(scene())
    many.add_from_pillow(scene("L").convert("RGB"))
    out = io.BytesIO()
    many.save(out, quality=60, primary_index=1)
    frames = {"save_all": True, "append_images": [scene().rotate(180)]}
    return {
        "lossy.webp": saved(scene(), "WEBP", exif=exif(8), xmp=SECRET),
        "lossless.webp": saved(scene("RGBA"), "WEBP", lossless=True),
        "animated.webp": saved(scene(), "WEBP", duration=40, **frames),
        "one.heic": saved(scene(), "HEIF", quality=60, exif=exif(6).tobytes()),
        "several.heic": out.getvalue(),
        "alpha.heic": saved(scene("RGBA"), "HEIF", quality=60),
        "deep.heic": saved(scene("I;16"), "HEIF", quality=60),
        "no-photo.gif": saved(scene("P"), "GIF", **frames),
        "no-photo.bmp": saved(scene(), "BMP"),
        "no-photo.tif": saved(scene("I;16"), "TIFF"),
        "no-photo.svg": b"<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>",
        "no-photo.html": b"<!doctype html><script>alert(1)</script>",
        "no-photo.pdf": b"%PDF-1.7\n1 0 obj<<>>endobj\n%%EOF",
        "no-photo.zip": b"PK\x05\x06" + bytes(18),
    }


def _net_photo() -> bytes:
    """Return a rendered net sample, small, markers and fish still to be seen."""
    with Image.open(SAMPLES / "tank_a_net2.jpg") as image:
        image.draft("RGB", (1100, 1100))
        small = image.convert("RGB")
    small.thumbnail((1100, 1100))
    return saved(small, "JPEG", quality=80)


def base_photos() -> dict[str, bytes]:
    """Return the pictures by name; the net sample is ``net.jpg``."""
    return _jpegs() | _pngs() | _others() | {"net.jpg": _net_photo()}
