"""The flours of a dough where their shares are not said one by one."""

from __future__ import annotations

from dataclasses import replace

from grammar.frames import Bound
from grammar.requests.formula_parts import Part
from grammar.requests.formula_slots import WHITE


def blended(parts: list[Part], bound: Bound) -> list[Part]:
    """ "half and half rye and bread flour", "60/40 rye and wholemeal": the shares in the order of the flours."""
    ratio = next((p.tokens[0].value for p in bound.phrases if p.ids("blend")), None)
    flours = [part for part in parts if part.flour and part.pct is None and part.g is None]
    even = bound.said("blend:*")
    if len(flours) == 1 and even and flours[0].item[0] not in WHITE:  # "50/50 wholemeal": the rest is white
        share = float(ratio[0]) if isinstance(ratio, tuple) else 50.0
        return [replace(part, pct=share, rest=False) if part is flours[0] else part for part in parts]
    if len(flours) < 2 or not even:
        return parts
    shares = (
        list(ratio) if isinstance(ratio, tuple) and len(ratio) == len(flours) else [100 / len(flours)] * len(flours)
    )
    said = dict(zip(map(id, flours), shares, strict=True))
    return [replace(part, pct=said[id(part)], rest=False) if id(part) in said else part for part in parts]


def hydration_of_white(parts: list[Part], bound: Bound) -> tuple[float | None, list[Part]]:
    """ "66 % bread flour" with no other flour and no hydration: nobody says the white share of a white dough."""
    flours = [part for part in parts if part.flour]
    if len(flours) == 1 and not bound.context.has_bake and flours[0].item[0] in WHITE:
        part = flours[0]
        if part.pct is not None and 50 <= part.pct <= 90:
            return part.pct, [replace(p, pct=None, rest=True) if p is part else p for p in parts]
    return None, parts


def white_beside(parts: list[Part]) -> list[Part]:
    """ "300 g of wholemeal in 12 rolls of 90 g": what else they need is white."""
    flours = [part for part in parts if part.flour]
    if not flours or any(part.g is None or part.item[0] in WHITE for part in flours):
        return parts
    return [*parts, Part(("flour_bread",), rest=True, flour=True)]


def weighed_as_before(kept: list[Part], new: tuple[Part, ...], weighed_g: float) -> tuple[Part, ...]:
    """The parts; a share of weighed flours is so much of their weight, and the others make room for it: "a third of it
    wholemeal" of 3 kg is 1 kg."""
    others_g = sum(part.g or 0.0 for part in kept if part.flour)
    shares = [part for part in new if part.flour and part.pct is not None]
    left_g = weighed_g * (1 - sum(part.pct or 0.0 for part in shares) / 100)
    if not (shares and others_g and left_g > 0):
        return (*kept, *new)
    less = [replace(part, g=part.g * left_g / others_g) if part.flour and part.g else part for part in kept]
    said = [replace(one, g=weighed_g * (one.pct or 0.0) / 100, pct=None) if one in shares else one for one in new]
    return (*less, *said)
