"""Values that no field should have, and documents with one of them put in."""

import copy
from collections.abc import Iterator
from typing import Any

from hypothesis import strategies as st

Json = Any

NASTY: tuple[Json, ...] = (
    None,
    True,
    -1,
    0,
    1,
    2**31,
    2**63,
    2**64,
    10**400,
    -(10**400),
    0.1,
    -0.0,
    5e-324,
    1e308,
    -1e308,
    float("nan"),
    float("inf"),
    float("-inf"),
    "",
    " ",
    "x",
    "x" * 10_000,
    "\0",
    "\ud800",
    "\u202e\U0001f41f",
    "<script>alert(1)</script>",
    "../../etc/passwd",
    "../../x.toml",
    "0001-01-01",
    "9999-12-31",
    "2026-02-30",
    "2026-05-02T10:00:00+99:00",
    "00000000-0000-0000-0000-000000000000",
    "1e999",
    [],
    {},
    [[]],
    [None],
    [1e308, -1e308],
    {"x": {"x": {"x": []}}},
)


def places(document: Json, where: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """Yield the path of everything in a document but the document itself."""
    items: Any = ()
    if isinstance(document, dict):
        items = document.items()
    elif isinstance(document, list):
        items = enumerate(document)
    for key, value in items:
        yield (*where, key)
        yield from places(value, (*where, key))


def changed(document: Json, where: tuple[Any, ...], value: Json) -> Json:
    """Return the document with something else at a path."""
    new = copy.deepcopy(document)
    inner = new
    for key in where[:-1]:
        inner = inner[key]
    inner[where[-1]] = value
    return new


def removed(document: Json, where: tuple[Any, ...]) -> Json:
    """Return the document without what is at a path."""
    new = copy.deepcopy(document)
    inner = new
    for key in where[:-1]:
        inner = inner[key]
    del inner[where[-1]]
    return new


def broken(document: Json) -> Iterator[tuple[str, Json]]:
    """Yield each place's nasty values, and the document without the place."""
    for where in places(document):
        name = ".".join(map(str, where))
        yield f"{name} left out", removed(document, where)
        for value in NASTY:
            yield f"{name} = {str(value)[:30]!r}", changed(document, where, value)


ANY_JSON = st.recursive(
    st.sampled_from(NASTY)
    | st.text(max_size=20)
    | st.floats()
    | st.integers()
    | st.booleans(),
    lambda inner: (
        st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=9), inner)
    ),
    max_leaves=12,
)


def with_strange_values(document: Json) -> st.SearchStrategy[Json]:
    """Return the document with one to three places changed."""
    where = st.sampled_from(list(places(document)))
    one = st.tuples(where, ANY_JSON)

    def apply(changes: list[tuple[tuple[Any, ...], Json]]) -> Json:
        new = document
        for path, value in changes:
            try:
                new = changed(new, path, value)
            except (KeyError, IndexError, TypeError):
                continue  # an earlier change took the place away
        return new

    return st.lists(one, min_size=1, max_size=3).map(apply)
