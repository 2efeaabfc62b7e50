"""A small disk of its own: ext4 in a file, to be filled, set read-only, or broken."""

import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

SIZE_MB = 24
NO_DISK = "this machine lets no disk be mounted"


def _run(*command: str) -> str:
    done = subprocess.run(command, check=True, capture_output=True, text=True)  # noqa: S603
    return done.stdout.strip()


class SmallDisk:
    """A mounted file system; `path` is its top folder.

    Reserved blocks are none, so that root meets the end of it as others do.
    """

    def __init__(self, folder: Path) -> None:
        self._image = folder / "disk.img"
        self.path = folder / "disk"
        self.path.mkdir()
        with self._image.open("wb") as file:
            file.truncate(SIZE_MB << 20)
        # Blocks as on every disk above 512 MB (mke2fs.conf(5)). With smaller ones
        # than pages of memory SQLite cannot make sure of room for the file that it
        # maps beside a book, and the kernel ends the program by a bus error.
        make = ("mkfs.ext4", "-q", "-F", "-m", "0", "-b", "4096")
        _run(*make, str(self._image))
        self._mount()

    def _mount(self) -> None:
        options = "loop,errors=remount-ro"
        _run("mount", "-o", options, str(self._image), str(self.path))

    def unmount(self) -> None:
        """Take it away, even from a program that still uses it."""
        _run("umount", "--lazy", str(self.path))

    def fill(self, leave_bytes: int = 0) -> None:
        """Leave no block free, or about so many bytes."""
        with (self.path / "filler").open("ab", buffering=0) as file:
            for size in (1 << 16, 1 << 12):
                try:
                    while True:
                        file.write(b"x" * size)
                except OSError:
                    continue
            file.truncate(max(file.tell() - leave_bytes, 0))

    def empty(self) -> None:
        """Make room again."""
        (self.path / "filler").unlink()

    def refuse_writes(self) -> None:
        """Set it read-only; no program may have a file open for writing."""
        _run("mount", "-o", "remount,ro", str(self.path))

    def take_writes(self) -> None:
        """Take that back."""
        _run("mount", "-o", "remount,rw", str(self.path))

    def fail(self) -> None:
        """Have the kernel find a fault and set it read-only under whoever writes."""
        device = Path(_run("findmnt", "-n", "-o", "SOURCE", str(self.path))).name
        Path(f"/sys/fs/ext4/{device}/trigger_fs_error").write_text("1")

    def mend(self) -> None:
        """Check and mount it anew, as the next start of the machine does."""
        _run("umount", str(self.path))
        # 1: errors were corrected (e2fsck(8)).
        check = ["e2fsck", "-p", "-f", str(self._image)]
        done = subprocess.run(check, check=False, capture_output=True, text=True)  # noqa: S603
        assert done.returncode in {0, 1}, done.stdout
        self._mount()


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[SmallDisk]:
    """Return a disk of 24 MB."""
    folder = tmp_path / "machine"
    folder.mkdir()
    try:
        disk = SmallDisk(folder)
    except (OSError, subprocess.CalledProcessError) as error:
        pytest.skip(f"{NO_DISK}: {error}")
    yield disk
    disk.unmount()
