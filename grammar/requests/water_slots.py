"""What a line about water may hold: the temperatures by what they are of, the masses, the words beside them."""

from __future__ import annotations

from grammar.levels import SURE, speaks
from grammar.roles import take
from grammar.slots import Slot

STARTER = ("ingredient:starter*", "cue:starter", "preferment:*", "cue:preferment")
FLOUR = ("ingredient:flour*", "cue:flour")
WATER = ("ingredient:water", "cue:water")
MILK = ("ingredient:milk*", "ingredient:buttermilk*", "ingredient:whey*")
COLD = ("feeding:cold", "cue:fridge", "cold:*", "look:freezer")
TEMPS = ("came_out_c", "meant_c", "target_c", "flour_c", "room_c", "starter_c", "tap_c", "bowl_c", "from_c")

SLOTS = {
    "target_c": Slot(
        {"temperature": 1.0, "num": 0.4}, cues=("heat:dough_temp", "cue:dough", "cue:target"), bare=0.3, low=15,
        high=110,
        links={"for": 0.6, "at": 0.3, "change": 0.5, "to": 0.3},
    ),
    "flour_c": Slot({"temperature": 1.0, "num": 0.45}, cues=(*FLOUR, "heat:flour_temp"), low=-5, high=110, shares=True),
    "room_c": Slot({"temperature": 1.0, "num": 0.45}, cues=("cue:kitchen", "span:now"), low=-5, high=110),
    "starter_c": Slot({"temperature": 1.0, "num": 0.4}, cues=(*STARTER, "heat:starter_temp", *COLD),
    low=-1, high=100, shares=True, strict=True),
    "bowl_c": Slot({"temperature": 1.0, "num": 0.45}, cues=("heat:bowl",), low=-5, high=60),
    "milk_c": Slot({"temperature": 1.0, "num": 0.45}, cues=MILK, low=-1, high=60),
    "tap_c": Slot({"temperature": 1.0, "num": 0.45}, cues=("cue:tap", "heat:cold_water"), low=1, high=40),
    "from_c": Slot({"temperature": 1.0, "num": 0.4}, bare=-1.4, low=0, high=60, links={"from": 2.4},
    where=("heat:ice", "heat:kettle", "heat:no_thermometer")),
    "need_c": Slot(
        {"temperature": 0.9, "num": 0.3}, cues=(*WATER, "mistake:water_was", "heat:ice", "heat:no_thermometer",
        "heat:kettle"),
        bare=-0.1, low=0, high=60,
        links={"at": 0.7}, weight=-0.2,
    ),
    "kettle_c": Slot(
        {"temperature": 1.0, "num": 0.45}, cues=("heat:kettle",), low=80, high=212, strict=True, weight=1.0,
    ),
    "friction_c": take("friction_c", cues=("cue:friction", "mixing:*"), high=30),
    "water_g": Slot({"mass": 1.0, "volume": 0.9}, cues=(*WATER, "heat:cold_water"), bare=0.2, low=20, high=60000),
    "water_figure_g": Slot({"num": 0.3}, cues=WATER, low=120, high=60000, strict=True),
    "flour_g": Slot({"mass": 1.0}, cues=(*FLOUR, "heat:flour_temp"), low=50, high=60000),
    "dough_g": Slot({"mass": 1.0}, cues=("cue:dough",), low=100, high=90000, weight=-0.1),
    "starter_g": Slot({"mass": 1.0}, cues=STARTER, low=5, high=20000),
    "starter_figure_g": Slot({"num": 0.5}, cues=STARTER, low=101, high=20000, strict=True),
    "milk_g": Slot({"mass": 1.0, "volume": 0.9}, cues=MILK, low=20, high=60000),
    "hydration_pct": Slot({"pct": 1.0}, cues=("cue:hydration",), bare=0.2, low=45, high=115),
    "starter_pct": Slot({"pct": 1.0}, cues=STARTER, bare=0.1, low=1, high=44),
    "salt_g": take("part_g", dims={"mass": SURE}, cues=("ingredient:salt*", "cue:salt"), low=0.5, high=2000, links={}),
    "salt_pct": Slot({"pct": 1.0}, cues=("ingredient:salt*", "cue:salt"), low=0.2, high=4),
    "flour_cups": Slot({"volume": 1.0}, cues=FLOUR, low=1, high=20000),
    "pieces": Slot({"num": 0.6}, cues=("piece:*", "bread:*"), low=1, high=400, role="count", weight=-0.2,
    where=("heat:water_temp", "ask:how_warm")),
    "came_out_c": Slot({"temperature": 1.0, "num": 0.4}, cues=("look:came_out",), low=10, high=110, weight=0.2),
    "meant_c": Slot(
        {"temperature": 1.0, "num": 0.4}, cues=("mistake:meant", "stance:called_for", "look:came_out"), low=10,
        high=110, where=("mistake:water_was",),
    ),
    "grain": Slot(term=("ingredient:flour_rye*",), many=True, weight=-0.2),
    "milk": Slot(term=MILK, weight=-0.2),
    "mix_min": Slot({"time": SURE}, cues=("mixing:*", "stage:knead"), low=0.5, high=60),
    "mixing": Slot(term=("mixing:*",), weight=0.1),
    "cold_starter": Slot(term=("feeding:cold",)),
    "day": Slot({"moment": 0.0}, bare=0.0, weight=-0.3),
    "absent": Slot(term=STARTER, without=True, many=True),
    "bread": Slot(term=("bread:*", "piece:*"), many=True, weight=-0.2),
}  # fmt: skip

CUES = speaks(
    alone="heat:water_temp heat:dough_asked",
    telling="ask:how_warm heat:which_water ask:too_hot",
    certain="mistake:water_was ingredient:water cue:water heat:ice heat:no_thermometer cue:tap feeding:cold",
    sure="heat:* heat:kettle cue:friction cue:kitchen act:correct ask:what_else",
    likely="heat:degrees ask:what ask:what_if act:change",
    maybe="heat:onto_cold mixing:* cue:dough ask:how_much ask:how_to mistake:meant link:instead cue:target ask:*",
    seldom=(
        "mistake:in_bowl look:sits stance:called_for ask:is_it act:add cue:fridge act:make cue:only_this "
        "cue:limit cue:starter heat:both heat:alike ask:can_i cue:flour act:use stage:knead topic:kneading"
    ),
    heard="look:bowl ask:first step:retard stance:must*",
    against="ask:how_long ask:when",
)  # fmt: skip

NEEDS = (
    "mistake:water_was",
    "heat:water_temp", "heat:which_water", "heat:ice", "heat:no_thermometer", "heat:kettle", "ingredient:water",
    "cue:water", "cue:tap", "heat:dough_temp", "slot:flour_c", "heat:dough_asked", "slot:room_c", "slot:milk_c",
)  # fmt: skip
