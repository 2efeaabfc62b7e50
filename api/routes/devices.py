"""Paired devices: pairing, invitations, names, roles, unpairing."""

import io
from datetime import datetime, timedelta
from typing import Annotated
from uuid import UUID

import segno
from fastapi import Request, Response
from pydantic import Field

from api.access import ANYONE, OWNER, READER, WithCaller, closed_router, set_cookie
from api.pairing import Pairing, Sender
from api.schemas import In, Items, Out
from api.services import Services, WithServices
from fishmeasure.store.devices import Device, Role

router = closed_router(prefix="/v1/devices", tags=["devices"])

NAME_LENGTH = 60
Name = Annotated[
    str,
    Field(
        min_length=1,
        max_length=NAME_LENGTH,
        pattern=r"\S",
        description="For the list, and of what it enters.",
        examples=["my phone"],
    ),
]
RoleField = Annotated[
    Role,
    Field(
        description="A reader sees; a worker also enters, photographs and samples; the "
        "owner may do all.",
        examples=["worker"],
    ),
]


class PairIn(In):
    """What a new device sends."""

    code: str = Field(
        max_length=20, description="Shown at the server.", examples=["1234 5678"]
    )
    name: Name


class DeviceIn(In):
    """What a device is called, and what it may do."""

    name: Name
    role: RoleField


class InvitationIn(In):
    """Whom the owner invites."""

    role: RoleField


class DeviceOut(Out):
    """A paired device."""

    id: UUID = Field(description="Of the device.")
    name: str = Field(description="As it called itself, or was called since.")
    role: RoleField
    paired_at: datetime = Field(description="When.")
    last_seen_at: datetime | None = Field(
        description="When it last asked for anything, within 10 minutes; null where "
        "that is not known."
    )
    ends_at: datetime | None = Field(
        description="It must be paired anew from then on, unless it is used before."
    )


class PairedOut(DeviceOut):
    """A newly paired device."""

    token: str = Field(description="Send it as `Authorization: Bearer`; shown once.")


class MeOut(Out):
    """Who asks."""

    role: RoleField
    device: DeviceOut | None = Field(
        description="Null where no device must be paired: whoever asks is the owner."
    )


class InvitationOut(Out):
    """A way in for one device."""

    code: str = Field(description="Good once.", examples=["12345678"])
    role: RoleField
    minutes: float = Field(description="How long it is good.")
    link: str = Field(description="Address and code in one, for the new device.")
    qr_svg: str = Field(description="The link as a QR code, an SVG document.")


def _out(device: Device) -> DeviceOut:
    return DeviceOut(
        id=device.id,
        name=device.name,
        role=device.role,
        paired_at=device.paired_at,
        last_seen_at=device.last_seen_at,
        ends_at=device.ends_at,
    )


@router.post(
    "",
    status_code=201,
    summary="Pair a device by the code shown",
    dependencies=[ANYONE],
)
def pair(
    services: WithServices, sent: PairIn, request: Request, response: Response
) -> PairedOut:
    """Return a token, which is set as a cookie as well. Limited by address.

    The server's own code pairs an owner's device, an invitation one of its role.
    """
    pairing: Pairing = request.app.state.pairing
    sender = Sender(
        address=request.client.host if request.client else "",
        lasts=timedelta(days=services.settings.device_days),
    )
    name = sent.name.strip()
    device, token = pairing.pair(sent.code, name, services.book.devices, sender)
    set_cookie(response, services, token)
    return PairedOut(**_out(device).model_dump(), token=token)


@router.post(
    "/invitations",
    status_code=201,
    summary="Invite a device for a role",
    dependencies=[OWNER],
)
def invite(
    services: WithServices, sent: InvitationIn, request: Request
) -> InvitationOut:
    """Return a code that pairs one device, and a link that holds it."""
    pairing: Pairing = request.app.state.pairing
    code = pairing.invite(sent.role)
    link = pairing_link(_address(services, request), code)
    drawn = io.BytesIO()
    segno.make(link, micro=False).save(drawn, kind="svg", scale=4, border=4)
    return InvitationOut(
        code=code,
        role=sent.role,
        minutes=pairing.minutes,
        link=link,
        qr_svg=drawn.getvalue().decode(),
    )


def pairing_link(address: str, code: str) -> str:
    """Return an address that pairs: what follows the # is never sent to a server."""
    return f"{address.rstrip('/')}/#/pair/{code}"


def _address(services: Services, request: Request) -> str:
    return services.settings.address or str(request.base_url)


@router.get("/me", summary="Who asks, and what it may do", dependencies=[READER])
def who_asks(caller: WithCaller) -> MeOut:
    """Return the device whose token was sent."""
    device = None if caller.device is None else _out(caller.device)
    return MeOut(role=caller.role, device=device)


@router.get("/list", summary="List the paired devices", dependencies=[OWNER])
def list_devices(services: WithServices) -> Items[DeviceOut]:
    """Return all devices, oldest first."""
    return Items(items=[_out(device) for device in services.book.devices.all()])


@router.put(
    "/{device_id}", summary="Name a device, or change its role", dependencies=[OWNER]
)
def change_device(services: WithServices, device_id: UUID, sent: DeviceIn) -> DeviceOut:
    """Return the device as it is now; what it entered keeps the name it had then."""
    devices = services.book.devices
    return _out(devices.change(device_id, name=sent.name.strip(), role=sent.role))


@router.delete(
    "/{device_id}", status_code=204, summary="Unpair a device", dependencies=[OWNER]
)
def unpair(services: WithServices, device_id: UUID) -> None:
    """Forget a device; its token is worth nothing any more."""
    services.book.devices.remove(device_id)
