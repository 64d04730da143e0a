"""Food values: of the bread in hand by piece and by 100 g, or of one ingredient."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.follow import Follow
from grammar.frames import Bound, Frame, Hit
from grammar.levels import speaks
from grammar.phrases import Phrase
from grammar.requests.batch import IN_HAND, PIECE, SLOTS, Batch, batch_of
from grammar.slots import Slot

VALUES = ("kcal", "protein", "fat", "carbohydrate", "sugar", "salt", "fibre")
SURE = ("food:kcal", "food:kj", "food:all_values")
"""Words that speak of food values whatever stands beside them."""
POURED = frozenset({"salt", "sugar", "fat"})
"""Values that are also poured in: only "in one", "per roll", "per 100 g" tell that the bread's is asked for."""


@dataclass(frozen=True, slots=True)
class NutritionRequest:
    """calories per roll
    nutrition
    how much protein in one
    salt per 100 g
    calories in rye flour

    about: the values asked for (of `VALUES`), none for all of them. item: readings of an ingredient asked about instead
    of the bread in hand. portion_g: of so much, else of a piece. batch: the bread and the pieces, where they were said.
    altogether: of the whole batch. kj: the energy in kJ as well.
    """

    about: tuple[str, ...] = ()
    item: tuple[str, ...] = ()
    portion_g: float | None = None
    batch: Batch = IN_HAND
    altogether: bool = False
    kj: bool = False


def build(bound: Bound) -> NutritionRequest | None:
    """The values asked for; None where a dough's salt or sugar is meant rather than the bread's."""
    words = [p for p in bound.phrases if p.kind == "label" and not p.negated]
    item = _item(bound, words)
    values = [p for p in words if p.ids("food") and not (item and p.ids("ingredient") == item)]
    named = tuple(dict.fromkeys(i for p in values for i in p.ids("food")))
    about = tuple(one for one in VALUES if one in named or (one == "kcal" and "kj" in named))
    batch = batch_of(bound)
    whole = bound.said("serving:whole", "cue:total") and batch.times is None
    portion_g = bound.base("portion_g")
    hit = bound.first("pieces")
    if batch.pieces == 100 and portion_g is None and hit is not None and _behind(bound, hit, "per"):
        portion_g, batch = 100.0, replace(batch, pieces=None)  # "kcal per 100"
    if not named and not (_leads_on(bound) and (whole or portion_g is not None or batch != IN_HAND)):
        return None
    if named and not bound.said(*SURE):
        if "instead_of" in bound.links():
            return None  # "salt instead of sugar, 50 g in 1 kg flour"
        if any(p.kind == "junk" and any(c.isalnum() for c in p.text) for p in bound.phrases):
            return None
        alone = not any(p.kind == "amount" for p in bound.phrases) and not POURED & set(about)
        bread = _of_the_bread(bound, set(about), batch, portion_g)
        weighed_out = POURED & set(about) and not {"in", "per", "of"} & bound.links()  # "how much salt for 2 kg flour"
        asks = bound.said("ask:*") or bound.asks() or bool(words and words[0].ids("food"))
        if item and POURED & set(about) and "in" not in bound.links():
            return None  # "salt per kg of flour" doses
        of_item = bool(item) and asks and not weighed_out
        if not (bread or of_item or (alone and all(p.ids("food") or p.ids("ask") for p in words))):
            return None
    if "all_values" in named:
        about = ()
    return NutritionRequest(about, item, portion_g, batch, whole, "kj" in named)


def _of_the_bread(bound: Bound, about: set[str], batch: Batch, portion_g: float | None) -> bool:
    """Whether the words around a value say that it is the bread's: "in one", "per roll", "in 2 rolls", "per 100 g"."""
    tied = {"in", "per", "each", "of", "for"} & bound.links()
    if not tied and not bound.said("serving:*") and batch.pieces is None:
        return False
    poured = bool(POURED & about)
    if poured and not (bound.said("ask:how_much", "ask:how_many") or _leads(bound)):
        return False
    if portion_g is not None:
        return _after_in(bound) or not poured
    if batch.pieces is not None and batch.pieces != 1 and poured:
        return False
    if "for" in bound.links() and not {"in", "per", "each", "of"} & bound.links() and batch.pieces != 1:
        return not poured
    return batch.pieces is not None or bound.said(*PIECE, "serving:*") or bool({"each", "per"} & bound.links())


def _leads_on(bound: Bound) -> bool:
    """Whether a line goes on with the food values told before: "per roll?", "and in 100 g?"."""
    words = (p for p in bound.phrases if p.kind in ("link", "amount", "label") and "and" not in p.ids("link"))
    first = next(words, None)
    return bound.context.focus == "nutrition" and first is not None and bool({"in", "per"} & set(first.ids("link")))


def _leads(bound: Bound) -> bool:
    """Whether the line begins with a value, "salt per roll", "what's the salt per roll"; not "what does salt do"."""
    per = {"per", "each"} & bound.links()
    words = (p for p in bound.phrases if p.kind in ("label", "amount", "junk") and not (per and p.ids("ask")))
    first = next(words, None)
    return first is not None and bool(first.ids("food"))


def _after_in(bound: Bound) -> bool:
    """Whether the mass stands behind "in" or "per", and not before what it would be told in ("300 g sugar in cups")."""
    hit = bound.first("portion_g")
    return hit is not None and _behind(bound, hit, "in", "per")


def _behind(bound: Bound, hit: Hit, *links: str) -> bool:
    """Whether an amount stands right behind one of these small words."""
    place = bound.phrases.index(hit.amount) if hit.amount is not None else 0
    return place > 0 and bool(set(links) & set(bound.phrases[place - 1].ids("link")))


def _item(bound: Bound, words: list[Phrase]) -> tuple[str, ...]:
    """Readings of an ingredient asked about: one that is no value by itself, or one that stands behind "in"."""
    for phrase in words:
        ids = phrase.ids("ingredient")
        if not ids or any(token.repaired for token in phrase.tokens):
            continue
        place = bound.phrases.index(phrase)
        before = bound.phrases[place - 1] if place else None
        behind = before is not None and set(before.ids("link")) & {"in", "of", "per"}
        if not phrase.ids("food") or (behind and phrase is not words[0] and place > 0):
            return ids
    return ()


FRAME = Frame(
    NutritionRequest,
    "nutrition",
    build,
    follow=Follow(
        alone=lambda line, earlier, bound: bound.said("food:*"),
        may=("item", "portion_g", "batch", "whole"), once=("portion_g", "batch", "whole"),
    ),
    slots={
        **SLOTS,
        "portion_g": Slot(
            {"mass": 1.2}, cues=("ingredient:*", "serving:each", "food:*"), bare=0.6, low=1, high=3000,
            links={"in": 0.6, "per": 0.8, "of": 0.2, "for": 0.2},
        ),
        "value": Slot(term=("food:*",), many=True, weight=0.4),
        "item": Slot(term=("ingredient:*",), weight=-0.4),
    },
    cues=speaks(
        alone="food:kcal food:kj food:all_values",
        telling="food:carbohydrate food:fibre",
        certain="food:protein",
        sure="food:fat food:salt food:sugar serving:* ask:how_much ask:how_many",
        maybe="ask:what act:show cue:total",
        heard="act:make cue:dough cue:baked unit:g hazard:contains ask:is_it",
    ),
    needs=("food:*",),
    rules_out=(
        "symptom:*", "mistake:forgot", "mistake:over", "mistake:twice", "money:*", "act:change", "act:add", "act:swap",
        "cue:hydration", "cue:missing", "act:use", "cue:strengthen", "person:*", "ask:why", "look:*",
        "clock:*", "notebook:*", "cue:only_this", "stage:*",
    ),
    base=3.0,
    settles=True,
)  # fmt: skip
