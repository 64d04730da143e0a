"""Worked numbers: a dough solved from every side, the starter's flour and water counted once."""

from __future__ import annotations

from dataclasses import replace

import pytest

from assistant.engine.dough import Formula
from assistant.engine.formula import solve
from assistant.engine.givens import Defaults, Extra, FlourShare, Givens, Limit, Preferment, Tin
from assistant.engine.refusal import Refused
from knowledge import Knowledge, load

PLAIN = Defaults()


@pytest.fixture(scope="module")
def kb() -> Knowledge:
    return load()


def dough(kb: Knowledge, **given: object) -> Formula:
    return solve(Givens(**given), PLAIN, kb)  # type: ignore[arg-type]


def test_pieces_mass_and_hydration_fill_the_rest_from_the_house(kb: Knowledge) -> None:
    # 14 x 88 x 1.01 = 1244.32; / (1 + 0.61 + 0.02) = 763.39
    f = dough(kb, pieces=14, piece_g=88, hydration_pct=61)
    assert f.dough_g == pytest.approx(14 * 88 * 1.01)
    assert f.flour_g == pytest.approx(1244.32 / 1.63)
    assert f.starter_pct == pytest.approx(20)
    assert f.starter is not None and f.starter.flour_g == pytest.approx(f.starter.water_g)
    assert f.row_g("flour_bread") + f.starter.flour_g == pytest.approx(f.flour_g)
    assert f.poured_g + f.starter.water_g == pytest.approx(0.61 * f.flour_g)
    assert {word.split()[0] for word in f.assumed} >= {"salt", "starter", "bench", "bread"}
    assert f.layers["salt_pct"] == "assumed" and f.layers["hydration_pct"] == "said"


def test_rows_come_in_pouring_order(kb: Knowledge) -> None:
    f = dough(
        kb, pieces=6, piece_g=500, hydration_pct=70, extras=(Extra("olive_oil", pct=3), Extra("milk_whole", pct=10)),
        preferments=(Preferment("scald", flour_pct=5),), starter_pct=15,
    )  # fmt: skip
    assert [row.item for row in f.rows] == [
        "water", "milk_whole", "starter", "scald", "flour_bread", "olive_oil", "salt_table",
    ]  # fmt: skip


def test_total_flour_hydration_and_starter(kb: Knowledge) -> None:
    f = dough(kb, all_flour_g=500, hydration_pct=70, starter_pct=20, without=("salt",))
    assert f.row_g("flour_bread") == pytest.approx(454.5, abs=0.5)
    assert f.poured_g == pytest.approx(304.5, abs=0.5)
    assert f.row_g("starter") == pytest.approx(90.9, abs=0.5)


def test_milk_egg_butter_and_honey_bring_water(kb: Knowledge) -> None:
    f = dough(
        kb, from_masses=True, bowl_flour_g=500,
        extras=(
            Extra("milk_whole", g=250), Extra("egg_whole", g=50), Extra("butter_unsalted", g=50), Extra("honey", g=21),
        ),
    )  # fmt: skip
    assert f.water_g == pytest.approx(271, abs=2)
    assert f.hydration_pct == pytest.approx(54.2, abs=0.5)


def test_masses_back_to_percentages(kb: Knowledge) -> None:
    f = dough(kb, from_masses=True, bowl_flour_g=400, water_g=260, starter_g=200)
    assert (f.flour_g, f.water_g) == (pytest.approx(500), pytest.approx(360))
    assert f.hydration_pct == pytest.approx(72.0)
    assert f.pieces is None and f.loss_pct == 0 and f.salt_pct == 0
    assert f.starter_pct == pytest.approx(50) and f.prefermented_pct == pytest.approx(20)


def test_a_stiff_starter_in_a_list_of_masses(kb: Knowledge) -> None:
    # 150 g at 50 %: 100 flour + 50 water
    f = dough(kb, from_masses=True, bowl_flour_g=700, water_g=430, starter_g=150, starter_hydration_pct=50, salt_g=16)
    assert f.flour_g == pytest.approx(800)
    assert f.hydration_pct == pytest.approx(60)
    assert f.salt_pct == pytest.approx(2)


def test_salted_butter_counts_in_the_whole_salt_only(kb: Knowledge) -> None:
    f = dough(kb, from_masses=True, bowl_flour_g=500, salt_g=10, water_g=300, extras=(Extra("butter_salted", g=113),))
    assert f.salt_pct == pytest.approx(2.0)
    assert f.salt_total_pct == pytest.approx(2.37, abs=0.03)


@pytest.mark.parametrize(
    ("size", "sized"),
    [
        ({"dough_g": 2000}, lambda f: f.dough_g == pytest.approx(2000)),
        ({"bowl_flour_g": 1000}, lambda f: f.bowl_flour_g == pytest.approx(1000)),
        ({"all_flour_g": 1000}, lambda f: f.flour_g == pytest.approx(1000)),
        ({"water_g": 600}, lambda f: f.poured_g == pytest.approx(600)),
        ({"starter_g": 180}, lambda f: f.row_g("starter") == pytest.approx(180) and f.starter_pct == pytest.approx(20)),
        ({"salt_g": 24, "salt_pct": 2.4}, lambda f: f.flour_g == pytest.approx(1000)),
        ({"extras": (Extra("honey", pct=5, g=50),)}, lambda f: f.flour_g == pytest.approx(1000)),
        ({"flours": (FlourShare("flour_bread", g=600), FlourShare("flour_spelt", g=400))},
         lambda f: f.bowl_flour_g == pytest.approx(1000)),
        ({"max_g": (Limit("flour", 700),)}, lambda f: f.bowl_flour_g == pytest.approx(700)),
    ],
)  # fmt: skip
def test_any_size_fixes_the_scale(kb: Knowledge, size: dict[str, object], sized: object) -> None:
    f = dough(kb, hydration_pct=66, **size)
    assert callable(sized) and sized(f)
    assert f.hydration_pct == pytest.approx(66)


def test_hydration_follows_from_flour_and_dough(kb: Knowledge) -> None:
    f = dough(kb, pieces=20, piece_g=90, bowl_flour_g=1060, starter_pct=20, salt_pct=2)
    assert f.dough_g == pytest.approx(20 * 90 * 1.01)
    assert f.bowl_flour_g == pytest.approx(1060)
    assert f.layers["hydration_pct"] == "solved"


def test_hydration_follows_from_flour_and_water(kb: Knowledge) -> None:
    f = dough(kb, bowl_flour_g=1000, water_g=650, starter_pct=20)
    # starter 200 g: 100 flour + 100 water
    assert f.hydration_pct == pytest.approx(100 * 750 / 1100)


def test_hydration_follows_from_dough_and_water(kb: Knowledge) -> None:
    f = dough(kb, dough_g=1700, water_g=600, starter_pct=20, salt_pct=2)
    assert f.dough_g == pytest.approx(1700) and f.poured_g == pytest.approx(600)


def test_piece_mass_follows_from_flour_and_count(kb: Knowledge) -> None:
    f = dough(kb, pieces=16, bowl_flour_g=1000, hydration_pct=65)
    assert f.piece_g == pytest.approx(f.dough_g / 16 / 1.01)


def test_whole_pieces_from_a_flour_mass_and_what_is_left(kb: Knowledge) -> None:
    f = dough(kb, bowl_flour_g=1500, hydration_pct=60, salt_pct=2, piece_g=90, extras=(Extra("yeast_instant", pct=1),))
    assert f.pieces == 26  # 2445 / 90.9 = 26.9
    assert f.dough_g == pytest.approx(26 * 90 * 1.01 + f.spare_g)
    assert 0 < f.spare_g < 91


def test_a_dough_that_is_an_even_number_of_pieces_is_cut_without_loss(kb: Knowledge) -> None:
    f = dough(kb, dough_g=1800, piece_g=90, hydration_pct=64)
    assert (f.pieces, f.loss_pct, f.spare_g) == (20, 0, 0)


def test_bench_loss_follows_from_dough_and_pieces(kb: Knowledge) -> None:
    f = dough(kb, dough_g=2060, pieces=20, piece_g=100, hydration_pct=64)
    assert f.loss_pct == pytest.approx(3)


def test_a_limit_makes_the_largest_batch_and_says_so(kb: Knowledge) -> None:
    f = dough(kb, pieces=30, piece_g=80, hydration_pct=65, max_g=(Limit("flour", 600),))
    assert f.bowl_flour_g == pytest.approx(600)
    assert f.pieces == 13 and f.piece_g == 80
    assert any("600 g flour" in remark for remark in f.remarks)


def test_a_limit_that_is_not_reached_changes_nothing(kb: Knowledge) -> None:
    wide = dough(kb, pieces=10, piece_g=80, hydration_pct=65, max_g=(Limit("flour", 2000),))
    assert wide == dough(kb, pieces=10, piece_g=80, hydration_pct=65)


def test_a_limit_shrinks_masses_that_were_said_too(kb: Knowledge) -> None:
    blend = (FlourShare("flour_spelt", g=400), FlourShare("flour_bread", g=800))
    f = dough(kb, hydration_pct=66, flours=blend, max_g=(Limit("flour", 900),))
    assert f.row_g("flour_spelt") == pytest.approx(300) and f.row_g("flour_bread") == pytest.approx(600)


def test_the_tightest_of_two_limits_rules(kb: Knowledge) -> None:
    f = dough(kb, hydration_pct=70, max_g=(Limit("flour", 900), Limit("water", 300)))
    assert f.poured_g == pytest.approx(300) and f.bowl_flour_g < 900


def test_starter_on_hand_fixes_its_share_when_the_size_is_known(kb: Knowledge) -> None:
    f = dough(kb, pieces=12, piece_g=100, hydration_pct=66, starter_g=180)
    assert f.row_g("starter") == pytest.approx(180)
    assert f.starter_pct == pytest.approx(100 * 180 / (f.flour_g - 90))


@pytest.mark.parametrize("starter_hydration_pct", [50, 60, 100, 125])
def test_prefermented_flour(kb: Knowledge, starter_hydration_pct: float) -> None:
    f = dough(
        kb, dough_g=1000, hydration_pct=68, prefermented_pct=18, starter_hydration_pct=starter_hydration_pct
    )  # fmt: skip
    assert f.starter is not None
    assert f.starter.flour_g == pytest.approx(0.18 * f.flour_g)
    assert f.hydration_pct == pytest.approx(68)


# Flours


def test_half_and_half_gives_up_the_starter_from_the_white_flour(kb: Knowledge) -> None:
    f = dough(
        kb, dough_g=1800, hydration_pct=75, starter_pct=20,
        flours=(FlourShare("flour_rye_medium", pct=50), FlourShare("flour_bread", pct=50)),
    )  # fmt: skip
    assert f.starter is not None
    assert f.row_g("flour_rye_medium") == pytest.approx(f.flour_g / 2)
    assert f.row_g("flour_bread") == pytest.approx(f.flour_g / 2 - f.starter.flour_g)


def test_a_rye_starter_comes_off_the_rye(kb: Knowledge) -> None:
    f = dough(
        kb, dough_g=1800, hydration_pct=75, starter_pct=20, starter_flour="flour_rye_medium",
        flours=(FlourShare("flour_rye_medium", pct=40), FlourShare("flour_bread", rest=True)),
    )  # fmt: skip
    assert f.starter is not None
    assert f.row_g("flour_rye_medium") == pytest.approx(0.4 * f.flour_g - f.starter.flour_g)
    assert f.row_g("flour_bread") == pytest.approx(0.6 * f.flour_g)


def test_shares_are_filled_up_with_the_kitchens_flour(kb: Knowledge) -> None:
    f = dough(kb, dough_g=1000, hydration_pct=66, flours=(FlourShare("flour_spelt", pct=30),))
    assert f.row_g("flour_spelt") == pytest.approx(0.3 * f.flour_g)
    assert "the rest bread flour" in f.assumed
    own = solve(
        Givens(dough_g=1000, hydration_pct=66, flours=(FlourShare("flour_spelt", pct=30),)),
        Defaults(flour="flour_00"), kb,
    )  # fmt: skip
    assert own.row_g("flour_00") > 0


def test_the_same_thing_said_twice_is_one_row(kb: Knowledge) -> None:
    f = dough(kb, all_flour_g=1000, hydration_pct=60, extras=(Extra("malt_syrup", pct=3), Extra("malt_syrup", pct=1)))
    assert [row.g for row in f.rows if row.item == "malt_syrup"] == [pytest.approx(40)]


def test_what_has_no_amount_is_asked_for_and_left_out(kb: Knowledge) -> None:
    f = dough(kb, dough_g=900, hydration_pct=64, extras=(Extra("poppy_seeds"),))
    assert f.row_g("poppy_seeds") == 0
    assert f.remarks[0].startswith("how much poppy seeds?")


def test_a_wholemeal_tin_is_filled_higher(kb: Knowledge) -> None:
    tin = Tin(length_cm=20, width_cm=10, depth_cm=10)
    whole = dough(kb, tin=tin, hydration_pct=72, flours=(FlourShare("flour_whole_wheat", rest=True),))
    assert whole.piece_g == pytest.approx(2000 * 0.34)


def test_bran_is_offered_water_and_not_given_it(kb: Knowledge) -> None:
    # 500 g at 66 %, 40 % wholemeal: 70 % suits
    f = dough(kb, all_flour_g=500, hydration_pct=66, flours=(FlourShare("flour_whole_wheat", pct=40),))
    assert f.hydration_pct == pytest.approx(66)
    assert any("make it 70" in remark for remark in f.offers)


# Leaven


def test_yeast_named_means_no_starter(kb: Knowledge) -> None:
    f = dough(kb, dough_g=1000, hydration_pct=64, extras=(Extra("yeast_instant", pct=0.8),))
    assert f.starter is None and f.starter_pct is None and f.row_g("starter") == 0


@pytest.mark.parametrize(
    ("kind", "per_fresh"), [("yeast_fresh", 1), ("yeast_active_dry", 0.4), ("yeast_instant", 0.33)]
)
def test_yeast_without_an_amount_takes_the_breads_in_its_own_kind(kb: Knowledge, kind: str, per_fresh: float) -> None:
    f = dough(kb, pieces=10, piece_g=80, bread="soft_roll", extras=(Extra(kind),))
    assert 100 * f.row_g(kind) / f.flour_g == pytest.approx(4 * per_fresh)


def test_no_starter_puts_yeast_in_its_place_and_says_so(kb: Knowledge) -> None:
    f = dough(kb, dough_g=1000, hydration_pct=64, without=("starter",))
    assert f.starter is None and f.row_g("yeast_instant") > 0
    assert any("instant yeast" in word for word in f.assumed)


def test_unleavened_bread_has_no_leaven(kb: Knowledge) -> None:
    f = dough(kb, pieces=12, bread="flour_tortilla")
    assert f.starter is None and all(kb.ingredients[r.item].group != "leavening" for r in f.rows if r.role == "extra")


def test_old_discard_is_flour_and_water_and_no_leaven(kb: Knowledge) -> None:
    f = dough(kb, dough_g=1000, hydration_pct=66, old_discard_g=100, extras=(Extra("yeast_instant", pct=1),))
    assert f.starter is None and f.row_g("old_discard") == 100
    assert f.bowl_flour_g == pytest.approx(f.flour_g - 50)
    assert f.hydration_pct == pytest.approx(66)


def test_a_poolish_is_made_from_the_flour_of_the_bowl(kb: Knowledge) -> None:
    f = dough(kb, bowl_flour_g=1000, hydration_pct=70, preferments=(Preferment("poolish", flour_pct=30),))
    assert f.flour_g == pytest.approx(1000)
    detail = f.preferments[0]
    assert (detail.flour_g, detail.water_g) == (pytest.approx(300), pytest.approx(300))
    assert f.row_g("flour_bread") == pytest.approx(700)
    assert f.prefermented_pct == pytest.approx(30)
    assert detail.yeast_g == pytest.approx(300 * 0.002 * 0.33)


def test_old_dough_brings_salt_that_is_told(kb: Knowledge) -> None:
    f = dough(kb, dough_g=2000, hydration_pct=65, salt_pct=2, preferments=(Preferment("old_dough", pct=25),))
    assert f.salt_pct == pytest.approx(2) and f.salt_total_pct > 2.2
    assert any("salt more" in remark for remark in f.offers)


def test_a_soaker_of_seeds_is_no_flour(kb: Knowledge) -> None:
    f = dough(kb, all_flour_g=1000, hydration_pct=80, preferments=(Preferment("soaker", flour_pct=12),))
    detail = f.preferments[0]
    assert detail.grain_g == pytest.approx(120) and detail.flour_g == 0
    assert f.bowl_flour_g + (f.starter.flour_g if f.starter else 0) == pytest.approx(1000)


# What is added later


def test_water_held_back_and_salt_later_keep_their_grams(kb: Knowledge) -> None:
    plain = dough(kb, dough_g=1500, hydration_pct=72)
    later = dough(kb, dough_g=1500, hydration_pct=72, held_water_pct=10, late=("salt",))
    assert later.poured_g == pytest.approx(plain.poured_g)
    held = [row for row in later.rows if row.item == "water" and row.later]
    assert held[0].g == pytest.approx(0.1 * plain.poured_g)
    assert later.rows[-1].item == "salt_table" and later.rows[-1].later
    assert later.salt_pct == pytest.approx(plain.salt_pct)


# Tins, heads, baked mass


def test_a_tapered_tin(kb: Knowledge) -> None:
    tin = Tin(length_cm=23, width_cm=13, base_length_cm=21, base_width_cm=11, depth_cm=7)
    assert dough(kb, tin=tin, hydration_pct=63).piece_g == pytest.approx(518, abs=5)
    assert dough(kb, tin=tin, bread="high_rye").piece_g == pytest.approx(1147, abs=10)


def test_a_straight_tin_in_inches(kb: Knowledge) -> None:
    tin = Tin(length_cm=11 * 2.54, width_cm=5 * 2.54, depth_cm=3.5 * 2.54, count=2)
    f = dough(kb, tin=tin, hydration_pct=63)
    assert f.pieces == 2 and f.piece_g == pytest.approx(883, abs=5)


def test_a_round_for_thin_pizza_goes_by_area(kb: Knowledge) -> None:
    f = dough(kb, tin=Tin("round", diameter_cm=30), bread="pizza_thin")
    assert f.piece_g == pytest.approx(198, abs=3)


def test_baked_mass_adds_the_breads_bake_loss(kb: Knowledge) -> None:
    # 12 sticks of 250 g baked at 21 % loss: 316 g each; 3875 g with 2 % handling
    f = dough(kb, pieces=12, baked_g=250, bread="baguette", loss_pct=2)
    assert f.piece_g == pytest.approx(316, abs=1)
    assert f.dough_g == pytest.approx(3875, abs=5)
    assert f.baked_g == 250


def test_enough_for_so_many(kb: Knowledge) -> None:
    rolls = dough(kb, portions=14, bread="ring_roll")
    assert rolls.pieces == 14 and rolls.piece_g == pytest.approx(105)
    loaves = dough(kb, portions=30, bread="hearth_loaf")
    bread = kb.breads["hearth_loaf"]
    assert loaves.piece_g is not None and loaves.pieces is not None
    assert loaves.piece_g <= bread.piece_high_g
    assert loaves.pieces * loaves.piece_g * (1 - bread.bake_loss_pct / 100) == pytest.approx(30 * bread.portion_g)


def test_the_usual_dough_brings_fat_sugar_and_egg(kb: Knowledge) -> None:
    bread = kb.breads["cinnamon_bun"]
    rich = dough(kb, pieces=12, bread="cinnamon_bun", usual=True)
    assert 100 * rich.row_g("butter_unsalted") / rich.flour_g == pytest.approx(bread.fat_usual_pct)
    assert 100 * rich.row_g("egg_whole") / rich.flour_g == pytest.approx(bread.egg_usual_pct)
    plain = dough(kb, pieces=12, bread="cinnamon_bun")
    assert plain.row_g("butter_unsalted") == 0
    assert any("usual" in remark for remark in plain.offers)


def test_a_usual_hydration_gives_way_to_what_egg_and_starter_bring(kb: Knowledge) -> None:
    f = dough(kb, pieces=12, piece_g=50, bread="brioche", usual=True)
    assert f.poured_g == 0 and f.hydration_pct > kb.breads["brioche"].hydration_usual_pct
    assert "no plain water" in f.assumed


# Layers


def test_a_setting_replaces_a_default_and_what_is_said_replaces_both(kb: Knowledge) -> None:
    kitchen = Defaults(salt_pct=2.3, loss_pct=3, starter_hydration_pct=50, starter_pct=25)
    f = solve(Givens(pieces=10, piece_g=100, hydration_pct=60), kitchen, kb)
    assert f.salt_pct == pytest.approx(2.3) and f.loss_pct == 3 and f.starter_pct == pytest.approx(25)
    assert f.layers["salt_pct"] == "set"
    said = solve(Givens(pieces=10, piece_g=100, hydration_pct=60, salt_pct=1.9, loss_pct=0), kitchen, kb)
    assert said.salt_pct == pytest.approx(1.9) and said.loss_pct == 0 and said.layers["salt_pct"] == "said"


def test_no_salt_yet_is_late_and_no_salt_is_none(kb: Knowledge) -> None:
    assert dough(kb, dough_g=900, hydration_pct=65, late=("salt",)).salt_pct == pytest.approx(2)
    assert dough(kb, dough_g=900, hydration_pct=65, without=("salt",)).salt_pct == 0


# What cannot be


def refusal(kb: Knowledge, **given: object) -> Refused:
    with pytest.raises(Refused) as caught:
        dough(kb, **given)
    return caught.value


def test_a_starter_that_brings_too_much_water_states_the_limit(kb: Knowledge) -> None:
    no = refusal(kb, pieces=30, piece_g=100, hydration_pct=25, starter_pct=80)
    assert "80 %" in no.why and "28.6" in no.why
    assert no.nearest is not None
    most = float(no.nearest.split("at most ")[1].split(" %")[0])
    assert dough(kb, pieces=30, piece_g=100, hydration_pct=25, starter_pct=most).poured_g < 5


def test_milk_and_egg_that_bring_too_much_water_are_named(kb: Knowledge) -> None:
    rich = (Extra("milk_whole", pct=60), Extra("yeast_instant", pct=1))
    no = refusal(kb, dough_g=1000, hydration_pct=40, extras=rich)
    assert "milk" in no.why and "40 %" in no.why


def test_more_than_all_the_flour_prefermented(kb: Knowledge) -> None:
    no = refusal(kb, pieces=12, piece_g=80, hydration_pct=65, prefermented_pct=130)
    assert "130 %" in no.why and "100 %" in no.why


def test_starter_and_prefermented_flour_that_clash(kb: Knowledge) -> None:
    no = refusal(kb, dough_g=1000, hydration_pct=65, starter_pct=60, prefermented_pct=25)
    assert "60 % starter" in no.why and "25 %" in no.why
    agree = dough(kb, dough_g=1000, hydration_pct=65, starter_pct=20, prefermented_pct=9.1)
    assert agree.starter_pct == pytest.approx(20)


def test_two_sizes_that_clash_are_both_named(kb: Knowledge) -> None:
    no = refusal(kb, pieces=24, piece_g=80, bowl_flour_g=1000, hydration_pct=65)
    assert "1000 g flour" in no.why and "24 x 80 g" in no.why and no.nearest


def test_dough_and_pieces_that_clash_are_both_named(kb: Knowledge) -> None:
    no = refusal(kb, pieces=24, piece_g=80, dough_g=3000, hydration_pct=65)
    assert "24 pieces of 80 g" in no.why and "3000 g" in no.why


def test_flour_shares_beyond_all_flour(kb: Knowledge) -> None:
    blend = (FlourShare("flour_bread", pct=70), FlourShare("flour_spelt", pct=40))
    no = refusal(kb, dough_g=1000, hydration_pct=66, flours=blend)
    assert "110 %" in no.why


@pytest.mark.parametrize(
    "given",
    [
        {"hydration_pct": 65},
        {"pieces": -5, "piece_g": 80, "hydration_pct": 65},
        {"pieces": 12, "hydration_pct": 65},
        {"pieces": 12, "piece_g": 80, "hydration_pct": 0},
        {"pieces": 12, "piece_g": 80, "hydration_pct": float("nan")},
        {"pieces": 12, "piece_g": 80, "baked_g": 90},
        {"dough_g": 50, "piece_g": 80, "hydration_pct": 65},
        {"dough_g": 500, "loss_pct": 100, "hydration_pct": 65},
        {"tin": Tin(length_cm=20, width_cm=10), "hydration_pct": 65},
        {"from_masses": True, "water_g": 300, "salt_g": 10},
        {"starter_g": 900, "all_flour_g": 200, "hydration_pct": 65},
    ],
)
def test_what_cannot_be_is_refused_with_the_nearest_thing_that_works(kb: Knowledge, given: dict[str, object]) -> None:
    no = refusal(kb, **given)
    assert len(no.why) > 10 and no.nearest


def test_unusual_is_remarked_and_not_clipped(kb: Knowledge) -> None:
    f = dough(kb, pieces=12, piece_g=105, bread="ring_roll", hydration_pct=68)
    assert f.hydration_pct == pytest.approx(68)
    assert any("62" in remark for remark in f.remarks)
    assert not dough(kb, pieces=12, piece_g=105, bread="ring_roll", hydration_pct=58).remarks


def test_allergens_are_those_of_the_ingredients_and_nothing_else(kb: Knowledge) -> None:
    f = dough(
        kb, dough_g=1000, hydration_pct=60,
        extras=(
            Extra("sesame_seeds", pct=4), Extra("milk_whole", pct=20), Extra("egg_whole", pct=5),
            Extra("butter_unsalted", pct=6), Extra("yeast_instant", pct=1),
        ),
    )  # fmt: skip
    assert set(f.allergens) == {"wheat", "gluten", "milk", "egg", "sesame"}


def test_a_flour_or_starter_among_the_extras_is_put_right(kb: Knowledge) -> None:
    loose = dough(
        kb, dough_g=1000, hydration_pct=66,
        extras=(Extra("vital_wheat_gluten", pct=2), Extra("starter_stiff_50", pct=20), Extra("salt_fine_sea", pct=2)),
    )  # fmt: skip
    assert loose.starter is not None and loose.starter.hydration_pct == 50
    assert loose.row_g("salt_fine_sea") == pytest.approx(0.02 * loose.flour_g)
    tight = Givens(
        dough_g=1000, hydration_pct=66, flours=(FlourShare("vital_wheat_gluten", pct=2),), starter_pct=20,
        starter_hydration_pct=50, salt_pct=2, salt_item="salt_fine_sea",
    )  # fmt: skip
    assert replace(solve(tight, PLAIN, kb), layers={}) == replace(loose, layers={})
