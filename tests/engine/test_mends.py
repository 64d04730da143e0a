"""Mends: after one, every share of the flour is again the formula's."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.engine.bowl import STARTER, Bowl
from assistant.engine.composition import Portion
from assistant.engine.heat import Heat
from assistant.engine.hot_water import hot_water
from assistant.engine.mend_pieces import short_of_pieces
from assistant.engine.mends import by_feel, forgotten, grams_from_ounces, over, under
from assistant.engine.other_flour import thirst_changed
from assistant.engine.refusal import Refused
from knowledge import load
from knowledge.records.lapses import STAGES, Lapse

KB = load()
FOODS = KB.ingredients
LAPSES = KB.all(Lapse)

RINGS = Bowl(
    (Portion("flour_bread", 1544.71), Portion("water", 814.05), Portion("salt_table", 32.28)),
    starter_g=308.94,
    pieces=30,
    piece_g=90,
)
BUNS = Bowl(
    (
        Portion("flour_bread", 800),
        Portion("flour_whole_wheat", 200),
        Portion("water", 400),
        Portion("milk_whole", 150),
        Portion("egg_whole", 100),
        Portion("butter_unsalted", 100),
        Portion("sugar_granulated", 90),
        Portion("salt_table", 18),
        Portion("yeast_instant", 12),
    ),
    pieces=24,
    piece_g=77.9,
)


def grams(portions: tuple[Portion, ...], item: str) -> float:
    return sum(portion.g for portion in portions if portion.item == item)


def test_poured_700_meant_620_on_1100_flour() -> None:
    bowl = Bowl((Portion("flour_bread", 1100), Portion("water", 620)))
    mend = over(bowl, "water", 700, "mixing", LAPSES, FOODS)
    assert grams(mend.add, "flour_bread") == pytest.approx(141.94, abs=0.05)
    assert mend.bowl.hydration_pct(FOODS) == pytest.approx(56.36, abs=0.05)
    assert mend.bowl.dough_g == pytest.approx(1100 + 700 + 141.94, abs=0.1)


def test_salt_known_goes_along_with_the_flour() -> None:
    mend = over(RINGS, "water", RINGS.g("water") + 60, "mixing", LAPSES, FOODS)
    assert {row.item for row in mend.add} == {"flour_bread", "salt_table"}
    assert mend.bowl.salt_pct(FOODS) == pytest.approx(RINGS.salt_pct(FOODS), abs=1e-6)
    assert mend.bowl.pieces == 32
    assert mend.bowl.pieces * (mend.bowl.piece_g or 0) == pytest.approx(mend.bowl.dough_g)


def test_forgotten_salt_is_the_planned_salt() -> None:
    mend = forgotten(RINGS, "salt_table", "mixing", LAPSES, FOODS)
    assert grams(mend.add, "salt_table") == pytest.approx(32.28, abs=0.3)
    assert mend.bowl.dough_g == pytest.approx(2700, abs=1)


def test_salt_twice_makes_the_dough_twice_the_size_or_keeps_half() -> None:
    mend = over(RINGS, "salt_table", 2 * 32.28, "mixing", LAPSES, FOODS)
    assert mend.growth == pytest.approx(2)
    assert mend.bowl.dough_g == pytest.approx(2 * RINGS.dough_g)
    assert grams(mend.add, STARTER) == pytest.approx(308.94)
    assert mend.part is not None
    kept = mend.part.keep_g + sum(row.g for row in mend.part.add)
    assert kept == pytest.approx(RINGS.dough_g, abs=1)


def test_late_starter_starts_the_clock() -> None:
    mend = forgotten(RINGS, "starter_100", "bulk", LAPSES, FOODS)
    assert grams(mend.add, STARTER) == pytest.approx(308.94)
    assert "starts now" in mend.clock


@pytest.mark.parametrize("stage", ["baking", "baked"])
def test_nothing_goes_in_once_it_is_in_the_oven(stage: str) -> None:
    for item in ("salt_table", "starter_100"):
        mend = forgotten(RINGS, item, stage, LAPSES, FOODS)
        assert mend.add == () and mend.advice


def test_what_was_never_planned_cannot_be_forgotten() -> None:
    with pytest.raises(Refused, match="no honey"):
        forgotten(RINGS, "honey", "mixing", LAPSES, FOODS)


def test_less_than_planned_is_no_excess() -> None:
    with pytest.raises(Refused):
        over(RINGS, "water", 100, "mixing", LAPSES, FOODS)
    with pytest.raises(Refused):
        under(RINGS, "water", 5000, "mixing", LAPSES, FOODS)


def test_far_too_much_is_not_grown_round() -> None:
    mend = over(RINGS, "salt_table", grams_from_ounces(32.28), "mixing", LAPSES, FOODS)
    assert mend.growth > 20
    assert mend.part is not None and mend.part.keep_g < 200
    assert "Keep" in mend.advice


def test_wet_by_feel_offers_a_fiftieth_of_the_flour_with_its_salt() -> None:
    mend = by_feel(RINGS, True, "mixing", LAPSES, FOODS)
    assert grams(mend.add, "flour_bread") == pytest.approx(0.02 * 1699.18, abs=0.1)
    assert grams(mend.add, "salt_table") == pytest.approx(0.02 * 32.28, abs=0.05)
    assert by_feel(RINGS, False, "shaped", LAPSES, FOODS).add == ()


def test_another_flour_in_the_bowl() -> None:
    more = thirst_changed(RINGS, RINGS, 5, FOODS)
    assert grams(more, "water") == pytest.approx(0.05 * 1699.18, abs=0.1)
    less = RINGS.with_added(thirst_changed(RINGS, RINGS, -3, FOODS))
    assert less.hydration_pct(FOODS) == pytest.approx(54, abs=0.01)


def test_short_of_pieces() -> None:
    piece_g, more = short_of_pieces(RINGS, 30, 90, 2520)
    assert piece_g == pytest.approx(84)
    assert sum(row.g for row in more) == pytest.approx(180, abs=0.3)


@given(st.sampled_from([RINGS, BUNS]), st.floats(1.02, 2.5), st.data())
def test_after_a_mend_the_ratios_are_the_formulas(plan: Bowl, factor: float, data: st.DataObject) -> None:
    item = data.draw(st.sampled_from([row.item for row in plan.portions if not row.item.startswith("yeast")]))
    mend = over(plan, item, plan.g(item) * factor, "mixing", LAPSES, FOODS)
    flour_was, flour_is = plan.holds(FOODS).flour_g, mend.bowl.holds(FOODS).flour_g
    assert mend.bowl.hydration_pct(FOODS) == pytest.approx(plan.hydration_pct(FOODS), abs=0.05)
    assert mend.bowl.salt_pct(FOODS) == pytest.approx(plan.salt_pct(FOODS), abs=0.02)
    for row in plan.portions:
        if row.item == "water" or row.item.startswith("flour") or row.item == item:
            continue
        assert mend.bowl.g(row.item) / flour_is == pytest.approx(row.g / flour_was, abs=2e-4), row.item
    assert all(row.g > 0 for row in mend.add)


def test_a_little_more_yeast_is_grown_round_and_a_lot_is_left_to_the_fridge() -> None:
    little = over(BUNS, "yeast_instant", 12 * 1.2, "mixing", LAPSES, FOODS)
    assert little.growth == pytest.approx(1.2)
    lot = over(BUNS, "yeast_instant", 12 * 2, "mixing", LAPSES, FOODS)
    assert lot.add == () and "fridge" in lot.advice


@given(st.sampled_from([RINGS, BUNS]), st.floats(0, 0.99), st.data())
def test_what_is_missing_goes_in(plan: Bowl, factor: float, data: st.DataObject) -> None:
    item = data.draw(st.sampled_from([row.item for row in plan.portions]))
    mend = under(plan, item, plan.g(item) * factor, "mixing", LAPSES, FOODS)
    assert mend.bowl.dough_g == pytest.approx(plan.dough_g, abs=0.1)


@given(st.sampled_from(sorted(FOODS)), st.sampled_from(STAGES))
def test_every_slip_at_every_stage_has_an_answer(item: str, stage: str) -> None:
    if item.startswith("starter"):
        return
    bowl = Bowl((*BUNS.portions, Portion("flour_bread", 100))).with_added((Portion(item, 25),))
    for mend in (
        forgotten(bowl, item, stage, LAPSES, FOODS),
        over(bowl, item, bowl.g(item) + 20, stage, LAPSES, FOODS),
        under(bowl, item, bowl.g(item) - 5, stage, LAPSES, FOODS),
    ):
        assert mend.advice and mend.source


def test_water_too_hot(heat: Heat) -> None:
    killed = hot_water(RINGS, 90, 21, heat, FOODS, dissolved=True)
    assert killed.fate == "dead"
    assert hot_water(RINGS, 32, 21, heat, FOODS).fate == "alive"
    warm = hot_water(BUNS, 50, 21, heat, FOODS)
    assert 30 < warm.dough_c < 40 and warm.fate == "alive"
    assert hot_water(BUNS, 70, 21, heat, FOODS).fate == "doubtful"
    assert hot_water(RINGS, 60, 21, heat, FOODS).fate == "doubtful"


def test_no_liquid_water_above_boiling(heat: Heat) -> None:
    with pytest.raises(Refused):
        hot_water(RINGS, 140, 21, heat, FOODS)
