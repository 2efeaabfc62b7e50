"""The answers of an outlook, a module for each question."""

from fishmeasure.outlook.attempts import AHEAD_DAYS, Attempts, Options
from fishmeasure.outlook.collect import collected
from fishmeasure.outlook.feed import Feeding, feeding
from fishmeasure.outlook.fish import (
    USUAL_CV,
    CohortOutlook,
    Condition,
    Grading,
    HarvestDay,
    cohort_outlook,
)
from fishmeasure.outlook.load import Limits, limits
from fishmeasure.outlook.now import hold, now_notes, now_problems, unit_now
from fishmeasure.outlook.outage import Outages, outages
from fishmeasure.outlook.sources import notes
from fishmeasure.outlook.water import Water, water_now

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
