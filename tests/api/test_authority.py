"""The server's own authority: what it may vouch for, and when it is made anew.

Held against OpenSSL's verification, as the TLS of Python and curl has it.
"""

import datetime as dt
import hashlib
import ssl
import stat
import subprocess
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding

from api.authority import (
    RENEW_DAYS,
    SERVER_DAYS,
    Certificates,
    Machine,
    _load,
    _new_server,
    certificates,
    machine_of,
)

HERE = machine_of(("farm", "farm.local", "localhost"), ("192.168.1.5", "127.0.0.1"))
NOW = dt.datetime.now(dt.UTC).replace(microsecond=0)


def verified(found: Certificates, *asked: str, chain: Path | None = None) -> bool:
    """Return whether OpenSSL trusts a certificate by the authority alone."""
    command = ["openssl", "verify", "-x509_strict", "-CAfile", str(found.authority)]
    done = subprocess.run(  # noqa: S603 - no outside input
        [*command, "-purpose", "sslserver", *asked, str(chain or found.chain)],
        capture_output=True,
        text=True,
        check=False,
    )
    return done.returncode == 0


def test_openssl_trusts_the_server_by_its_names_and_addresses(tmp_path: Path) -> None:
    """And by no others; the keys are for their owner's eyes."""
    found = certificates(tmp_path, HERE)
    assert found.is_new
    for name in ("farm", "farm.local", "localhost"):
        assert verified(found, "-verify_hostname", name)
    for address in ("192.168.1.5", "127.0.0.1"):
        assert verified(found, "-verify_ip", address)
    assert not verified(found, "-verify_hostname", "other.local")
    assert not verified(found, "-verify_ip", "192.168.1.6")
    for path in (found.key, tmp_path / "tls" / "authority-key.pem"):
        assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700


@pytest.mark.parametrize(
    ("machine", "trusted"),
    [
        (machine_of(("farm.local",), ("192.168.1.77",)), True),  # the same network
        (machine_of(("bank.example",), ("192.168.1.5",)), False),
        (machine_of(("farm.local.example",), ()), False),
        (machine_of(("local",), ()), False),
        (machine_of(("farm",), ("192.168.2.5",)), False),
        (machine_of(("farm",), ("198.51.100.7",)), False),
        (machine_of(("farm",), ("127.0.0.2",)), False),
        (machine_of(("farm",), ("2001:db8::5",)), False),
    ],
)
def test_a_thief_of_the_key_can_vouch_for_nothing_else(
    tmp_path: Path, machine: Machine, *, trusted: bool
) -> None:
    """RFC 5280, 4.2.1.10: a name of a kind that is constrained must be permitted."""
    found = certificates(tmp_path, HERE)
    authority = _load(tmp_path / "tls", "authority")
    assert authority is not None
    forged = tmp_path / "forged.pem"
    made = _new_server(authority, machine, NOW).certificate
    forged.write_bytes(made.public_bytes(Encoding.PEM))
    assert verified(found, chain=forged) is trusted


def test_the_same_certificates_serve_again(tmp_path: Path) -> None:
    """A restart changes nothing on any phone."""
    first = certificates(tmp_path, HERE)
    content = first.chain.read_bytes()
    again = certificates(tmp_path, HERE)
    assert not again.is_new
    assert again.fingerprint == first.fingerprint
    assert again.chain.read_bytes() == content


@pytest.mark.parametrize(
    ("machine", "later", "is_new"),
    [
        (HERE, dt.timedelta(days=SERVER_DAYS - RENEW_DAYS), False),
        (HERE, dt.timedelta(days=3650), True),
        (machine_of(HERE.names, ("192.168.1.9", "127.0.0.1")), dt.timedelta(), False),
        (machine_of(HERE.names, ("10.0.0.9", "127.0.0.1")), dt.timedelta(), True),
        (machine_of(("barn",), ("192.168.1.5", "127.0.0.1")), dt.timedelta(), True),
    ],
)
def test_what_has_run_out_or_moved_is_made_anew(
    tmp_path: Path, machine: Machine, later: dt.timedelta, *, is_new: bool
) -> None:
    """The authority only where it may not vouch for the machine, or soon ends."""
    first = certificates(tmp_path, HERE, NOW)
    before = first.chain.read_bytes()
    found = certificates(tmp_path, machine, NOW + later)
    assert found.chain.read_bytes() != before
    assert found.is_new is is_new
    assert (found.fingerprint == first.fingerprint) is not is_new


@pytest.mark.parametrize("name", ["authority-key", "authority", "server", "server-key"])
def test_what_is_damaged_is_made_anew(tmp_path: Path, name: str) -> None:
    """Half a file, or another's key, is no certificate."""
    first = certificates(tmp_path, HERE)
    (tmp_path / "tls" / f"{name}.pem").write_bytes(b"-----BEGIN")
    found = certificates(tmp_path, HERE)
    assert found.is_new is name.startswith("authority")
    assert verified(found, "-verify_hostname", "farm")
    assert (found.fingerprint == first.fingerprint) is not found.is_new


def test_phones_take_it(tmp_path: Path) -> None:
    """By what support.apple.com/103769 asks of a server's certificate."""
    found = certificates(tmp_path, HERE)
    server = x509.load_pem_x509_certificate(found.chain.read_bytes())
    usage = server.extensions.get_extension_for_class(x509.ExtendedKeyUsage).value
    assert x509.oid.ExtendedKeyUsageOID.SERVER_AUTH in usage
    lasts = server.not_valid_after_utc - server.not_valid_before_utc
    assert lasts <= dt.timedelta(days=825)
    assert server.signature_hash_algorithm is not None
    assert server.signature_hash_algorithm.name == "sha256"
    authority = found.authority.read_text()
    told = ssl.PEM_cert_to_DER_cert(authority)
    assert found.fingerprint == hashlib.sha256(told).digest().hex(" ").upper()


def test_a_name_that_is_none_is_left_out() -> None:
    """A computer may be called anything."""
    machine = machine_of(("My_PC", "Łódź", "a" * 64, "ok-1"), ("127.0.0.1",))
    assert machine.names == ("ok-1",)
