"""The bath's strengths, what is refused at it, and toppings by the piece."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.engine.bath import bath_made, bath_of, bath_with, refuse_dangerous
from assistant.engine.refusal import Refused
from assistant.engine.topping import Batch, per_piece_g, safe_order, split, tags_of, topped, topping_with
from knowledge import load
from knowledge.records.baths import Bath
from knowledge.records.toppings import Topping

KB = load()
BATHS = KB.all(Bath)
TOPPINGS = KB.all(Topping)


def test_malt_for_four_litres() -> None:
    made = bath_made(BATHS["malt"], 4, 98.3)
    assert made.add[0].item == "malt_syrup" and made.add[0].g == 120
    assert made.strength_pct == 3 and (made.seconds_low, made.seconds_high) == (30, 60)
    assert made.bath_c == made.boil_c == 98.3


def test_lye_is_a_cold_dip() -> None:
    made = bath_made(BATHS["lye"], 1, 100)
    assert made.bath_c == 20 and made.boil_c is None and made.strength_pct == 4


@pytest.mark.parametrize("danger", ["aluminium", "children", "drain_cleaner", "hot", "to_lye"])
def test_lye_is_refused(danger: str) -> None:
    with pytest.raises(Refused):
        refuse_dangerous(BATHS["lye"], frozenset({danger}))


def test_strong_lye_is_refused() -> None:
    with pytest.raises(Refused, match="too strong"):
        bath_made(BATHS["lye"], 1, 100, g_per_l=100)


def test_aluminium_is_refused_for_any_alkali_and_fine_for_malt() -> None:
    for kind in ("soda", "baked_soda", "lye"):
        with pytest.raises(Refused):
            refuse_dangerous(BATHS[kind], frozenset({"aluminium"}))
    refuse_dangerous(BATHS["malt"], frozenset({"aluminium", "children"}))


def test_ninety_grams_of_soda_a_litre_is_called_soapy() -> None:
    made = bath_made(BATHS["soda"], 2, 100, g_per_l=90)
    assert made.strong and "soap" in made.note


def test_which_bath() -> None:
    ring, soda, honey = bath_of("ring_roll", BATHS), bath_with("baking_soda", BATHS), bath_with("honey", BATHS)
    assert ring is not None and ring.id == "malt"
    assert soda is not None and soda.id == "soda"
    assert honey is not None and honey.id == "malt"
    assert bath_of("pan_loaf", BATHS) is None


@given(st.sampled_from(sorted(BATHS)), st.floats(0.5, 20))
def test_grams_go_with_the_litres(kind: str, litres: float) -> None:
    made = bath_made(BATHS[kind], litres, 99)
    assert sum(part.g for part in made.add) == pytest.approx(made.strength_pct * 10 * litres)


def test_no_bath_for_a_drop_or_a_tank() -> None:
    for litres in (0.0, -2.0, 500.0):
        with pytest.raises(Refused):
            bath_made(BATHS["malt"], litres, 100)


@given(st.sampled_from(sorted(TOPPINGS)), st.floats(20, 1500), st.integers(1, 200))
def test_a_topping_adds_up(kind: str, piece_g: float, pieces: int) -> None:
    done = topped(TOPPINGS[kind], pieces, piece_g)
    assert done.g == pytest.approx(done.per_piece_g * pieces)
    assert sum(part.g for part in done.parts) == pytest.approx(done.g)
    assert done.low_g <= done.per_piece_g <= done.high_g


def test_bigger_pieces_take_more_but_less_for_their_weight() -> None:
    small, big = per_piece_g(TOPPINGS["sesame"], 60)[1], per_piece_g(TOPPINGS["sesame"], 120)[1]
    assert small < big < 2 * small
    assert per_piece_g(TOPPINGS["cinnamon_filling"], 200)[1] == pytest.approx(60)


def test_the_sesame_tray_comes_last() -> None:
    batches = split(18, (Batch(6, "sesame"), Batch(6, "cheese")))
    order = safe_order(batches, TOPPINGS, KB.ingredients, frozenset({"sesame"}))
    assert [batch.topping for batch in order] == [None, "cheese", "sesame"]
    assert sum(batch.pieces for batch in order) == 18
    assert tags_of("sesame", TOPPINGS, KB.ingredients) == {"sesame"}


def test_more_topped_than_there_are() -> None:
    with pytest.raises(Refused):
        split(12, (Batch(8, "sesame"), Batch(8, "cheese")))


def test_an_ingredient_names_its_topping() -> None:
    found = topping_with("poppy_seeds", TOPPINGS)
    assert found is not None and found.id == "poppy"
    assert topping_with("cocoa", TOPPINGS) is None
