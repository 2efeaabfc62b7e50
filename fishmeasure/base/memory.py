"""A bound on the memory of a process that works on what others have sent."""

import sys
from pathlib import Path


def bound_memory(more_bytes: int) -> None:
    """Let this process have that much memory beyond what it has, and no more.

    What asks for more gets a ``MemoryError``, or ends the process where a library does
    not bear that. Counted is what a process can write to (Linux, ``RLIMIT_DATA``);
    elsewhere nothing is bounded.
    """
    if sys.platform != "linux":
        return
    import resource  # noqa: PLC0415 - not on Windows

    most = _writable_bytes() + more_bytes
    _, hard = resource.getrlimit(resource.RLIMIT_DATA)
    if hard != resource.RLIM_INFINITY:
        most = min(most, hard)
    resource.setrlimit(resource.RLIMIT_DATA, (most, hard))


def _writable_bytes() -> int:
    for line in Path("/proc/self/status").read_text().splitlines():
        if line.startswith("VmData:"):
            return int(line.split()[1]) * 1024
    return 0
