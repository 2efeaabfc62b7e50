"""Which route an address leads to, asked of the router's own matching.

An address has many spellings (behind a prefix, with "//", "%2e" or other letters);
comparing paths by hand, some of them would be taken for another route than they reach.
"""

from collections.abc import Iterable, Mapping

from starlette.responses import Response
from starlette.routing import Match, Route
from starlette.types import Scope


def routes_of(methods: Mapping[str, str]) -> tuple[Route, ...]:
    """Return routes, for comparing alone, of paths and the one method of each."""
    return tuple(
        Route(path, _nothing, methods=[method]) for path, method in methods.items()
    )


def leads_to(scope: Scope, routes: Iterable[Route]) -> bool:
    """Return whether a request reaches one of these routes, behind any prefix."""
    return any(route.matches(scope)[0] is Match.FULL for route in routes)


def _nothing() -> Response:
    raise NotImplementedError
