"""The networks: small encoder-decoders, all of them plain 3 x 3 convolutions.

``FindNet`` sees the whole plane and finds the fish. ``fine`` (4 channels at
half the input's size): logits of fish,
of a border between two fish, of a visible snout, of a visible fork. ``field``
(9 channels at a quarter): offsets from the cell to its fish's snout x, y and
fork x, y in units of ``OFFSET_UNIT_PX`` input pixels, log of the Laplace scale
of either offset, and logits that snout, fork and 90 % of the midline are seen.

``CropNet`` sees one fish, turned and scaled by the ends that the first one found,
and draws it well. ``fine`` (4 channels at half size): logits of this fish, of its
visible snout, of its visible fork, of its body without fins. ``judge`` (8): logits
that there is a fish as said, that its snout, its fork and 90 % of its midline are
seen, that the length which this very network draws is right to 4 %, that the fish is
upright (its back is seen), that it lies on another fish or thing, that it is seen
through water.

``EndsNet`` sees one end of one fish, outward to the right, ``PATCH_PX`` pixels for
``PATCH_SHARE`` of its length. It answers for each of three kinds of end (snout, fork,
tail tip of an upright fish). ``heat`` (3 channels at half size): logits of where the
end is, one softmax over each. ``said`` (12): for each kind the log of the Laplace
scale along and across the fish in patch pixels, and logits that the end is seen and
that it lies in a shadow.
"""

from torch import Tensor, nn

OFFSET_UNIT_PX = 64.0
FINE_CHANNELS = 4
FIELD_CHANNELS = 9
CROP_CHANNELS = 4
JUDGEMENTS = 8
KINDS_OF_END = 3
SAID_OF_END = 4
PATCH_PX = 96
PATCH_SHARE = 0.15


def _conv(inside: int, outside: int, stride: int = 1, dilation: int = 1) -> nn.Module:
    return nn.Sequential(
        nn.Conv2d(inside, outside, 3, stride, dilation, dilation=dilation, bias=False),
        nn.BatchNorm2d(outside),
        nn.ReLU(inplace=True),
    )


class _Residual(nn.Module):
    def __init__(self, channels: int, dilation: int = 1) -> None:
        super().__init__()
        self.first = _conv(channels, channels, dilation=dilation)
        self.second = nn.Sequential(
            nn.Conv2d(
                channels, channels, 3, 1, dilation, dilation=dilation, bias=False
            ),
            nn.BatchNorm2d(channels),
        )
        self.active = nn.ReLU(inplace=True)

    def forward(self, x: Tensor) -> Tensor:
        """Return x plus its correction."""
        return self.active(x + self.second(self.first(x)))


def _stage(inside: int, outside: int, dilations: tuple[int, ...]) -> nn.Module:
    blocks = [_Residual(outside, dilation) for dilation in dilations]
    return nn.Sequential(_conv(inside, outside, 2), *blocks)


def _side(inside: int, outside: int) -> nn.Module:
    return nn.Sequential(
        nn.Conv2d(inside, outside, 1, bias=False), nn.BatchNorm2d(outside)
    )


class _Trunk(nn.Module):
    """Encoder and decoder; input (n, 3, 32 h, 32 w), RGB, about -2 to 2."""

    def __init__(self, widths: tuple[int, ...]) -> None:
        super().__init__()
        w2, w4, w8, w16, w32 = widths
        self.stem = nn.Sequential(_conv(3, w2, 2), _conv(w2, w2))
        self.down4 = _stage(w2, w4, (1, 1))
        self.down8 = _stage(w4, w8, (1, 1, 1))
        self.down16 = _stage(w8, w16, (1, 1, 1))
        self.down32 = _stage(w16, w32, (1, 2, 4))
        self.up = nn.Upsample(scale_factor=2, mode="nearest")
        self.side16, self.from32 = _side(w16, w16), _side(w32, w16)
        self.side8, self.from16 = _side(w8, w8), _side(w16, w8)
        self.side4, self.from8 = _side(w4, w4), _side(w8, w4)
        self.side2, self.from4 = _side(w2, w2), _side(w4, w2)
        self.mix16, self.mix8 = _Residual(w16), _Residual(w8)
        self.mix4, self.mix2 = _Residual(w4), _conv(w2, w2)
        self.active = nn.ReLU(inplace=True)

    def decode(self, image: Tensor) -> tuple[Tensor, Tensor, Tensor]:
        """Return features at a half, a quarter and a sixteenth."""
        x2 = self.stem(image)
        x4 = self.down4(x2)
        x8 = self.down8(x4)
        x16 = self.down16(x8)
        x32 = self.down32(x16)
        y16 = self.mix16(self.active(self.side16(x16) + self.up(self.from32(x32))))
        y8 = self.mix8(self.active(self.side8(x8) + self.up(self.from16(y16))))
        y4 = self.mix4(self.active(self.side4(x4) + self.up(self.from8(y8))))
        y2 = self.mix2(self.active(self.side2(x2) + self.up(self.from4(y4))))
        return y2, y4, y16


class FindNet(_Trunk):
    """See the module docstring."""

    outputs = ("fine", "field")
    example_shape = (384, 384)

    def __init__(self, widths: tuple[int, ...] = (24, 48, 80, 112, 128)) -> None:
        super().__init__(widths)
        w2, w4 = widths[:2]
        self.field = nn.Sequential(_conv(w4, w4), nn.Conv2d(w4, FIELD_CHANNELS, 1))
        self.fine = nn.Conv2d(w2, FINE_CHANNELS, 1)

    def forward(self, image: Tensor) -> tuple[Tensor, Tensor]:
        """Return ``fine`` and ``field``."""
        y2, y4, _ = self.decode(image)
        return self.fine(y2), self.field(y4)


class CropNet(_Trunk):
    """See the module docstring."""

    outputs = ("fine", "judge")
    example_shape = (160, 320)

    def __init__(self, widths: tuple[int, ...] = (20, 32, 56, 80, 96)) -> None:
        super().__init__(widths)
        self.fine = nn.Conv2d(widths[0], CROP_CHANNELS, 1)
        self.judge = nn.Sequential(
            _conv(widths[3], widths[3]),
            nn.AdaptiveAvgPool2d(1),
            nn.Conv2d(widths[3], JUDGEMENTS, 1),
        )

    def forward(self, image: Tensor) -> tuple[Tensor, Tensor]:
        """Return ``fine`` and ``judge``."""
        y2, _, y16 = self.decode(image)
        return self.fine(y2), self.judge(y16)


class EndsNet(nn.Module):
    """See the module docstring."""

    outputs = ("heat", "said")
    example_shape = (PATCH_PX, PATCH_PX)

    def __init__(self, widths: tuple[int, ...] = (16, 32, 64, 96)) -> None:
        super().__init__()
        w2, w4, w8, w16 = widths
        self.stem = nn.Sequential(_conv(3, w2, 2), _conv(w2, w2))
        self.down4 = _stage(w2, w4, (1, 1))
        self.down8 = _stage(w4, w8, (1, 1))
        self.down16 = _stage(w8, w16, (1, 2))
        self.up = nn.Upsample(scale_factor=2, mode="nearest")
        self.side8, self.from16 = _side(w8, w8), _side(w16, w8)
        self.side4, self.from8 = _side(w4, w4), _side(w8, w4)
        self.side2, self.from4 = _side(w2, w2), _side(w4, w2)
        self.mix8, self.mix4, self.mix2 = _Residual(w8), _Residual(w4), _conv(w2, w2)
        self.active = nn.ReLU(inplace=True)
        self.heat = nn.Conv2d(w2, KINDS_OF_END, 1)
        self.said = nn.Sequential(
            _conv(w16, w16),
            nn.AdaptiveAvgPool2d(1),
            nn.Conv2d(w16, KINDS_OF_END * SAID_OF_END, 1),
        )

    def forward(self, image: Tensor) -> tuple[Tensor, Tensor]:
        """Return ``heat`` and ``said``."""
        x2 = self.stem(image)
        x4 = self.down4(x2)
        x8 = self.down8(x4)
        x16 = self.down16(x8)
        y8 = self.mix8(self.active(self.side8(x8) + self.up(self.from16(x16))))
        y4 = self.mix4(self.active(self.side4(x4) + self.up(self.from8(y8))))
        y2 = self.mix2(self.active(self.side2(x2) + self.up(self.from4(y4))))
        return self.heat(y2), self.said(x16)


Network = FindNet | CropNet | EndsNet
"""Any of the three."""


def new_networks() -> dict[str, Network]:
    """Return the three networks by name, untrained."""
    return {"find": FindNet(), "crop": CropNet(), "ends": EndsNet()}
