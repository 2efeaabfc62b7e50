"""``fishmeasure serve``: the page for the phone and the API for programs."""

import signal
import socket
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.base.errors import BadOptionError
from fishmeasure.base.words import Message, system_reason, wording
from fishmeasure.cli import output

if TYPE_CHECKING:
    from api.settings import Settings

LOCAL = "127.0.0.1"


def serve_command(
    *,
    port: Annotated[int, typer.Option(min=1, max=65535, help="help-port")] = 8765,
    lan: Annotated[
        bool,
        typer.Option("--lan", help="help-lan"),
    ] = False,
    book: Annotated[
        str | None,
        typer.Option(help="help-book"),
    ] = None,
    data: Annotated[
        Path | None,
        typer.Option(help="help-data"),
    ] = None,
    cert: Annotated[Path | None, typer.Option(help="help-cert")] = None,
    key: Annotated[Path | None, typer.Option(help="help-key")] = None,
    workers: Annotated[
        int | None,
        typer.Option(min=1, max=64, help="help-serve-workers"),
    ] = None,
) -> None:
    """Serve the phone page and the API, on this machine only unless --lan."""
    _check_tls(cert, key)
    host = "0.0.0.0" if lan else LOCAL  # noqa: S104 - asked for by --lan
    _check_port(host, port)

    import uvicorn

    from api.app import create_app
    from api.connections import BoundedProtocol, allow_connections
    from api.observe import set_up_logs
    from api.settings import SettingError, Settings

    names = ["localhost", LOCAL, "[::1]"]
    address = lan_address() if lan else LOCAL
    if lan:
        names += [
            address,
            socket.gethostname().lower(),
            f"{socket.gethostname()}.local",
        ]
    try:
        settings = Settings.from_environment(
            book=book,
            data_dir=data,
            workers=workers,
            require_token=True if lan else None,
            secure_cookies=True if cert else None,
            hosts=",".join(names) if lan else None,
        )
    except SettingError as error:
        raise BadOptionError(error.name, repr(error.value), error.wanted) from None
    set_up_logs(as_json=settings.log_json, requests=settings.log_requests)
    _prepare(settings)
    app = create_app(settings, announce=_show_code)
    url = f"{'https' if cert else 'http'}://{address}:{port}/"
    _greet(url, lan=lan, secure=cert is not None)
    for end in (signal.SIGINT, signal.SIGTERM):  # once all is finished and put away
        signal.signal(end, lambda *_: sys.exit(0))
    allow_connections()
    uvicorn.run(
        app,
        host=host,
        port=port,
        ssl_certfile=cert,
        ssl_keyfile=key,
        log_config=None,
        access_log=False,
        timeout_graceful_shutdown=30,
        http=BoundedProtocol,
        ws="none",
    )


def lan_address() -> str:
    """Return this machine's address on the local network.

    Raises
    ------
    BadOptionError
        If it has none.
    """
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            # Nothing is sent: connecting a datagram socket only picks the route.
            probe.connect(("192.0.2.1", 9))  # an address for documentation, RFC 5737
            return str(probe.getsockname()[0])
        except OSError:
            wanted = Message.of("cli-wanted", case="network")
            raise BadOptionError("--lan", "", wanted) from None


def _check_tls(cert: Path | None, key: Path | None) -> None:
    if (cert is None) != (key is None):
        alone = Message.of("cli-without", other="--key")
        raise BadOptionError("--cert", alone, Message.of("cli-wanted", case="pair"))
    if cert is None or key is None:
        return
    for path in (cert, key):
        if not path.is_file():
            wanted = Message.of("cli-wanted", case="there")
            raise BadOptionError(Message.of("cli-the-file"), str(path), wanted)
    import ssl

    try:
        ssl.create_default_context(ssl.Purpose.CLIENT_AUTH).load_cert_chain(
            cert, key, password=lambda: ""
        )
    except (ssl.SSLError, OSError):
        wanted = Message.of("cli-wanted", case="certificate", key=key)
        raise BadOptionError("--cert", str(cert), wanted) from None


def _check_port(host: str, port: int) -> None:
    """Say that a port is taken before anything else is said."""
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((host, port))
        except PermissionError:
            wanted = Message.of("cli-wanted", case="own-port")
            raise BadOptionError("--port", str(port), wanted) from None
        except OSError:
            wanted = Message.of("cli-wanted", case="free-port")
            raise BadOptionError("--port", str(port), wanted) from None


def _prepare(settings: "Settings") -> None:
    """Make the data folder and the book, so that what is wrong is said at once.

    Uploads that arrive are put down in the data folder, too: the system's own
    folder for such files is often held in memory.
    """
    import tempfile
    from multiprocessing.util import get_temp_dir

    from api.services import open_services

    folder = settings.data_dir.expanduser()
    try:
        services = open_services(settings)
        with tempfile.TemporaryFile(dir=services.incoming):
            pass
    except OSError as error:
        wanted = Message.of("cli-wanted", case="folder", reason=system_reason(error))
        raise BadOptionError("--data", str(folder), wanted) from None
    services.close()
    get_temp_dir()  # sockets to the workers stay where paths are short
    tempfile.tempdir = str(services.incoming)


def _greet(url: str, *, lan: bool, secure: bool) -> None:
    told = wording("cli-serve-open", url=url)
    output.console().print(told, style="bold", highlight=False)
    if not lan:
        output.console().print(wording("cli-serve-local"))
        return
    import segno

    segno.make(url, micro=False).terminal(compact=True)
    if not secure:
        output.console().print(wording("cli-serve-plain"))


def _show_code(code: str) -> None:
    output.console().print(
        wording("cli-serve-code", code=f"{code[:4]} {code[4:]}"), highlight=False
    )
