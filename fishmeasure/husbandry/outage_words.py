"""An outage in words: one wording for every surface."""

from fishmeasure.husbandry.outage import OutageResult, time_words
from fishmeasure.husbandry.outage_fall import HORIZON_MIN
from fishmeasure.husbandry.outage_measures import Measure, TimeToLevel


def outage_lines(results: tuple[OutageResult, ...]) -> list[str]:
    """Return a line for each thing that may stop; what comes to the same shares one."""
    names: dict[tuple[str, str], list[str]] = {}
    for result in results:
        times = tuple(
            f"{name} ({time.level_mg_per_l:g} mg/L) {time_line(time)}"
            for name, time in (
                ("caution", result.to_caution),
                ("critical", result.to_critical),
            )
        )
        names.setdefault((times[0], times[1]), []).append(result.name)
    return [
        f"{_joined(same)}: {caution}; {critical}."
        for (caution, critical), same in names.items()
    ]


def _joined(names: list[str]) -> str:
    first, *rest = names
    text = "; or ".join([first, *(f"{name[0].lower()}{name[1:]}" for name in rest)])
    return f"{text[0].upper()}{text[1:]}"


def time_line(time: TimeToLevel) -> str:
    """Return the time with its interval, the end to act on first."""
    minutes = time.minutes
    if minutes.high <= 0.0:
        return "at once"
    low, middle, high = (
        time_words(found) for found in (minutes.low, minutes.value, minutes.high)
    )
    if minutes.low >= HORIZON_MIN:
        return "not within 24 h"
    if low == high:
        return f"after {low}"
    soonest = "perhaps at once" if minutes.low < 1.0 else f"after {low}"
    if minutes.value >= HORIZON_MIN:
        if minutes.low >= 1.0:
            soonest += " at the soonest"
        return f"{soonest} (likely not within 24 h)"
    if minutes.high >= HORIZON_MIN:
        return f"{soonest} (likely {middle}, or not within 24 h at all)"
    return f"{soonest} (likely {middle}, at most {high})"


def measure_line(measure: Measure) -> str:
    """Return what a measure buys, and for how long what drives it lasts."""
    if measure.gained_min is None:
        return f"{measure.name}: {measure.note}"
    note = f" ({measure.note})" if measure.note else ""
    sure, likely = measure.sure_min, time_words(measure.gained_min.value)
    gain = "nothing sure" if sure < 1.0 else time_words(sure)
    if gain != likely:
        gain += f" (likely {likely})"
    return f"{measure.name}{note}: {gain}"
