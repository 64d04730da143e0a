"""Whether what is in the house is enough for a dough. A question: nothing on the bench changes."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.exchange import amounts_of
from grammar.frames import Bound, Frame
from grammar.levels import speaks
from grammar.requests import formula_build
from grammar.requests.formula_request import FormulaRequest
from grammar.requests.formula_slots import CUES, SLOTS
from grammar.requests.stock import Held, held_of
from grammar.stance import ids_of, is_thing


@dataclass(frozen=True, slots=True)
class EnoughRequest:
    """is it enough for 40 rolls of 70 g
    do i have enough flour for 12 pieces?
    can i make 24 rolls of 90 g, i have only 1 kg flour

    dough: the dough asked about, None for the one in hand as it is; held: what is said to be there in the same breath;
    of: ids of the one thing of the dough that may be enough or not.
    """

    dough: FormulaRequest | None = None
    held: tuple[Held, ...] = ()
    of: tuple[str, ...] = ()


def build(bound: Bound) -> EnoughRequest | None:
    """The request; None where nothing is held against a dough."""
    places = [i for i, p in enumerate(bound.phrases) if is_thing(p)]
    of, _ = amounts_of(bound, places)
    there = {place: one for place, one in of.items() if one.dim in ("mass", "volume", "count")}
    weighed = {id(bound.phrases[place]) for place in there}
    rest = tuple(hit for hit in bound.hits if hit.label is None or id(hit.label) not in weighed)
    told = any(hit.amount is not None for hit in rest) or bound.said("act:double", "act:triple", "act:halve")
    dough = formula_build.build(replace(bound, hits=rest)) if told else None
    sized = dough is not None and any((dough.pieces, dough.dough_g, dough.times, dough.scale))
    held_against = bound.context.focus == "stock" or bool(there)
    rows = tuple(ids_of(bound.phrases[i]) for i in places if i not in there)
    of_dough = len(rows) == 1 and bound.context.has_bake and not rows[0][0].startswith("flour")
    thing: tuple[str, ...] = rows[0] if of_dough else ()
    said = bound.said("stock:enough") or (bound.said("stock:enough_for") and bound.asks() and (held_against or thing))
    if not said and not (there and sized and bound.said("stock:can_make")):
        return None
    if not sized and not bound.context.has_bake:
        return None
    return EnoughRequest(dough, held_of(bound, there), thing)


FRAME = Frame(
    EnoughRequest,
    "stock",
    build,
    slots={name: slot for name, slot in SLOTS.items() if name not in ("portions", "heads")},
    cues=CUES | speaks(
        alone="stock:enough stock:can_make stock:enough_for",
        likely="stance:at_hand cue:only_this",
        maybe="stock:left",
    ),
    needs=("stock:enough", "stock:enough_for", "stock:can_make"),
    rules_out=("symptom:*", "mistake:forgot", "mistake:twice", "feeding:*", "clock:timer", "diet:*"),
    base=1.0,
    help_topic="cost",
)  # fmt: skip
