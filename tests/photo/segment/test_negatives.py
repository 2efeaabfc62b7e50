"""Photos without fish: nothing in them may be used, and mostly nothing is found.

The pictures come from outside: those that scikit-image ships (everyday and medical
pictures, licences in its data/README.txt), and the shared photos of other animals and
of robots beside markers. None was used in training. The known failure, the moon at one
of seven scales, is in the model card.
"""

from pathlib import Path

import pytest
import skimage

from fishmeasure.photo.image import Photo, read_photo
from fishmeasure.photo.length import FishShape, measure_length
from fishmeasure.photo.segment import LearnedSegmenter
from tests.accuracy.outlines import flat_plane

SHIPPED = Path(skimage.__file__).parent / "data"
PICTURES = (
    *("astronaut.png", "brick.png", "camera.png", "cell.png", "chelsea.png"),
    *("coffee.png", "coins.png", "color.png", "grass.png", "gravel.png", "horse.png"),
    *("motorcycle_left.png", "page.png", "retina.jpg", "rocket.jpg", "text.png"),
)
MAY_BE_OUTLINED = 2
"""Of these pictures: a cat's fur and a motorcycle have been, never used. Figures in
the model card."""
SPANS_MM = (220.0, 350.0, 560.0)


def found_and_used(photo: Photo, span_mm: float) -> tuple[int, int]:
    """Return how many outlines there are, and how many might be used."""
    plane = flat_plane(photo, max(photo.width_px, photo.height_px) / span_mm)
    outlines = LearnedSegmenter().find(photo, plane)
    lengths = [measure_length(outline, plane, FishShape()) for outline in outlines]
    return len(outlines), sum(length.complete for length in lengths)


def read(path: Path) -> Photo:
    return read_photo(path.read_bytes(), path.name)


@pytest.mark.parametrize("name", PICTURES)
def test_nothing_is_used_in_everyday_pictures(name: str) -> None:
    photo = read(SHIPPED / name)
    assert [found_and_used(photo, span)[1] for span in SPANS_MM] == [0, 0, 0]


def test_in_most_everyday_pictures_no_fish_is_found() -> None:
    outlined = [
        name for name in PICTURES if found_and_used(read(SHIPPED / name), 350.0)[0]
    ]
    assert len(outlined) <= MAY_BE_OUTLINED


@pytest.mark.shared
def test_other_animals_and_markers_are_never_used(shared: Path) -> None:
    """Octopus, prawn, shrimps, squid, three photos with markers, at three scales."""
    paths = sorted((shared / "photos").rglob("NEG_*.jpg"))
    paths += sorted((shared / "photos" / "marker_photos_neg").glob("*.jpg"))
    assert len(paths) == 7
    for path in paths:
        photo = read(path)
        assert [found_and_used(photo, span)[1] for span in SPANS_MM] == [0, 0, 0], path
