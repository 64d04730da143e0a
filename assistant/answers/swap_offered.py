"""What was offered for a thing: which of it is meant, and what of it there is none of."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from assistant.engine.swaps import Swapped
from assistant.talk.room import Room
from grammar.requests.swap import SwapRequest


def without_lacking(request: SwapRequest, offered: Iterable[str]) -> SwapRequest:
    """The swap talked of without what there is none of, where that was offered for it; else the swap of that.

    offered: ids of all that was offered in its place; another sort of the same (white vinegar, cider vinegar) counts.
    """
    kinds = {kind for item in offered for kind in (item, item.rpartition("_")[0])} - {""}
    if not any({item, item.rpartition("_")[0]} & kinds for item in request.lacking):
        return SwapRequest(out=request.lacking, into=request.into)
    lacking = () if request.into else request.lacking
    return replace(request, lacking=(), avoid=(*request.avoid, *lacking))


def other_form(offered: Swapped, into: str | None, room: Room) -> str | None:
    """What comes in: where it does not serve itself, its other form that does (flax seeds: ground flax).

    A thing has another form where two records begin with its word; flours, yeasts and milks are kinds of their own.
    """
    names = [part.item for choice in offered.choices for part in choice.into]
    if into is None or into in names:
        return into
    forms = [item for item in room.kb.ingredients if item.split("_")[0] == into.split("_")[0]]
    return next((name for name in names if name in forms and len(forms) == 2), into)
