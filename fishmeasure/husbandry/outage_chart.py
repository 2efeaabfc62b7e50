"""The chart of an outage."""

from matplotlib.figure import Figure

from fishmeasure.base.words import wording
from fishmeasure.husbandry.outage import OutageResult, time_words
from fishmeasure.husbandry.outage_fall import HORIZON_MIN
from fishmeasure.husbandry.outage_measures import TimeToLevel

# Okabe & Ito's palette, told apart by people with colour blindness
_WATER, _CAUTION, _CRITICAL = "#0072B2", "#E69F00", "#D55E00"


def outage_figure(
    result: OutageResult, *, width_in: float = 7.0, height_in: float = 4.0
) -> Figure:
    """Return the oxygen over time with its interval and the two levels."""
    figure = Figure(figsize=(width_in, height_in), layout="constrained")
    axes = figure.add_subplot()
    hours = result.course_min / 60.0
    percent = round(100.0 * result.case.biomass_kg.level)
    axes.fill_between(
        hours,
        result.course_low_mg_per_l,
        result.course_high_mg_per_l,
        color=_WATER,
        alpha=0.2,
        linewidth=0,
        label=wording("chart-interval", percent=percent),
    )
    axes.plot(
        hours,
        result.course_mg_per_l,
        color=_WATER,
        linewidth=2,
        label=wording("chart-expected"),
    )
    for name, time, colour in (
        ("caution", result.to_caution, _CAUTION),
        ("critical", result.to_critical, _CRITICAL),
    ):
        axes.axhline(time.level_mg_per_l, color=colour, linestyle="--", linewidth=1.2)
        axes.annotate(
            _label(name, time),
            xy=(1.0, time.level_mg_per_l),
            xycoords=("axes fraction", "data"),
            xytext=(-4, 4),
            textcoords="offset points",
            horizontalalignment="right",
            bbox={"facecolor": "white", "edgecolor": "none", "alpha": 0.8, "pad": 1},
        )
    axes.set_xlim(0.0, float(hours[-1]))
    axes.set_ylim(0.0, float(result.course_high_mg_per_l.max()) * 1.08)
    axes.set_xlabel(wording("chart-hours-after"))
    axes.set_ylabel(wording("chart-oxygen"))
    axes.set_title(_title(result), loc="left")
    axes.legend(loc="upper right", frameon=False)
    axes.spines[["top", "right"]].set_visible(False)
    return figure


def _label(name: str, time: TimeToLevel) -> str:
    return wording(
        "chart-level",
        case=name,
        level_mg_per_l=time.level_mg_per_l,
        never=time.minutes.low >= HORIZON_MIN,
        low=time_words(time.minutes.low),
        high=time_words(time.minutes.high),
    )


def _title(result: OutageResult) -> str:
    case = result.case
    return wording(
        "chart-outage",
        name=result.name,
        start_mg_per_l=case.start_do_mg_per_l.value,
        water_deg_c=case.temperature_deg_c,
        fish_kg=case.biomass_kg.value,
    )
