"""What a line about feeding may hold: the roles it takes, and the words it listens to."""

from __future__ import annotations

from grammar.frames import Slot
from grammar.levels import AGAINST, CERTAIN, HARDLY, LIKELY, MAYBE, SELDOM, SURE
from grammar.roles import take

STARTER = ("ingredient:starter*", "cue:starter")
FEEDING = (
    "feeding:feed", "feeding:jar", "feeding:stiff", "feeding:turn", "feeding:cold", "feeding:ratio", "feeding:twice",
    "feeding:daily",
)  # fmt: skip
"""Words that say a starter is fed or built."""
_OF_ITS_WATER = ("cue:hydration", "feeding:stiff", "cue:starter_hydration", "cue:stiff", "cue:liquid_starter")

SLOTS = {
    "needed_g": take("build_g", bare=MAYBE, meant={"at_hand": HARDLY, "wished": LIKELY}),
    "have_g": take("jar_g", bare=AGAINST, weight=SELDOM, meant={"wished": AGAINST}),
    "seed_g": take("build_g", dims={"mass": SURE}, cues=(*STARTER, "feeding:jar"), low=1, high=5000, links={},
                   weight=AGAINST),
    "keep_g": take("kept_g", weight=SELDOM),
    "flour_g": take("part_g", dims={"mass": SURE, "num": MAYBE}, cues=("ingredient:flour*", "cue:flour"), low=1,
                    high=20000, links={}, weight=MAYBE),
    "water_g": take("part_g", dims={"mass": SURE, "num": MAYBE}, cues=("ingredient:water", "cue:water"), low=1,
                    high=20000, links={}),
    "ratio": take("ratio", cues=("feeding:*", "cue:formula", *STARTER), bare=LIKELY, links={"at": SELDOM}),
    "temp_c": take(
        "kitchen_c", cues=("cue:kitchen", "cue:place", "look:proofing_box", "heat:degrees"), bare=MAYBE, bare_high=34,
        low=7, high=45, links={"at": LIKELY, "in": SELDOM, "for": AGAINST, "by": AGAINST},
    ),
    "hydration_pct": take(
        "starter_hydration_pct", dims={"pct": SURE}, cues=(*_OF_ITS_WATER, *STARTER, "ingredient:water", "cue:water"),
        bare=MAYBE, shares=True,
    ),
    "bare_hydration": take("starter_hydration_pct", dims={"num": SELDOM}, cues=_OF_ITS_WATER),
    "now_at": Slot({"moment": CERTAIN}, cues=("span:now",), weight=SELDOM),
    "seed_pct": take(
        "starter_hydration_pct", dims={"pct": SURE}, cues=("feeding:turn", *STARTER), shares=True, weight=-LIKELY,
    ),
    "moments": Slot(
        {"moment": SURE}, bare=LIKELY, cues=("look:use_it", "look:ripe", "feeding:feed"), many=True,
        links={"by": LIKELY, "for": LIKELY, "at": SELDOM},
    ),
    "in_min": take("ripens_min", bare=LIKELY, weight=MAYBE, strict=True),
    "bread": Slot(term=("bread:*", "piece:*"), many=True, weight=-MAYBE),
    "share_pct": take(
        "starter_pct", dims={"pct": SURE}, cues=(*STARTER, "ingredient:flour*", "cue:flour"), bare=SELDOM, low=3,
        high=39, shares=True, weight=-SELDOM,
    ),
    "window": Slot({"window": SURE}, bare=LIKELY),
    "dial": Slot({"num": LIKELY}, bare=LIKELY, low=1, high=24, many=True,
                 where=("feeding:twice", "feeding:daily")),
    "feeds": Slot({"num": SURE}, cues=("feeding:stages", "cue:portions"), low=1, high=3, weight=MAYBE),
    "thing": Slot(term=("ingredient:flour*", "cue:flour", "ingredient:water", "cue:water"), many=True, weight=-LIKELY),
}  # fmt: skip

CUES = {
    "feeding:feed": 2.2, "feeding:ratio": 2.4, "feeding:jar": 1.2, "feeding:keep": 0.6,
    "feeding:stiff": 1.6, "feeding:turn": 1.0, "feeding:equal_parts": 1.0,
    "feeding:keep_none": 3.0, "feeding:twice": 1.6, "feeding:daily": 1.0, "feeding:stages": 0.6,
    "ask:how_warm": 0.1,
    "feeding:cold": 0.6, "cue:stiff": 0.3,
    "cue:liquid_starter": 0.3, "look:ripe": 1.1,
    "look:peaked": 1.1, "cue:total": 0.1, "feeding:away": 0.0, "away:*": 0.0,
    "clocked:to_bed": 0.2, "clocked:leave": 0.2, "clocked:home": 0.3, "clocked:not_before": 0.4,
    "look:use_it": 0.8, "ask:when": 1.2, "ask:how_much": 0.5,
    "ask:how_to": 0.5, "ask:what": 0.3, "ask:can_i": 0.8,
    "ask:is_it": 0.3, "ask:what_if": 0.5, "cue:starter": 1.2, "ingredient:starter*": 0.8,
    "cue:kitchen": 0.9, "cue:place": 0.3, "act:change": 0.9, "link:instead": 0.3,
    "cue:limit": 0.1, "cue:only_this": 0.2, "act:make": 0.3, "act:use": 0.2, "cue:dough": 0.2,
    "cue:formula": 0.3, "cue:portions": 0.1, "ingredient:flour*": 0.2,
    "ingredient:water": 0.2, "cue:flour": 0.2, "cue:water": 0.2, "cue:fridge": 0.1, "act:always": -2.0,
    "cue:hydration": 0.1, "blend:even": 1.0, "ask:how_long": 0.4,
    "heat:degrees": 0.1, "span:*": 0.1, "look:done": 0.2, "look:doubled": 0.4, "look:tripled": 0.4,
    "look:risen": 0.2, "ask:*": 0.2, "cue:at_once": 0.0, "ask:where": 0.0, "look:sits": 0.0, "kept:older": 0.0,
    "soda:left": 0.0, "cue:pot": 0.0, "shift:running_late": 0.0, "cue:later": 0.0,
}  # fmt: skip
NEEDS = (
    "feeding:feed", "feeding:jar", "feeding:stiff", "feeding:turn", "feeding:ratio", "slot:ratio",
    "feeding:cold", "cue:starter", "ingredient:starter*", "feeding:keep_none", "feeding:twice",
    "feeding:stages",
)  # fmt: skip
RULED_OUT = ("symptom:*", "cue:use_up", "feeding:often")
