"""Cautions that screens and reports show where they apply; the one wording."""

from fishmeasure.base.words import Message

ESTIMATE = Message.of("caution-estimate")
OXYGEN = Message.of("caution-oxygen")
ELECTRICAL = Message.of("caution-electrical")
HANDLING = Message.of("caution-handling")
TUB = Message.of("caution-tub")
"""0.1 kg/L: 100 g/L of brown trout for 14 h, transport experiment in Finland (excerpt
seen, authors not shown); minutes: common practice, no source."""
ANAESTHETICS = Message.of("caution-anaesthetics")
SLAUGHTER = Message.of("caution-slaughter")
FASTING = Message.of("caution-fasting")
DEAD_FISH = Message.of("caution-dead-fish")
PERMITS = Message.of("caution-permits")

OUTAGE: tuple[Message, ...] = (ESTIMATE, OXYGEN, ELECTRICAL)
SAMPLING: tuple[Message, ...] = (HANDLING, ANAESTHETICS)
HARVEST: tuple[Message, ...] = (ESTIMATE, FASTING, SLAUGHTER, DEAD_FISH)
STOCKING: tuple[Message, ...] = (ESTIMATE, OXYGEN, PERMITS)
