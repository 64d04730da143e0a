"""What a conversion takes from a line, and the words that speak for one."""

from __future__ import annotations

from grammar.levels import speaks
from grammar.requests.measure_sense import COUNTED
from grammar.slots import Slot

_ITEM = ("ingredient:*",)
_OVEN = ("cue:oven", "cue:fan", "cue:no_fan", "cue:recipe_given")

SLOTS = {
    "amounts": Slot({"volume": 1.6}, cues=_ITEM, bare=0.8, many=True),
    "masses": Slot({"mass": 0.6}, cues=_ITEM, bare=0.3, many=True, links={"each": -0.6}),
    "counts": Slot({"num": 0.4, "share": 0.4}, cues=("pack:*", *_ITEM), low=0.1, high=60, many=True, shares=True),
    "gas": Slot({"num": 1.0}, cues=("cue:gas",), low=0.25, high=10),
    "heat": Slot({"temperature": 1.0}, cues=_OVEN, bare=0.6, low=-40, high=400),
    "oven": Slot({"num": 0.5}, cues=_OVEN, bare=-0.3, low=90, high=600),
    "again": Slot({"num": 0.4, "share": 0.4}, bare=0.1, low=0.1, high=20),
    "length": Slot({"length": 0.8}, cues=("cue:tin", "bread:*"), bare=0.4),
    "deep": Slot({"length": 1.0}, cues=("cue:deep",), low=2, high=30),
    "sizes": Slot({"sizes": 1.0}, cues=("cue:tin",), bare=0.6),
    "to": Slot(term=("unit:*",), many=True),
    "into": Slot(term=("into:*",), many=True),
    "item": Slot(term=_ITEM, many=True),
    "system": Slot(term=("cup_system:*",)),
    "fill": Slot(term=("fill:*",), many=True),
    "called": Slot(term=("oven_word:*", "warmth_word:*")),
    "not_it": Slot(term=_ITEM, without=True, weight=0.4),
    "fan": Slot(term=("cue:fan", "cue:no_fan"), weight=-0.6),
}  # fmt: skip

CUES = speaks(
    telling="oven_word:* warmth_word:* cue:fan",
    certain="unit:* into:* ask:convert cup_system:* again:*",
    sure="cue:gas cue:no_fan pack:* fill:* cue:hold cue:piece_mass",
    likely="cue:deep cue:recipe_given cue:tin cue:oven",
    maybe=(
        "ask:how_much ask:how_many ask:what ask:weigh_at mistake:meant stance:called_for stance:at_hand cue:only_this "
        "act:correct act:change stage:bake cue:minus cue:formula"
    ),
    seldom="shape:* ask:what_if ask:is_it pans:mine ask:should_i",
    heard=(
        "piece:boule cue:limit cue:all_of_it clock:set link:if act:always topic:fan_oven cue:salt cue:flour "
        "cue:water measuring:*"
    ),
)  # fmt: skip

NEEDS = (
    "unit:*", "into:*", "slot:amounts", "slot:masses", "slot:gas", "slot:heat", "slot:oven", "pack:*",
    "ask:convert", "oven_word:*", "warmth_word:*", "fill:*", "cup_system:*", "cue:hold",
    *(f"ingredient:{id}*" for id in COUNTED),
)  # fmt: skip
