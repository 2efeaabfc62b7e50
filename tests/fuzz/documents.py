"""Whole documents of every kind that are taken, to be broken in one place or more."""

from typing import Any

Json = dict[str, Any]

CORRECTIONS: Json = {
    "corrections": [
        {"kind": "drop", "fish": 1},
        {"kind": "keep", "fish": 1},
        {"kind": "move", "fish": 0, "snout_px": [300, 300], "fork_px": [500, 310]},
        {"kind": "add", "snout_px": [100, 120], "fork_px": [300, 120]},
        {"kind": "species", "fish": 2, "species": "arctic-char"},
    ]
}
PHOTO_SETTINGS: Json = {
    "species": "rainbow-trout",
    "print_scale": 0.97,
    "paper": "A4",
    "lens": None,
    "known": {"points_px": [[1, 2], [300, 40]], "distance_mm": 100},
}
NETS: Json = {
    "date": "2026-05-02",
    "unit": "Tank A",
    "species": "rainbow-trout",
    "count_in_unit": 240,
    "count_in_unit_sd": 5,
    "level": 0.9,
    "nets": [
        {"fish": 8, "gross_g": [1912, 1913], "tare_g": 640, "label": "first"},
        {"fish": 3, "fish_sd": 1, "net_g": 431, "lengths_mm": [240, 250.5, 262]},
        {"fish": 4, "net_g": [560.5], "photos": []},
    ],
    "scale": {"resolution_g": 1, "sd_g": 2, "relative_sd": 0.002},
    "drip": {"wet_tare": True, "fraction": 0.015, "sd": 0.01, "net_sd": 0.005},
    "count": {"miscount_probability": 0.01},
}
PLAN: Json = {
    "mean_weight_g": 158.0,
    "mean_weight_interval_g": [150.0, 166.0],
    "within_net_cv": 0.25,
    "between_net_cv": 0.05,
    "nets": [{}, {}, {}],
    "fish_handled": 25,
    "level": 0.9,
    "count_in_unit": 240,
}
LENS_BODY: Json = {
    "camera_model": "Maker Phone",
    "focal_fraction": 0.7,
    "focal_relative_sd": 0.01,
    "k1": 0.01,
    "k1_sd": 0.01,
    "photo_count": 9,
    "rms_px": 0.3,
}
FISH_TABLE = "length_mm,weight_g,depth_mm\n" + "\n".join(
    f"{200 + 9 * n},{90 + 13 * n + n % 3},{50 + 2 * n + n % 5}" for n in range(12)
)

_TROUT = "rainbow-trout"
_ESTIMATE: Json = {"value": 60.0, "sd": 4.0}
_AERATOR: Json = {"name": "blower", "standard_transfer_g_per_h": 200.0, "alpha": 0.8}
_UNIT: Json = {
    "volume_m3": 6.0,
    "depth_m": 1.1,
    "altitude_m": 300.0,
    "salinity_g_per_kg": 0.0,
    "inflow_l_per_min": 30.0,
    "inflow_by_gravity": True,
    "inflow_do_mg_per_l": 9.0,
    "aeration": [_AERATOR],
    "water_respiration_mg_per_l_h": 0.1,
}
_SAMPLES = [
    {"day": "2026-03-01", "mean_weight_g": {"value": 40, "sd": 1}},
    {"day": "2026-05-01", "mean_weight_g": {"value": 95, "sd": 3, "level": 0.9}},
]
_MONTHS = {
    "temperatures_deg_c": [6, 6, 7, 8, 9, 10, 11, 11, 10, 9, 8, 7],
    "sd_deg_c": 1,
}
_FISH = {"species_key": _TROUT, "mean_weight_g": 150, "temperature_deg_c": 11}

CALCULATIONS: dict[str, Json] = {
    "specific-growth-rate": {
        "start_weight_g": 40,
        "end_weight_g": _ESTIMATE,
        "days": 30,
    },
    "thermal-growth-coefficient": {
        "start_weight_g": 10,
        "end_weight_g": {"value": 350, "sd": 9, "low": 330, "high": 370, "level": 0.9},
        "degree_days": 2200,
    },
    "condition-factor": {"weight_g": 150, "fork_length_mm": {"value": 230, "sd": 2}},
    "growth": {
        "species_key": _TROUT,
        "samples": _SAMPLES,
        "temperature": _MONTHS,
        "days": 200,
        "size_g": 300,
        "cv": 0.2,
    },
    "harvest": {
        "species_key": _TROUT,
        "samples": _SAMPLES,
        "temperature": {"temperature_deg_c": 11.0, "sd_deg_c": 0.5},
        "fish_count": {"value": 230, "sd": 3},
        "takes": [
            {"day": "2026-09-01", "fish_count": 40},
            {"day": "2026-10-01", "fish_count": 60},
        ],
        "cv": 0.25,
    },
    "weekly-harvest": {
        "species_key": _TROUT,
        "samples": _SAMPLES,
        "temperature": _MONTHS,
        "fish_count": 230,
        "weekly": {
            "start": "2026-09-01",
            "until": "2026-11-01",
            "biomass_kg": 4,
            "fish_count": None,
        },
        "cv": 0.25,
    },
    "ration": {**_FISH, "tgc_x1000": {"value": 1.6, "sd": 0.1}},
    "feed-conversion": {
        "feed_kg": 12.5,
        "start_biomass_kg": {"value": 20, "sd": 1},
        "end_biomass_kg": {"value": 31, "sd": 1},
        "removed_kg": 1,
        "dead_kg": 0.4,
        "added_kg": 0.1,
    },
    "oxygen-saturation": {
        "water": {
            "temperature_deg_c": 11,
            "salinity_g_per_kg": 0,
            "altitude_m": 300,
            "pressure_hpa": 1000,
        }
    },
    "oxygen-demand": {**_FISH, "feeding": "fed", "level": 0.9},
    "oxygen-balance": {
        **_FISH,
        "unit": _UNIT,
        "biomass_kg": _ESTIMATE,
        "feeding": "fasted",
        "do_mg_per_l": 8.5,
        "wind_m_per_s": 2,
    },
    "outage": {
        **_FISH,
        "unit": _UNIT,
        "biomass_kg": _ESTIMATE,
        "start_do_mg_per_l": {"value": 9.5, "sd": 0.3},
        "cause": "power",
        "feeding": "fed",
        "exchange_l_per_min": 10,
    },
    "load-for-hours": {
        **_FISH,
        "unit": _UNIT,
        "start_do_mg_per_l": 9.5,
        "hours": 2,
        "cause": "pump",
    },
    "ammonia": {
        "species_key": _TROUT,
        "tan_mg_per_l": {"value": 1, "sd": 0.2},
        "ph": 7.6,
        "temperature_deg_c": 11,
        "salinity_g_per_kg": 0,
    },
    "nitrate": {
        "species_key": _TROUT,
        "loop": {
            "volume_m3": 6,
            "exchange_m3_per_day": 2,
            "plant_uptake_g_per_day": 5,
            "inflow_nitrate_n_mg_per_l": 1,
        },
        "start_n_mg_per_l": 8,
        "nitrogen_g_per_day": {"value": 20, "sd": 3},
        "days": 60,
    },
    "plant-bed": {
        "crop": "leafy",
        "feed_kg_per_day": {"value": 0.6, "sd": 0.1},
        "bed_m2": 8,
    },
    "unit-load": {
        "unit": _UNIT,
        "groups": [{"species_key": _TROUT, "biomass_kg": 60, "mean_weight_g": 150}],
        "temperature_deg_c": 11,
    },
}
