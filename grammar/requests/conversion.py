"""Measures turned into others: cups and ounces to grams and back, oven settings, lengths, tins."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from itertools import pairwise

from grammar.exchange import to_other_kind
from grammar.frames import Bound, Frame, Slot, fits
from grammar.phrases import Phrase
from grammar.requests.formula_asked import IN_EVERY_DOUGH
from grammar.requests.recipe import RecipeRequest

_OZ = frozenset({"oz", "lb", "butter_stick", "stone"})
_KITCHEN = frozenset({"cup", "tbsp", "tsp", "dsp", "fl_oz", "pint", "quart", "us_cup", "metric_cup"})
_SACHETS = ("sachet", "packet", "envelope")
_PACKS = frozenset({"can", "packet", "jar", "bottle", "block", "cake"})
_SIZES = re.compile(r"\b(extra[- ]large|very large|jumbo|large|medium|small)\b", re.I)
_ADDS = re.compile(r"\W*(?:and|add|with|plus|also|make it|put in|work in)\b", re.I)
_EGGS_ASKED = re.compile(r"\bhow many (?:large |medium |small )?eggs?\b|\bin (?:large |medium |small )?eggs\b", re.I)
_AGAINST = re.compile(r"\b(?:vs|versus|compared|against)\b", re.I)
_MINUS = re.compile(r"\b(?:minus|less)\b", re.I)
_MANNERS = ("scant", "heaped", "generous", "level")
_OVEN_F = 120.0
SAME = "same"
"""The unit of a bare number that follows a conversion: the unit it had."""
COUNTED = (
    "egg", "banana", "apple", "onion_raw", "garlic", "lemon", "orange", "potato", "carrot", "zucchini", "dates", "figs",
    "scallions", "jalapeno", "bell_pepper", "tomatoes", "avocado", "peaches", "strawberries", "lime",
)  # fmt: skip
"""What recipes count instead of weighing, by the beginning of its id."""


@dataclass(frozen=True, slots=True)
class Measure:
    """One amount as said: value (and the high end of a range) in a unit's id; "each" where things are counted."""

    value: float
    unit: str
    high: float | None = None


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

    def onto(self, earlier: ConversionRequest | RecipeRequest, bound: Bound) -> ConversionRequest | RecipeRequest:
        """This line as a change to the conversion before it: what it leaves unsaid stays."""
        if isinstance(earlier, RecipeRequest):
            if self.system and not self.amounts and not self.item and self.heat is None:
                return replace(earlier, system=self.system)
            measured = self.amounts or self.heat or self.length or self.sizes_cm
            return replace(self, of_dough=True) if self.to and not measured else self  # of the dough it became
        if not isinstance(earlier, ConversionRequest):
            return self
        if any(one.unit == SAME for one in self.amounts):
            if not earlier.amounts:
                if earlier.heat is None or self.item or len(self.amounts) > 1:
                    return self
                return replace(earlier, heat=replace(self.amounts[0], unit=earlier.heat.unit))
            unit = earlier.amounts[0].unit
            self = replace(self, amounts=tuple(replace(one, unit=unit) for one in self.amounts))
        if (
            self.heat is not None
            and self.heat.unit == "each"
            and earlier.heat is not None
            and earlier.heat.unit != "gas"
        ):
            self = replace(self, heat=replace(self.heat, unit=earlier.heat.unit))
        if self.heat is not None or self.length is not None or self.sizes_cm:
            return self if self.to else replace(self, to=earlier.to if _same_kind(self, earlier) else None)
        if self.amounts and self.item:
            return replace(
                self, to=self.to or (earlier.to if earlier.amounts else None), system=self.system or earlier.system
            )
        if earlier.heat is not None or earlier.length is not None or earlier.sizes_cm:
            if self.amounts or self.item:
                return self
            towards = (self.fan or self.to_fan) and not earlier.fan
            return replace(earlier, to=self.to or (None if towards else earlier.to), to_fan=towards)
        return replace(
            earlier,
            amounts=self.amounts or earlier.amounts,
            item=self.item or earlier.item,
            name=self.name or earlier.name,
            to=self.to or earlier.to,
            system=self.system or earlier.system,
            fills=self.fills or (earlier.fills if not self.item else ()),
            size=self.size or (earlier.size if not self.item else None),
        )


def _same_kind(new: ConversionRequest, earlier: ConversionRequest) -> bool:
    return (new.heat is None) == (earlier.heat is None) and (new.length is None) == (earlier.length is None)


def _measure(phrase: Phrase) -> Measure | None:
    quantity = phrase.quantity
    if quantity is None:
        return None
    high = phrase.high.value if phrase.high is not None else None
    return Measure(quantity.value, quantity.unit or "each", high)


def _build(bound: Bound) -> ConversionRequest | RecipeRequest | None:
    if bound.said("money:comes_to") and bound.context.has_bake and bound.said(*IN_EVERY_DOUGH):
        return None  # "the flour comes to how many grams": of the dough in hand
    amounts: list[Measure] = []
    heat: Measure | None = None
    length: Measure | None = None
    sizes: tuple[float, ...] = ()
    gas = bound.said("cue:gas")
    for hit in bound.hits:
        if hit.amount is None:
            continue
        found = _measure(hit.amount)
        if hit.slot == "sizes":
            sizes = hit.amount.sizes or (hit.amount.quantity.base if hit.amount.quantity else 0.0,)
        elif found is None:
            continue
        elif hit.slot in ("heat", "oven"):
            heat = found if heat is None else heat
        elif hit.slot == "gas":
            heat = replace(found, unit="gas")
        elif hit.slot == "length":
            length = found
        elif hit.slot in ("amounts", "masses"):
            amounts.append(found)
        elif hit.slot == "counts":
            amounts.append(replace(found, unit=hit.ids("pack")[0] if hit.ids("pack") else "each"))
        elif hit.slot == "again":
            amounts.append(replace(found, unit=SAME))
    asked_in = _asked_in(bound, amounts)
    amounts = amounts[:1] if asked_in is not None else amounts
    once = _said_twice(bound, amounts)
    again, amounts = len(once) < len(amounts), once
    measured = [one for one in amounts if one.unit not in ("each", SAME)]
    amounts = measured or amounts
    if len(amounts) > 1 and _AGAINST.search(bound.text):
        amounts = amounts[:1]  # two things are set against each other, not added
    if len(amounts) > 1 and _MINUS.search(bound.text):
        amounts = [amounts[0], *(replace(one, value=-one.value) for one in amounts[1:])]
    manner: tuple[str, ...] = ()
    packs = [p.ids("pack")[0] for p in bound.phrases if p.ids("pack")]
    if packs:
        said, _, unit = packs[0].rpartition("_")  # "heaped_tbsp": how full and how much in one word
        manner = (said,) if said else ()
        if not amounts:
            amounts = [Measure(1.0, unit)]
        amounts = [replace(one, unit=unit) if one.unit in ("each", SAME, packs[0]) else one for one in amounts]
    if to_other_kind(bound):
        return None  # so much of one sort of a thing in another
    things = {
        hit.label.ids("ingredient")[0]
        for hit in bound.hits
        if hit.slot in ("amounts", "counts") and hit.label is not None and hit.label.ids("ingredient")
    }
    if len(things) > 1 and bound.of("amounts") and not (bound.context.has_bake and _ADDS.match(bound.text)):
        return RecipeRequest(_list_alone(bound))  # several things measured are a list, not a sum
    named = [h for h in bound.hits if h.label is not None and h.label.ids("ingredient") and not h.label.negated]
    beside = [hit for hit in named if hit.amount is not None]
    labels = [hit.label for hit in beside or named if hit.label is not None]
    label = max(labels, key=lambda p: len(p.text), default=None)
    if label is not None and label.text.lower().startswith(_SACHETS):  # "1 sachet yeast": the name holds the measure
        amounts = [replace(one, unit="packet") if one.unit in ("each", SAME) else one for one in amounts]
    to = _target(bound, amounts, heat)
    to = asked_in or to
    if to is None and again and label is not None and all(one.unit in ("g", "kg") for one in amounts):
        to = "g"
    if sizes and to is None and bound.said("cue:hold"):
        to = "l"
    sticks = label is None and bool(amounts) and all(one.unit == "butter_stick" for one in amounts)
    towards_fan = _towards_fan(bound) or (heat is not None and heat.unit == "gas")  # a gas oven's mark is no fan's
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
        size=_size(bound.text) if label is not None else None,
        heat=heat,
        fan=bound.said("cue:fan") and not towards_fan,
        to_fan=bound.said("cue:fan") and towards_fan,
        length=length,
        deep_cm=bound.base("deep"),
        sizes_cm=sizes,
        tin=bound.said("cue:tin"),
    )
    if (
        not amounts
        and _is_counted(request)
        and re.search(r"^\W*(?:an?|one)\b|\bweigh|\b(?:an?|one) (?:large |medium |small )?egg", bound.text, re.I)
    ):
        request = replace(request, amounts=(Measure(1.0, "each"),))
    if _of_dough(request, bound):
        return replace(request, of_dough=True)
    if bound.context.has_bake and request.item and not request.amounts and bound.said("ask:is_it"):
        return None  # "how much starter is that in g": of the dough in hand
    return request if _makes_sense(request, bound, gas) else None


_WEIGHED_OR_POURED = _OZ | _KITCHEN | {"g", "kg", "ml", "l", "cl", "dl", "us_tbsp", "us_tsp"}


def _of_dough(request: ConversionRequest, bound: Bound) -> bool:
    """ "what's that in cups", "the flour in cups": no amount, and a dough in hand that has one."""
    measured = request.amounts or request.heat or request.length or request.sizes_cm or request.tin
    if bound.said("mistake:poured") or measured or request.to not in _WEIGHED_OR_POURED or not bound.context.has_bake:
        return False
    return bool(request.item) or bound.context.focus in ("formula", "recipe")


def _asked_in(bound: Bound, amounts: list[Measure]) -> str | None:
    """ "3 tsp in a tbsp": one of the measure that the other is to be told in."""
    for n, phrase in enumerate(bound.phrases):
        found = _measure(phrase) if phrase.kind == "amount" else None
        one = found is not None and found.value == 1 and phrase.quantity is not None and phrase.quantity.spelled
        if found is None or not one or len(amounts) != 2 or found != amounts[1] or found.unit in ("each", SAME):
            continue
        if n and "in" in bound.phrases[n - 1].ids("link"):
            return found.unit
    return None


_POURED = frozenset({"ml", "l", "cl", "dl"})


def _said_twice(bound: Bound, amounts: list[Measure]) -> list[Measure]:
    """What stands in brackets says the amount before it again: "1 cup (250 ml)", "125 g (1 cup)"; of a count it is what
    each holds: "2 (14 oz) cans". The weight is kept, else the metric volume."""
    inside: list[Measure] = []
    depth = 0
    for phrase in bound.phrases:
        sign = phrase.text.strip() if phrase.kind == "sep" else ""
        depth += (sign in ("(", "[")) - (sign in (")", "]"))
        found = _measure(phrase) if phrase.kind == "amount" and depth > 0 else None
        if found is not None and found in amounts:
            inside.append(found)
    outside = [one for one in amounts if one not in inside]
    if not inside or not outside:
        return amounts
    weighed = [one for one in inside if one.unit in _OZ or one.unit in ("g", "kg")]
    if all(one.unit in ("each", SAME) or one.unit in _PACKS for one in outside):
        count = outside[0].value
        return [replace(one, value=one.value * count) for one in (weighed or inside)]
    if weighed and not any(one.unit in _OZ or one.unit in ("g", "kg") for one in outside):
        return weighed
    poured = [one for one in inside if one.unit in _POURED]
    return poured if poured and not any(one.unit in _POURED | {"g", "kg"} | _OZ for one in outside) else outside


def _list_alone(bound: Bound) -> str:
    """The line without the words that only say what is wanted of the list: "percentages please"."""
    text = bound.text
    for phrase in reversed(bound.phrases):
        if fits(phrase, ("cue:percentages", "ask:convert")):
            text = text[: phrase.tokens[0].start] + text[phrase.tokens[-1].end :]
    return text.strip(" ,;:?-") or bound.text


def _target(bound: Bound, amounts: list[Measure], heat: Measure | None) -> str | None:
    """The unit asked for; "gas" where the oven's marks are."""
    if heat is not None and heat.unit != "gas" and bound.said("cue:gas") and not bound.of("into"):
        return "gas"
    into = bound.terms("into", "into")
    if into:
        return into[-1]
    cups = ((a, b) for a, b in pairwise(bound.phrases) if b.ids("cup_system") and "cup" in b.text.lower())
    if any({"in", "to", "into"} & set(a.ids("link")) for a, _ in cups):
        return "cup"  # "in us cups"
    for hit in reversed(bound.of("to")):
        for unit in hit.ids("unit"):
            known = [one for token in hit.label.tokens for one in token.units] if hit.label else []
            readings = [one.id for one in known if one.dimension != "time"]
            if known and not readings:
                continue  # nothing that is weighed or measured is turned into hours
            if heat is not None:
                readings = [one for one in readings if one.startswith("deg")] or readings
            elif any(not one.startswith("deg") for one in readings):
                readings = [one for one in readings if not one.startswith("deg")]
            return readings[0] if readings else unit
    return None


def _towards_fan(bound: Bound) -> bool:
    """ "200 C in a fan oven" asks for the fan's setting; "180 fan" states it, as does "180 fan in a normal oven"."""
    if re.search(
        r"\b(?:in|for|to|on|with|mine is|mines|mine's|i have|ive got|i've got|oven is)\s+"
        r"(?:a |the |my )?(?:fan|convection)",
        bound.text,
        re.I,
    ):
        return True
    places = {kind: n for n, p in enumerate(bound.phrases) for kind in p.ids("cue") if kind in ("fan", "no_fan")}
    return len(places) == 2 and places["no_fan"] < places["fan"]


def _size(text: str) -> str | None:
    found = _SIZES.search(text)
    if found is None:
        return None
    said = found.group(1).lower().replace("-", " ")
    return "extra large" if said == "very large" else said


def _makes_sense(request: ConversionRequest, bound: Bound, gas: bool) -> bool:
    follows = bound.context.focus == "conversion"
    if bound.said("ask:convert") and not any(phrase.kind == "amount" for phrase in bound.phrases):
        return True  # what to convert is asked back
    asked = bool(request.to) or bound.said("ask:convert")
    if request.heat is not None:
        value, unit = request.heat.value, request.heat.unit
        if unit == "gas":
            return not request.amounts
        if request.amounts or request.item:
            return False
        if unit == "deg" and 150 <= value <= 600:
            return True
        oven = bound.said("cue:oven", "cue:fan", "cue:no_fan", "cue:gas", "cue:recipe_given")
        return (
            asked
            or (oven and value >= 90)
            or (unit == "degF" and value >= 2 * _OVEN_F)
            or (follows and value >= 90 and unit != "deg")
        )
    if request.length is not None or request.sizes_cm:
        return asked and not request.amounts
    if any(one.unit == SAME for one in request.amounts):
        return follows and len(request.amounts) == 1
    if any(one.unit not in ("g", "kg") and one.unit != "each" for one in request.amounts):
        masses_only = all(one.unit in _OZ for one in request.amounts)
        return bool(request.item) or asked or not masses_only or follows or len(request.amounts) > 1 or masses_only
    if request.amounts:
        counted = all(one.unit == "each" for one in request.amounts)
        weighed = bound.said("ask:how_much", "cue:piece_mass") or not bound.context.has_bake
        if counted and _is_counted(request) and weighed:
            return True
        return (asked and (not counted or bool(request.item))) or (follows and bool(request.amounts))
    return follows and bool(
        request.item or request.to or request.system or request.fills or request.fan or request.to_fan
    )


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
    kitchen = units <= _KITCHEN
    return request if units <= _OZ or kitchen or packs or (units == {"each"} and _is_counted(request)) else None


def _is_counted(request: ConversionRequest) -> bool:
    return bool(request.item) and request.item[0].startswith(COUNTED)


_ITEM = ("ingredient:*",)
_OVEN = ("cue:oven", "cue:fan", "cue:no_fan", "cue:recipe_given")

CONVERSION = Frame(
    request=ConversionRequest,
    topic="conversion",
    build=_build,
    slots={
        "amounts": Slot({"volume": 1.6}, cues=_ITEM, bare=0.8, many=True),
        "masses": Slot({"mass": 0.6}, cues=_ITEM, bare=0.3, many=True),
        "counts": Slot({"num": 0.4, "share": 0.4}, cues=("pack:*", *_ITEM), low=0.1, high=60, many=True, shares=True),
        "gas": Slot({"num": 1.0}, cues=("cue:gas",), low=0.25, high=10),
        "heat": Slot({"temperature": 1.0}, cues=_OVEN, bare=0.6, low=-40, high=400),
        "oven": Slot({"num": 0.5}, cues=_OVEN, bare=-0.3, low=90, high=600),
        "again": Slot({"num": 0.4, "share": 0.4}, bare=0.1, low=0.1, high=20),
        "length": Slot({"length": 0.8}, cues=("cue:tin", "bread:*"), bare=0.4),
        "deep": Slot({"length": 1.0}, cues=("cue:deep",), low=2, high=30),
        "sizes": Slot({"sizes": 1.0}, cues=("cue:tin",), bare=0.6),
        "to": Slot(term=("unit:*",), many=True),
        "into": Slot(term=("into:*",), many=True),
        "item": Slot(term=_ITEM, many=True),
        "system": Slot(term=("cup_system:*",)),
        "fill": Slot(term=("fill:*",), many=True),
        "called": Slot(term=("oven_word:*", "warmth_word:*")),
        "not_it": Slot(term=_ITEM, without=True, weight=0.4),
        "fan": Slot(term=("cue:fan", "cue:no_fan"), weight=-0.6),
    },
    cues={
        "unit:*": 1.6, "into:*": 1.8, "ask:convert": 1.6, "ask:how_much": 0.4, "ask:how_many": 0.4, "ask:what": 0.2,
        "oven_word:*": 2.6, "warmth_word:*": 2.6, "shape:*": 0.1, "cue:deep": 0.6, "piece:boule": 0.0,
        "cue:gas": 0.8, "cue:fan": 2.4, "cue:no_fan": 0.8, "cue:recipe_given": 0.6, "pack:*": 1.0,
        "fill:*": 0.8,
        "cup_system:*": 1.6, "again:*": 1.4, "cue:tin": 0.6, "cue:oven": 0.5, "cue:hold": 0.8,
        "ask:what_if": 0.1, "ask:is_it": 0.1,
        "mistake:meant": 0.4, "stance:called_for": 0.4, "stance:at_hand": 0.2, "cue:only_this": 0.2, "cue:limit": 0.0,
        "cue:all_of_it": 0.0, "clock:set": 0.0, "link:if": 0.0,
        "act:correct": 0.3, "act:change": 0.2, "stage:bake": 0.2, "cue:piece_mass": 1.2, "cue:minus": 0.2,
        "cue:formula": 0.3,
        "cue:salt": 0.0,
        "cue:flour": 0.0, "cue:water": 0.0,
    },
    needs=(
        "unit:*", "into:*", "slot:amounts", "slot:masses", "slot:gas", "slot:heat", "slot:oven", "pack:*",
        "ask:convert", "oven_word:*", "warmth_word:*", "fill:*", "cup_system:*", "cue:hold",
        *(f"ingredient:{id}*" for id in COUNTED),
    ),
    rules_out=("symptom:*", "act:undo", "act:help"),
    base=-0.4,
    help_topic="conversion",
)  # fmt: skip

ALONE = replace(CONVERSION, build=_build_alone, base=1.6)

FRAMES = (CONVERSION, ALONE)
