"""Where the figures of an outlook come from."""

from fishmeasure.base.words import Message
from fishmeasure.outlook.feed import Feeding
from fishmeasure.outlook.fish import CohortOutlook
from fishmeasure.outlook.load import Limits
from fishmeasure.outlook.outage import Outages


def notes(
    cohorts: tuple[CohortOutlook, ...],
    feed: Feeding | None,
    limit: Limits | None,
    outage_: Outages | None,
) -> tuple[Message, ...]:
    """Return where the figures come from, each sentence once."""
    found: list[Message] = []
    for item in cohorts:
        if item.cv_is_usual:
            found.append(Message.of("note-usual-cv"))
        if item.projection is not None:
            found.extend(item.projection.notes)
    if feed is not None:
        for plan in feed.plans:
            found.extend(plan.notes)
    if limit is not None:
        found.extend(limit.notes)
        found.extend(item.note for item in limit.load.limits)
        for part in (limit.ammonia, limit.nitrate, limit.bed):
            if part is not None:
                found.extend(part.notes)
    if outage_ is not None:
        found.extend(outage_.worst.notes)
    found.append(Message.of("note-unseen-losses"))
    return tuple(dict.fromkeys(found))
