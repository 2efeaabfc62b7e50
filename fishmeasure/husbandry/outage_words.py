"""An outage in words: one wording for every surface."""

from fishmeasure.base.words import NOTHING, Message, wording
from fishmeasure.husbandry.outage import OutageResult, time_words
from fishmeasure.husbandry.outage_fall import HORIZON_MIN
from fishmeasure.husbandry.outage_measures import Measure, TimeToLevel


def outage_lines(results: tuple[OutageResult, ...]) -> list[str]:
    """Return a line for each thing that may stop; what comes to the same shares one."""
    names: dict[tuple[str, str], list[Message]] = {}
    for result in results:
        caution, critical = (
            wording(
                "outage-level",
                case=case,
                level_mg_per_l=time.level_mg_per_l,
                time=time_line(time),
            )
            for case, time in (
                ("caution", result.to_caution),
                ("critical", result.to_critical),
            )
        )
        names.setdefault((caution, critical), []).append(result.name)
    return [
        wording("outage-line", names=tuple(same), caution=caution, critical=critical)
        for (caution, critical), same in names.items()
    ]


def time_line(time: TimeToLevel) -> str:
    """Return the time with its interval, the end to act on first."""
    minutes = time.minutes
    low, middle, high = (
        time_words(found) for found in (minutes.low, minutes.value, minutes.high)
    )
    if minutes.high <= 0.0:
        case = "at-once"
    elif minutes.low >= HORIZON_MIN:
        case = "never"
    elif low == high:
        case = "sure"
    elif minutes.value >= HORIZON_MIN:
        case = "likely-never"
    elif minutes.high >= HORIZON_MIN:
        case = "perhaps-never"
    else:
        case = "span"
    soon = minutes.low < 1.0
    return wording("time", case=case, soon=soon, low=low, middle=middle, high=high)


def measure_line(measure: Measure) -> str:
    """Return what a measure buys, and for how long what drives it lasts."""
    if measure.gained_min is None:
        return wording(
            "measure-line", case="unknown", name=measure.name, note=measure.note
        )
    sure, likely = measure.sure_min, time_words(measure.gained_min.value)
    gain = wording("gain", case="nothing") if sure < 1.0 else time_words(sure)
    if gain != likely:
        gain = wording("gain", case="likely", gain=gain, likely=likely)
    return wording(
        "measure-line",
        case="bare" if measure.note == NOTHING else "noted",
        name=measure.name,
        note=measure.note,
        gain=gain,
    )
