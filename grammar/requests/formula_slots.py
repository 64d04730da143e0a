"""What a line about a dough may hold: the figures, the words beside them and how much each may be."""

from __future__ import annotations

from grammar.frames import Slot
from grammar.requests.formula_ferments import STARTER

SALT = ("ingredient:salt*", "cue:salt")


FLOUR = ("ingredient:flour*", "ingredient:vital_wheat_gluten", "ingredient:semolina", "cue:flour")


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
    "pieces": Slot(
        {"num": 1.0},
        cues=("piece:*", "bread:*", "cue:pieces"),
        bare=0.5,
        low=1,
        high=5000,
        bare_high=400,
        role="count",
        links={"for": 0.4, "at": -0.8},
    ),
    "piece_g": Slot(
        {"mass": 1.0, "num": 0.15},
        cues=("cue:piece_mass", "piece:*", "bread:*"),
        bare=0.5,
        low=15,
        high=2600,
        bare_high=700,
        role="each",
        links={"each": 1.2, "at": 0.5, "of": 0.5, "per": 0.8},
    ),
    "baked_g": Slot({"mass": 1.1, "num": 0.3}, cues=("cue:baked",), low=15, high=2600),
    "dough_g": Slot(
        {"mass": 1.0}, cues=("cue:dough", "cue:total"), bare=-0.4, low=1000, high=60000, links={"from": -2.0}
    ),
    "all_flour_g": Slot({"mass": 1.0, "num": 0.2}, cues=("cue:all_flour",), low=50, high=60000),
    "hydration_pct": Slot(
        {"pct": 1.0, "num": 0.35},
        cues=("cue:hydration", "ingredient:water", "cue:water", "cue:all_water"),
        bare=0.5,
        low=40,
        high=115,
        links={"at": 0.6, "to": 0.6, "change": 1.0},
    ),
    "whole_pct": Slot(
        {"pct": 1.0}, cues=("cue:flour", "cue:all_flour"), low=100, high=100, strict=True, links={"at": -4.0}
    ),  # "100 % flour": so by rule
    "dough_pct": Slot({"pct": 1.0}, cues=("cue:dough", "cue:total"), low=40, high=115, strict=True),  # "dough 72 %"
    "salt_pct": Slot({"pct": 1.0, "num": 0.35}, cues=SALT, low=0.3, high=4),
    # "57, 2, 20": hydration, salt and starter in their usual order; elsewhere these two take nothing
    "then_salt_pct": Slot(
        {"num": 1.0, "pct": 1.0}, bare=0.3, low=0.5, high=4, strict=True, weight=-7.0, links={"after_large": 7.4}
    ),
    "then_starter_pct": Slot(
        {"num": 1.0, "pct": 1.0}, bare=0.3, low=5, high=60, strict=True, weight=-7.0, links={"after_small": 7.2}
    ),
    "starter_pct": Slot({"pct": 1.0, "num": 0.3}, cues=STARTER, low=1, high=120),
    "asked_pct": Slot(
        {"pct": 1.2}, bare=0.5, low=0.05, high=39, strict=True, where=("ask:how_much",), links={"at": 0.8}
    ),  # "how much salt for 2 kg flour at 2 %"
    "starter_share_pct": Slot(
        {"pct": 1.0}, bare=0.2, low=3, high=39, strict=True, where=STARTER, weight=-1.0
    ),  # "150 g starter, 20 %, 66 %"
    "starter_of_pct": Slot(
        {"pct": 1.0}, cues=(*STARTER, "cue:starter_hydration"), low=1, high=120, shares=True, across=True, weight=-2.4
    ),
    "starter_hydration_pct": Slot({"pct": 1.0, "num": 0.2}, cues=("cue:starter_hydration",), low=40, high=200),
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
    "preferment_at_pct": Slot(
        {"pct": 1.0, "num": 0.1},
        cues=("preferment:*", "cue:hydration"),
        low=40,
        high=600,
        shares=True,
        where=("preferment:*",),
        weight=-2.6,
        links={"at": 0.8, "(": 1.6},
    ),
    "prefermented_pct": Slot({"pct": 1.0, "num": 0.3}, cues=("cue:prefermented",), low=1, high=60),
    "loss_pct": Slot({"pct": 1.0, "num": 0.3}, cues=("cue:loss",), low=0, high=15),
    "held_pct": Slot({"pct": 1.0, "num": 0.3}, cues=("cue:held",), low=1, high=30),
    "part_pct": Slot(
        {"pct": 1.0, "num": 0.25, "share": 1.0},
        cues=("ingredient:*",),
        never=(*STARTER, *SALT, "ingredient:water", "cue:flour"),
        by_group=_GROUP_RANGES,
        low=0.05,
        high=100,
        many=True,
        links={"at": -1.4},  # "wholemeal at 72 %" is a hydration
    ),
    "points": Slot(
        {"pct": 1.6}, cues=("cue:points", "cue:wetter", "cue:greater", "cue:fewer", "act:more"), low=0.05, high=20
    ),
    "bare_points": Slot({"num": 1.4, "share": 2.4}, cues=("cue:points", "cue:wetter"), low=0.1, high=60),
    "part_volume": Slot(
        {"volume": 1.0},
        cues=("ingredient:*", "cue:water", "cue:flour"),
        never=("ingredient:starter*",),
        many=True,
        weight=-0.3,
    ),
    "part_count": Slot({"num": 1.0}, cues=("ingredient:egg*",), low=1, high=60, many=True),
    "hydration_again_pct": Slot(
        {"pct": 1.0, "num": 0.3}, cues=("cue:hydration", "ingredient:water", "cue:water"), low=40, high=115, weight=-1.0
    ),
    "salt_again_pct": Slot({"pct": 1.0, "num": 0.3}, cues=SALT, low=0.3, high=4, weight=-1.0),
    "part_g": Slot(
        {"mass": 1.0, "num": 0.1},
        cues=("ingredient:*", "cue:flour", "cue:discard"),
        low=0.3,
        high=60000,
        many=True,
        links={"use_up": 1.0, "at": -2.0},
    ),
    "preferment_pct": Slot({"pct": 1.0, "num": 0.2}, cues=("preferment:*",), low=2, high=100, many=True),
    "preferment_g": Slot({"mass": 1.0}, cues=("preferment:*",), low=10, high=20000, many=True),
    "sizes": Slot(
        {"sizes": 1.0, "length": 0.9}, cues=("cue:tin", "piece:tin_loaf", "piece:boule"), bare=0.3, low=12, high=80
    ),
    "width": Slot({"length": 1.0, "num": 0.6}, cues=("cue:broad",), low=4, high=80),
    "depth": Slot({"length": 1.0, "num": 0.6}, cues=("cue:deep",), low=2, high=25),
    "tin_ml": Slot({"volume": 1.4}, cues=("cue:tin", "cue:hold", "piece:tin_loaf"), low=150, high=20000),
    "shape": Slot(term=("shape:*",), many=True, weight=-0.7),
    "tins": Slot({"num": 0.9}, cues=("cue:tin", "piece:tin_loaf"), low=1, high=12),
    "portions": Slot({"num": 1.2}, cues=("cue:portions",), low=1, high=400, links={"for": 1.0}),
    "kitchen_c": Slot({"temperature": 1.0, "num": 0.3}, cues=("cue:kitchen",), low=2, high=42),
    "scale": Slot({"num": 1.0, "share": 1.0}, cues=("act:scale",), low=0.1, high=20),
    "scale_pct": Slot({"pct": 1.6}, cues=("act:scale",), low=1, high=500),
    "scale_by_part": Slot({"share": 1.4}, cues=("cue:greater", "cue:fewer", "cue:bigger")),
    "bread": Slot(term=("bread:*",), weight=0.2),
    "piece": Slot(term=("piece:*",), many=True),
    "flour": Slot(term=("ingredient:flour*", "ingredient:semolina", "cue:flour"), many=True),
    "item": Slot(
        term=("ingredient:*", "preferment:*", "cue:hydration", "cue:water", "cue:salt", "cue:starter"),
        many=True,
        weight=-0.5,
    ),
    "without": Slot(
        term=("ingredient:*", "cue:salt", "cue:starter", "cue:loss", "cue:leaven"),
        without=True,
        many=True,
        weight=1.2,
    ),
}
