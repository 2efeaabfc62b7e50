"""Nitrite that fish bear, by the chloride of the water."""

from dataclasses import replace

import numpy as np

from fishmeasure.species import Figure

# Nitrite that salmonids bear by chloride, mg/L, over that at 10 mg/L: 0.01, 0.05, 0.09,
# 0.12 and 0.15 mg/L as N, EIFAC 1984 criteria on nitrite (from memory). More chloride
# protects more; held at 40 for want of figures.
_CHLORIDE_MG_PER_L = (1.0, 5.0, 10.0, 20.0, 40.0)
_NITRITE_BORNE = (0.11, 0.56, 1.0, 1.33, 1.67)


def at_chloride(nitrite: Figure, chloride_mg_per_l: float | None) -> Figure:
    """Return a limit of nitrite for water with this chloride; None leaves it."""
    if chloride_mg_per_l is None:
        return nitrite
    factor = float(np.interp(chloride_mg_per_l, _CHLORIDE_MG_PER_L, _NITRITE_BORNE))
    return replace(
        nitrite,
        value=nitrite.value * factor,
        source=(
            f"{nitrite.source}; for {chloride_mg_per_l:g} mg/L chloride by EIFAC 1984, "
            "from memory"
        ),
    )
