"""A certificate authority of this server's own: HTTPS on a network without names.

It is kept with the data (``tls`` in the data folder, for its owner's eyes alone), and
can vouch for nothing but this machine: its certificate names the machine's own names
and the part of the network that it is in (RFC 5280, 4.2.1.10, name constraints). A
phone that has installed it trusts it for these alone, whoever may steal its key. The
server's certificate is made anew when it runs out, or when the machine has another
address there, without any phone noticing; only in another network, or under another
name, a new authority is made and has to be installed again.
"""

import datetime as dt
import hashlib
import ipaddress
import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from fishmeasure.base.files import write_durably

FOLDER = "tls"
AUTHORITY_DAYS = 3650
"""Common practice, no source: as long as a phone lasts."""
SERVER_DAYS = 397
"""At most 825 where an authority was installed by hand (support.apple.com/103769,
seen); 398 is what public ones are held to (from memory)."""
RENEW_DAYS = 60
"""Left of a certificate when it is made anew: a summer without a restart."""
_EARLIER = dt.timedelta(days=1)  # clocks of phones and servers differ
_NETWORK_BITS = 24
"""Of an IPv4 address: what a home's or farm's router gives out (common practice, no
source). Another address from it needs no new authority."""
_DNS = re.compile(r"[a-z0-9]([a-z0-9-]*[a-z0-9])?(\.[a-z0-9]([a-z0-9-]*[a-z0-9])?)*")

Address = ipaddress.IPv4Address | ipaddress.IPv6Address
_Network = ipaddress.IPv4Network | ipaddress.IPv6Network


@dataclass(frozen=True, slots=True, kw_only=True)
class Machine:
    """What a machine goes by: its names and its addresses."""

    names: tuple[str, ...]
    addresses: tuple[Address, ...]

    @property
    def networks(self) -> tuple[_Network, ...]:
        """Return what its authority may vouch for."""
        return tuple(dict.fromkeys(_network_of(one) for one in self.addresses))


@dataclass(frozen=True, slots=True, kw_only=True)
class Certificates:
    """Where a server's certificate and its authority are.

    ``fingerprint`` is the authority's SHA-256, as phones show it; ``is_new`` where it
    has to be installed.
    """

    chain: Path
    key: Path
    authority: Path
    fingerprint: str
    is_new: bool


@dataclass(frozen=True, slots=True)
class _Pair:
    certificate: x509.Certificate
    key: ec.EllipticCurvePrivateKey


def machine_of(names: Iterable[str], addresses: Iterable[str]) -> Machine:
    """Return the machine of such names and addresses; what is neither is left out."""
    found = dict.fromkeys(name.lower() for name in names)
    return Machine(
        names=tuple(name for name in found if len(name) < 64 and _DNS.fullmatch(name)),
        addresses=tuple(dict.fromkeys(map(ipaddress.ip_address, addresses))),
    )


def certificates(
    data_dir: Path, machine: Machine, now: dt.datetime | None = None
) -> Certificates:
    """Return a machine's certificate, made anew where it must be.

    Raises
    ------
    OSError
        If the folder cannot be read or written.
    """
    now = now or dt.datetime.now(dt.UTC)
    folder = data_dir / FOLDER
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    authority = _load(folder, "authority")
    is_new = authority is None or not _vouches(authority, machine, now)
    if authority is None or is_new:
        authority = _new_authority(machine, now)
        _keep(folder, "authority", authority, ())
    server = _load(folder, "server")
    if server is None or not _serves(server, authority, machine, now):
        server = _new_server(authority, machine, now)
        _keep(folder, "server", server, (authority.certificate,))
    return Certificates(
        chain=folder / "server.pem",
        key=folder / "server-key.pem",
        authority=folder / "authority.pem",
        fingerprint=fingerprint(authority.certificate),
        is_new=is_new,
    )


def fingerprint(certificate: x509.Certificate) -> str:
    """Return the SHA-256 of a certificate, in pairs of digits."""
    return certificate.fingerprint(hashes.SHA256()).hex(" ").upper()


# --- making -------------------------------------------------------------------


def _new_authority(machine: Machine, now: dt.datetime) -> _Pair:
    key = ec.generate_private_key(ec.SECP256R1())
    public = key.public_key()
    main = next(iter(machine.names), "this machine")
    # Two authorities of one name, the second made later, would be taken for one.
    mark = hashlib.sha256(public.public_bytes(*_PUBLIC)).hexdigest()[:6]
    name = _name(f"fishmeasure at {main[:40]} {mark}")
    permitted = [
        *map(x509.DNSName, machine.names),
        *map(x509.IPAddress, machine.networks),
    ]
    usage = x509.KeyUsage(
        digital_signature=False,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=True,
        crl_sign=True,
        encipher_only=False,
        decipher_only=False,
    )
    made = (
        _begun(name, name, public, now, AUTHORITY_DAYS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(usage, critical=True)
        .add_extension(
            x509.SubjectKeyIdentifier.from_public_key(public), critical=False
        )
        .add_extension(x509.NameConstraints(permitted, None), critical=True)
        .sign(key, hashes.SHA256())
    )
    return _Pair(made, key)


def _new_server(authority: _Pair, machine: Machine, now: dt.datetime) -> _Pair:
    key = ec.generate_private_key(ec.SECP256R1())
    signer = authority.certificate
    names = [
        *map(x509.DNSName, machine.names),
        *map(x509.IPAddress, machine.addresses),
    ]
    left = (signer.not_valid_after_utc - now).days
    begun = _begun(
        _name("fishmeasure"), signer.subject, key.public_key(), now, SERVER_DAYS
    )
    if left < SERVER_DAYS:
        begun = begun.not_valid_after(signer.not_valid_after_utc)
    identifier = x509.AuthorityKeyIdentifier.from_issuer_public_key(
        authority.key.public_key()
    )
    made = (
        begun.add_extension(x509.SubjectAlternativeName(names), critical=False)
        .add_extension(
            x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False
        )
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(identifier, critical=False)
        .sign(authority.key, hashes.SHA256())
    )
    return _Pair(made, key)


def _begun(
    subject: x509.Name,
    issuer: x509.Name,
    key: ec.EllipticCurvePublicKey,
    now: dt.datetime,
    days: int,
) -> x509.CertificateBuilder:
    return x509.CertificateBuilder(
        issuer_name=issuer,
        subject_name=subject,
        public_key=key,
        serial_number=x509.random_serial_number(),
        not_valid_before=now - _EARLIER,
        not_valid_after=now - _EARLIER + dt.timedelta(days=days),
    )


def _name(text: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, text)])


# --- whether they still do ----------------------------------------------------


def _vouches(authority: _Pair, machine: Machine, now: dt.datetime) -> bool:
    """Return whether an authority may vouch for all of a machine for long enough."""
    if not _lasts(authority.certificate, now, SERVER_DAYS):
        return False
    try:
        found = authority.certificate.extensions.get_extension_for_class(
            x509.NameConstraints
        )
    except x509.ExtensionNotFound:
        return False
    permitted = {one.value for one in found.value.permitted_subtrees or ()}
    return permitted >= {*machine.names, *machine.networks}


def _serves(
    server: _Pair, authority: _Pair, machine: Machine, now: dt.datetime
) -> bool:
    """Return whether a certificate is the authority's, of this machine, and lasts."""
    certificate = server.certificate
    if not _lasts(certificate, now, RENEW_DAYS):
        return False
    try:
        certificate.verify_directly_issued_by(authority.certificate)
        found = certificate.extensions.get_extension_for_class(
            x509.SubjectAlternativeName
        )
    except (ValueError, TypeError, InvalidSignature, x509.ExtensionNotFound):
        return False
    named = {one.value for one in found.value}
    return named == {*machine.names, *machine.addresses}


def _lasts(certificate: x509.Certificate, now: dt.datetime, days: int) -> bool:
    until = certificate.not_valid_after_utc
    return certificate.not_valid_before_utc <= now <= until - dt.timedelta(days=days)


def _network_of(address: Address) -> _Network:
    bits: int = address.max_prefixlen
    if bits == 32 and address.is_private and not address.is_loopback:
        bits = _NETWORK_BITS
    return ipaddress.ip_network((address, bits), strict=False)


# --- on the disk ---------------------------------------------------------------

_PUBLIC = (
    serialization.Encoding.DER,
    serialization.PublicFormat.SubjectPublicKeyInfo,
)
_PEM = serialization.Encoding.PEM


def _load(folder: Path, name: str) -> _Pair | None:
    """Return a certificate and its key; None where one is missing or damaged."""
    try:
        certificate = x509.load_pem_x509_certificate(
            (folder / f"{name}.pem").read_bytes()
        )
        key = serialization.load_pem_private_key(
            (folder / f"{name}-key.pem").read_bytes(), None
        )
    except (FileNotFoundError, ValueError, TypeError):
        return None
    mine = certificate.public_key()
    if not isinstance(key, ec.EllipticCurvePrivateKey) or mine != key.public_key():
        return None
    return _Pair(certificate, key)


def _keep(
    folder: Path, name: str, pair: _Pair, issuers: tuple[x509.Certificate, ...]
) -> None:
    """Write the key first: a certificate without its key is made anew."""
    key = pair.key.private_bytes(
        _PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )
    chain = b"".join(one.public_bytes(_PEM) for one in (pair.certificate, *issuers))
    for file, content in ((f"{name}-key.pem", key), (f"{name}.pem", chain)):
        write_durably(folder / file, content, folder)
        (folder / file).chmod(0o600)
