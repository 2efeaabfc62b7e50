"""The pairing code of a server that nobody sits at: in a file, never in the log."""

import logging
import os
from pathlib import Path

log = logging.getLogger(__name__)

NAME = "pairing-code"


def keep_code(folder: Path, code: str) -> None:
    """Put the code for the next device where the server's own account reads it."""
    path = folder.expanduser() / NAME
    path.unlink(missing_ok=True)  # whoever may read an old one may not read this one
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "w") as file:
        file.write(f"{code[:4]} {code[4:]}\n")
    log.warning("the pairing code for the next device is in the file %s", NAME)
