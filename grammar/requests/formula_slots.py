"""What a line about a dough may hold: the roles it takes, and how gladly without a noun beside them."""

from __future__ import annotations

from grammar.levels import CERTAIN, LIKELY, MAYBE, SELDOM, SURE, speaks
from grammar.requests.formula_ferments import STARTER
from grammar.roles import take
from grammar.slots import Slot

SALT = ("ingredient:salt*", "cue:salt")
FLOUR = ("ingredient:flour*", "ingredient:vital_wheat_gluten", "ingredient:semolina", "cue:flour")

WHITE = frozenset({"flour_bread", "flour_all_purpose", "flour_00", "flour_bread_13", "flour_high_gluten"})
"""Flours that a dough is made of where no other is named."""


_GROUP_RANGES = {
    "leavening": (0.02, 8),
    "malt": (0.05, 8),
    "sugar": (0.3, 40),
    "fat": (0.3, 80),
    "egg": (1, 90),
    "dairy": (1, 100),
    "seed": (0.2, 40),
    "nut": (1, 60),
    "fruit": (1, 100),
    "spice": (0.02, 6),
    "flour": (1, 100),
    "grain": (1, 60),
    "cheese": (1, 80),
    "other": (0.05, 60),
    "water": (40, 110),
    "starter": (1, 120),
    "salt": (0.3, 4),
}


SLOTS = {
    "pieces": take("pieces", bare=0.5, bare_high=400),
    "piece_g": take("piece_g", bare=0.5, bare_high=700),
    "baked_g": take("baked_g"),
    "dough_g": take("dough_g", bare=-0.4, bare_low=1000),
    "all_flour_g": take("all_flour_g"),
    "hydration_pct": take("hydration_pct", bare=0.5),
    "whole_pct": Slot(
        {"pct": 1.0}, cues=("cue:flour", "cue:all_flour"), low=100, high=100, strict=True, links={"at": -4.0}
    ),  # "100 % flour": so by rule
    "dough_pct": Slot({"pct": 1.0}, cues=("cue:dough", "cue:total"), low=40, high=115, strict=True),  # "dough 72 %"
    "salt_pct": take("salt_pct"),
    # "57, 2, 20": hydration, salt and starter in their usual order; elsewhere these two take nothing
    "then_salt_pct": Slot(
        {"num": 1.0, "pct": 1.0}, bare=0.3, low=0.5, high=4, strict=True, weight=-7.0, links={"after_large": 7.4}
    ),
    "then_starter_pct": Slot(
        {"num": 1.0, "pct": 1.0}, bare=0.3, low=5, high=60, strict=True, weight=-7.0, links={"after_small": 7.2}
    ),
    "starter_pct": take("starter_pct"),
    "asked_pct": Slot(
        {"pct": 1.2}, bare=0.5, low=0.05, high=39, strict=True, where=("ask:how_much",), links={"at": 0.8}
    ),  # "how much salt for 2 kg flour at 2 %"
    "starter_share_pct": Slot(
        {"pct": 1.0}, bare=0.2, low=3, high=39, strict=True, where=STARTER, weight=-1.0
    ),  # "150 g starter, 20 %, 66 %"
    "starter_of_pct": Slot(
        {"pct": 1.0}, cues=(*STARTER, "cue:starter_hydration"), low=1, high=120, shares=True, across=True, weight=-2.4
    ),
    "starter_hydration_pct": take("starter_hydration_pct"),
    "starter_firm_pct": take("starter_firm_pct", where=STARTER),
    "starter_at_pct": Slot(
        {"pct": 1.0, "num": 0.1},
        cues=(*STARTER, "cue:stiff", "cue:liquid_starter", "cue:hydration"),
        low=40,
        high=200,
        shares=True,
        where=STARTER,
        weight=-2.6,
        links={"at": 0.8, "own_at": 2.6, "(": 1.6},
    ),
    "preferment_at_pct": take("preferment_at_pct", shares=True, where=("preferment:*",), weight=-2.6),
    "prefermented_pct": take("prefermented_pct"),
    "loss_pct": take("loss_pct"),
    "held_pct": take("held_pct"),
    "part_pct": take("part_pct", by_group=_GROUP_RANGES, many=True),
    "points": take("points"),
    "other_figure": take("other_figure", bare=SELDOM, where=("turn:in_place",)),
    "meant_figure": take("other_figure", bare=CERTAIN, where=("turn:not_that",), weight=LIKELY * 4),
    "again_part": take("again_part", bare=SELDOM, where=("act:correct", "mistake:meant")),
    "bare_points": Slot({"num": 1.4, "share": 2.4}, cues=("cue:points", "cue:wetter"), low=0.1, high=39),
    "part_volume": take("part_volume", many=True, weight=-0.3),
    "part_count": take("part_count", many=True),
    "hydration_again_pct": take("hydration_pct", links={}, weight=-1.0),
    "salt_again_pct": take("salt_pct", weight=-1.0),
    "part_g": take("part_g", many=True),
    "preferment_pct": take("preferment_pct", many=True),
    "preferment_g": take("preferment_g", many=True),
    "sizes": take("sizes", bare=0.3),
    "width": take("width"),
    "depth": take("depth"),
    "tin_ml": take("tin_ml"),
    "shape": Slot(term=("shape:*",), many=True, weight=-0.7),
    "tins": take("tins"),
    "portions": take("portions"),
    "heads": Slot(
        {"num": 1.0}, bare=0.6, low=2, high=400, whole=True, strict=True, cues=("cue:pairs",),
        where=("serving:each", "cue:arriving"),
    ),
    "heads_for": Slot(
        {"num": 1.0}, bare=-0.8, low=2, high=400, whole=True, strict=True, where=("link:each",), links={"for": 1.8}
    ),
    "day": Slot({"moment": SELDOM}, bare=SELDOM),
    "kitchen_c": take("kitchen_c"),
    "dough_c": take("dough_c", dims={"temperature": SURE}, cues=("cue:dough", "heat:dough_warm"), never=("cue:total",)),
    "dough_bare_c": take("dough_c", dims={"num": SURE}, cues=("heat:dough_warm",)),
    "piece_step": Slot(
        {"share": 1.0, "pct": 1.0, "num": 0.6}, cues=("cue:size", "cue:larger_piece", "cue:smaller_piece"), weight=-0.3
    ),
    "scale": take("scale"),
    "eaters": take("eaters", never=("cue:arriving",)),
    "scale_pct": take("scale_pct"),
    "scale_by_part": take("scale_by_part"),
    "scale_to_part": take("scale_to_part", bare=MAYBE, where=("act:change", "act:make", "cue:limit", "link:of")),
    "bread": Slot(term=("bread:*",), weight=0.2),
    "piece": Slot(term=("piece:*",), many=True),
    "flour": Slot(term=("ingredient:flour*", "ingredient:semolina", "cue:flour"), many=True),
    "item": Slot(
        term=("ingredient:*", "preferment:*", "cue:hydration", "cue:water", "cue:salt", "cue:starter"),
        many=True,
        weight=-0.5,
    ),
    "asked_share": Slot(term=("cue:prefermented",), weight=-1.8),  # "what fraction of the flour is prefermented"
    "uncounted": Slot(term=("cue:starter_counted",), without=True),
    "without": Slot(
        term=("ingredient:*", "cue:salt", "cue:starter", "cue:loss", "cue:leaven"),
        without=True,
        many=True,
        weight=1.2,
    ),
}


CUES = speaks(
    alone="ask:weigh_at",
    telling="act:back act:as_it_was",
    certain=(
        "act:double act:triple act:halve act:half_again cue:wetter cue:saltier act:put_back money:comes_to "
        "ask:what_share act:leave_out"
    ),
    sure=(
        "act:same cue:percentages act:change act:more act:new_dough act:scale feeding:stiff cue:larger_piece "
        "cue:smaller_piece cue:split cue:freed cue:lowered cue:raised"
    ),
    likely=(
        "cue:formula act:make act:add cue:usual cue:limit cue:stiff cue:liquid_starter blend:* "
        "cue:starter_counted cue:use_up act:swap cue:same_dough"
    ),
    maybe=(
        "act:use act:correct cue:rest cue:rest_of cue:fewer cue:greater cue:raised_by cue:lean ask:how_much "
        "ask:how_many ask:what_if cue:bigger cue:size cue:arriving cue:leaving cue:pairs cue:all_flour "
        "cue:points stance:serves cue:same_size"
    ),
    seldom=(
        "cue:soaked mistake:meant cue:later cue:dough cue:tin cue:deep cue:broad cue:hold shape:* cue:total "
        "serving:each cue:preferment cue:baked ask:what ask:can_i ask:how_to ask:plan* cue:baked_mark "
        "cue:all_the cue:discard cue:held cue:piece_mass cue:pieces"
    ),
    heard=(
        "unit:g unit:grams into:g "
        "cue:all_water eating:give clock:set ask:is_it cue:all_of_it ask:asap span:now mark:mix "
        "tail:* stance:will_take way:ahead cue:night again:measure diet:* cue:company money:bag hazard:allergens"
    ),
    against="mistake:by_mistake mistake:exchanged mistake:rescue mistake:spilt mistake:still_to_add",
)  # fmt: skip
"""Words that speak for a dough, and how much."""
