"""How routes describe answers that are no JSON."""

from typing import Any

Responses = dict[int | str, dict[str, Any]]


def _of(media_type: str, words: str) -> Responses:
    schema = {"type": "string", "format": "binary"}
    content = {media_type: {"schema": schema}}
    return {200: {"content": content, "description": words}}


PDF = _of("application/pdf", "A PDF document.")
SVG = _of("image/svg+xml", "A picture.")
JPEG = _of("image/jpeg", "A picture.")
CSV = _of("text/csv", "A table; the first line names the columns.")
