"""Measures turned into others: cups and ounces to grams and back, oven settings, lengths, tins."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from grammar.exchange import to_other_kind
from grammar.follow import Follow
from grammar.frames import Bound, Frame
from grammar.requests.conversion_follow import followed
from grammar.requests.conversion_slots import CUES, NEEDS, SLOTS
from grammar.requests.formula_asked import IN_EVERY_DOUGH
from grammar.requests.measure_said import KITCHEN, OZ, SAME, Measure, figures_of
from grammar.requests.measure_sense import is_counted, makes_sense, of_dough
from grammar.requests.measure_wanted import list_alone, size_said, things_measured, to_fan_oven, unit_wanted
from grammar.requests.recipe import RecipeRequest

_SACHETS = ("sachet", "packet", "envelope")
_ADDS = re.compile(
    r"\W*(?:and|add|with|plus|also|make it|put in|work in)\b|[^?]*\bin (?:it|that|there|them)\b(?!.*\?)", re.I
)
_EGGS_ASKED = re.compile(r"\bhow many (?:large |medium |small )?eggs?\b|\bin (?:large |medium |small )?eggs\b", re.I)
@dataclass(frozen=True, slots=True)
class ConversionRequest:
    """3 cups of bread flour in grams
    500 g plain flour in cups
    2 sticks of butter
    350 F in C
    gas mark 6
    an 8 inch tin in cm

    amounts are added up ("1 lb 4 oz"). item: ingredient ids the words may mean, likeliest first; name: those words;
    to: unit id wanted; system: cups meant; fills: how the measure is filled; size: of eggs and fruit; heat: an oven
    figure with unit degC, degF, "gas" or "deg" (not said which); fan: said of a fan oven; sizes_cm: a tin's; of_dough:
    no amount was said, and a dough is in hand.
    """

    amounts: tuple[Measure, ...] = ()
    item: tuple[str, ...] = ()
    name: str = ""
    to: str | None = None
    system: str | None = None
    fills: tuple[str, ...] = ()
    size: str | None = None
    heat: Measure | None = None
    fan: bool = False
    to_fan: bool = False
    called: str = ""  # the oven by its old name: "moderate oven"
    length: Measure | None = None
    sizes_cm: tuple[float, ...] = ()
    deep_cm: float | None = None
    tin: bool = False
    of_dough: bool = False  # "what's that in cups": of the dough in hand


def _build(bound: Bound) -> ConversionRequest | RecipeRequest | None:
    gas = bound.said("cue:gas")
    said = figures_of(bound)
    amounts, heat, asked_in, manner = said.amounts, said.heat, said.asked_in, said.manner
    denied = any(phrase.negated and phrase.ids("ingredient") for phrase in bound.phrases)
    lacking = denied and bound.context.focus != "conversion"
    if to_other_kind(bound) or ((lacking or bound.said("cue:company", "diet:*")) and not bound.of("to")):
        return None  # so much of one sort of a thing in another, or what serves for one there is none of
    several = bool(bound.of("amounts")) and len(things_measured(bound)) > 1
    if several and not (bound.context.has_bake and _ADDS.match(bound.text)):
        # several things measured are a list, not a sum
        return RecipeRequest(list_alone(bound), system=bound.term("system", "cup_system"))
    named = [h for h in bound.hits if h.label is not None and h.label.ids("ingredient") and not h.label.negated]
    beside = [hit for hit in named if hit.amount is not None]
    labels = [hit.label for hit in beside or named if hit.label is not None]
    label = max(labels, key=lambda p: len(p.text), default=None)
    if label is not None and label.text.lower().startswith(_SACHETS):  # "1 sachet yeast": the name holds the measure
        amounts = [replace(one, unit="packet") if one.unit in ("each", SAME) else one for one in amounts]
    to = unit_wanted(bound, amounts, heat)
    to = asked_in or to
    if to is None and said.again and label is not None and all(one.unit in ("g", "kg") for one in amounts):
        to = "g"
    if said.sizes_cm and to is None and bound.said("cue:hold"):
        to = "l"
    sticks = label is None and bool(amounts) and all(one.unit == "butter_stick" for one in amounts)
    towards_fan = to_fan_oven(bound) or (heat is not None and heat.unit == "gas")  # a gas oven's mark is no fan's
    if label is not None and _EGGS_ASKED.search(bound.text) and amounts and all(one.unit != "each" for one in amounts):
        to = "each"
    adds = _ADDS.match(bound.text) and bound.context.has_bake and bound.context.focus != "conversion"
    if adds and to is None and not bound.said("ask:convert"):
        return None  # "and 2 tbsp honey" goes into the dough in hand
    if label is not None and to is None and (bound.said("act:swap", "ask:what_else") or "instead_of" in bound.links()):
        return None  # one thing for another
    called = next((phrase for phrase in bound.phrases if phrase.ids("oven_word")), None)
    if called is not None and heat is None and not amounts:
        heat = Measure(float(called.ids("oven_word")[0]), "gas")
    warmth = next((phrase for phrase in bound.phrases if phrase.ids("warmth_word")), None)
    if warmth is not None and heat is None and not amounts and label is None:
        sign, _, degrees = warmth.ids("warmth_word")[0].partition("_")  # "minus_18"
        called, heat = warmth, Measure((-1.0 if sign == "minus" else 1.0) * float(degrees), "degC")
    request = ConversionRequest(
        called=called.text if called is not None else "",
        amounts=tuple(amounts),
        item=("butter_unsalted",) if sticks else label.ids("ingredient") if label is not None else (),
        name="butter" if sticks else label.text if label is not None else "",
        to=to,
        system=bound.term("system", "cup_system"),
        fills=tuple(dict.fromkeys((*manner, *bound.terms("fill", "fill")))),
        size=size_said(bound.text) if label is not None else None,
        heat=heat,
        fan=bound.said("cue:fan") and not towards_fan,
        to_fan=bound.said("cue:fan") and towards_fan,
        length=said.length,
        deep_cm=bound.base("deep"),
        sizes_cm=said.sizes_cm,
        tin=bound.said("cue:tin"),
    )
    if (
        not amounts
        and is_counted(request)
        and re.search(r"^\W*(?:an?|one)\b|\bweigh|\b(?:an?|one) (?:large |medium |small )?egg", bound.text, re.I)
    ):
        request = replace(request, amounts=(Measure(1.0, "each"),))
    in_grams = request.to in (None, "g", "kg") and (bound.asks() or bound.said("ask:*", "money:comes_to"))
    if bound.context.has_bake and in_grams and not request.amounts and bound.said(*IN_EVERY_DOUGH):
        return None  # "the flour comes to how many grams": of the dough in hand
    if of_dough(request, bound):
        return replace(request, of_dough=True)
    return request if makes_sense(request, bound, gas) else None


def _build_alone(bound: Bound) -> ConversionRequest | RecipeRequest | None:
    """A lone weight in ounces, a lone pack, or eggs: what would be a thin dough is a measure to be turned."""
    request = _build(bound)
    if isinstance(request, RecipeRequest):
        return request
    if request is None or not request.amounts or bound.context.focus == "formula":
        return None
    if request.to is not None:
        return request
    if not request.item:
        return request if request.to and all(one.unit != "each" for one in request.amounts) else None
    units = {one.unit for one in request.amounts}
    packs = any(phrase.ids("pack") for phrase in bound.phrases)
    kitchen = units <= KITCHEN
    return request if units <= OZ or kitchen or packs or (units == {"each"} and is_counted(request)) else None


CONVERSION = Frame(
    request=ConversionRequest,
    topic="conversion",
    build=_build,
    follow=Follow(of=(RecipeRequest,), account=followed),
    slots=SLOTS,
    cues=CUES,
    needs=NEEDS,
    rules_out=("symptom:*", "act:undo", "act:help"),
    base=-0.4,
    help_topic="conversion",
)  # fmt: skip

ALONE = replace(CONVERSION, build=_build_alone, base=1.6)

FRAMES = (CONVERSION, ALONE)
