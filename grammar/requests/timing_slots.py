"""What a line about time may hold: the roles it takes, and the words it listens to."""

from __future__ import annotations

from grammar.levels import AGAINST, CERTAIN, HARDLY, LIKELY, MAYBE, NEVER, SELDOM, SURE, UNLIKELY, speaks
from grammar.roles import take
from grammar.slots import Slot

STARTER = ("ingredient:starter*", "cue:starter")
FLOUR = ("ingredient:flour*", "cue:flour")
SALT = ("ingredient:salt*", "cue:salt")
YEAST = ("ingredient:yeast*", "yeast_kind:*", "cue:leaven")
WATER = ("ingredient:water", "cue:water")
PLACE = ("cue:place", "cue:kitchen")
WHOLEGRAIN = (
    "ingredient:flour_whole_wheat",
    "ingredient:flour_white_whole_wheat",
    "ingredient:flour_rye_medium",
    "ingredient:flour_rye_dark",
    "ingredient:flour_spelt*",
)
TEMPS = ("temp_c", "oven_c", "later_c", "dough_c", "from_c", "target_c", "wished_c")
_TO_A_WARMTH = (
    "heat:reach", "heat:from", "stage:cool", "stage:retard", "stage:warm_up", "stage:thaw", "stage:preheat",
    "cue:fridge", "state:cold", "holds:oven",
)  # fmt: skip
_TO = {"to": -HARDLY, "until": -HARDLY, "at": AGAINST}
_SIZED = ("look:doubled", "look:tripled", "look:risen")
_OF_A_POT = ("stage:heat_pot", "stage:boil", "heat:kilowatt", "hob:*", "heat:kettle")

_WARMTHS = {
    "temp_c": take("place_c", bare=LIKELY, many=True),
    "oven_c": take("oven_c", strict=True),
    "later_c": take("later_c", weight=SELDOM),
    "fridge_c": take("fridge_c", low=-5, links={"at": MAYBE, "to": NEVER}),
    "dough_c": take("own_c"),
    "from_c": take("from_c", bare=AGAINST, weight=SELDOM),
    "target_c": take("reach_c", bare=-CERTAIN, bare_high=34, weight=MAYBE, where=_TO_A_WARMTH, links=_TO),
    "water_c": take("water_c", where=("look:came_out", "mistake:meant")),
    "core_c": take("core_c"),
    "wished_c": take("wished_c"),
}
_SHARES = {
    "starter_pct": take(
        "starter_pct", dims={"pct": SURE, "num": MAYBE, "share": SURE}, bare=MAYBE, high=44,
        links={"with": MAYBE, "change": SELDOM, "at": AGAINST},
    ),
    "starter_much_pct": take("starter_pct", dims={"pct": SURE}, low=45, high=150),
    "yeast_pct": take("yeast_pct", dims={"pct": SURE, "num": SELDOM}, cues=YEAST, low=0.01, high=10, many=True),
    "hydration_pct": take(
        "hydration_pct", cues=("cue:hydration", *WATER), links={"at": SURE}, bare=SELDOM, low=45, strict=True,
    ),
    "starter_hydration_pct": take("starter_hydration_pct"),
    "salt_pct": take("salt_pct", low=0),
    "sugar_pct": take("part_pct", dims={"pct": SURE}, cues=("ingredient:sugar*",), never=(), low=0, high=40),
    "part_pct": take("part_pct", dims={"pct": SURE}, low=0.1, weight=UNLIKELY, many=True),
    "rise_pct": take("aim_pct", dims={"pct": SURE, "share": SURE}, bare=UNLIKELY, weight=SELDOM),
    "rise_num": take(
        "aim_pct", dims={"num": MAYBE}, cues=("look:risen",), bare=UNLIKELY, low=30, high=200, strict=True,
        links={"to": SURE, "and": SURE},
    ),
    "risen_now": take("risen_pct", cues=("cue:risen",), low=1, high=300, weight=MAYBE),
    "risen_from": take("risen_pct", cues=(), bare=AGAINST, low=1, high=300, links={"from": -HARDLY}, where=_SIZED),
    "yeast_bare_pct": take("yeast_pct", cues=(), bare=SELDOM, low=0.01, high=0.99),
    "grain_pct": take("part_pct", dims={"pct": SURE, "share": SURE}, cues=("ingredient:flour*",), low=1),
    "old": Slot({"num": LIKELY, "pct": LIKELY, "temperature": LIKELY}, bare=-CERTAIN, links={"instead_of": -NEVER}),
}  # fmt: skip
_HOURS = {
    "lasts_min": take("lasts_min", bare=LIKELY),
    "after_min": take("after_min", bare=SELDOM),
    "elapsed_min": take("gone_min", weight=SELDOM),
    "begun_at": Slot(
        {"moment": SURE}, cues=("look:begun", "mark:mix"), links={"at": SELDOM, "from": SURE}, bare=-LIKELY,
    ),
    "window": Slot({"window": SURE}, bare=MAYBE),
    "until": Slot(
        {"moment": LIKELY}, bare=SELDOM, cues=("look:ripe", "look:done", "look:done_by"),
        links={"by": MAYBE, "at": SELDOM, "until": MAYBE, "from": AGAINST},
    ),
}  # fmt: skip
_MASSES = {
    "mass_g": take(
        "dough_g", cues=("cue:dough", "piece:*", "bread:*", "cue:piece_mass"), bare=LIKELY, low=15, high=40000,
        links={},
    ),
    "pieces": take("pieces", dims={"num": MAYBE}, high=400, weight=UNLIKELY, links={"at": -CERTAIN, "in": -CERTAIN}),
    "starter_g": take("part_g", dims={"mass": SURE}, cues=STARTER, low=1, high=20000, links={}),
    "starter_bare_g": take("part_g", dims={"num": LIKELY}, cues=STARTER, low=45, high=20000, where=FLOUR, links={}),
    "flour_g": take("part_g", dims={"mass": SURE, "num": MAYBE}, cues=FLOUR, low=50, links={}),
    "water_g": take("part_g", dims={"mass": SURE, "num": MAYBE}, cues=WATER, low=80, links={}),
    "salt_g": take("part_g", dims={"mass": SURE}, cues=SALT, low=0.5, high=2000, links={}),
    "yeast_g": take("yeast_g"),
    "yeast_ml": take("yeast_ml"),
    "pot_ml": take("pot_ml", bare=MAYBE, where=_OF_A_POT),
    "power_kw": take("power_kw", weight=MAYBE),
    "power_w": take("power_w", weight=MAYBE),
    "stone_cm": take("stone_cm", bare=UNLIKELY, where=("look:heavy",)),
    "altitude_m": take("altitude_m", bare=SELDOM, low=100, bare_low=10000),
    "ratio": take("ratio", bare=MAYBE, weight=MAYBE),
}  # fmt: skip
_WORDS = {
    "stage": Slot(term=("stage:*",), many=True, weight=SELDOM),
    "place": Slot(term=PLACE, weight=-LIKELY),
    "bread": Slot(term=("bread:*",)),
    "piece": Slot(term=("piece:*",), many=True),
    "fridge_word": Slot(term=("cue:fridge", "step_left:retard", "so_far:shaped"), weight=-0.5),
    "cold": Slot(term=("feeding:cold",), weight=UNLIKELY),
    "preferment": Slot(term=("preferment:*",)),
    "grain": Slot(term=WHOLEGRAIN, weight=UNLIKELY),
    "fan": Slot(term=("cue:fan",), weight=CERTAIN),
    "hob": Slot(term=("hob:*",), weight=SELDOM),
    "pot": Slot(term=("cue:pot",), weight=-0.6),
    "without": Slot(
        term=("ingredient:salt*", "cue:salt", "ingredient:starter*", "cue:starter", "ingredient:yeast*"),
        without=True, many=True,
    ),
}  # fmt: skip

SLOTS = {**_WARMTHS, **_SHARES, **_HOURS, **_MASSES, **_WORDS}

CUES = speaks(
    alone="stage:boiling_point",
    telling="feeding:equal_parts look:proofing_box ask:how_long look:done ask:how_far ask:how_warm ask:oven_heat",
    certain=(
        "ask:too_long ask:how_to_see stage:thaw look:leave_out ask:lasts "
        "act:same look:begun so_far:shaped unit:minutes unit:hours"
    ),
    sure=(
        "ask:when stage:* cue:overnight_dose look:done_by ask:what_if act:use act:change feeding:cold "
        "topic:cold_kitchen act:correct cue:risen sought:share"
    ),
    likely="look:* heat:reach heat:kilowatt heat:watt step:preheat",
    maybe=(
        "look:until span:* ask:is_it ask:what ask:can_i cue:fridge cue:kitchen cue:dough cue:percentages "
        "look:feel ingredient:yeast* yeast_kind:* so_far:* cue:limit cue:only_this link:instead cue:oven "
        "look:bowl holds:oven mistake:meant mistake:rescue hazard:left_out heat:core topic:rye_dough cue:night "
        "feeding:feed stand:where stand:left mark:mix state:gone state:cold holds:iron_pot heat:kettle "
        "step:divide cue:split"
    ),
    seldom="cue:usual cue:pieces cue:pot cue:place act:make heat:degrees cue:starter ask:how_much ask:* mark:shape",
    heard=(
        "cue:salt cue:flour cue:water mistake:poured kept:bakes feeding:keep ingredient:honey cue:use_up fits:tub "
        "holds:tray away:out starts:now step:mix step:shape clocked:in_oven act:halve act:double act:triple act:scale"
    ),
)  # fmt: skip

NEEDS = (
    "ask:how_long", "ask:too_long", "stage:*", "look:risen", "look:doubled", "look:left", "ask:how_to_see",
    "slot:ratio", "slot:lasts_min", "look:begun", "look:done", "slot:window",
    "look:leave_out", "look:came_out", "slot:risen_now", "heat:from",
    "ask:oven_heat", "slot:preferment", "unit:minutes", "unit:hours", "heat:reach",
    "ask:how_far", "ask:how_warm", "ask:lasts", "slot:oven_c",
    "cue:overnight_dose", "look:shaped", "step:divide", "step:preheat",
    "act:halve", "act:double", "act:triple",
)  # fmt: skip
RULED_OUT = (
    "symptom:*", "mistake:forgot", "ask:weigh_at", "ask:batches", "feeding:ratio", "feeding:less_discard",
    "feeding:away",
)  # fmt: skip
