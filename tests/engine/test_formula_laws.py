"""Laws of a dough that hold for every formula there is."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from assistant.engine.dough import Formula
from assistant.engine.formula import solve
from assistant.engine.givens import Defaults, Extra, FlourShare, Givens
from assistant.engine.reasons.found import reason_for, reasons_for
from assistant.engine.refusal import Refused
from assistant.engine.rounding import grams_text, whole_grams
from knowledge import load

KB = load()
PLAIN = Defaults()

RICH = (
    "honey", "butter_unsalted", "egg_whole", "milk_whole", "olive_oil", "sesame_seeds", "cheddar", "raisins",
    "malt_syrup", "sugar_granulated", "apple",
)  # fmt: skip


def _amounts(items: list[str]) -> st.SearchStrategy[tuple[Extra, ...]]:
    return st.tuples(*[st.builds(Extra, st.just(item), pct=st.floats(0.2, 12)) for item in items])


extras = st.lists(st.sampled_from(RICH), unique=True, max_size=4).flatmap(_amounts)

flours = st.sampled_from(
    [
        (),
        (FlourShare("flour_rye_medium", pct=25),),
        (FlourShare("flour_whole_wheat", pct=40), FlourShare("flour_bread", rest=True)),
        (FlourShare("flour_spelt", pct=50), FlourShare("flour_bread", pct=50)),
    ]
)

shares = st.builds(
    Givens,
    hydration_pct=st.floats(55, 90),
    salt_pct=st.just(0.0) | st.floats(0.1, 3),
    starter_pct=st.just(0.0) | st.floats(1, 60),
    starter_hydration_pct=st.floats(45, 150),
    extras=extras,
    flours=flours,
)


def solved(givens: Givens) -> Formula:
    try:
        return solve(givens, PLAIN, KB)
    except Refused:
        assume(False)
        raise


@given(shares, st.floats(300, 50_000))
def test_rows_add_up_and_water_and_flour_are_counted_once(given_shares: Givens, dough_g: float) -> None:
    f = solved(replace(given_shares, dough_g=dough_g))
    assert sum(row.g for row in f.rows) == pytest.approx(dough_g)
    assert f.dough_g == pytest.approx(dough_g)
    assert f.hydration_pct == pytest.approx(given_shares.hydration_pct)
    assert f.water_g == pytest.approx(sum(f.water_from.values()))
    inside = f.starter.flour_g if f.starter is not None else 0.0
    assert f.bowl_flour_g + inside == pytest.approx(f.flour_g)
    assert all(row.g >= 0 for row in f.rows)
    assert all(row.pct == pytest.approx(100 * row.g / f.flour_g) for row in f.rows)


@given(shares, st.floats(300, 50_000))
def test_from_dough_to_flour_and_back(given_shares: Givens, dough_g: float) -> None:
    by_dough = solved(replace(given_shares, dough_g=dough_g))
    for size in (
        {"all_flour_g": by_dough.flour_g}, {"bowl_flour_g": by_dough.bowl_flour_g}, {"water_g": by_dough.poured_g},
    ):  # fmt: skip
        if next(iter(size.values())) < 1:
            continue
        again = solve(replace(given_shares, **size), PLAIN, KB)  # type: ignore[arg-type]
        assert again.dough_g == pytest.approx(dough_g, rel=1e-6)


@given(shares, st.integers(1, 200), st.floats(20, 1500), st.floats(0.1, 5), st.floats(0.1, 5))
def test_scaling_twice_is_scaling_once_by_the_product(
    given_shares: Givens, pieces: int, piece_g: float, first: float, second: float
) -> None:
    base = replace(given_shares, pieces=float(pieces), piece_g=piece_g)
    once = solved(replace(base, pieces=pieces * first * second))
    twice = solved(replace(replace(base, pieces=pieces * first), pieces=(pieces * first) * second))
    assert once.dough_g == pytest.approx(twice.dough_g)
    plain = solved(base)
    assert once.dough_g == pytest.approx(plain.dough_g * first * second)
    assert [row.pct for row in once.rows] == pytest.approx([row.pct for row in plain.rows])


@given(shares, st.floats(1, 20))
def test_adding_seeds_keeps_the_dough_and_the_hydration(given_shares: Givens, pct: float) -> None:
    base = replace(given_shares, pieces=24.0, piece_g=80.0)
    before = solved(base)
    after = solved(replace(base, extras=(*base.extras, Extra("poppy_seeds", pct=pct))))
    assert after.dough_g == pytest.approx(before.dough_g)
    assert after.hydration_pct == pytest.approx(before.hydration_pct)
    assert after.flour_g < before.flour_g


@given(shares, st.floats(45, 150), st.floats(45, 150))
def test_a_starter_of_any_hydration_leaves_flour_and_water_in_all_alike(
    given_shares: Givens, one: float, other: float
) -> None:
    base = replace(given_shares, dough_g=2000.0)
    a = solved(replace(base, starter_hydration_pct=one))
    b = solved(replace(base, starter_hydration_pct=other))
    assert a.flour_g == pytest.approx(b.flour_g)
    assert a.water_g == pytest.approx(b.water_g)


@given(shares, st.floats(300, 20_000))
def test_what_is_weighed_reads_back_as_the_same_percentages(given_shares: Givens, dough_g: float) -> None:
    f = solved(replace(given_shares, dough_g=dough_g))
    listed = Givens(
        from_masses=True,
        flours=tuple(FlourShare(row.item, g=row.g) for row in f.rows if row.role == "flour"),
        water_g=f.poured_g,
        starter_g=f.starter.g if f.starter is not None else None,
        starter_hydration_pct=given_shares.starter_hydration_pct,
        salt_g=sum(row.g for row in f.rows if row.role == "salt"),
        extras=tuple(Extra(row.item, g=row.g) for row in f.rows if row.role == "extra"),
    )
    back = solve(listed, PLAIN, KB)
    assert back.hydration_pct == pytest.approx(f.hydration_pct, rel=1e-6)
    assert back.salt_pct == pytest.approx(f.salt_pct, rel=1e-6, abs=1e-9)
    assert back.dough_g == pytest.approx(f.dough_g, rel=1e-6)


@given(
    st.builds(
        Givens,
        pieces=st.none() | st.floats(-5, 500),
        piece_g=st.none() | st.floats(-5, 3000),
        dough_g=st.none() | st.floats(0, 9000),
        bowl_flour_g=st.none() | st.floats(0, 9000),
        water_g=st.none() | st.floats(0, 9000),
        starter_g=st.none() | st.floats(0, 9000),
        hydration_pct=st.none() | st.floats(0, 300),
        starter_pct=st.none() | st.floats(0, 900),
        prefermented_pct=st.none() | st.floats(0, 200),
        starter_hydration_pct=st.none() | st.floats(0, 400),
        bread=st.none() | st.sampled_from(sorted(KB.breads)),
        usual=st.booleans(),
        extras=extras,
        flours=flours,
    )
)
def test_any_givens_are_answered_or_refused_and_never_answered_wrongly(givens: Givens) -> None:
    try:
        f = solve(givens, PLAIN, KB)
    except Refused as no:
        assert no.why
        return
    assert sum(row.g for row in f.rows) == pytest.approx(f.dough_g)
    assert f.hydration_pct == pytest.approx(100 * f.water_g / f.flour_g)
    assert all(row.g >= 0 for row in f.rows)
    if f.pieces is not None and f.piece_g is not None:
        without_spare = f.pieces * f.piece_g * (1 + f.loss_pct / 100)
        assert f.dough_g - f.spare_g == pytest.approx(without_spare, abs=0.51, rel=1e-6)
    if givens.hydration_pct is not None:
        assert f.hydration_pct == pytest.approx(givens.hydration_pct)
    if givens.starter_pct is not None and f.starter is not None:
        assert f.starter_pct == pytest.approx(givens.starter_pct)


@given(st.lists(st.floats(0, 5000), min_size=1, max_size=12))
def test_printed_rows_add_up_to_the_printed_total(exact: list[float]) -> None:
    weighed = whole_grams(exact)
    assert sum(weighed.rows_dg) == weighed.total_dg == weighed.readings_dg[-1]
    assert abs(weighed.total_g - sum(exact)) <= 0.5 + 0.05 * len(exact) + 1e-6
    for row_dg, g in zip(weighed.rows_dg, exact, strict=True):
        assert abs(row_dg / 10 - g) < 1
        assert row_dg % 10 == 0 or g < 10
    assert list(weighed.readings_dg) == sorted(weighed.readings_dg)


def test_rounding_of_small_and_large_rows() -> None:
    weighed = whole_grams([542.75, 193.84, 969.19, 21.32, 4.26])
    assert [grams_text(dg) for dg in weighed.rows_dg] == ["543", "194", "969", "21", "4.3"]
    assert weighed.total_g == pytest.approx(1731.3)
    with pytest.raises(ValueError, match="less than nothing"):
        whole_grams([-1.0])


@given(shares, st.floats(300, 20_000))
def test_every_figure_has_a_reason_with_figures_in_it(given_shares: Givens, dough_g: float) -> None:
    f = solved(replace(given_shares, dough_g=dough_g))
    reasons = reasons_for(f, KB)
    assert {"dough_g", "flour_g", "water_g", "hydration_pct", "salt_pct"} <= {reason.figure for reason in reasons}
    assert all(any(ch.isdigit() for ch in reason.sum) for reason in reasons)
    for row in f.rows:
        found = reason_for(f, KB, None, round(row.g))
        assert found is not None and abs(found.value - row.g) <= max(1.2, 0.01 * row.g)
