"""What a line about a plan may hold: the roles it takes, the words it listens to, and what rules it out."""

from __future__ import annotations

from grammar.frames import Slot
from grammar.levels import CERTAIN, LIKELY, MAYBE, NEVER, SELDOM, SURE, UNLIKELY
from grammar.requests.plan_hours import OWNER_WORDS
from grammar.roles import take

HOUR_LINKS = {"by": LIKELY, "for": LIKELY, "before": LIKELY, "at": MAYBE, "from": MAYBE, "until": MAYBE, "in": SELDOM}
NIGHT = ("cue:night", "span:overnight")
SLOTS = {
    "pieces": take("pieces", bare=0.0, high=400, links={"for": UNLIKELY, "at": -1.0}),
    "others": take("pieces", high=400, role=None, links={}, many=True, weight=-0.3),
    "piece_g": take("piece_g", dims={"mass": SURE}, bare=0.5, many=True),
    "hydration_pct": take("hydration_pct", dims={"pct": SURE}, bare=SELDOM, links={}),
    "salt_pct": take("salt_pct", dims={"pct": SURE}),
    "starter_pct": take("starter_pct", dims={"pct": SURE}, bare=UNLIKELY, low=5, high=60, shares=True),
    "yeast_pct": take("yeast_pct"),
    "jar_g": take("jar_g", cues=("ingredient:starter*", "starter_state:feed", "feeding:jar"), weight=LIKELY),
    "flour_pct": take("part_pct", dims={"pct": SURE}, cues=("ingredient:flour*",), many=True),
    "row_pct": take("part_pct", dims={"pct": SURE}, cues=("ingredient:*",), many=True),
    "preferment_pct": take("preferment_pct", many=True),
    "preferment_g": take("preferment_g", many=True),
    "preferment": Slot(term=("preferment:*",), many=True),
    "kitchen_c": take("kitchen_c", never=("night_way:*",), bare=UNLIKELY, low=7, links={"at": MAYBE}),
    "day_c": take("day_c", strict=True, weight=0.6),
    "box_c": take("box_c", weight=LIKELY),
    "night_c": take("night_c", where=NIGHT),
    "night_fall_c": take("night_fall_c", weight=SURE, where=NIGHT),
    "fridge_c": take("fridge_c", cues=("cue:fridge", "cold:some")),
    "dough_c": take("dough_c", cues=("cue:dough", "heat:dough_temp", "step:mix")),
    "pot_pieces": take("pot_pieces"),
    "at_once": Slot({"num": CERTAIN}, cues=("cue:at_once",), low=1, high=120, weight=SURE, whole=True),
    "oven_pieces": take("oven_pieces"),
    "places": take("places"),
    "fridge_pieces": take("fridge_pieces"),
    "fridge_l": take("fridge_l"),
    "trays": take("trays", shares=True),
    "tray_pieces": take("tray_pieces", shares=True),
    "bake_min": take("bake_min"),
    "hour": Slot({"moment": CERTAIN}, cues=OWNER_WORDS, bare=LIKELY, many=True, shares=True, links=HOUR_LINKS),
    "busy": Slot({"window": CERTAIN}, cues=("away:*",), bare=MAYBE, many=True, shares=True),
    "ready_in": take("ready_in", cues=(), bare=NEVER, links={"in": -NEVER}),
    "cold_h": take("cold_h"),
    "autolyse_min": take("autolyse_min"),
    "autolyse": Slot(term=("stage:autolyse", "step:autolyse")),
    "no_autolyse": Slot(term=("stage:autolyse", "step:autolyse"), without=True),
    "shift": take("shift_min"),
    "risen": take("risen_pct"),
    "cold": Slot(term=("cold:*",), many=True),
    "no_cold": Slot(term=("cold:*", "cue:fridge", "stage:retard"), without=True),
    "starter_state": Slot(term=("starter_state:*",)),
    "bread": Slot(term=("bread:*",), many=True),
    "piece": Slot(term=("piece:*",), many=True),
    "bath": Slot(term=("bath:*", "ingredient:lye", "ingredient:baked_soda")),
    "yeast": Slot(term=("ingredient:yeast*",)),
    "flour": Slot(term=("ingredient:flour*",), many=True),
}
CUES = {
    "ask:plan*": 2.4, "ask:when_ready": 1.8, "ask:asap": 2.0, "starts:now": 1.6, "clocked:ready": 1.2,
    "clocked:start": 0.8, "clocked:not_before": 0.8, "clocked:ripe": 0.4, "clocked:home": 0.3,
    "clocked:to_bed": 0.6, "clocked:up": 0.6,
    "clocked:leave": 0.4, "clocked:in_oven": 0.6, "away:asleep": 1.0,
    "away:out": 0.4, "cold:*": 1.0, "piece:*": 0.4, "bread:*": 0.4, "starter_state:*": 0.5, "way:ahead": 1.0,
    "way:folds": 0.0, "shift:*": 1.0, "cue:later": 0.4,
    "bedtime:bed_now": 4.5, "cue:risen": 0.6, "cue:night": 0.0, "cue:falls_by": 0.3, "cue:steps": 0.1, "ask:when": 1.6,
    "ask:what_if": 0.4, "ask:how_to": 0.0, "ask:can_i": 0.1, "ask:what": 0.1, "cue:kitchen": 0.3,
    "act:make": 0.2, "act:change": 0.2, "act:correct": 0.3, "act:same": 0.3, "act:use": 0.0, "cue:usual": 0.0,
    "cue:dough": 0.1, "cue:limit": 0.0, "tail:*": 0.0, "span:*": 0.0, "look:*": 0.0, "stage:*": 0.1,
    "stage:autolyse": 2.2, "step:autolyse": 2.2, "act:add": 0.3, "cue:fridge": 0.3,
    "cue:portions": -0.2, "cue:starter": 0.1, "ingredient:starter*": 0.1, "ask:first": 0.0,
    "so_far:*": 0.0, "holds:*": 0.2, "cue:greater": 0.0, "cue:fewer": 0.0, "step_left:*": 0.0,
    "cue:overnight_dose": 0.0, "cue:pieces": 0.0, "act:show": 0.0, "cue:total": 0.0, "cue:tin": 0.0, "cue:at_once": 0.0,
    "cue:pot": 0.1, "cue:oven": 0.0,
    "feeding:*": 0.2, "heat:*": 0.0, "step:*": 0.1, "act:take": 0.4, "mistake:*": -0.4,
    "class:of": 2.4, "class:home": 0.6, "class:each": 0.6,
    "doughs:every": 0.6, "clock:every": 0.0, "night_way:*": 3.0, "pick:*": 2.4,
}  # fmt: skip
SLIPS = tuple(
    f"mistake:{one}"
    for one in ("forgot", "twice", "thrice", "too_few", "by_mistake", "short_pieces", "dissolved", "rescue")
)
"""Words of a slip of the hand, which is another topic; everyday words of one ("needed") are not here."""
RULED_OUT = ("act:always", *SLIPS, "ask:last_out", "ask:batches", "starts:start_boil")
