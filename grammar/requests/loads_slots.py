"""What a line about pot and oven may hold: the roles it takes, the words it listens to, and what rules it out."""

from __future__ import annotations

from grammar.frames import Slot
from grammar.levels import CERTAIN, HARDLY, LIKELY, MAYBE, SELDOM, SURE, UNLIKELY
from grammar.requests.plan_slots import SLIPS
from grammar.roles import take

_START = ("starts:start_boil", "starts:now", "clocked:start", "mark:boil", "mark:bake", "step:boil", "step:bake")
SLOTS = {
    "pieces": take("pieces", bare=SELDOM, bare_low=2, high=400, links={}),
    "piece_g": take("piece_g", dims={"mass": SURE}, bare=MAYBE, strict=True),
    "iron_pots": Slot({"num": CERTAIN}, cues=("holds:iron_pot",), low=1, high=12, weight=SURE, whole=True),
    "at_once": Slot({"num": CERTAIN}, cues=("cue:at_once",), low=1, high=120, weight=SURE, whole=True),
    "pots": Slot({"num": CERTAIN}, cues=("side_by_side:pot",), low=1, high=6, shares=True),
    "ovens": Slot({"num": CERTAIN}, cues=("side_by_side:oven",), low=1, high=6, shares=True),
    "pot_pieces": take("pot_pieces", cues=("holds:pot", "cue:pot", "side_by_side:pot")),
    "oven_pieces": take("oven_pieces", cues=("holds:oven", "cue:oven", "side_by_side:oven")),
    "per_tray": Slot({"num": CERTAIN}, cues=("holds:per_tray",), low=1, high=60, weight=SURE, whole=True),
    "bake_num": Slot({"num": MAYBE, "time": HARDLY}, cues=("act:make", "stage:bake"), low=2, high=90),
    "pan_pieces": Slot({"num": CERTAIN}, cues=("holds:pan",), low=1, high=40, whole=True),
    "trays": take("trays", shares=True),
    "tray_pieces": take("tray_pieces", cues=("holds:per_tray", "holds:tray", "cue:tin"), shares=True),
    "bake_min": take("bake_min", bare=MAYBE),
    "side_min": take("boil_side_min", bare=UNLIKELY),
    "start": Slot(
        {"moment": CERTAIN}, cues=_START, bare=UNLIKELY, links={"at": LIKELY, "from": LIKELY, "for": -1.6, "by": -1.6}
    ),
    "second": Slot(term=("second:*",)),
    "bread": Slot(term=("bread:*",)),
    "piece": Slot(term=("piece:*",)),
}

CUES = {
    "ask:batches": 2.0, "ask:last_out": 6.0, "cue:at_once": 0.5, "mistake:*": -0.4, "cue:load": 0.3,
    "cue:fit": 0.0,
    "cue:dough": 0.0, "starts:start_boil": 1.4,
    "holds:pot": 1.0, "holds:oven": 0.7,
    "holds:tray": 0.4, "holds:iron_pot": 1.0, "look:done_by": 0.6,
    "mark:boil": 0.1, "holds:pan": 0.6, "holds:per_tray": 0.6,
    "cue:pot": 0.7, "cue:oven": 0.4, "cue:side": 0.2, "cue:limit": 0.0,
    "cue:all_of_it": 0.0, "look:falling": 0.0, "ask:when": 0.2,
    "ask:how_many": 0.2, "ask:how_long": 0.2, "ask:how_to": 0.2,
    "act:make": 0.0, "act:change": 0.1, "act:same": 0.1, "cue:size": 0.0, "ask:too_long": 0.2, "ask:is_it": 0.2,
    "cue:portions": 0.0, "step_left:boil": 0.3, "so_far:baking": 0.2,
    "cue:pieces": 0.0, "ask:what_if": 0.2, "act:correct": 0.2, "cue:tin": 0.2, "tail:*": 0.0, "starts:now": 0.2,
    "cue:total": 0.0, "job:alkali": 0.2, "stage:boil": 0.4, "stage:bake": 0.6, "clocked:*": 0.0,
    "away:out": 0.0, "second:*": 1.6, "ask:first": 0.0, "span:*": 0.2,
    "pick:*": 0.0, "mark:*": 0.1, "step:*": 0.0, "look:*": 0.0, "ask:how_much": 0.0, "side_by_side:*": 1.0,
}  # fmt: skip
NEEDS = (
    "ask:batches", "ask:last_out", "starts:start_boil", "slot:pot_pieces", "slot:oven_pieces",
    "slot:tray_pieces", "slot:at_once", "slot:pan_pieces", "slot:iron_pots",
)  # fmt: skip
RULED_OUT = ("symptom:*", "act:always", "ask:plan*", "away:asleep", "cold:*", "cue:hydration", *SLIPS)
