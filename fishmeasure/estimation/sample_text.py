"""SAMPLE.toml as the program writes it, net by net, for people to go on with."""

from collections.abc import Mapping
from typing import Any, Final

from fishmeasure.base.record import plain
from fishmeasure.base.toml_text import pair
from fishmeasure.estimation.sample import Sample

_SECTIONS: Final = ("scale", "drip", "netting", "count", "lengths")


def pairs(values: Mapping[str, Any]) -> str:
    """Return a line for each value that was given."""
    return "".join(
        f"{pair(name, value)}\n" for name, value in values.items() if value is not None
    )


def toml_table(name: str, values: Mapping[str, Any]) -> str:
    """Return a table of the file with its heading."""
    return f"[{name}]\n{pairs(values)}"


def net_text(net: Mapping[str, Any]) -> str:
    """Return a net, to stand after what is in the file already."""
    given = {name: value for name, value in net.items() if value not in ((), [], None)}
    return f"\n[[net]]\n{pairs(given)}"


def sample_text(sample: Sample) -> str:
    """Return a whole sample file, with what differs from the usual."""
    values = plain(sample, sparse=True)
    nets = values.pop("nets")
    tables = [
        toml_table(name, values.pop(name)) for name in _SECTIONS if name in values
    ]
    common = pairs(values | {"date": sample.date})
    return "\n".join([common, *tables]) + "".join(map(net_text, nets))
