"""Settings of the kitchen in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from assistant.engine.naming import short_name
from knowledge import Knowledge

NAMES = {
    "salt_pct": ("salt", "% of flour"),
    "loss_pct": ("bench loss", "%"),
    "starter_pct": ("starter", "% of the added flour"),
    "starter_hydration_pct": ("starter hydration", "%"),
    "hydration_pct": ("hydration", "%"),
    "piece_g": ("piece", "g"),
    "altitude_m": ("altitude", "m"),
    "tap_c": ("tap water", "°C"),
    "friction_c": ("mixing warms the dough by", "°C"),
    "mixer_flour_g": ("mixer takes", "g of flour"),
    "oven_takes": ("oven takes", "pieces"),
    "oven_max_c": ("oven up to", "°C"),
    "oven_off_c": ("oven off its dial", "°C"),
    "oven_heat_min": ("oven heats in", "min"),
    "oven_fan": ("fan oven:", ""),
    "stone": ("baking stone:", ""),
    "bell": ("bell:", ""),
    "trays": ("trays:", ""),
    "tins": ("tins:", ""),
    "tray_takes": ("a tray takes", "pieces"),
    "pot_takes": ("pot takes", "pieces"),
    "pot_l": ("pot holds", "l"),
    "fridge_takes": ("fridge takes", "pieces"),
    "fridge_trays": ("fridge takes", "trays"),
    "fridge_l": ("fridge has room for", "l"),
    "freezer_takes": ("freezer takes", "pieces"),
    "cup": ("cups", ""),
    "flour": ("flour", ""),
    "asleep": ("asleep", ""),
    "away": ("away", ""),
    "culture_pace": ("your starter's pace", "times the usual"),
    "seen_pace": ("your starter runs", "times the usual"),
    "currency": ("currency", ""),
}  # fmt: skip


def number(value: float) -> str:
    """A figure as people write it: no needless zeros, at most one decimal above ten and two below."""
    return f"{round(value, 2 if abs(value) < 10 else 1):.10g}"


def setting_label(name: str, kb: Knowledge) -> str:
    """What a setting is called: "boathouse at night", "price of butter"."""
    if name.startswith("price_"):
        item = name.removeprefix("price_")
        food = kb.ingredients.get(item)
        return f"price of {short_name(food) if food is not None else item}"
    if name in NAMES:
        return NAMES[name][0].rstrip(":")
    if name.endswith("_night_c"):
        return f"{name.removesuffix('_night_c').replace('_', ' ')} at night"
    return name.removesuffix("_c").replace("_", " ")


def setting_said(name: str, value: Any, kb: Knowledge) -> str:
    """A setting with its value: "kitchen 19 °C"."""
    if name.startswith("price_"):
        return f"{setting_label(name, kb)} {number(float(value))} a kg"
    if name == "oven_off_c":
        return f"oven {number(abs(float(value)))} °C {'above' if value > 0 else 'below'} its dial"
    if isinstance(value, Mapping):  # what was seen, by bake, and what it comes to
        bakes = f"{len(value['bakes'])} bake{'s'[: len(value['bakes']) > 1]}"
        return f"{setting_label(name, kb)} {number(value['fitted'])} times the usual, from {bakes}"
    label, unit = NAMES.get(name, (setting_label(name, kb), "°C" if name.endswith("_c") else ""))
    if name == "flour" and value in kb.ingredients:
        value = kb.ingredients[value].name
    said = number(value) if isinstance(value, int | float) else str(value)
    return f"{label} {said}" + (f" {unit}" if unit else "")
