"""What a line about water may hold: the temperatures by what they are of, the masses, the words beside them."""

from __future__ import annotations

from grammar.frames import Slot
from grammar.levels import SURE
from grammar.roles import take

STARTER = ("ingredient:starter*", "cue:starter", "preferment:*", "cue:preferment")
FLOUR = ("ingredient:flour*", "cue:flour")
WATER = ("ingredient:water", "cue:water")
MILK = ("ingredient:milk*", "ingredient:buttermilk*", "ingredient:whey*")
COLD = ("feeding:cold", "cue:fridge", "cold:*", "look:freezer")
TEMPS = ("came_out_c", "target_c", "flour_c", "room_c", "starter_c", "tap_c", "bowl_c", "from_c")

SLOTS = {
    "target_c": Slot(
        {"temperature": 1.0, "num": 0.4}, cues=("heat:dough_temp", "cue:dough", "cue:target"), bare=0.3, low=15,
        high=110,
        links={"for": 0.6, "at": 0.3, "change": 0.5, "to": 0.3},
    ),
    "flour_c": Slot({"temperature": 1.0, "num": 0.45}, cues=(*FLOUR, "heat:flour_temp"), low=-5, high=110, shares=True),
    "room_c": Slot({"temperature": 1.0, "num": 0.45}, cues=("cue:kitchen", "span:now"), low=-5, high=110),
    "starter_c": Slot({"temperature": 1.0, "num": 0.4}, cues=(*STARTER, "heat:starter_temp", *COLD),
    low=-1, high=100, shares=True),
    "bowl_c": Slot({"temperature": 1.0, "num": 0.45}, cues=("heat:bowl",), low=-5, high=60),
    "milk_c": Slot({"temperature": 1.0, "num": 0.45}, cues=MILK, low=-1, high=60),
    "tap_c": Slot({"temperature": 1.0, "num": 0.45}, cues=("cue:tap", "heat:cold_water"), low=1, high=40),
    "from_c": Slot({"temperature": 1.0, "num": 0.4}, bare=-1.4, low=0, high=60, links={"from": 2.4},
    where=("heat:ice", "heat:kettle", "heat:no_thermometer")),
    "need_c": Slot(
        {"temperature": 0.9, "num": 0.3}, cues=(*WATER, "heat:ice", "heat:no_thermometer", "heat:kettle"),
        bare=-0.1, low=0, high=60,
        links={"at": 0.7}, weight=-0.2,
    ),
    "kettle_c": Slot(
        {"temperature": 1.0, "num": 0.45}, cues=("heat:kettle",), low=80, high=212, strict=True, weight=1.0,
    ),
    "friction_c": take("friction_c", cues=("cue:friction", "mixing:*"), high=30),
    "water_g": Slot({"mass": 1.0, "volume": 0.9}, cues=(*WATER, "heat:cold_water"), bare=0.2, low=20, high=60000),
    "water_figure_g": Slot({"num": 0.3}, cues=WATER, low=120, high=60000),
    "flour_g": Slot({"mass": 1.0}, cues=(*FLOUR, "heat:flour_temp"), low=50, high=60000),
    "dough_g": Slot({"mass": 1.0}, cues=("cue:dough",), low=100, high=90000, weight=-0.1),
    "starter_g": Slot({"mass": 1.0}, cues=STARTER, low=5, high=20000),
    "milk_g": Slot({"mass": 1.0, "volume": 0.9}, cues=MILK, low=20, high=60000),
    "hydration_pct": Slot({"pct": 1.0}, cues=("cue:hydration",), bare=0.2, low=45, high=115),
    "starter_pct": Slot({"pct": 1.0}, cues=STARTER, bare=0.1, low=1, high=44),
    "salt_g": take("part_g", dims={"mass": SURE}, cues=("ingredient:salt*", "cue:salt"), low=0.5, high=2000, links={}),
    "salt_pct": Slot({"pct": 1.0}, cues=("ingredient:salt*", "cue:salt"), low=0.2, high=4),
    "flour_cups": Slot({"volume": 1.0}, cues=FLOUR, low=1, high=20000),
    "pieces": Slot({"num": 0.6}, cues=("piece:*", "bread:*"), low=1, high=400, role="count", weight=-0.2,
    where=("heat:water_temp", "ask:how_warm")),
    "came_out_c": Slot({"temperature": 1.0, "num": 0.4}, cues=("look:came_out",), low=10, high=110, weight=0.2),
    "grain": Slot(term=("ingredient:flour_rye*",), many=True, weight=-0.2),
    "milk": Slot(term=MILK, weight=-0.2),
    "mixing": Slot(term=("mixing:*",), weight=0.1),
    "cold_starter": Slot(term=("feeding:cold",)),
    "day": Slot({"moment": 0.0}, bare=0.0, weight=-0.3),
    "absent": Slot(term=STARTER, without=True, many=True),
    "bread": Slot(term=("bread:*", "piece:*"), many=True, weight=-0.2),
}  # fmt: skip

CUES = {
    "heat:which_water": 2.6, "mistake:in_bowl": 0.1, "look:sits": 0.1, "look:bowl": 0.0, "ask:first": 0.0,
    "step:retard": 0.0, "stance:called_for": 0.1, "stance:must*": 0.0,
    "heat:*": 0.8, "heat:water_temp": 4.8, "heat:ice": 1.6, "heat:no_thermometer": 2.0, "heat:kettle": 0.8,
    "heat:degrees": 0.6, "heat:dough_asked": 4.0,  "ask:too_hot": 3.0, "ask:how_warm": 1.6, "heat:onto_cold": 0.2,
    "ingredient:water": 0.9, "cue:water": 0.9, "cue:tap": 1.6, "cue:friction": 1.2, "mixing:*": 0.4,
    "cue:dough": 0.2,
    "cue:kitchen": 0.9, "ask:what": 0.6, "ask:how_much": 0.4, "ask:what_if": 0.6, "ask:how_to": 0.3,
    "ask:is_it": 0.1, "act:change": 0.6, "act:add": 0.1, "act:correct": 0.9, "mistake:meant": 0.3,
    "feeding:cold": 2.0, "cue:fridge": 0.1, "link:instead": 0.2, "act:make": 0.1, "cue:only_this": 0.1,
    "cue:limit": 0.1, "cue:starter": 0.1, "heat:both": 0.1, "heat:alike": 0.1,
    "ask:can_i": 0.1, "cue:flour": 0.1, "act:use": 0.1, "ask:how_long": -1.0, "ask:when": -0.5,
    "cue:target": 0.2, "stage:knead": 0.1, "topic:kneading": 0.1, "ask:*": 0.3, "ask:what_else": 1.0,
}  # fmt: skip

NEEDS = (
    "heat:water_temp", "heat:which_water", "heat:ice", "heat:no_thermometer", "heat:kettle", "ingredient:water",
    "cue:water", "cue:tap", "heat:dough_temp", "slot:flour_c", "heat:dough_asked", "slot:room_c", "slot:milk_c",
)  # fmt: skip
