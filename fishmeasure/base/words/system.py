"""Why the operating system refused, as a reason inside a sentence."""

import errno

from fishmeasure.base.words.message import Message


def system_reason(error: OSError) -> Message:
    """Return why it failed; in the system's own words where the catalogue has none."""
    return Message.of(
        "system-reason",
        name=errno.errorcode.get(error.errno or 0, "none"),
        told=(error.strerror or str(error)).lower(),
    )
