"""Water for a dough temperature and the dough from a water; ice; kettle and tap; milk."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.follow import Follow, changes, put_onto, without
from grammar.frames import Bound, Frame, fits
from grammar.levels import LIKELY
from grammar.requests.warmth import difference_c
from grammar.requests.water_slots import CUES, NEEDS, SLOTS
from grammar.requests.water_warmth import Parts, blends, parts_said


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
    mix_min: float | None = None
    water_g: float | None = None
    flour_g: float | None = None
    dough_g: float | None = None
    starter_g: float | None = None
    hydration_pct: float | None = None
    starter_pct: float | None = None
    salt_pct: float | None = None
    salt_g: float | None = None
    no_starter: bool = False
    dissolved: bool = False
    came_out_c: float | None = None  # a dough that was: its own warmth, and the water it was mixed with
    was_water_c: float | None = None
    rye: bool = False
    bowl_c: float | None = None
    milk: str | None = None  # the liquid is milk: its id
    milk_c: float | None = None  # milk beside the water, at its own temperature
    milk_g: float | None = None
    predicts: bool = False  # the dough is asked about, `was_water_c` is the water's
    cold_g: float | None = None  # cold water that is there already, to be warmed from the kettle
    bread: str | None = None
    piece: str | None = None
    no_thermometer: bool = False
    ice: bool = False
    degrees_said: tuple[str, ...] = ()
    fahrenheit: bool = False  # bare figures were in it


def _of_its_own(line: WaterRequest, earlier: WaterRequest, bound: Bound) -> bool:
    """Whether a line asks for water of its own: for a dough so warm, of flour or in a room so warm."""
    told = line.target_c is not None and (line.flour_c is not None or line.room_c is not None)
    return told and bound.said("heat:water_temp")


def _followed(line: WaterRequest, earlier: WaterRequest, bound: Bound) -> WaterRequest:
    """The question before with what a line says in the place of the same; bare degrees are of the same sort as its."""
    again = build(bound, fahrenheit=True) if earlier.fahrenheit and not line.fahrenheit else None
    if line.target_c is not None and (line.flour_c is not None or line.room_c is not None):
        earlier = without(earlier, "came_out_c", "was_water_c")  # another dough than the one that was told of
    if line.mixing is not None and line.mixing != earlier.mixing:
        earlier = without(earlier, "friction_c", "allowance")  # another way of mixing warms it otherwise
    return put_onto(earlier, changes(again or line), dict.fromkeys(("target_c", "flour_c", "room_c"), _ASKED))


_ASKED = ("need_c",)
"""What was asked of a warmth that is another now."""


def build(bound: Bound, fahrenheit: bool = False) -> WaterRequest | None:
    """The request; None where no temperature of water, or of a dough from water, is asked about."""
    parts = parts_said(bound, fahrenheit)
    predicts = bound.said("heat:dough_asked") and parts.was_water_c is not None and parts.came_out_c is None
    if not (predicts or _asked(bound, parts)):
        return None
    friction = bound.first("friction_c")
    water_g = bound.base("water_g") or bound.base("water_figure_g")
    onto = _onto_cold(bound)
    milk = next((name for phrase in bound.phrases for name in phrase.ids("ingredient") if _is_milk(name)), None)
    if milk is None and bound.said("heat:milk_temp"):
        milk = "milk_whole"
    return WaterRequest(
        target_c=parts.target_c,
        flour_c=parts.flour_c,
        room_c=parts.room_c,
        starter_c=parts.starter_c,
        starter_cold=bound.said("feeding:cold", "cue:fridge") and not parts.cold_is_others,
        tap_c=parts.tap_c,
        need_c=parts.need_c,
        friction_c=difference_c(friction.amount, parts.degrees) if friction else None,
        allowance=friction is not None and friction.label is not None and "factor" in friction.label.text.lower(),
        mixing=bound.term("mixing", "mixing") or _mixing(bound),
        mix_min=bound.base("mix_min"),
        water_g=None if onto else water_g,
        cold_g=water_g if onto else None,
        flour_g=bound.base("flour_g"),
        dough_g=bound.base("dough_g"),
        starter_g=bound.base("starter_g") or bound.base("starter_figure_g"),
        hydration_pct=bound.base("hydration_pct"),
        starter_pct=bound.base("starter_pct"),
        salt_pct=bound.base("salt_pct"),
        salt_g=bound.base("salt_g"),
        no_starter=any(not hit.ids("mixing") for hit in bound.of("absent")),
        dissolved=False,
        came_out_c=parts.came_out_c,
        was_water_c=parts.was_water_c,
        predicts=predicts,
        bowl_c=parts.bowl_c,
        milk=milk,
        milk_c=parts.milk_c,
        milk_g=bound.base("milk_g"),
        bread=bound.term("bread", "bread") or bound.term("pieces", "bread"),
        piece=bound.term("bread", "piece") or bound.term("pieces", "piece"),
        rye=bound.first("grain") is not None,
        no_thermometer=bound.said("heat:no_thermometer") or (bound.said("heat:kettle") and parts.tap_c is not None),
        ice=bound.said("heat:ice"),
        degrees_said=parts.degrees.remarks,
        fahrenheit=parts.degrees.fahrenheit,
    )


_WATER = ("ingredient:water", "cue:water", "heat:which_water")


def _asked(bound: Bound, parts: Parts) -> bool:
    """Whether the water's temperature is asked for, or a question about it goes on."""
    wets = bound.said(*_WATER) or bound.first("milk") or bound.first("milk_c")
    warmly = bound.said("ask:how_warm", "heat:degrees") and bool(wets)
    if bound.said("heat:water_temp", "heat:ice", "heat:no_thermometer") or warmly or blends(bound, parts):
        return True
    told = parts.came_out_c is not None and parts.was_water_c is not None
    if told or (bound.said("heat:kettle") and parts.tap_c is not None):
        return True
    target, flour, room = parts.target_c, parts.flour_c, parts.room_c
    if bound.said("ask:how_long", "ask:when") and not wets:
        return False
    if target is not None and (
        (room is not None and bound.said("cue:dough"))
        or (flour is not None and room is not None)
        or (bound.said("heat:dough_temp") and (flour is not None or room is not None))
    ):
        return True
    placed = flour is not None or room is not None or bound.said("heat:dough_temp", "cue:dough", "ask:*")
    named = (target is not None and placed) or (parts.tap_c is not None and parts.need_c is not None)
    if named and bound.said(*_WATER):
        return True
    return bound.context.focus == "water" and (parts.any or bool(bound.hits))


def _onto_cold(bound: Bound) -> bool:
    """Whether the mass said is of cold water that is there already, to be warmed from the kettle."""
    hit = bound.first("water_g")
    named = hit is not None and hit.label is not None and fits(hit.label, ("heat:cold_water",))
    cold = named or (hit is not None and "at_hand" in hit.meant)
    return bound.said("heat:kettle") and (cold or bound.said("heat:onto_cold", "act:add"))


def _is_milk(name: str) -> bool:
    return name.startswith(("milk", "buttermilk", "whey"))


def _mixing(bound: Bound) -> str | None:
    return next((name for phrase in bound.phrases for name in phrase.ids("mixing")), None)


FRAME = Frame(
    WaterRequest,
    "water",
    build,
    follow=Follow(alone=_of_its_own, account=_followed),
    slots=SLOTS,
    cues=CUES,
    base=LIKELY,
    needs=NEEDS,
    rules_out=("symptom:*", "stage:bulk", "stage:proof", "cue:hydration"),
)
