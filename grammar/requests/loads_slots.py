"""What a line about pot and oven may hold: the roles it takes, the words it listens to, and what rules it out."""

from __future__ import annotations

from grammar.levels import CERTAIN, HARDLY, LIKELY, MAYBE, SELDOM, SURE, UNLIKELY, speaks
from grammar.requests.plan_slots import SLIPS
from grammar.roles import take
from grammar.slots import Slot

_START = ("starts:start_boil", "starts:now", "clocked:start", "mark:boil", "mark:bake", "step:boil", "step:bake")
SLOTS = {
    "pieces": take("pieces", bare=SELDOM, bare_low=2, high=400, links={}),
    "piece_g": take("piece_g", dims={"mass": SURE}, bare=MAYBE, strict=True),
    "iron_pots": Slot({"num": CERTAIN}, cues=("holds:iron_pot",), low=1, high=12, weight=SURE, whole=True),
    "at_once": Slot({"num": CERTAIN}, cues=("cue:at_once",), low=1, high=120, weight=SURE, whole=True),
    "only_so_many": Slot({"num": SURE}, cues=("cue:fit", "cue:limit"), low=1, high=60, strict=True, whole=True),
    "pots": Slot({"num": CERTAIN}, cues=("side_by_side:pot",), low=1, high=6, shares=True),
    "ovens": Slot({"num": CERTAIN}, cues=("side_by_side:oven",), low=1, high=6, shares=True),
    "pot_pieces": take("pot_pieces", cues=("holds:pot", "cue:pot", "side_by_side:pot")),
    "oven_pieces": take("oven_pieces", cues=("holds:oven", "cue:oven", "side_by_side:oven")),
    "per_tray": Slot({"num": CERTAIN}, cues=("holds:per_tray",), low=1, high=60, weight=SURE, whole=True),
    "bake_num": Slot({"num": MAYBE, "time": HARDLY}, cues=("act:make", "stage:bake"), low=2, high=90),
    "pan_pieces": Slot({"num": CERTAIN}, cues=("holds:pan",), low=1, high=40, whole=True),
    "trays": take("trays", shares=True),
    "trays_left": Slot({"num": LIKELY}, bare=LIKELY, low=1, high=6, whole=True, where=("second:tray_gone",)),
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

CUES = speaks(
        telling="ask:batches",
    alone="ask:last_out",
    certain="cue:load starts:start_boil second:*",
    sure="holds:pot holds:iron_pot side_by_side:*",
    likely="cue:at_once holds:oven look:done_by holds:pan holds:per_tray cue:pot stage:bake",
    maybe=(
        "holds:tray cue:oven cue:side ask:when ask:how_many ask:how_long ask:how_to ask:too_long "
        "ask:is_it step_left:boil so_far:baking ask:what_if act:correct cue:tin starts:now job:alkali "
        "stage:boil span:*"
    ),
    seldom="mark:boil act:change act:same mark:*",
    heard=(
        "cue:fit cue:dough cue:limit cue:all_of_it look:falling act:make cue:size cue:portions cue:pieces "
        "tail:* cue:total clocked:* away:out ask:first pick:* step:* look:* ask:how_much"
    ),
    against="mistake:*",
)  # fmt: skip
NEEDS = (
    "ask:batches", "ask:last_out", "starts:start_boil", "slot:pot_pieces", "slot:oven_pieces",
    "slot:tray_pieces", "slot:at_once", "slot:pan_pieces", "slot:iron_pots",
)  # fmt: skip
RULED_OUT = ("symptom:*", "act:always", "ask:plan*", "away:asleep", "cold:*", "cue:hydration", *SLIPS)
