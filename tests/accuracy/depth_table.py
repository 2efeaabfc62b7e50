"""Does body depth help beside length? Leave-one-out errors by species: a table.

Run ``python -m tests.accuracy.depth_table FOLDER`` with the folder of
``finnish_159_fish.csv`` (Brofeldt 1917). Fork length; per cent of weight.
"""

import csv
import sys
from pathlib import Path

import numpy as np

from fishmeasure.species.fit import left_out_error_percent


def main() -> None:
    """Print the table."""
    path = Path(sys.argv[1]) / "finnish_159_fish.csv"
    with path.open(encoding="utf-8") as file:
        rows = [r for r in csv.DictReader(file) if float(r["weight_g"] or 0) > 0]
    print("| species | n | length | + depth | length x depth (as area) | + width |")
    print("| --- | --- | --- | --- | --- | --- |")
    for species in dict.fromkeys(row["species_name"] for row in rows):
        fish = [row for row in rows if row["species_name"] == species]
        weight = np.array([float(row["weight_g"]) for row in fish])
        length = np.array([float(row["length_fork_cm"]) for row in fish])
        total = np.array([float(row["length_total_cm"]) for row in fish])
        depth = total * np.array([float(row["height_pct_total"]) for row in fish])
        width = total * np.array([float(row["width_pct_total"]) for row in fish])
        errors = " | ".join(
            f"{left_out_error_percent(np.column_stack(sizes), weight):.1f}"
            for sizes in (
                [length],
                [length, depth],
                [length * depth],
                [length, depth, width],
            )
        )
        print(f"| {species} | {len(fish)} | {errors} |")


if __name__ == "__main__":
    main()
