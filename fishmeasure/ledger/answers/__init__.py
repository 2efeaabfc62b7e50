"""The answers of an outlook, a module for each question."""

from fishmeasure.ledger.answers.ask import AHEAD_DAYS, Attempts, Options
from fishmeasure.ledger.answers.collect import collected
from fishmeasure.ledger.answers.feed import Feeding, feeding
from fishmeasure.ledger.answers.fish import (
    USUAL_CV,
    CohortOutlook,
    Condition,
    Grading,
    HarvestDay,
    cohort_outlook,
)
from fishmeasure.ledger.answers.load import Limits, limits
from fishmeasure.ledger.answers.now import hold, now_notes, now_problems, unit_now
from fishmeasure.ledger.answers.outage import Outages, outages
from fishmeasure.ledger.answers.sources import notes
from fishmeasure.ledger.answers.water import Water, water_now

__all__ = [
    "AHEAD_DAYS",
    "USUAL_CV",
    "Attempts",
    "CohortOutlook",
    "Condition",
    "Feeding",
    "Grading",
    "HarvestDay",
    "Limits",
    "Options",
    "Outages",
    "Water",
    "cohort_outlook",
    "collected",
    "feeding",
    "hold",
    "limits",
    "notes",
    "now_notes",
    "now_problems",
    "outages",
    "unit_now",
    "water_now",
]
