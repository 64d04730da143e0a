"""What a line about feeding may hold: the roles it takes, and the words it listens to."""

from __future__ import annotations

from grammar.levels import AGAINST, CERTAIN, HARDLY, LIKELY, MAYBE, SELDOM, SURE, speaks
from grammar.roles import take
from grammar.slots import Slot

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
                    high=20000, links={"at": AGAINST}, weight=MAYBE),
    "water_g": take("part_g", dims={"mass": SURE, "num": MAYBE}, cues=("ingredient:water", "cue:water"), low=1,
                    high=20000, links={"at": AGAINST}),
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

CUES = speaks(
        alone="feeding:keep_none",
    telling="feeding:feed feeding:ratio ",
    certain="look:ripe feeding:stiff feeding:twice",
    sure=(
        "feeding:jar feeding:turn feeding:equal_parts feeding:daily look:use_it ask:when "
        "ask:can_i cue:starter ingredient:starter* cue:kitchen act:change blend:even"
    ),
    likely="look:peaked feeding:keep feeding:stages feeding:cold ask:how_much ask:how_to ask:what_if",
    maybe=(
        "cue:stiff cue:liquid_starter clocked:to_bed clocked:leave clocked:home clocked:not_before ask:what "
        "ask:is_it cue:place link:instead cue:only_this act:make act:use cue:dough cue:formula "
        "ingredient:flour* ingredient:water cue:flour cue:water ask:how_long look:done look:doubled "
        "look:tripled look:risen ask:*"
    ),
    seldom="ask:how_warm cue:total cue:limit cue:portions cue:fridge cue:hydration heat:degrees span:*",
    heard=(
        "feeding:away away:* cue:at_once ask:where look:sits kept:older soda:left cue:pot shift:running_late "
        "cue:later act:take"
    ),
    against="act:always",
)  # fmt: skip
NEEDS = (
    "feeding:feed", "feeding:jar", "feeding:stiff", "feeding:turn", "feeding:ratio", "slot:ratio",
    "feeding:cold", "cue:starter", "ingredient:starter*", "feeding:keep_none", "feeding:twice",
    "feeding:stages",
)  # fmt: skip
RULED_OUT = ("symptom:*", "cue:use_up", "feeding:often")
