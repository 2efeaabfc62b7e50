"""Cautions that screens and reports show where they apply; the one wording."""

ESTIMATE = (
    "An estimate is no measurement. Act on the interval's unsafe end: the highest "
    "biomass for oxygen, the lowest for sales."
)
OXYGEN = (
    "Oxygen and outage times are planning figures. Measure dissolved oxygen with a "
    "meter and keep a tested backup."
)
ELECTRICAL = (
    "Have electrical work near water done, and protected by a residual-current "
    "device, by a licensed electrician under the local code."
)
HANDLING = (
    "Handle fish with wet hands, briefly out of water and in cool water; take no "
    "sample in heat or at low oxygen."
)
ANAESTHETICS = (
    "Use only anaesthetics licensed where you are, under a veterinarian's "
    "direction, and keep the withdrawal time."
)
SLAUGHTER = "Slaughter humanely and as local law says."
FASTING = (
    "Withhold feed before slaughter no longer than 54 degree-days (days times °C): "
    "4 days at 13 °C, 6 at 9 °C."
)
DEAD_FISH = (
    "Fish found dead are not food by default: cause and time are unknown. Follow "
    "local food-safety rules."
)
PERMITS = "Discharge, escapes and non-native species: local permits decide."

OUTAGE: tuple[str, ...] = (ESTIMATE, OXYGEN, ELECTRICAL)
SAMPLING: tuple[str, ...] = (HANDLING, ANAESTHETICS)
HARVEST: tuple[str, ...] = (ESTIMATE, FASTING, SLAUGHTER, DEAD_FISH)
STOCKING: tuple[str, ...] = (ESTIMATE, OXYGEN, PERMITS)
