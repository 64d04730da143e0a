"""The facts that are shipped: all load, all references hold, and known figures are what their sources print."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from assistant.engine.composition import counted_water_share, dough_salt_share, is_flour
from knowledge import load
from knowledge.records.composition import GroupRule
from knowledge.records.flour_types import FlourType
from knowledge.records.ingredients import Ingredient

KB = load()


def test_every_record_loads_and_every_reference_holds() -> None:
    KB.check()


def test_there_are_all_the_ingredients_and_breads() -> None:
    assert len(KB.ingredients) >= 236
    assert len(KB.breads) == 39


@pytest.mark.parametrize("bread", KB.breads.values(), ids=lambda bread: bread.id)
def test_low_usual_high(bread: object) -> None:
    for stem in ("hydration", "salt", "piece", "oven_c", "minutes"):
        names = [name for name in type(bread).__dataclass_fields__ if name.startswith(f"{stem}_")]  # type: ignore[attr-defined]
        low, usual, high = (
            next(getattr(bread, name) for name in names if step in name) for step in ("low", "usual", "high")
        )
        assert low <= usual <= high, stem


def test_ring_roll_range_warns_above_62() -> None:
    ring = KB.breads["ring_roll"]
    assert (ring.hydration_low_pct, ring.hydration_usual_pct, ring.hydration_high_pct) == (50, 56, 62)


def test_a_volume_is_refused_for_what_has_none() -> None:
    refused = {id for id, item in KB.ingredients.items() if item.mass_only}
    assert refused >= {"starter_100", "starter_stiff_50", "baked_soda", "lye", "salt_flake", "ascorbic_acid"}
    assert all(KB.ingredients[id].cup_g is None and KB.ingredients[id].tsp_g is None for id in refused)


def test_eggs_syrup_and_butter() -> None:
    egg, syrup = KB.ingredients["egg_whole"], KB.ingredients["malt_syrup"]
    assert egg.each_g and egg.water_pct and egg.fat_pct and egg.protein_pct
    assert 3 * egg.each_g == pytest.approx(150, abs=2)
    assert (1.5 * egg.water_pct, 1.5 * egg.fat_pct, 1.5 * egg.protein_pct) == pytest.approx((114, 14.3, 18.8), abs=1)
    uk = KB.ingredients["egg_uk_large"]
    assert uk.each_g and 3 * uk.each_g == pytest.approx(179, abs=8)
    assert syrup.water_pct and syrup.sugar_pct
    assert (0.21 * syrup.water_pct, 0.21 * syrup.sugar_pct) == pytest.approx((4.4, 15.0), abs=0.2)
    assert syrup.allergens == ("barley", "gluten")


def test_protein_can_be_raised_as_the_books_say() -> None:
    plain, gluten = KB.ingredients["flour_all_purpose"].protein_pct, KB.ingredients["vital_wheat_gluten"].protein_pct
    assert plain == 10.33 and gluten == 75.16
    assert 500 * (12.0 - plain) / (gluten - 12.0) == pytest.approx(13.2, abs=0.5)


def test_allergens_of_a_seeded_dough() -> None:
    items = ("flour_bread", "water", "salt_table", "sesame_seeds", "milk_whole", "egg_whole", "butter_unsalted")
    assert {tag for id in items for tag in KB.ingredients[id].allergens} == {"wheat", "gluten", "sesame", "milk", "egg"}


@pytest.mark.parametrize("item", KB.ingredients.values(), ids=lambda item: item.id)
def test_spoons_and_cups_of_a_thing_agree(item: Ingredient) -> None:
    """Published cups and spoons may differ with the way they were filled, but not by a misplaced digit."""
    if item.tbsp_g and item.tsp_g:
        assert item.tbsp_g / item.tsp_g == pytest.approx(3, rel=0.15)
    if item.cup_g and item.tbsp_g:
        assert item.cup_g / item.tbsp_g == pytest.approx(16, rel=0.15)


def test_the_mixed_seeds_are_the_mean_of_what_is_in_them() -> None:
    parts = [KB.ingredients[id] for id in ("sunflower_seeds", "pumpkin_seeds", "flax_seeds", "sesame_seeds")]
    mix = KB.ingredients["seeds_mixed"]
    for name in ("water_pct", "fat_pct", "sugar_pct", "protein_pct", "salt_pct", "fibre_pct", "kcal_100g"):
        assert math.isclose(getattr(mix, name), sum(getattr(part, name) for part in parts) / 4, abs_tol=0.001), name


@pytest.mark.parametrize("item", KB.ingredients.values(), ids=lambda item: item.id)
def test_the_engine_counts_as_the_group_rules_say(item: Ingredient) -> None:
    rule = KB.get(GroupRule, item.group)
    assert is_flour(item) is rule.flour
    own = (item.water_pct or 0) / 100
    dried = rule.dried_below_water_pct is not None and (item.water_pct or 0) < rule.dried_below_water_pct
    counts = rule.own_water == "counts" or (rule.own_water == "unless_dried" and not dried)
    assert counted_water_share(item) == pytest.approx(own if counts else 0)
    assert counted_water_share(item, soaked=True) == pytest.approx(own if counts or rule.soaked_water else 0)
    inside = (item.salt_pct or 0) / 100
    assert dough_salt_share(item) == pytest.approx({"whole": 1, "inside": inside, "none": 0}[rule.salt])


def test_ash_rises_with_the_type_number() -> None:
    by_country: dict[tuple[str, str], list[float]] = {}
    for kind in KB.all(FlourType).values():
        if kind.ash_high_pct is not None:
            by_country.setdefault((kind.country, kind.grain), []).append(kind.ash_high_pct)
    assert all(ash == sorted(ash) for ash in by_country.values()), by_country
    assert set(by_country) >= {("France", "wheat"), ("Germany", "wheat"), ("Germany", "rye"), ("Italy", "wheat")}


def test_every_record_names_its_source() -> None:
    for records in (KB.ingredients, KB.breads, KB.all(FlourType)):
        assert all(record.source.strip() for record in records.values())


def test_nothing_but_tables_and_text_is_shipped() -> None:
    root = Path(__file__).parents[2] / "knowledge"
    kinds = {path.suffix for path in root.rglob("*") if path.is_file() and "__pycache__" not in path.parts}
    assert kinds <= {".py", ".yaml", ".txt", ".typed"}
