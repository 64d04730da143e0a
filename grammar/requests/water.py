"""Water for a dough temperature; ice; warm water without a thermometer."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace

from grammar.frames import Bound, Frame, Slot
from grammar.requests.timing import said
from grammar.requests.warmth import WARMEST_C, degrees_of, difference_c

STARTER = ("ingredient:starter*", "cue:starter", "preferment:*", "cue:preferment")
HOTTEST_WATER_C = 60.0
"""A bare figure above this, said of water, is Fahrenheit."""
FLOUR = ("ingredient:flour*", "cue:flour")
WATER = ("ingredient:water", "cue:water")


@dataclass(frozen=True, slots=True)
class WaterRequest:
    """water temp for 25 dough, flour 21
    kitchen 23, flour 22, friction 3, I want 25: what water
    650 g water at 8, tap is 20, how much ice
    no thermometer, tap is 14, need 600 g at 32

    Only what was said; None means unsaid. Degrees Celsius, grams, % of flour.
    """

    target_c: float | None = None
    flour_c: float | None = None
    room_c: float | None = None
    starter_c: float | None = None
    starter_cold: bool = False
    tap_c: float | None = None
    need_c: float | None = None  # the water's own temperature, where that was asked for
    friction_c: float | None = None
    allowance: bool = False  # the friction said is the trade rule's sum
    mixing: str | None = None
    water_g: float | None = None
    flour_g: float | None = None
    dough_g: float | None = None
    starter_g: float | None = None
    hydration_pct: float | None = None
    starter_pct: float | None = None
    salt_pct: float | None = None
    no_starter: bool = False
    dissolved: bool = False
    came_out_c: float | None = None  # a dough that was: its own warmth, and the water it was mixed with
    was_water_c: float | None = None
    rye: bool = False
    no_thermometer: bool = False
    ice: bool = False
    judged: bool = False  # "is 50 C water all right"
    with_starter: bool = False
    degrees_said: tuple[str, ...] = ()

    def onto(self, earlier: object, bound: Bound) -> WaterRequest:
        """This line as a change to the question before it."""
        if not isinstance(earlier, WaterRequest):
            return self
        if (
            self.target_c is not None
            and (self.flour_c is not None or self.room_c is not None)
            and bound.said("heat:water_temp")
        ):
            return self
        changes = {one.name: getattr(self, one.name) for one in fields(self) if said(getattr(self, one.name))}
        kept = earlier
        if self.need_c is None and (self.target_c is not None or self.flour_c is not None or self.room_c is not None):
            kept = replace(kept, need_c=None, judged=False)
        return replace(kept, **changes)


SLOTS = {
    "target_c": Slot(
        {"temperature": 1.0, "num": 0.4}, cues=("heat:dough_temp", "cue:dough", "cue:target"), bare=0.5, low=15,
        high=110,
        links={"for": 0.6, "at": 0.3, "change": 0.5},
    ),
    "flour_c": Slot({"temperature": 1.0, "num": 0.45}, cues=(*FLOUR, "heat:flour_temp"), low=-5, high=110, shares=True),
    "room_c": Slot({"temperature": 1.0, "num": 0.45}, cues=("cue:kitchen", "span:now"), low=-5, high=110),
    "starter_c": Slot({"temperature": 1.0, "num": 0.4}, cues=(*STARTER, "heat:starter_temp", "feeding:cold",
    "cue:fridge"), low=-1, high=100, shares=True),
    "tap_c": Slot({"temperature": 1.0, "num": 0.45}, cues=("cue:tap",), low=1, high=100),
    "need_c": Slot(
        {"temperature": 0.9, "num": 0.3}, cues=(*WATER, "heat:ice", "heat:no_thermometer", "heat:kettle"),
        bare=-0.1, low=0, high=60,
        links={"at": 0.7}, weight=-0.2,
    ),
    "friction_c": Slot({"temperature": 1.0, "num": 0.5}, cues=("cue:friction", "mixing:*"), low=0, high=30),
    "water_g": Slot({"mass": 1.0, "volume": 0.9}, cues=WATER, bare=0.2, low=20, high=60000),
    "water_figure_g": Slot({"num": 0.3}, cues=WATER, low=120, high=60000),
    "flour_g": Slot({"mass": 1.0}, cues=(*FLOUR, "heat:flour_temp"), low=50, high=60000),
    "dough_g": Slot({"mass": 1.0}, cues=("cue:dough",), low=100, high=90000, weight=-0.1),
    "starter_g": Slot({"mass": 1.0}, cues=STARTER, low=5, high=20000),
    "hydration_pct": Slot({"pct": 1.0}, cues=("cue:hydration",), bare=0.2, low=45, high=115),
    "starter_pct": Slot({"pct": 1.0}, cues=STARTER, bare=0.1, low=1, high=44),
    "salt_pct": Slot({"pct": 1.0}, cues=("ingredient:salt*", "cue:salt"), low=0.2, high=4),
    "flour_cups": Slot({"volume": 1.0}, cues=FLOUR, low=1, high=20000),
    "came_out_c": Slot({"temperature": 1.0, "num": 0.4}, cues=("look:came_out",), low=10, high=110, weight=0.2),
    "grain": Slot(term=("ingredient:flour_rye*",), many=True, weight=-0.2),
    "mixing": Slot(term=("mixing:*",), weight=0.1),
    "cold_starter": Slot(term=("feeding:cold",)),
    "absent": Slot(term=STARTER, without=True, many=True),
    "bread": Slot(term=("bread:*", "piece:*"), many=True, weight=-0.2),
}  # fmt: skip
_TEMPS = ("came_out_c", "target_c", "flour_c", "room_c", "starter_c", "tap_c")


def build(bound: Bound) -> WaterRequest | None:
    """The request; None where no temperature of water is asked about."""
    degrees = degrees_of(bound, _TEMPS)

    def warmth(slot: str) -> float | None:
        hit = bound.first(slot)
        return degrees.celsius(hit.amount, WARMEST_C) if hit else None

    target_c, tap_c = warmth("target_c"), warmth("tap_c")
    need_hit = bound.first("need_c")
    need_c = degrees.celsius(need_hit.amount, HOTTEST_WATER_C) if need_hit else None
    flour_c, room_c = warmth("flour_c"), warmth("room_c")
    cups = bound.first("flour_cups")
    if cups is not None and flour_c is None and cups.amount is not None and cups.amount.quantity is not None:
        flour_c = cups.amount.quantity.value  # "12 c flour" beside other temperatures is no measure
    if target_c is None and need_c is not None and (flour_c is not None or room_c is not None):
        target_c, need_c = need_c, None  # "water for 25, flour 22": the dough's temperature
    came_out_c, was_water_c = warmth("came_out_c"), None
    if came_out_c is not None and need_c is not None and target_c is not None:
        was_water_c, need_c = need_c, None
    asks_temp = bound.said("heat:water_temp", "heat:ice", "heat:no_thermometer")
    mixes = bound.said("heat:kettle") and tap_c is not None
    if (
        (bound.said("heat:ice", "heat:no_thermometer") or mixes or (tap_c is not None and bound.first("water_g")))
        and need_c is None
        and flour_c is None
        and room_c is None
    ):
        target_c, need_c = None, target_c  # "650 g at 8": the water's own temperature
    follows = bound.context.focus == "water"
    figures = (target_c, flour_c, room_c, tap_c, need_c, warmth("starter_c"))
    alone = target_c is None and tap_c is None and flour_c is None and room_c is None and bound.first("water_g") is None
    named_c = (
        need_hit is not None
        and need_hit.amount is not None
        and need_hit.amount.dim == "temperature"
        and need_hit.label is not None
    )
    judged = alone and named_c and not asks_temp and bound.context.focus != "water"
    all_three = target_c is not None and (
        (room_c is not None and bound.said("cue:dough"))
        or (flour_c is not None and room_c is not None)
        or (bound.said("heat:dough_temp") and (flour_c is not None or room_c is not None))
    )
    if not asks_temp and not mixes and not judged and not all_three:
        named = bound.said("ingredient:water", "cue:water") and (
            (
                target_c is not None
                and (flour_c is not None or room_c is not None or bound.said("heat:dough_temp", "cue:dough", "ask:*"))
            )
            or (tap_c is not None and need_c is not None)
        )
        if not named and not (follows and (any(x is not None for x in figures) or bound.hits)):
            return None
    water_g = bound.base("water_g") or bound.base("water_figure_g")
    friction_hit = bound.first("friction_c")
    friction_c = difference_c(friction_hit.amount, degrees) if friction_hit else None
    said_factor = (
        friction_hit is not None and friction_hit.label is not None and "factor" in friction_hit.label.text.lower()
    )
    no_starter = any(not hit.ids("mixing") for hit in bound.of("absent"))
    return WaterRequest(
        target_c=target_c,
        flour_c=flour_c,
        room_c=room_c,
        starter_c=warmth("starter_c"),
        starter_cold=bound.said("feeding:cold", "cue:fridge"),
        tap_c=tap_c,
        need_c=need_c,
        friction_c=friction_c,
        allowance=said_factor,
        mixing=bound.term("mixing", "mixing") or _mixing(bound),
        water_g=water_g,
        flour_g=bound.base("flour_g"),
        dough_g=bound.base("dough_g"),
        starter_g=bound.base("starter_g"),
        hydration_pct=bound.base("hydration_pct"),
        starter_pct=bound.base("starter_pct"),
        salt_pct=bound.base("salt_pct"),
        no_starter=no_starter,
        dissolved=False,
        came_out_c=came_out_c,
        was_water_c=was_water_c,
        rye=bound.first("grain") is not None,
        no_thermometer=bound.said("heat:no_thermometer") or mixes,
        ice=bound.said("heat:ice"),
        judged=judged,
        with_starter=judged and bound.said("cue:starter", "ingredient:starter*"),
        degrees_said=degrees.remarks,
    )


def _mixing(bound: Bound) -> str | None:
    return next((name for phrase in bound.phrases for name in phrase.ids("mixing")), None)


FRAME = Frame(
    WaterRequest,
    "water",
    build,
    slots=SLOTS,
    cues={
        "heat:*": 0.8, "heat:water_temp": 4.8, "heat:ice": 1.6, "heat:no_thermometer": 2.0, "heat:kettle": 0.8,
        "heat:degrees": 0.6,
        "ingredient:water": 0.9, "cue:water": 0.9, "cue:tap": 1.6, "cue:friction": 1.2, "mixing:*": 0.4,
        "cue:dough": 0.2,
        "cue:kitchen": 0.9, "ask:what": 0.6, "ask:how_much": 0.4, "ask:what_if": 0.6, "ask:how_to": 0.3,
        "ask:is_it": 0.1, "act:change": 0.6,
        "feeding:cold": 2.0, "cue:fridge": 0.1, "link:instead": 0.2, "act:make": 0.1, "cue:only_this": 0.1,
        "cue:limit": 0.1, "cue:starter": 0.1,
        "ask:can_i": 0.1, "cue:flour": 0.1, "act:use": 0.1, "ask:how_long": -1.0, "ask:when": -0.5,
        "cue:target": 0.2, "ask:*": 0.3, "ask:what_else": 1.0,
    },
    needs=("heat:water_temp", "heat:ice", "heat:no_thermometer", "heat:kettle", "ingredient:water", "cue:water",
    "cue:tap", "heat:dough_temp", "slot:flour_c",
           "slot:room_c"),
    rules_out=("symptom:*", "stage:bulk", "stage:proof"),
)  # fmt: skip
