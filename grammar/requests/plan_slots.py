"""What a line about a plan may hold: the roles it takes, the words it listens to, and what rules it out."""

from __future__ import annotations

from grammar.levels import CERTAIN, HARDLY, LIKELY, MAYBE, NEVER, SELDOM, SURE, UNLIKELY, speaks
from grammar.requests.plan_hours import OWNER_WORDS
from grammar.roles import take
from grammar.slots import Slot

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
    "jar_g": take("jar_g", cues=("ingredient:starter*", "starter_state:feed", "feeding:jar"), weight=HARDLY),
    "flour_pct": take("part_pct", dims={"pct": SURE}, cues=("ingredient:flour*",), many=True),
    "row_pct": take("part_pct", dims={"pct": SURE}, cues=("ingredient:*",), many=True),
    "preferment_pct": take("preferment_pct", many=True),
    "preferment_g": take("preferment_g", many=True),
    "preferment": Slot(term=("preferment:*",), many=True),
    "kitchen_c": take("kitchen_c", bare=UNLIKELY, low=7, links={"at": MAYBE}),
    "day_c": take("day_c", strict=True, weight=0.6),
    "box_c": take("box_c", weight=LIKELY),
    "night_c": take("night_c", where=NIGHT, weight=MAYBE),
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
CUES = speaks(
    alone="bedtime:bed_now",
    telling="ask:plan* stage:autolyse step:autolyse class:of night_way:* pick:*",
    certain="ask:when_ready ask:asap starts:now ask:when",
    sure="clocked:ready clocked:start clocked:not_before away:asleep cold:* way:ahead shift:*",
    likely="clocked:to_bed clocked:up clocked:in_oven starter_state:* cue:risen class:home class:each doughs:every",
    maybe=(
        "step:mix clocked:ripe clocked:home clocked:leave away:out piece:* bread:* cue:later cue:falls_by ask:what_if "
        "cue:kitchen act:make act:change act:correct act:same act:add cue:fridge holds:* feeding:* act:take"
    ),
    seldom="cue:steps ask:can_i ask:what cue:dough stage:* cue:starter ingredient:starter* cue:pot step:*",
    heard=(
        "way:folds cue:night ask:how_to act:use cue:usual cue:limit tail:* span:* look:* ask:first so_far:* "
        "cue:greater cue:fewer step_left:* cue:overnight_dose cue:pieces act:show cue:total cue:tin cue:at_once "
        "cue:oven cue:place hazard:sell heat:* clock:every ask:is_it ask:too_long"
    ),
    against="cue:portions mistake:*",
)  # fmt: skip
SLIPS = tuple(
    f"mistake:{one}"
    for one in ("forgot", "twice", "thrice", "too_few", "by_mistake", "short_pieces", "dissolved", "rescue")
)
"""Words of a slip of the hand, which is another topic; everyday words of one ("needed") are not here."""
RULED_OUT = ("act:always", *SLIPS, "ask:last_out", "ask:batches", "starts:start_boil")
