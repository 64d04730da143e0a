"""What a conversion takes from a line, and the words that speak for one."""

from __future__ import annotations

from grammar.frames import Slot
from grammar.requests.measure_sense import COUNTED

_ITEM = ("ingredient:*",)
_OVEN = ("cue:oven", "cue:fan", "cue:no_fan", "cue:recipe_given")

SLOTS = {
    "amounts": Slot({"volume": 1.6}, cues=_ITEM, bare=0.8, many=True),
    "masses": Slot({"mass": 0.6}, cues=_ITEM, bare=0.3, many=True),
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

CUES = {
    "unit:*": 1.6, "into:*": 1.8, "ask:convert": 1.6, "ask:how_much": 0.4, "ask:how_many": 0.4, "ask:what": 0.2,
    "oven_word:*": 2.6, "warmth_word:*": 2.6, "shape:*": 0.1, "cue:deep": 0.6, "piece:boule": 0.0,
    "cue:gas": 0.8, "cue:fan": 2.4, "cue:no_fan": 0.8, "cue:recipe_given": 0.6, "pack:*": 1.0,
    "fill:*": 0.8,
    "cup_system:*": 1.6, "again:*": 1.4, "cue:tin": 0.6, "cue:oven": 0.5, "cue:hold": 0.8,
    "ask:what_if": 0.1, "ask:is_it": 0.1,
    "mistake:meant": 0.4, "stance:called_for": 0.4, "stance:at_hand": 0.2, "cue:only_this": 0.2, "cue:limit": 0.0,
    "cue:all_of_it": 0.0, "clock:set": 0.0, "link:if": 0.0,
    "pans:mine": 0.1, "ask:should_i": 0.1, "act:always": 0.0, "topic:fan_oven": 0.0,
    "act:correct": 0.3, "act:change": 0.2, "stage:bake": 0.2, "cue:piece_mass": 1.2, "cue:minus": 0.2,
    "cue:formula": 0.3,
    "cue:salt": 0.0,
    "cue:flour": 0.0, "cue:water": 0.0,
}  # fmt: skip

NEEDS = (
    "unit:*", "into:*", "slot:amounts", "slot:masses", "slot:gas", "slot:heat", "slot:oven", "pack:*",
    "ask:convert", "oven_word:*", "warmth_word:*", "fill:*", "cup_system:*", "cue:hold",
    *(f"ingredient:{id}*" for id in COUNTED),
)  # fmt: skip
