"""A protein to reach by blending two bags, or with gluten powder."""

from __future__ import annotations

from assistant.answers.in_the_bowl import name_of, weight
from assistant.answers.swapped import swap_outcome
from assistant.engine.bowl import Bowl
from assistant.engine.composition import Portion
from assistant.engine.flour_blend import gluten_to_replace_g, strong_share
from assistant.engine.refusal import Refused
from assistant.engine.swaps import Choice, Swapped
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from grammar.requests.swap import SwapRequest


def protein_blend(request: SwapRequest, target: float, bowl: Bowl | None, room: Room) -> Outcome:
    """A protein to reach by blending two bags, or with gluten powder."""
    foods = room.kb.ingredients
    named = [i for i in (*request.out[:1], *request.into[:1]) if i in foods and foods[i].group == "flour"]
    weak = next((i for i in named if (foods[i].protein_pct or 0) < target), "flour_all_purpose")
    strong = next((i for i in named if (foods[i].protein_pct or 0) >= target), None)
    whole = bowl.bowl_flour_g(foods) if bowl is not None else 0.0
    flour_g = request.out_g or request.into_g or whole or 1000.0
    low = foods[weak].protein_pct or 0.0
    assumed = [f"{name_of(weak, room)} at {low:g} % protein: read the bag"]
    if not (request.out_g or request.into_g or whole):
        assumed.append("per 1000 g of flour")
    made: list[Choice] = []
    partners = [strong] if strong is not None else ["flour_bread_13", "flour_high_gluten"]
    for partner in partners:
        high = foods[partner].protein_pct or 0.0
        if not low < target <= high:
            continue
        g = flour_g * strong_share(target, low, high)
        parts = (Portion(weak, flour_g - g), Portion(partner, g))
        made.append(_blended(parts, f"{name_of(partner, room)} at {high:g} %"))
    gluten = foods["vital_wheat_gluten"].protein_pct or 75.0
    if low < target < 30:
        g = gluten_to_replace_g(flour_g, target, low, gluten)
        made.append(
            _blended(
                (Portion(weak, flour_g - g), Portion("vital_wheat_gluten", g)),
                "gluten powder for as much flour; it binds about 1.5 times its weight of water",
                (Portion("water", 1.5 * g),),
            )
        )
    if not made:
        raise Refused(
            f"{target:g} % protein cannot be made from {name_of(weak, room)} at {low:g} %.",
            "Any target from 9 to 15 % works.",
        )
    swapped = Swapped(Portion(weak, flour_g), tuple(made), None)
    return swap_outcome(
        request, swapped, bowl, tuple(assumed), room, head=f"{weight(flour_g)} flour at {target:g} % protein:"
    )


def _blended(parts: tuple[Portion, ...], effect: str, also: tuple[Portion, ...] = ()) -> Choice:
    kept = tuple(part for part in parts if part.g > 0.05)
    return Choice(kept, also, effect, 1.0, False, (), (), (), "strength", "reckoned", "protein balance SR28")
