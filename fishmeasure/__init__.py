"""Photo-based fish size estimator with a batch weighing helper.

The public face, for notebooks and programs. What it gives has ``problems`` and
``to_json()``, shows itself as a small table, and names its figures as the JSON of the
command line does, with their units.

Examples
--------
>>> import fishmeasure as fm
>>> photo = fm.measure("sample_images/tank_a_net1.jpg", species="rainbow-trout")
>>> len(photo.fish), photo.fish[0].complete, photo.problems[0].code
(8, True, 'not-validated')
>>> sample = fm.load_sample("sample_images/spring_tanks.toml")
>>> sample
<Sample of Tank A on 2026-05-02: 5 nets, 4 photos>
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from fishmeasure.base.errors import FishMeasureError
    from fishmeasure.base.estimate import Estimate
    from fishmeasure.base.flags import Problem
    from fishmeasure.face.books import Book, Outlook
    from fishmeasure.face.photos import Measurement, measure
    from fishmeasure.face.samples import Sample, SampleResult, estimate, load_sample
    from fishmeasure.photo.measurement import MeasuredFish

__version__ = "0.2.0"

__all__ = [
    "Book",
    "Estimate",
    "FishMeasureError",
    "MeasuredFish",
    "Measurement",
    "Outlook",
    "Problem",
    "Sample",
    "SampleResult",
    "__version__",
    "estimate",
    "load_sample",
    "measure",
]

# Looked up when first used: OpenCV, scipy and the database cost a second to import.
_HOMES: Final = {
    "fishmeasure.base.errors": ("FishMeasureError",),
    "fishmeasure.base.estimate": ("Estimate",),
    "fishmeasure.base.flags": ("Problem",),
    "fishmeasure.face.books": ("Book", "Outlook"),
    "fishmeasure.face.photos": ("Measurement", "measure"),
    "fishmeasure.face.samples": ("Sample", "SampleResult", "estimate", "load_sample"),
    "fishmeasure.photo.measurement": ("MeasuredFish",),
}


def __getattr__(name: str) -> Any:
    for home, names in _HOMES.items():
        if name in names:
            found = getattr(import_module(home), name)
            globals()[name] = found
            return found
    message = f"module {__name__!r} has no attribute {name!r}"
    raise AttributeError(message)


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
