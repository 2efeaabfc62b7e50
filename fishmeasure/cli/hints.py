"""The command against what is said; told at the command line alone."""

from typing import TYPE_CHECKING

from fishmeasure.base.words import shell_word

if TYPE_CHECKING:
    from fishmeasure.outlook.unit import UnitOutlook

_PUMP = '[{"name": "air pump", "gas_l_per_min": …, "diffuser_depth_m": …}]'


def command_hints(outlook: "UnitOutlook") -> list[str]:
    """Return the commands for the problems of an outlook, in their order."""
    unit = shell_word(outlook.unit.name)
    change = f"fishmeasure book change unit {unit}"
    hints = {
        "no-fish": f"fishmeasure book add stocked unit={unit} cohort=… fish_count=… "
        "mean_weight_g=… on=…",
        "no-oxygen-supply": f"{change} inflow_l_per_min=… or {change} "
        f"aeration='{_PUMP}'",
        "pond-use-unknown": f"{change} water_respiration_mg_per_l_h=…",
    }
    codes = dict.fromkeys(problem.code for problem in outlook.problems)
    return [f"To enter it: {hints[code]}" for code in codes if code in hints]
