"""``fishmeasure serve``: the page for the phone and the API for programs."""

import contextlib
import signal
import socket
import sys
import threading
import time
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from fishmeasure.base.errors import BadOptionError
from fishmeasure.base.words import Message, system_reason, wording
from fishmeasure.cli import output

if TYPE_CHECKING:
    from collections.abc import Callable

    from uvicorn import Config

    from api.authority import Certificates
    from api.settings import Settings

LOCAL = "127.0.0.1"
DAY_S = 86_400.0


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
    plain: Annotated[
        bool,
        typer.Option("--plain", help="help-plain"),
    ] = False,
    listen: Annotated[str | None, typer.Option("--host", help="help-host")] = None,
    prefix: Annotated[str, typer.Option("--prefix", help="help-prefix")] = "",
    cert: Annotated[Path | None, typer.Option(help="help-cert")] = None,
    key: Annotated[Path | None, typer.Option(help="help-key")] = None,
    workers: Annotated[
        int | None,
        typer.Option(min=1, max=64, help="help-serve-workers"),
    ] = None,
) -> None:
    """Serve the phone page and the API, on this machine only unless --lan."""
    _check_tls(cert, key)
    host = listen or ("0.0.0.0" if lan else LOCAL)  # noqa: S104 - asked for by --lan
    own = lan and not plain and cert is None
    for taken in (port, port + 1) if own else (port,):
        _check_port(host, taken)

    from api.observe import set_up_logs
    from api.settings import SettingError, Settings

    address = lan_address() if lan else listen or LOCAL
    machine = _names(address) if lan else ("localhost", LOCAL)
    url = f"{'https' if own or cert else 'http'}://{address}:{port}/"
    # Whoever is invited may have to install the certificate first.
    invited = f"http://{address}:{port + 1}/" if own else url
    try:
        settings = Settings.from_environment(
            book=book,
            data_dir=data,
            workers=workers,
            # Closed, whoever else may reach it.
            require_token=True if lan or host not in {LOCAL, "::1"} else None,
            secure_cookies=True if own or cert else None,
            hosts=",".join((*machine, "[::1]")) if lan else None,
            address=invited if lan else None,
        )
    except SettingError as error:
        raise BadOptionError(error.name, repr(error.value), error.wanted) from None
    set_up_logs(as_json=settings.log_json, requests=settings.log_requests)
    _prepare(settings)
    tls = _own_tls(settings, machine) if own else _Tls(cert=cert, key=key)
    app = _app(settings, tls, url, lan=lan)
    for end in (signal.SIGINT, signal.SIGTERM):  # once all is finished and put away
        signal.signal(end, lambda *_: sys.exit(0))
    _run(app, tls, host=host, port=port, page=url, prefix=prefix)


def _app(
    settings: "Settings", tls: "_Tls", url: str, *, lan: bool
) -> "Callable[..., Any]":
    """Return the application; what is said of it, only where somebody looks."""
    from api.app import create_app

    if settings.log_json:  # a service: all that is printed is kept in a log
        return create_app(settings)
    app = create_app(settings, announce=_shown_at(settings.address or url))
    _greet(url, tls, lan=lan)
    return app


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tls:
    """Certificate and key, and the authority of the server's own behind them."""

    cert: Path | None
    key: Path | None
    own: "Certificates | None" = None
    renew: "Callable[[], Certificates] | None" = None


def _names(address: str) -> tuple[str, ...]:
    name = socket.gethostname().lower()
    return "localhost", LOCAL, address, name, f"{name}.local"


def _own_tls(settings: "Settings", machine: tuple[str, ...]) -> _Tls:
    """Return a certificate by the server's own authority, made where there is none."""
    from functools import partial

    from api.authority import certificates, machine_of

    addresses = [name for name in machine if _is_address(name)]
    names = [name for name in machine if name not in addresses]
    folder = settings.data_dir.expanduser()
    renew = partial(certificates, folder, machine_of(names, addresses))
    try:
        own = renew()
    except OSError as error:
        wanted = Message.of("cli-wanted", case="folder", reason=system_reason(error))
        raise BadOptionError("--data", str(folder), wanted) from None
    return _Tls(cert=own.chain, key=own.key, own=own, renew=renew)


def _is_address(name: str) -> bool:
    try:
        socket.inet_aton(name)
    except OSError:
        return False
    return name.count(".") == 3


def _run(
    app: "Callable[..., Any]",
    tls: _Tls,
    *,
    host: str,
    port: int,
    page: str,
    prefix: str,
) -> None:
    """Serve until told to end, the certificate's own page beside it."""
    import uvicorn

    from api.connections import BoundedProtocol, allow_connections

    allow_connections()
    config = uvicorn.Config(
        app,
        host=host,
        port=port,
        root_path=prefix.rstrip("/"),
        ssl_certfile=tls.cert,
        ssl_keyfile=tls.key,
        log_config=None,
        access_log=False,
        timeout_graceful_shutdown=30,
        http=BoundedProtocol,
        ws="none",
    )
    config.load()
    if tls.own is not None:
        _start_beside(tls, config, page)
    uvicorn.Server(config).run()


def _start_beside(tls: _Tls, served: "Config", page: str) -> None:
    """Offer the authority by plain HTTP, and renew the certificate day by day."""
    import uvicorn
    from cryptography import x509

    from api.connections import BoundedProtocol
    from api.start_page import start_app

    own, renew, context = tls.own, tls.renew, served.ssl
    if own is None or renew is None or context is None:
        return
    authority = x509.load_pem_x509_certificate(own.authority.read_bytes())
    config = uvicorn.Config(
        start_app(page, authority),
        host=str(served.host),
        port=served.port + 1,
        log_config=None,
        access_log=False,
        http=BoundedProtocol,
        ws="none",
    )
    threading.Thread(target=uvicorn.Server(config).run, daemon=True).start()

    def daily() -> None:
        while True:
            time.sleep(DAY_S)
            with contextlib.suppress(OSError):  # a full disk is told elsewhere
                fresh = renew()
                context.load_cert_chain(fresh.chain, fresh.key)

    threading.Thread(target=daily, daemon=True).start()


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


def _greet(url: str, tls: _Tls, *, lan: bool) -> None:
    console = output.console()
    console.print(wording("cli-serve-open", url=url), style="bold", highlight=False)
    if not lan:
        console.print(wording("cli-serve-local"))
    elif tls.own is not None:
        case = "new" if tls.own.is_new else "known"
        mark = tls.own.fingerprint
        told = wording("cli-serve-certificate", case=case, fingerprint=mark)
        console.print(told, highlight=False)
    elif tls.cert is None:
        console.print(wording("cli-serve-plain"))


def _shown_at(address: str) -> "Callable[[str], None]":
    """Return what shows a code, and a picture of the address with the code in it."""

    def show(code: str) -> None:
        import segno

        from api.routes.devices import pairing_link

        segno.make(pairing_link(address, code), micro=False).terminal(compact=True)
        told = wording("cli-serve-code", code=f"{code[:4]} {code[4:]}")
        output.console().print(told, highlight=False)

    return show
