"""Batches in pot and oven: worked numbers, and the shortest run checked against trying every split."""

from __future__ import annotations

import math
from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.engine.fits import (
    BakedShape,
    baked_width_cm,
    bowl_batches,
    dough_litres,
    gas_free_density_g_per_l,
    tray_pieces,
)
from assistant.engine.loads import Loads, PotAndOven, best_loads, load_sizes, minutes_saved, run


def every_split(pieces: int, oven: int, most: int) -> Iterator[tuple[int, ...]]:
    """Every way to cut the pieces into at most `most` oven loads, in order."""
    if pieces == 0:
        yield ()
        return
    if most == 0:
        return
    for first in range(1, min(pieces, oven) + 1):
        for rest in every_split(pieces - first, oven, most - 1):
            yield (first, *rest)


works = st.builds(
    PotAndOven,
    pieces=st.integers(1, 14),
    oven_pieces=st.integers(3, 12),
    bake_min=st.floats(1, 60),
    pot_pieces=st.none() | st.integers(1, 6),
    boil_s_per_side=st.floats(0, 120),
    lift_min=st.floats(0, 3),
    change_min=st.floats(0, 5),
)


@given(works)
def test_no_other_split_is_out_sooner(work: PotAndOven) -> None:
    best = best_loads(work).total_min
    assert best <= min(run(work, sizes).total_min for sizes in every_split(work.pieces, work.oven_pieces, 6)) + 1e-9


def check_capacity(work: PotAndOven, done: Loads) -> None:
    assert sum(load.pieces for load in done.loads) == work.pieces
    assert all(load.pieces <= work.oven_pieces for load in done.loads)
    for earlier, later in zip(done.loads, done.loads[1:], strict=False):
        assert later.bake_start_min >= earlier.bake_end_min - 1e-9
    if work.pot_pieces is not None:
        assert sum(potful.pieces for potful in done.potfuls) == work.pieces
        assert all(potful.pieces <= work.pot_pieces for potful in done.potfuls)
        assert done.potfuls[0].start_min >= -1e-9
        for before, after in zip(done.potfuls, done.potfuls[1:], strict=False):
            assert after.start_min >= before.end_min - 1e-9


@given(works)
def test_pot_and_oven_are_never_overfull_and_nothing_bakes_unboiled(work: PotAndOven) -> None:
    done = best_loads(work)
    check_capacity(work, done)
    boiled = 0
    for load in done.loads:
        boiled += load.pieces
        if work.pot_pieces is not None:
            ready = sum(potful.pieces for potful in done.potfuls if potful.end_min <= load.bake_start_min + 1e-9)
            assert ready >= boiled
            assert load.boil_start_min is not None and load.boil_start_min <= load.bake_start_min


def test_two_dozen_rings_six_in_the_pot_twelve_in_the_oven() -> None:
    # 4 potfuls of 2 x 45 s + 1 min = 2.5 min; first load boiled at 5, out at 25; next in at 27, out at 47
    done = best_loads(PotAndOven(pieces=24, oven_pieces=12, bake_min=20, pot_pieces=6))
    assert (len(done.potfuls), len(done.loads)) == (4, 2)
    assert [(load.bake_start_min, load.bake_end_min) for load in done.loads] == [(5, 25), (27, 47)]
    assert done.loads[1].boil_start_min == 22
    assert done.bottleneck == "oven"


def test_the_remainder_goes_first() -> None:
    assert load_sizes(30, 24) == (6, 24)
    # 6 boiled by 5 min, out at 27; the other 24 are boiled meanwhile: 29 + 22 = 51. The full load first: 66.
    work = PotAndOven(pieces=30, oven_pieces=24, bake_min=22, pot_pieces=3)
    assert best_loads(work).total_min == pytest.approx(51)
    assert run(work, (24, 6)).total_min == pytest.approx(2.5 * 8 + 22 + 2 + 22)


def test_a_small_pot_holds_up_a_wide_oven() -> None:
    work = PotAndOven(pieces=24, oven_pieces=24, bake_min=22, pot_pieces=5, boil_s_per_side=40)
    done = best_loads(work)
    assert done.bottleneck == "pot"
    assert done.total_min == pytest.approx(5 * (80 / 60 + 1) + 22)
    assert minutes_saved(work, pots=2) == pytest.approx(2 * (80 / 60 + 1))


@pytest.mark.parametrize("field", ["pieces", "oven_pieces", "pot_pieces", "bake_min"])
def test_nothing_fits_in_nothing(field: str) -> None:
    with pytest.raises(ValueError, match=field):
        PotAndOven(**{"pieces": 5, "oven_pieces": 5, "bake_min": 20, "pot_pieces": 2, field: 0})


def test_a_load_larger_than_the_oven_is_refused() -> None:
    with pytest.raises(ValueError, match="oven"):
        run(PotAndOven(pieces=12, oven_pieces=6, bake_min=20), (8, 4))


def test_width_follows_the_cube_root_of_mass() -> None:
    shape = BakedShape(ml_per_g=4.0, height_share=0.55)
    assert baked_width_cm(160, 10, shape) == pytest.approx(2 ** (1 / 3) * baked_width_cm(80, 10, shape))
    # 80 g less 10 % = 72 g x 4 = 288 ml; (288 x 6 / (pi x 0.55)) ^ (1/3) = 10.0 cm
    assert baked_width_cm(80, 10, shape) == pytest.approx(10.0, abs=0.05)


def test_trays() -> None:
    assert tray_pieces(40, 30, 8, 8, 2) == 12  # 4 rows of 3 with 2 cm between
    assert tray_pieces(30, 40, 8, 8, 2) == 12
    assert tray_pieces(40, 36, 12, 12, 2) == 6
    assert tray_pieces(10, 10, 12, 12, 2) == 0


@given(st.floats(20, 60), st.floats(20, 60), st.floats(3, 18), st.floats(0, 4))
def test_pieces_never_cover_more_than_the_tray(w: float, d: float, piece: float, gap: float) -> None:
    assert tray_pieces(w, d, piece, piece, gap) * math.pi / 4 * piece**2 <= w * d


def test_tub_and_bowl() -> None:
    assert gas_free_density_g_per_l(65) == pytest.approx(1231)
    assert dough_litres(2400, 50) == pytest.approx(3.0)
    assert bowl_batches(1000, 65, 1000) == 1
    assert bowl_batches(1000, 55, 1000) == 2
    assert bowl_batches(1001, 65, 1000) == 2
