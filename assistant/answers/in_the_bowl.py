"""What several answers share: the dough in hand as a bowl, amounts in words, its cautions, how long its bulk takes."""

from __future__ import annotations

import math
from collections.abc import Iterable

from assistant.answers.dough_said import solved
from assistant.engine.altitude import boiling_point_c, pressure_ratio
from assistant.engine.bowl import STARTER, Bowl, bowl_of
from assistant.engine.cautions import Scene, allergen_line, cautions, first_time, label_line
from assistant.engine.composition import Portion
from assistant.engine.fermentation import forecast
from assistant.engine.growth import fresh_from_dry_pct, kinetics
from assistant.engine.naming import figure, grams, short_name
from assistant.engine.rising import Dough
from assistant.engine.shelf import Shelf
from assistant.engine.temperature_path import Leg, Path
from assistant.talk.room import Room
from assistant.voice.page import Line
from knowledge.records.cautions import Caution
from knowledge.records.kin import Kin
from knowledge.records.kinetics import Kinetic
from knowledge.records.swaps import Swap
from knowledge.records.traces import Trace

HEARD = "cautions_heard"
BULK_RISE_PCT = 50.0


def bowl_in_hand(room: Room) -> Bowl | None:
    """The dough in hand, row by row; None without one. Raises Refused where it can no longer be solved."""
    said = room.formula_said
    return bowl_of(solved(said, room), room.kb.ingredients) if said is not None else None


def bread_in_hand(room: Room) -> str | None:
    """The bread of the dough in hand: the one named, else the one its pieces most plausibly are."""
    said = room.formula_said
    if said is None:
        return None
    word = room.kb.words.get(f"piece {said.piece}") if said.piece else None
    return said.bread or (word.bread if word is not None else None)


def shelf(room: Room) -> Shelf:
    """The facts swaps are drawn from."""
    kb = room.kb
    return Shelf(kb.all(Swap), kb.all(Kin), kb.all(Trace), kb.ingredients)


def name_of(item: str, room: Room) -> str:
    """What a baker calls it."""
    if item == STARTER:
        return "starter"
    return short_name(room.kb.ingredients[item]) if item in room.kb.ingredients else item.replace("_", " ")


def amount(portion: Portion, room: Room, sign: bool = False) -> str:
    """`122 g honey`; with `sign` for corrections `21 g less water`, `18 g more water`."""
    name = name_of(portion.item, room)
    if not sign:
        return f"{weight(portion.g)} {name}"
    return f"{weight(abs(portion.g))} {'less' if portion.g < 0 else 'more'} {name}"


def weight(g: float) -> str:
    """Grams for the scale: whole from 10 g, 0.1 g below."""
    return f"{grams(g)} g"


def amounts(portions: Iterable[Portion], room: Room) -> str:
    """`122 g honey and 5 g salt`."""
    words = [amount(portion, room) for portion in portions]
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " and " + words[-1]


def rows(portions: Iterable[Portion]) -> list[dict[str, object]]:
    """The machine form of a list of weights."""
    return [{"item": portion.item, "g": portion.g} for portion in portions]


def notes(
    scene: Scene, room: Room, dough: Iterable[str] = (), labels: bool = True
) -> tuple[tuple[str, ...], tuple[Line, ...]]:
    """Cautions for a reply: all of them for programs, and the lines the page shows.

    dough: ids whose allergens are named. A mild note the bake in hand has heard stays off the page.
    """
    heard = frozenset(room.bake.facts.get(HEARD, ())) if room.bake is not None else frozenset()
    found = cautions(scene, room.kb.all(Caution), room.kb.ingredients)
    inside = list(dough)
    named = allergen_line(inside, room.kb.ingredients) if inside else None
    label = label_line(inside, room.kb.all(Trace), room.kb.ingredients) if inside and labels else None
    told = tuple(text for text in (named, label) if text is not None)
    shown = tuple(caution.text for caution in first_time(found, frozenset(heard)))
    return (*(caution.text for caution in found), *told), tuple(Line(text, role="warn") for text in (*shown, *told[:1]))


def boil_c(room: Room) -> float:
    """The boiling point at the kitchen's altitude, degrees Celsius."""
    return boiling_point_c(room.kb.all(Kinetic), float(room.setting("altitude_m") or 0.0))


def bulk_words(bowl: Bowl, room: Room) -> str | None:
    """`4 to 6 h at 22 °C`: the bulk this dough needs to rise by half; None without a leaven."""
    foods = room.kb.ingredients
    whole = bowl.holds(foods)
    k = kinetics(room.kb.all(Kinetic))
    outside_g = whole.flour_g - bowl.starter_flour_g
    if outside_g <= 0 or whole.water_g <= 0:
        return None

    def pct(item: str) -> float:
        return 100 * bowl.g(item) / whole.flour_g

    fresh = pct("yeast_fresh") + fresh_from_dry_pct(k, pct("yeast_active_dry"), pct("yeast_instant"))
    if fresh <= 0 and bowl.starter_g <= 0:
        return None
    dough = Dough(
        hydration_pct=100 * whole.water_g / whole.flour_g,
        salt_pct=bowl.salt_pct(foods) or 0.0,
        starter_pct=100 * bowl.starter_g / outside_g,
        starter_hydration_pct=bowl.starter_hydration_pct,
        yeast_fresh_pct=fresh,
        sugar_pct=100 * whole.sugar_g / whole.flour_g,
        pressure_ratio=pressure_ratio(room.kb.all(Kinetic), float(room.setting("altitude_m") or 0.0)),
    )
    bread = bread_in_hand(room)
    rise = room.kb.breads[bread].rise_bulk_pct if bread is not None and bread in room.kb.breads else None
    steady = Path(room.kitchen_c, (Leg(math.inf, room.kitchen_c, room.kitchen_c),))
    seen = forecast(k, dough, steady, rise or BULK_RISE_PCT)
    if not math.isfinite(seen.minutes):
        return None
    low, high = (max(round(minutes / 30) / 2, 0.5) for minutes in (seen.low_min, seen.high_min))
    return f"{figure(low)} to {figure(high)} h at {figure(room.kitchen_c)} °C"
