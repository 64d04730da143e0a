"""What a flour is: its type number in another country's words, its protein beside another's."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound, Frame, amount_base, fits
from grammar.levels import speaks
from grammar.slots import Slot


@dataclass(frozen=True, slots=True)
class FloursRequest:
    """what is T65 flour in American
    German 1050 flour in UK terms
    protein of bread flour against all purpose

    types: ids of national types named; number: a bare type number ("1050 flour"); items: ids of the flours named, each
    with what else its word may mean; country: whose words are wanted ("us", "uk"); protein: it is the protein asked.
    """

    types: tuple[str, ...] = ()
    number: float | None = None
    items: tuple[tuple[str, ...], ...] = ()
    country: str | None = None
    protein: bool = False


_COUNTRY = {"us": "us", "imperial": "uk", "metric": "uk", "australian": "uk"}


def build(bound: Bound) -> FloursRequest | None:
    """The request; None where neither a type's meaning nor the protein of flours is asked."""
    named = [p for p in bound.phrases if not p.negated and (p.ids("flour_type") or fits(p, ("ingredient:flour*",)))]
    types = tuple(dict.fromkeys(i for p in named for i in p.ids("flour_type")[:1]))
    flours = [p for p in named if not p.ids("flour_type") and not fits(p, ("cue:flour",))]
    number = bound.base("number")
    country = next((i for p in bound.phrases for i in p.ids("in_country")), None)
    country = country or next((_COUNTRY.get(i) for p in bound.phrases for i in p.ids("cup_system")), None)
    if any(p.kind == "amount" and amount_base(p) != number for p in bound.phrases):
        return None
    protein = bound.said("food:protein", "cue:target", "cue:strengthen")
    if protein and (types or flours) and bound.said("ask:*", "flours:versus"):
        items = tuple(tuple(i for i in p.ids("ingredient") if i.startswith("flour")) for p in flours)
        return FloursRequest(types, None, items, None, True)
    if not types and number is None:
        return None
    asked = country is not None or bound.said("flours:equivalent", "ask:convert")
    if number is not None and not asked:
        return None
    if not asked and not (types and bound.said("ask:what")):
        return None
    return FloursRequest(types, number, (), country)


FRAME = Frame(
    FloursRequest,
    "flours",
    build,
    slots={
        "number": Slot({"num": 1.2}, cues=("cue:flour", "ingredient:flour*", "flours:type"), low=45, high=2000),
        "flour": Slot(term=("ingredient:flour*", "flour_type:*"), many=True, weight=0.6),
    },
    cues=speaks(
        telling="flours:versus",
        certain="flour_type:* in_country:* food:protein",
        sure="flours:* cup_system:* ask:convert cue:target",
        likely="ask:what",
        maybe="link:instead cue:flour ask:how_much ask:what_else",
        seldom="holds:per_tray",
        heard="tail:*",
    ),
    needs=("flour_type:*", "cue:flour", "food:protein", "cue:target"),
    rules_out=("symptom:*", "act:swap", "mistake:*", "cue:missing", "link:instead_of"),
    help_topic="explanation",
)  # fmt: skip
