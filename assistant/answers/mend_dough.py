"""The dough as it was meant before something went wrong: as told, the one in hand, or the usual one."""

from __future__ import annotations

from assistant.answers.in_the_bowl import bowl_in_hand, name_of
from assistant.answers.mend_case import Case, grams_said, item_of
from assistant.engine.bowl import STARTER, Bowl
from assistant.engine.composition import Portion
from assistant.engine.naming import figure
from assistant.talk.room import Room
from grammar.requests.mend_request import MendRequest

USUAL = (Portion("flour_bread", 1000.0), Portion("water", 650.0), Portion("salt_table", 20.0))
USUAL_STARTER_G = 200.0
SAME = 0.02
"""A weight said is the planned one when it is within 2 % of it."""
_SHARES = {
    "salt": 2.0, "water": 65.0, "starter": 20.0, "sugar": 5.0, "fat": 5.0, "malt": 1.0,
    "yeast_instant": 0.7, "yeast_active_dry": 0.7, "yeast_fresh": 2.0,
}  # fmt: skip
"""The usual share of the flour, in %, by the id of an ingredient or by its group."""
_GROWN_ROUND = frozenset({"salt", "sugar", "fat", "malt"})
"""Groups of which too much makes the dough grow."""
_FIGURES = {"water": "65 % hydration", "salt_table": "2 % salt"}


def case_of(request: MendRequest, room: Room) -> Case:
    """The mistake with its dough; weights said in the line win over the dough in hand where they tell of another."""
    foods = room.kb.ingredients
    bowl = bowl_in_hand(room)
    inside = [(item if item != "flour" else "flour_bread", g) for item, g in request.inside]
    flour_g = sum(g for item, g in inside if item in foods and foods[item].group == "flour")
    if bowl is not None and (not flour_g or abs(flour_g - bowl.bowl_flour_g(foods)) <= SAME * flour_g):
        return Case(request, _as_weighed(bowl, request, room), (), True, room)
    if flour_g:
        return _as_told(request, inside, flour_g, room)
    return _usual(request, room)


def _as_told(request: MendRequest, inside: list[tuple[str, float]], flour_g: float, room: Room) -> Case:
    """The dough of the weights in the line, with what was meant of the thing that went wrong."""
    foods = room.kb.ingredients
    item = item_of(request, None, room)
    told = [(name, g) for name, g in inside if name in foods and not name.startswith("starter")]
    rows = [Portion(name, g) for name, g in told if name != item or request.mistake == "wrong"]
    starter_g = sum(g for name, g in inside if name.startswith("starter"))
    water_pct = request.meant_g if request.item[:1] == ("hydration",) else request.meant_pct
    if item is None and water_pct is not None:
        rows.append(Portion("water", flour_g * water_pct / 100))  # "too dry, 1 kg flour, 60 %"
    meant = grams_said(request, request.meant_g, item, room)
    if meant is None and request.meant_pct is not None:
        meant = flour_g * request.meant_pct / 100
    if item is not None and meant is not None and item.startswith("starter"):
        starter_g += meant
    elif item is not None and meant is not None and foods[item].group != "flour":
        rows.append(Portion(item, meant))
    made = Bowl((), starter_g=starter_g).with_added(rows)
    guessed: list[str] = []
    if _wants_the_rest(request, item, room) and made.g("water") <= 0:
        there = {*(row.item for row in rows), *((item,) if request.mistake != "wrong" else ())}
        rest = [Portion(row.item, row.g * flour_g / 1000) for row in USUAL[1:] if row.item not in there]
        made = made.with_added(rest)
        guessed.append(", ".join(_FIGURES[row.item] for row in rest))
    if meant is None and item is not None and made.g(item) <= 0:
        made, words = _usual_row(made, item, flour_g, room)
        guessed += words
    return Case(request, made, tuple(guessed), True, room)


def _usual(request: MendRequest, room: Room) -> Case:
    """The usual dough, at the hydration that was said and the size of the dough that was weighed."""
    usual = Bowl(USUAL, starter_g=USUAL_STARTER_G if "starter" in str(request.item) else 0.0)
    item = item_of(request, None, room)
    meant_pct = request.meant_g if request.item[:1] == ("hydration",) else request.meant_pct
    shares = "65 % hydration, 2 % salt"
    if meant_pct is not None and item is None:
        usual = usual.with_added((Portion("water", 10 * meant_pct - 650.0),))
        shares = f"{figure(meant_pct)} % hydration, 2 % salt"
    if request.dough_g is not None and item is None and request.mistake != "forgot":
        # the dough weighed is the one that came out, with what is too much in it
        there_g = usual.dough_g
        if request.item[:1] == ("hydration",) and request.poured_g is not None and meant_pct is not None:
            there_g += 10 * (request.poured_g - meant_pct)
        return Case(request, usual.times(request.dough_g / there_g), (f"{shares}: no dough in hand",), True, room)
    more: list[str] = []
    if item is not None and usual.g(item) <= 0:
        usual, more = _usual_row(usual, item, 1000.0, room)
    if request.dough_g is not None and request.mistake == "forgot":
        words = ("65 % hydration and 2 % salt: no dough in hand", *more)
        return Case(request, _as_weighed(usual, request, room), words, True, room)
    return Case(request, usual, (f"per 1000 g of flour at {shares}: no dough in hand", *more), False, room)


def _wants_the_rest(request: MendRequest, item: str | None, room: Room) -> bool:
    """Whether the dough may have to grow, so that flour alone would make it dry where only the flour was told."""
    foods = room.kb.ingredients
    grows = request.mistake in ("over", "twice", "ounces") and item is not None and item in foods
    return request.mistake == "wrong" or (grows and foods[str(item)].group in _GROWN_ROUND)


def _as_weighed(bowl: Bowl, request: MendRequest, room: Room) -> Bowl:
    """The dough at the weight that was said of it, where something was forgotten: the weight lacks what is missing."""
    if request.dough_g is None or request.mistake != "forgot":
        return bowl
    item = item_of(request, bowl, room)
    there_g = bowl.dough_g - (bowl.g(item) if item is not None else 0.0)
    factor = request.dough_g / there_g if there_g > 0 else 1.0
    return bowl if abs(factor - 1) <= SAME else bowl.times(factor)


def _usual_row(bowl: Bowl, item: str, flour_g: float, room: Room) -> tuple[Bowl, list[str]]:
    """The usual amount of something whose planned weight was not said."""
    starter = item.startswith("starter")
    kinds = ("starter",) if starter else (item, room.kb.ingredients[item].group)
    share = next((_SHARES[kind] for kind in kinds if kind in _SHARES), None)
    if share is None:
        return bowl, []
    row = Portion(STARTER if starter else item, flour_g * share / 100)
    name = "starter" if starter else name_of(item, room)
    return bowl.with_added((row,)), [f"{name} {figure(share)} % of the flour"]
