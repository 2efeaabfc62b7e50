"""Headers that every answer has: what a browser may do with it."""

from starlette.datastructures import MutableHeaders

HEADERS = {
    "Content-Security-Policy": (
        "default-src 'self'; img-src 'self' blob: data:; object-src 'none'; "
        "base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
    ),
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(self), geolocation=(), microphone=()",
    "Cache-Control": "no-cache",
}
# A drawing opened by itself is a document: it may be looked at and do nothing.
DRAWING = "image/svg+xml"
DRAWING_POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'; sandbox"
)


def add_headers(headers: MutableHeaders) -> None:
    """Add those that the answer has not set itself."""
    if headers.get("content-type", "").startswith(DRAWING):
        headers.setdefault("Content-Security-Policy", DRAWING_POLICY)
    for name, value in HEADERS.items():
        headers.setdefault(name, value)
