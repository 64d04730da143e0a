"""Which figure a number is when it stands by a steering word, in which unit, and the values it can have."""

from __future__ import annotations

from collections.abc import Mapping

HOUR, DAY = 60.0, 1440.0
TIMES: Mapping[str, tuple[str, float, float, float]] = {
    # stage: (figure, minutes per unit of the figure, least and most minutes it can be)
    "bulk": ("bulk_h", 60, 2, 4 * DAY),
    "unsaid": ("stage_h", 60, 2, 4 * DAY),  # of a stage that the talk before tells
    "proof": ("proof_h", 60, 2, 3 * DAY),
    "retard": ("retard_h", 60, 10, 40 * DAY),
    "warm_up": ("warm_up_min", 1, 0, 12 * HOUR),
    "bake": ("bake_min", 1, 1, 6 * HOUR),
    "mix": ("mix_min", 1, 0.2, 90),
    "boil": ("boil_s", 1 / 60, 0.02, 15),
    "lye": ("lye_s", 1 / 60, 0.02, 30),
    "rest": ("bench_rest_min", 1, 0, 5 * HOUR),
    "cut": ("cut_after_min", 1, 0, 4 * DAY),
    "out": ("cut_after_min", 1, 0, 4 * DAY),
    "steam": ("steam_min", 1, 0, 120),
    "lid": ("lid_min", 1, 0, 180),
    "bare": ("bare_min", 1, 1, 2 * DAY),
    "preheat": ("preheat_min", 1, 0, 3 * HOUR),
    "fed": ("starter_fed_h", 60, 10, 800 * DAY),
    "doubles": ("starter_doubles_h", 60, 30, 4 * DAY),
    "fallen": ("starter_fallen_h", 60, 5, 4 * DAY),
    "age": ("starter_age_d", DAY, HOUR, 1e9),
    "keep": ("kept_d", DAY, HOUR, 1e6),
}
TEMPS: Mapping[str, tuple[str, float, float]] = {
    "bulk": ("bulk_c", 0, 50),
    "unsaid": ("stage_c", 0, 50),
    "proof": ("proof_c", 0, 60),
    "retard": ("fridge_c", -5, 14),
    "fridge": ("fridge_c", -5, 14),
    "bake": ("oven_c", 110, 550),
    "set": ("oven_c", 110, 550),
    "preheat": ("oven_c", 110, 550),
    "dough": ("dough_c", 2, 50),
    "mix": ("dough_c", 15, 45),
    "room": ("room_c", -5, 48),
    "water": ("water_c", 0, 100),
    "core": ("core_c", 55, 108),
    "bath": ("bath_c", 45, 105),
    "boil": ("bath_c", 45, 105),
    "jar": ("jar_c", 0, 60),
    "fed": ("jar_c", 0, 60),
    "thermometer": ("oven_real_c", 110, 550),
    "lid": ("oven_c", 110, 550),
}
PERCENTS: Mapping[str, tuple[str, float, float, float]] = {
    # cue: (figure, factor, least and most per cent)
    "starter": ("starter_pct", 1, 0.1, 200),
    "hydration": ("hydration_pct", 1, 30, 140),
    "salt": ("salt_pct", 1, 0, 12),
    "sugar": ("sugar_pct", 1, 0, 60),
    "fat": ("fat_pct", 1, 0, 100),
    "instant": ("yeast_fresh_pct", 3, 0, 7),
    "active_dry": ("yeast_fresh_pct", 2.5, 0, 9),
    "fresh": ("yeast_fresh_pct", 1, 0, 15),
    "protein": ("protein_pct", 1, 5, 40),
    "wholegrain": ("wholegrain_pct", 1, 0, 100),
    "malt": ("malt_pct", 1, 0, 15),
    "loss": ("loss_pct", 1, 1, 45),
    "grew": ("bulk_rise_pct", 1, 0, 500),
    "bulk": ("bulk_rise_pct", 1, 5, 500),
    "proof": ("proof_rise_pct", 1, 5, 500),
    "lye": ("bath_lye_pct", 1, 0, 20),
}
LENGTHS: Mapping[str, tuple[str, float, float, float]] = {
    "depth": ("score_mm", 10, 0, 60),  # from cm
    "gap": ("tray_gap_cm", 1, 0, 30),
    "tray": ("tray_gap_cm", 1, 0, 30),
    "hole": ("hole_cm", 1, 0, 15),
}
COUNTS: Mapping[str, tuple[str, float, float]] = {
    "tray": ("tray_count", 2, 200),
    "folds": ("folds", 0, 20),
    "falling_number": ("falling_number", 50, 700),
    "protein": ("protein_pct", 5, 40),
    "hydration": ("hydration_pct", 40, 130),
    "gas": ("gas_mark", 0.25, 10),
}
AGENTS = {"soda": "bath_soda_g_l", "carbonate": "bath_carbonate_g_l", "malt": "bath_malt_g_l"}
