"""What may stand in for one ingredient; starter and yeast by their own rule."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.in_the_bowl import bulk_words, shelf
from assistant.engine.bowl import STARTER, Bowl
from assistant.engine.composition import Portion
from assistant.engine.leaven_swap import starter_for_starter, starter_for_yeast, yeast_for_starter
from assistant.engine.shelf import Avoid
from assistant.engine.swap_candidates import OUTSIDE_FUNCTIONS
from assistant.engine.swaps import Choice, Swapped, replaced, swaps_for
from assistant.talk.room import Room
from grammar.requests.swap import SwapRequest

OUTSIDE = frozenset(OUTSIDE_FUNCTIONS)
"""Jobs outside the dough: what is brushed on, boiled in or greased with is none of its rows."""
YEASTS = ("yeast_instant", "yeast_active_dry", "yeast_fresh")
STARTER_PCT = 20.0
STIFFNESS = {"starter_stiff_50": 50.0, "starter_100": 100.0}
"""Hydration of the starters on record, percent."""


def swapped_for(
    request: SwapRequest,
    out: str,
    g: float,
    into: str | None,
    job: str | None,
    avoid: Avoid | None,
    bowl: Bowl | None,
    room: Room,
) -> Swapped:
    """The swaps of one ingredient; starter and yeast by their own rule."""
    if out.startswith("starter") and into is not None and into.startswith("starter"):
        return Swapped(Portion(STARTER, g), (_other_starter(out, g, into, bowl),), None)
    if out.startswith("starter") and (into is None or into.startswith("yeast")):
        hydration = bowl.starter_hydration_pct if bowl is not None and bowl.starter_g > 0 else 100.0
        hydration = 50.0 if out == "starter_stiff_50" and bowl is None else hydration
        flour = bowl.starter_flour if bowl is not None else "flour_bread"
        yeasts = (into,) if into is not None else ("yeast_instant", "yeast_fresh")
        slow = [True] if request.overnight else [False, True] if into is not None or len(yeasts) > 1 else [False]
        made = [yeast_for_starter(g, hydration, yeast, late, flour) for yeast in yeasts for late in slow]
        return Swapped(Portion(STARTER, g), tuple(made), None)
    if out in YEASTS and into is not None and into.startswith("starter") and bowl is not None:
        choice = _timed(starter_for_yeast(bowl, room.kb.ingredients, STARTER_PCT), out, bowl, room)
        return Swapped(Portion(out, g), (choice,), None)
    swapped = swaps_for(
        out, g, shelf(room), bowl=None if job in OUTSIDE else bowl, into=into, function=job, avoid=avoid
    )
    if into is None and room.kb.ingredients[out].group == "egg":  # who lacks eggs has no part of one either
        swapped = replace(swapped, choices=tuple(one for one in swapped.choices if not _of_egg(one, room)))
    if out in YEASTS and bowl is not None and bowl.starter_g <= 0:
        choice = _timed(starter_for_yeast(bowl, room.kb.ingredients, STARTER_PCT), out, bowl, room)
        kept = tuple(one for one in swapped.choices if not one.into[0].item.startswith("starter"))
        return replace(swapped, choices=(*kept[:2], choice, *kept[2:]))
    return swapped


def _other_starter(out: str, g: float, into: str, bowl: Bowl | None) -> Choice:
    """A starter of another stiffness that holds the same flour; the water that differs is the dough's."""
    kept = bowl is not None and bowl.starter_g > 0 and out not in STIFFNESS
    now = bowl.starter_hydration_pct if bowl is not None and kept else STIFFNESS.get(out, 100.0)
    if bowl is not None and bowl.starter_g > 0 and abs(bowl.starter_hydration_pct - STIFFNESS.get(into, 100.0)) > 1:
        now = bowl.starter_hydration_pct
    return starter_for_starter(g, now, into, STIFFNESS.get(into, 100.0))


def _timed(choice: Choice, out: str, bowl: Bowl, room: Room) -> Choice:
    """The starter's choice with the bulk it then takes."""
    after = replaced(bowl, Swapped(Portion(out, bowl.g(out)), (choice,), None), choice)
    time = bulk_words(after, room)
    return replace(choice, effect=f"{choice.effect}; bulk about {time}") if time else choice


def _of_egg(choice: Choice, room: Room) -> bool:
    """Whether a part of an egg comes in."""
    return any(
        room.kb.ingredients[part.item].group == "egg" for part in choice.into if part.item in room.kb.ingredients
    )
