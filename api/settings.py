"""Settings of the server: one table of name, default and help.

Each is read from the environment as ``FISHMEASURE_<NAME>``; ``fishmeasure serve``
has options for those that a grower sets.
"""

import os
from collections.abc import Mapping
from dataclasses import Field, dataclass, field, fields
from pathlib import Path
from typing import Any

from fishmeasure.base.words import Message, wording

PREFIX = "FISHMEASURE_"
# Beyond these a number is a typing error; ``serve --workers`` has the same.
MOST = {
    "workers": 64,
    "queue": 1000,
    "max_upload_mb": 10_000,
    "max_batch": 1000,
    "measure_timeout_s": 3600,
    "upload_timeout_s": 86_400,
    "pairing_code_minutes": 1440,
    "device_days": 3650,
}


class SettingError(ValueError):
    """A setting in the environment has a wrong value.

    ``name`` is the variable's, ``value`` its text cut short.
    """

    def __init__(self, name: str, value: str, wanted: Message) -> None:
        self.name = PREFIX + name.upper()
        self.value = value if len(value) <= 60 else f"{value[:60]}..."
        self.wanted = wanted
        super().__init__(
            wording("setting", name=self.name, value=self.value, wanted=wanted)
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """How the server runs. Every field's help is its documentation."""

    book: str = field(
        default="",
        metadata={
            "help": "URL or path of the book; empty means the user's own SQLite file."
        },
    )
    data_dir: Path = field(
        default=Path("~/.local/share/fishmeasure"),
        metadata={"help": "Folder of photos and, by default, the book."},
    )
    workers: int = field(
        default=2, metadata={"help": "Photos measured at the same time."}
    )
    queue: int = field(
        default=6,
        metadata={"help": "Photos that may wait; more are answered 503."},
    )
    max_upload_mb: int = field(
        default=40, metadata={"help": "Largest upload, in megabytes."}
    )
    max_batch: int = field(default=20, metadata={"help": "Most photos in one upload."})
    measure_timeout_s: int = field(
        default=60,
        metadata={"help": "Seconds after which a photo is given up."},
    )
    species: str = field(
        default="rainbow-trout", metadata={"help": "Species where none is said."}
    )
    hosts: str = field(
        default="localhost,127.0.0.1,[::1]",
        metadata={"help": "Names that the server answers to; empty means any."},
    )
    upload_timeout_s: int = field(
        default=180,
        metadata={"help": "Seconds after which a slow upload is ended."},
    )
    require_token: bool = field(
        default=False,
        metadata={
            "help": "Whether a device must be paired before it may use the server."
        },
    )
    pairing_code_minutes: int = field(
        default=10, metadata={"help": "How long a pairing code is good."}
    )
    device_days: int = field(
        default=180,
        metadata={
            "help": "Days after which a device that nobody used must be paired anew."
        },
    )
    address: str = field(
        default="",
        metadata={
            "help": "Address that invited phones open; empty means as the owner's does."
        },
    )
    secure_cookies: bool = field(
        default=False, metadata={"help": "Set when the server is reached by HTTPS."}
    )

    log_json: bool = field(
        default=False, metadata={"help": "Whether the log is JSON, an object a line."}
    )
    log_requests: bool = field(
        default=False, metadata={"help": "Whether each request has a line in the log."}
    )

    @classmethod
    def from_environment(
        cls, environ: Mapping[str, str] = os.environ, **given: Any
    ) -> "Settings":
        """Return settings from the environment; ``given`` ones win.

        Raises
        ------
        SettingError
            If a value cannot be read.
        """
        values: dict[str, Any] = {}
        for item in fields(cls):
            text = environ.get(PREFIX + item.name.upper())
            if text is not None:
                values[item.name] = _parse(item, text)
        values |= {name: value for name, value in given.items() if value is not None}
        if "data_dir" in values:
            values["data_dir"] = _folder(values["data_dir"])
        return cls(**values)


def _parse(item: Field[Any], text: str) -> Any:
    default = item.default
    if isinstance(default, bool):
        words = {"1": True, "true": True, "yes": True}
        words |= {"0": False, "false": False, "no": False}
        if text.lower() not in words:
            raise SettingError(item.name, text, Message.of("wanted", case="yes-no"))
        return words[text.lower()]
    if isinstance(default, int):
        most = MOST[item.name]
        # Python reads no number of thousands of digits.
        if not text.isdecimal() or len(text) > 20 or not 1 <= int(text) <= most:
            wanted = Message.of("wanted", case="whole", least=1, most=most)
            raise SettingError(item.name, text, wanted)
        return int(text)
    return Path(text) if isinstance(default, Path) else text


def _folder(path: Path) -> Path:
    try:
        return path.expanduser()
    except RuntimeError:  # "~name" of nobody
        wanted = Message.of("wanted", case="home")
        raise SettingError("data_dir", str(path), wanted) from None


def settings_table() -> list[tuple[str, str, str]]:
    """Return (environment name, default, help) of every setting."""
    return [
        (PREFIX + item.name.upper(), str(item.default), item.metadata["help"])
        for item in fields(Settings)
    ]
