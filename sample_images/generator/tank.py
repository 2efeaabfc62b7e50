"""The scenario's bulk weighings, in step with the fish in the photographs."""

import json
from pathlib import Path

import numpy as np

from sample_images.generator.recipes import make
from sample_images.generator.sets import SAMPLES, TANK_A
from sample_images.generator.stock import draw

COUNT_IN_UNIT = 420
WEIGHED_ONLY_FISH = 9
SCALE_STEP_G = 2.0
DRIP_SHARE, DRIP_SD = 0.010, 0.003  # water carried over with the fish
TARE_G = 640.0

_HEAD = """\
# Invented and rendered: the scenario "The spring tanks". No real fish, person or
# place. Four nets of rainbow trout, photographed and weighed, and one weighed only.
date = 2026-05-02
unit = "Tank A"
species = "rainbow-trout"
count_in_unit = {count}
"""


def _step(grams: float) -> int:
    """Return what a scale with 2 g steps shows."""
    return int(round(grams / SCALE_STEP_G) * SCALE_STEP_G)


def write_tank(folder: Path) -> None:
    """Write ``spring_tanks.toml`` and what is true about its nets."""
    rng = np.random.default_rng(520)
    lines = [_HEAD.format(count=COUNT_IN_UNIT)]
    nets = []
    recipes = [recipe for recipe in SAMPLES if "tank-a" in recipe.tags]
    dips = [([f.weight_g for f in make(r).fish], f"{r.name}.jpg") for r in recipes]
    unseen = draw(TANK_A, rng, WEIGHED_ONLY_FISH)
    dips.append(([f.weight_g for f in unseen], ""))
    for weights, photo in dips:
        true_g = float(np.sum(weights))
        tare = _step(TARE_G + float(rng.normal(0, 3)))
        water = true_g * max(0.0, float(rng.normal(DRIP_SHARE, DRIP_SD)))
        gross = _step(true_g + water + tare)
        lines.append(f"\n[[net]]\nfish = {len(weights)}")
        lines.append(f"gross_g = {gross}\ntare_g = {tare}")
        if photo:
            lines.append(f'photos = ["{photo}"]')
        nets.append(
            {
                "photo": photo or None,
                "fish": len(weights),
                "true_net_g": round(true_g, 1),
                "water_g": round(water, 1),
            }
        )
    text = "\n".join(lines) + "\n"
    (folder / "spring_tanks.toml").write_text(text, encoding="utf-8")
    _write_truth(folder, nets)


def _write_truth(folder: Path, nets: list[dict[str, object]]) -> None:
    log_sd = float(np.hypot(TANK_A.b * TANK_A.length_cv, TANK_A.condition_sd))
    median = TANK_A.a_g_cm * (TANK_A.length_mm / 10) ** TANK_A.b
    grams = sum(float(str(net["true_net_g"])) for net in nets)
    fish = sum(int(str(net["fish"])) for net in nets)
    facts = {
        "statement": "Invented: drawn from the stock below, no real fish.",
        "stock": {
            "length_median_mm": TANK_A.length_mm,
            "length_log_sd": TANK_A.length_cv,
            "a_g_cm": TANK_A.a_g_cm,
            "b": TANK_A.b,
            "condition_log_sd": TANK_A.condition_sd,
            "mean_weight_g": round(median * float(np.exp(log_sd**2 / 2)), 2),
            "weight_cv": round(float(np.sqrt(np.expm1(log_sd**2))), 4),
        },
        "handled_fish": fish,
        "handled_mean_weight_g": round(grams / fish, 2),
        "scale_step_g": SCALE_STEP_G,
        "drip_share": DRIP_SHARE,
        "nets": nets,
    }
    path = folder / "spring_tanks.nets.json"
    path.write_text(json.dumps(facts, indent=1) + "\n", encoding="utf-8")
