"""What must wait for a withdrawal period: no fish is taken for food before its end."""

from collections.abc import Iterable
from dataclasses import replace

from fishmeasure.book.withdrawal import Withdrawal
from fishmeasure.outlook.fish import CohortOutlook


def without_harvests(
    cohorts: tuple[CohortOutlook, ...], waits: Iterable[Withdrawal]
) -> tuple[CohortOutlook, ...]:
    """Return the cohorts without harvests on days on which none may be taken."""
    waits = tuple(waits)
    return tuple(
        replace(
            cohort,
            harvests=tuple(
                replace(found, harvest=None)
                if any(wait.holds_on(found.day) for wait in waits)
                else found
                for found in cohort.harvests
            ),
        )
        for cohort in cohorts
    )
