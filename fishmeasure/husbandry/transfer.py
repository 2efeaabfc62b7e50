"""What an air pump, an oxygen feed or a paddlewheel brings, as people buy them.

A standard oxygen transfer rate (SOTR: clean water, 20 °C, no oxygen in it) from the
litres of gas and the depth of the diffuser, or from the power of a paddlewheel.
"""

from dataclasses import dataclass
from typing import Final

from fishmeasure.base.words import Message
from fishmeasure.husbandry.checks import require
from fishmeasure.husbandry.unit import Bubbles

OXYGEN_IN_AIR: Final = 0.2095  # by volume, dry air (ICAO standard atmosphere, memory)
DO_STANDARD_MG_PER_L: Final = 9.09  # at 20 °C, EN 25814 table
# Oxygen in a litre of gas at 20 °C and 1 atm: 31.998 g/mol over 24.055 L/mol (ideal
# gas, 0.082057 L atm/(mol K) x 293.15 K). Computed.
OXYGEN_G_PER_L: Final = 31.998 / 24.055

# Standard oxygen transfer efficiency per metre of water over the diffuser, percent
# of the oxygen sent in. From memory, not checked at the source: clean-water tests at
# 4.6 m in the EPA Design Manual Fine Pore Aeration Systems (EPA/625/1-89/023, 1989)
# give ceramic and membrane diffusers on the whole floor 25 to 40 %, jets and
# perforated hoses 15 to 25 %, coarse bubbles 9 to 13 %; over 4.6 m that is 5.4 to 8.7,
# 3.3 to 5.4 and 2.0 to 2.8 % a metre. The lower ends stand here: an air stone in one
# place, at one metre, does worse than a floor of diffusers.
EFFICIENCY_PERCENT_PER_M: Final[dict[Bubbles, float]] = {
    "fine": 5.0,
    "medium": 3.3,
    "coarse": 2.0,
}
GAS_RELATIVE_SD: Final = 0.35  # an allowance for the span above and for alpha

# Standard aeration efficiency of paddlewheels, kg of oxygen per kWh. Boyd 1998 (Aquac
# Eng 18:9-40) has 1.1 to 3.0, mean 2.2, and Ahmad & Boyd 1988 (Aquac Eng 7) 2.7 to 2.9
# for three of their design: both from memory. The mean of the first is taken.
PADDLEWHEEL_KG_PER_KWH: Final = 2.2
PADDLEWHEEL_RELATIVE_SD: Final = 0.35  # 1.1 to 3.0 is about 1.2 of it on either side


@dataclass(frozen=True, slots=True, kw_only=True)
class StandardTransfer:
    """A standard oxygen transfer rate, with the error of the rule behind it."""

    g_per_h: float
    relative_sd: float
    note: Message | None = None


def gas_transfer(
    *, l_per_min: float, depth_m: float, bubbles: Bubbles, pure_oxygen: bool = False
) -> StandardTransfer:
    """Return what gas through a diffuser brings.

    Litres are those at 20 °C and 1 atm. In pure oxygen there is 4.8 times as much in a
    litre, and the same share of it is taken up.

    Raises
    ------
    StockRangeError
    """
    require("gas through the diffuser", l_per_min, "L/min", 0.0, 1e6)
    require("depth of the diffuser", depth_m, "m", 0.0, 10.0)
    share = EFFICIENCY_PERCENT_PER_M[bubbles] / 100.0 * depth_m
    sent_g_per_h = l_per_min * 60.0 * OXYGEN_G_PER_L
    if not pure_oxygen:
        sent_g_per_h *= OXYGEN_IN_AIR
    each = EFFICIENCY_PERCENT_PER_M[bubbles]
    return StandardTransfer(
        g_per_h=sent_g_per_h * share,
        relative_sd=GAS_RELATIVE_SD,
        note=Message.of("note-gas-transfer", case=bubbles, each_percent=each),
    )


def paddlewheel_transfer(*, power_w: float) -> StandardTransfer:
    """Return what a paddlewheel of this power brings.

    Raises
    ------
    StockRangeError
    """
    require("power of the paddlewheel", power_w, "W", 0.0, 1e6)
    return StandardTransfer(
        g_per_h=power_w * PADDLEWHEEL_KG_PER_KWH,
        relative_sd=PADDLEWHEEL_RELATIVE_SD,
        note=Message.of("note-paddlewheel", kg_per_kwh=PADDLEWHEEL_KG_PER_KWH),
    )
