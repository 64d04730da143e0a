"""What a line about time may hold: the figures, the words beside them and how much each may be."""

from __future__ import annotations

from grammar.frames import Slot

STARTER = ("ingredient:starter*", "cue:starter")
FLOUR = ("ingredient:flour*", "cue:flour")
SALT = ("ingredient:salt*", "cue:salt")
YEAST = ("ingredient:yeast*", "yeast_kind:*", "cue:leaven")
WHOLEGRAIN = (
    "ingredient:flour_whole_wheat",
    "ingredient:flour_white_whole_wheat",
    "ingredient:flour_rye_medium",
    "ingredient:flour_rye_dark",
    "ingredient:flour_spelt*",
)
TEMPS = ("temp_c", "later_c", "dough_c", "from_c", "target_c", "wished_c")

_WARMTHS = {
    "temp_c": Slot(
        {"temperature": 1.0, "num": 0.4}, cues=("cue:kitchen", "cue:place", "look:proofing_box", "span:now", "cue:oven",
        "heat:degrees", "cue:fan"),
        bare=0.5, low=-30, high=320, links={"at": 0.7, "in": 0.3, "over": 0.1}, many=True,
    ),
    "later_c": Slot(
        {"temperature": 1.0, "num": 0.4}, cues=("span:overnight", "look:falling"), low=-5, high=95, weight=0.1,
    ),
    "fridge_c": Slot({"temperature": 1.0, "num": 0.3}, cues=("cue:fridge",), low=-5, high=14,
    links={"at": 0.3, "to": -1.5}),
    "dough_c": Slot(
        {"temperature": 1.0, "num": 0.35}, cues=("look:loaf_of", "look:came_out", "heat:dough_temp", "cue:dough"),
        low=1, high=110,
        links={"at": 0.2},
    ),
    "from_c": Slot({"temperature": 1.0, "num": 0.35}, cues=("heat:from",), bare=-1.2, low=-25, high=110,
    links={"from": 2.4}),
    "target_c": Slot(
        {"temperature": 1.0, "num": 0.5}, cues=("heat:reach",), bare=-1.6, low=-5, high=100,
        links={"to": 2.4, "until": 2.0}, weight=0.3,
        where=("heat:reach", "stage:cool", "stage:retard", "stage:warm_up", "stage:thaw", "cue:fridge"),
    ),
    "core_c": Slot({"temperature": 1.0, "num": 0.6}, cues=("heat:core",), low=60, high=212),
    "wished_c": Slot({"temperature": 1.0, "num": 0.5}, cues=("mistake:meant",), low=15, high=35),
}  # fmt: skip

_SHARES = {
    "starter_pct": Slot({"pct": 1.0, "num": 0.3, "share": 0.9}, cues=STARTER, bare=0.35, low=1, high=44,
    links={"with": 0.4, "change": 0.2, "at": -1.2}),
    "starter_much_pct": Slot({"pct": 0.9}, cues=STARTER, low=45, high=150),
    "yeast_pct": Slot({"pct": 1.0, "num": 0.2}, cues=YEAST, low=0.01, high=10, many=True),
    "hydration_pct": Slot(
        {"pct": 1.0, "num": 0.3}, cues=("cue:hydration", "ingredient:water", "cue:water"), links={"at": 0.9},
        bare=0.2, low=45, high=115,
    ),
    "starter_hydration_pct": Slot({"pct": 1.0, "num": 0.2}, cues=("cue:starter_hydration",), low=40, high=200),
    "salt_pct": Slot({"pct": 1.0, "num": 0.3}, cues=SALT, low=0, high=4),
    "sugar_pct": Slot({"pct": 1.0}, cues=("ingredient:sugar*", "ingredient:honey"), low=0, high=40),
    "rise_pct": Slot(
        {"pct": 0.9, "share": 1.2}, cues=("look:risen", "stage:bulk", "stage:proof", "look:until"), bare=-0.3, low=5,
        high=400,
        links={"by": 1.4, "to": 1.2, "until": 1.0, "and": 1.2}, weight=0.1,
    ),
    "rise_num": Slot(
        {"num": 0.3}, cues=("look:risen",), bare=-0.4, low=30, high=400, strict=True, links={"to": 0.8, "and": 1.2},
    ),
    "risen_now": Slot({"pct": 1.2, "share": 1.2}, cues=("cue:risen",), low=1, high=300, weight=0.4),
    "yeast_bare_pct": Slot({"pct": 0.9}, bare=0.2, low=0.01, high=0.99),
    "grain_pct": Slot({"pct": 1.0, "share": 0.8}, cues=("ingredient:flour*",), low=1, high=100),
    "old": Slot({"num": 0.5, "pct": 0.5, "temperature": 0.5}, bare=-1.5, links={"instead_of": 3.5}),
}  # fmt: skip

_HOURS = {
    "lasts_min": Slot({"time": 1.0}, bare=0.6, cues=("stage:*", "ask:too_long"), low=1, high=45000, weight=0.0),
    "after_min": Slot({"time": 0.6}, cues=("cue:fridge",), bare=0.2, low=5, high=4000, links={"after": 2.0,
    "for": 0.4}),
    "elapsed_min": Slot({"time": 1.0}, cues=("look:so_far",), low=1, high=5000, weight=0.2),
    "begun_at": Slot({"moment": 1.0}, cues=("look:begun",), links={"at": 0.2}),
    "window": Slot({"window": 1.0}, bare=0.4),
    "until": Slot({"moment": 0.6}, bare=0.2, cues=("look:ripe", "look:done", "look:done_by"), links={"by": 0.4,
    "at": 0.2, "until": 0.3}),
}  # fmt: skip

_MASSES = {
    "mass_g": Slot({"mass": 1.0}, cues=("cue:dough", "piece:*", "bread:*", "cue:piece_mass"), bare=0.5, low=15,
    high=40000),
    "pieces": Slot({"num": 0.4}, cues=("piece:*", "bread:*", "cue:pieces"), low=1, high=400, role="count",
    weight=-0.4, links={"at": -2.5, "in": -1.5}),
    "starter_g": Slot({"mass": 1.0}, cues=STARTER, low=1, high=20000),
    "starter_bare_g": Slot({"num": 0.5}, cues=STARTER, low=45, high=20000, where=FLOUR),
    "flour_g": Slot({"mass": 1.0, "num": 0.3}, cues=FLOUR, low=50, high=60000),
    "water_g": Slot({"mass": 1.0}, cues=("ingredient:water", "cue:water"), low=20, high=60000),
    "salt_g": Slot({"mass": 1.0}, cues=SALT, low=0.5, high=2000),
    "yeast_g": Slot({"mass": 1.0}, cues=YEAST, low=0.05, high=500),
    "yeast_ml": Slot({"volume": 1.0}, cues=YEAST, low=0.2, high=100),
    "pot_ml": Slot({"volume": 1.0, "mass": 0.6}, cues=("cue:pot", "ingredient:water", "cue:water", "stage:heat_pot"),
    bare=0.4, low=300, high=60000, where=("stage:heat_pot", "stage:boil", "heat:kilowatt")),
    "power_kw": Slot({"num": 1.2}, cues=("heat:kilowatt",), low=0.2, high=12, weight=0.3),
    "power_w": Slot({"num": 1.2}, cues=("heat:watt",), low=200, high=12000, weight=0.3),
    "stone_cm": Slot({"length": 1.0}, cues=("look:heavy",), bare=-0.4, low=0.3, high=8, where=("look:heavy",)),
    "altitude_m": Slot({"length": 1.0, "num": 0.3}, cues=("cue:altitude",), bare=0.1, low=100, high=600000),
    "ratio": Slot({"ratio": 1.2}, bare=0.5, cues=("look:ripe", *STARTER, "feeding:feed"), weight=0.6),
}  # fmt: skip

_WORDS = {
    "stage": Slot(term=("stage:*",), many=True, weight=0.1),
    "bread": Slot(term=("bread:*",)),
    "piece": Slot(term=("piece:*",), many=True),
    "fridge_word": Slot(term=("cue:fridge", "step_left:retard", "so_far:shaped"), weight=-0.5),
    "cold": Slot(term=("feeding:cold",), weight=-0.4),
    "preferment": Slot(term=("preferment:*",)),
    "grain": Slot(term=WHOLEGRAIN, weight=-0.3),
    "fan": Slot(term=("cue:fan",)),
    "hob": Slot(term=("hob:*",), weight=0.1),
    "pot": Slot(term=("cue:pot",), weight=-0.6),
    "without": Slot(term=("ingredient:salt*", "cue:salt", "ingredient:starter*", "cue:starter",
    "ingredient:yeast*"), without=True, many=True),
}  # fmt: skip

SLOTS = {**_WARMTHS, **_SHARES, **_HOURS, **_MASSES, **_WORDS}

CUES = {
    "ask:how_long": 3.0, "ask:when": 0.9, "ask:too_long": 1.8, "ask:how_to_see": 1.8, "stage:*": 1.0,
    "stage:boiling_point": 4.0,
    "look:*": 0.5, "look:done": 2.4, "look:proofing_box": 2.0, "look:leave_out": 1.5, "look:until": 0.2,
    "ask:how_far": 3.0, "ask:how_warm": 2.4, "ask:lasts": 1.4, "look:done_by": 1.2, "heat:reach": 0.6,
    "cue:pieces": 0.1, "cue:flour": 0.0, "cue:water": 0.0, "feeding:equal_parts": 2.0,
    "heat:kilowatt": 0.6, "heat:watt": 0.6, "cue:pot": 0.1,
    "span:*": 0.3, "ask:is_it": 0.3, "ask:what": 0.3, "ask:what_if": 0.9, "act:use": 0.8, "ask:can_i": 0.3,
    "cue:fridge": 0.4, "cue:kitchen": 0.3, "cue:place": 0.3,
    "cue:dough": 0.2, "act:change": 0.9, "act:same": 1.5, "feeding:cold": 0.8, "cue:percentages": 0.3,
    "look:begun": 1.6, "look:feel": 0.2, "act:make": 0.1, "topic:cold_kitchen": 1.2, "ingredient:yeast*": 0.2,
    "yeast_kind:*": 0.2, "act:correct": 0.3, "so_far:*": 0.2, "cue:limit": 0.2,
    "cue:only_this": 0.2, "link:instead": 0.3, "heat:degrees": 0.1,
    "cue:oven": 0.2, "cue:starter": 0.1, "look:bowl": 0.3, "ask:how_much": 0.1,
    "ask:oven_heat": 3.0, "ask:*": 0.1, "holds:oven": 0.2,
    "cue:risen": 1.0, "mistake:poured": 0.0, "mistake:meant": 0.2, "mistake:rescue": 0.2, "hazard:left_out": 0.2,
    "kept:bakes": 0.0, "feeding:keep": 0.0, "heat:core": 0.2, "sought:share": 1.2,
    "unit:minutes": 2.0, "unit:hours": 2.0, "ingredient:honey": 0.0,
    "cue:use_up": 0.0, "topic:rye_dough": 0.2,
    "cue:night": 0.3, "feeding:feed": 0.3, "stand:where": 0.3, "stand:left": 0.3,
}  # fmt: skip

NEEDS = (
    "ask:how_long", "ask:too_long", "stage:*", "look:risen", "look:doubled", "look:left", "ask:how_to_see",
    "slot:ratio", "slot:lasts_min", "look:begun", "look:done", "slot:window",
    "look:leave_out", "look:came_out", "slot:risen_now",
    "ask:oven_heat", "slot:preferment", "unit:minutes", "unit:hours", "heat:reach",
    "ask:how_far", "ask:how_warm", "ask:lasts",
)  # fmt: skip
