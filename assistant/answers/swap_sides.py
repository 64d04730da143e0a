"""Which thing goes out of the dough and which comes in, and how much of it goes."""

from __future__ import annotations

from assistant.answers.in_the_bowl import name_of, shelf, weight
from assistant.answers.swap_leavens import OUTSIDE
from assistant.engine.bowl import Bowl
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.engine.swap_candidates import any_size
from assistant.engine.topping import Topped, topped
from assistant.talk.room import Room
from grammar.requests.swap import SwapRequest
from knowledge.records.toppings import Topping

UNSAID_G = 100.0


def coming_in(request: SwapRequest, bowl: Bowl | None, room: Room) -> str | None:
    named = [item for item in request.into if item in room.kb.ingredients]
    if not named:
        return None
    if named[0] == "salt_table" and any(item.startswith("butter") for item in request.out):
        return "butter_salted"  # "unsalted butter, only got salted"
    known = [item for item in named if any(item == part.item for s in shelf(room).swaps.values() for part in s.into)]
    if bowl is not None and request.out:
        known = [item for item in known if item not in request.out] or known
    return (known or named)[0]


def going_out(request: SwapRequest, into: str | None, bowl: Bowl | None, room: Room) -> str:
    """The one ingredient meant: the one in the dough, else the likeliest; with only a replacement said, its match."""
    if request.out:
        if "flour" in request.out and bowl is not None:
            flours = [row for row in bowl.portions if room.kb.ingredients[row.item].group == "flour"]
            if flours:
                return max(flours, key=lambda row: row.g).item
        named = [item for item in request.out if item in room.kb.ingredients] or ["flour_bread"]
        if bowl is not None:
            inside = [item for item in named if bowl.g(item) > 0]
            if inside:
                return inside[0]
            alike = _same_thing(named[0], bowl, room)
            if alike is not None:
                return alike
        return named[0]
    if into is None:
        raise Refused("What is missing was not said.", "Say it with its weight: out of 60 g honey.")
    match = row_like(into, bowl, room)
    if match is None:
        raise Refused(
            f"What {name_of(into, room)} is to stand in for was not said.",
            f"Say both: {name_of(into, room)} instead of 50 g butter.",
        )
    return match


def _same_thing(item: str, bowl: Bowl, room: Room) -> str | None:
    """The row that plays the part of what was named: "milk" when the dough has semi-skimmed, "yeast" when fresh."""
    foods = room.kb.ingredients
    group = foods[item].group
    if group not in ("dairy", "egg", "salt", "leavening", "sugar") or item in ("egg_white", "egg_yolk"):
        return None
    head = item.split("_")[0]
    return next((row.item for row in bowl.portions if row.item.split("_")[0] == head), None)


def row_like(into: str, bowl: Bowl | None, room: Room) -> str | None:
    """What the thing at hand most likely replaces: a row of the dough it can stand in for, else its usual match."""
    facts = shelf(room)
    foods = facts.foods

    def serves(out: str) -> bool:
        return any(
            swap.out == out and into in [part.item for part in swap.into] for swap in facts.swaps.values()
        ) or any(out in kin.members and into in kin.members for kin in facts.kin.values())

    if bowl is not None:
        if foods[into].group == "leavening" and bowl.starter_g > 0:
            return "starter_100"
        rows_ = sorted(bowl.portions, key=lambda row: foods[row.item].group != foods[into].group)
        found = next((row.item for row in rows_ if row.item != into and serves(row.item)), None)
        if found is not None:
            return found
    listed = [swap.out for swap in facts.swaps.values() if into == (swap.into[0].item if swap.into else None)]
    same = [out for out in listed if foods[out].group == foods[into].group]
    kin = next((kin for kin in facts.kin.values() if into in kin.members), None)
    if same:
        return same[0]
    if kin is not None:
        return next(item for item in kin.members if item != into)
    return listed[0] if listed else None


def out_g(
    request: SwapRequest, out: str, job: str | None, bowl: Bowl | None, room: Room
) -> tuple[float, tuple[str, ...]]:
    """Grams to replace, and what was assumed about them."""
    whole = bowl.g(out) if bowl is not None and job not in OUTSIDE else 0.0
    each = room.kb.ingredients[out].each_g if out in room.kb.ingredients else None
    if request.have_g is not None and whole > request.have_g:
        short_g = whole - request.have_g
        return short_g, (f"the dough in hand needs {weight(whole)}, {weight(request.have_g)} are there",)
    if request.out_g is not None or request.have_g is not None:
        return request.out_g or request.have_g or UNSAID_G, ()
    if request.count is not None and each:
        return request.count * each, (f"{figure(request.count)} x {figure(each)} g",)
    if request.out_pct is not None and whole > 0:
        return whole * request.out_pct / 100, ()
    brushed = _brushed(out, bowl, room) if job == "wash" else None
    if brushed is not None:
        return brushed.g, (f"brushed on {brushed.pieces} pieces, {figure(brushed.per_piece_g)} g each",)
    if whole > 0:
        return whole, (f"all {weight(whole)} of it in the dough in hand",)
    return UNSAID_G, ("per 100 g, no weight was said",)


def _brushed(out: str, bowl: Bowl | None, room: Room) -> Topped | None:
    """So much of it as a wash on the pieces in hand; None where it is no wash, or none are in hand."""
    washes = (one for one in room.kb.all(Topping).values() if one.cover == "wash" and len(one.parts) == 1)
    wash = next((one for one in washes if one.parts[0].item == any_size(out, shelf(room))), None)
    if wash is None or bowl is None or not bowl.pieces or not bowl.piece_g:
        return None
    return topped(wash, int(bowl.pieces), bowl.piece_g)
