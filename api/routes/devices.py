"""Pairing of devices."""

from datetime import datetime
from uuid import UUID

from fastapi import APIRouter, Request, Response
from pydantic import Field

from api.guard import COOKIE
from api.pairing import Pairing
from api.schemas import In, Items, Out
from api.services import WithServices
from fishmeasure.store.archive import Device

router = APIRouter(prefix="/v1/devices", tags=["devices"])

COOKIE_DAYS = 400  # the longest that browsers keep one


class PairIn(In):
    """What a new device sends."""

    code: str = Field(
        max_length=20, description="Shown at the server.", examples=["1234 5678"]
    )
    name: str = Field(
        min_length=1, max_length=60, description="For the list.", examples=["my phone"]
    )


class DeviceOut(Out):
    """A paired device."""

    id: UUID = Field(description="Of the device.")
    name: str = Field(description="As it called itself.")
    paired_at: datetime = Field(description="When.")


class PairedOut(DeviceOut):
    """A newly paired device."""

    token: str = Field(description="Send it as `Authorization: Bearer`; shown once.")


def _out(device: Device) -> DeviceOut:
    return DeviceOut(id=device.id, name=device.name, paired_at=device.paired_at)


@router.post("", status_code=201, summary="Pair a device by the code shown")
def pair(
    services: WithServices, sent: PairIn, request: Request, response: Response
) -> PairedOut:
    """Return a token, which is set as a cookie as well. Limited by address."""
    pairing: Pairing = request.app.state.pairing
    address = request.client.host if request.client else ""
    device, token = pairing.pair(sent.code, sent.name, services.archive, address)
    response.set_cookie(
        COOKIE,
        token,
        max_age=COOKIE_DAYS * 86_400,
        httponly=True,
        samesite="strict",
        secure=services.settings.secure_cookies,
    )
    return PairedOut(**_out(device).model_dump(), token=token)


@router.get("/list", summary="List the paired devices")
def list_devices(services: WithServices) -> Items[DeviceOut]:
    """Return all devices, oldest first."""
    return Items(items=[_out(device) for device in services.archive.devices()])


@router.delete("/{device_id}", status_code=204, summary="Unpair a device")
def unpair(services: WithServices, device_id: UUID) -> None:
    """Forget a device; its token is worth nothing any more."""
    services.archive.remove_device(device_id)
