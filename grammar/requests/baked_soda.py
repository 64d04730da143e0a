"""Baking soda baked in the oven for the bath: what is left of it, or how much to start with."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound, Frame
from grammar.levels import speaks
from grammar.slots import Slot


@dataclass(frozen=True, slots=True)
class BakedSodaRequest:
    """I bake 500 g of baking soda, what is left
    how much baking soda do I need for 150 g of baked soda

    soda_g: what goes into the oven; wanted_g: what is to come out. One of them is said.
    """

    soda_g: float | None = None
    wanted_g: float | None = None


def build(bound: Bound) -> BakedSodaRequest | None:
    """The request; None where soda is not baked for its own sake."""
    grams = bound.base("g")
    if grams is None:
        return None
    hit = bound.first("g")
    wanted = hit is not None and "baked_soda" in hit.ids("ingredient")
    if wanted:
        return BakedSodaRequest(wanted_g=grams) if bound.said("ask:how_much", "ask:how_to", "act:make") else None
    baked = bound.said("act:make", "stage:bake", "step:bake", "soda:baked", "ingredient:baked_soda")
    return BakedSodaRequest(soda_g=grams) if baked and bound.said("soda:left", "soda:baked") else None


FRAME = Frame(
    BakedSodaRequest,
    "baked_soda",
    build,
    slots={
        "g": Slot(
            {"mass": 1.4, "volume": -3.0}, cues=("ingredient:baked_soda", "ingredient:baking_soda"), bare=0.3, low=5,
            high=5000,
        ),
        "thing": Slot(term=("ingredient:baking_soda", "ingredient:baked_soda"), many=True),
    },
    cues=speaks(
        telling="soda:*",
        sure="act:make stage:bake step:bake ask:how_much",
        maybe="ask:what ask:how_to cue:oven bath:* bathing:*",
        heard="ask:can_i ask:should_i cue:missing cue:all_of_it link:after",
    ),
    needs=("soda:*", "ingredient:baked_soda"),
    rules_out=("symptom:*", "act:swap"),
    help_topic="bath",
)  # fmt: skip
