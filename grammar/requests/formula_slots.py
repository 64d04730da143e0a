"""What a line about a dough may hold: the roles it takes, and how gladly without a noun beside them."""

from __future__ import annotations

from grammar.frames import Slot
from grammar.levels import MAYBE, SELDOM
from grammar.requests.formula_ferments import STARTER
from grammar.roles import take

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
        links={"at": 0.8, "(": 1.6},
    ),
    "preferment_at_pct": take("preferment_at_pct", shares=True, where=("preferment:*",), weight=-2.6),
    "prefermented_pct": take("prefermented_pct"),
    "loss_pct": take("loss_pct"),
    "held_pct": take("held_pct"),
    "part_pct": take("part_pct", by_group=_GROUP_RANGES, many=True),
    "points": take("points"),
    "other_figure": take("other_figure", bare=SELDOM, where=("turn:in_place",)),
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
        {"num": 1.0}, bare=0.6, low=2, high=400, whole=True, strict=True, where=("serving:each", "cue:arriving"),
        cues=("cue:pairs",),
    ),
    "kitchen_c": take("kitchen_c"),
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


CUES = {
    "cue:formula": 0.6, "cue:percentages": 1.2, "cue:soaked": 0.1, "act:make": 0.6, "act:change": 0.8,
    "act:same": 0.8, "act:more": 1.2, "act:add": 0.6, "act:use": 0.3, "act:new_dough": 1.2, "act:scale": 1.2,
    "act:double": 1.6, "act:triple": 1.6, "act:halve": 1.6, "act:half_again": 1.6, "act:correct": 0.3,
    "mistake:meant": 0.1,
    "cue:usual": 0.6, "cue:limit": 0.5, "cue:rest": 0.2, "cue:rest_of": 0.2, "cue:later": 0.1, "cue:stiff": 0.7,
    "cue:liquid_starter": 0.5, "blend:*": 0.5, "cue:dough": 0.1, "cue:tin": 0.1, "cue:deep": 0.1, "cue:broad": 0.1,
    "cue:hold": 0.1, "shape:*": 0.1, "cue:total": 0.1, "cue:fewer": 0.2, "cue:greater": 0.2, "cue:raised_by": 0.2,
    "serving:each": 0.1, "cue:starter_counted": 0.6, "feeding:stiff": 1.2, "cue:use_up": 0.5, "cue:preferment": 0.1,
    "cue:lean": 0.2, "cue:baked": 0.1, "ask:how_much": 0.3, "ask:how_many": 0.4, "ask:what": 0.1, "ask:can_i": 0.1,
    "ask:how_to": 0.1, "ask:plan*": 0.1, "ask:what_if": 0.2, "cue:baked_mark": 0.1, "unit:g": 0.0, "into:g": 0.0,
    "cue:all_the": 0.1, "cue:discard": 0.1, "cue:held": 0.1, "cue:bigger": 0.2, "cue:larger_piece": 0.8,
    "cue:smaller_piece": 0.8, "cue:size": 0.4, "cue:arriving": 0.4, "cue:leaving": 0.4, "cue:pairs": 0.4,
    "cue:all_water": 0.0, "cue:all_flour": 0.2, "eating:give": 0.0, "cue:wetter": 1.4, "cue:saltier": 1.4,
    "cue:split": 0.8,
    "act:swap": 0.6, "cue:piece_mass": 0.1, "clock:set": 0.0, "act:back": 2.2, "act:put_back": 1.4, "cue:points": 0.4,
    "cue:pieces": 0.1, "ask:is_it": 0.0, "cue:all_of_it": 0.0, "cue:freed": 1.2, "money:comes_to": 1.6,
    "ask:what_share": 1.6, "ask:asap": 0.0, "act:leave_out": 1.6, "span:now": 0.0, "cue:lowered": 0.8,
    "cue:raised": 0.8, "mark:mix": 0.0, "tail:*": 0.0,
    "feeding:equal_parts": 0.0, "again:measure": 0.0, "stance:serves": 0.4,
    "diet:*": 0.0, "cue:company": 0.0, "act:as_it_was": 3.2, "cue:same_size": 0.4, "cue:same_dough": 0.6,
}  # fmt: skip
"""Words that speak for a dough, and how much."""
