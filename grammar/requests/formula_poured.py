"""Weights that are not the dough's own: what is put in on top of it, and what there is at most."""

from __future__ import annotations

from dataclasses import replace

from grammar.frames import Bound, Hit, amount_base, fits
from grammar.requests.formula_parts import Part


def poured_of(bound: Bound, parts: list[Part], own: dict[str, float]) -> tuple[tuple[str, float], ...]:
    """What is put into the dough in hand on top of the rest, in g; taken out of `parts` and `own`.

    "add 50 g water", "another 50 water", "20 g less water", "what if 40 g water were held back"; "100 g more flour" is
    a larger dough instead.
    """
    held = bound.said("cue:held") and ("if" in bound.links() or bound.said("ask:what_if"))  # "if 40 were held back"
    adds, changes = bound.said("act:add"), held or bound.said("act:add", "cue:greater", "cue:fewer")
    if not bound.context.has_bake or not changes or bound.said("act:new_dough"):
        return ()
    sign, rows = -1.0 if held or bound.said("cue:fewer") else 1.0, bound.context.known.rows
    out: list[tuple[str, float]] = []
    if "water_g" in own:
        out.append(("water", sign * own.pop("water_g")))
    kept = bound.first("held_pct")
    if held and kept is not None and kept.amount is not None and kept.amount.dim == "num":
        out.append(("water", -(amount_base(kept.amount) or 0.0)))
    hit = bound.first("hydration_pct")
    bare = hit is not None and hit.amount is not None and hit.amount.dim == "num"
    bare = bare and hit is not None and not _behind_a_pause(hit, bound)
    if hit is not None and bare and hit.label is not None and fits(hit.label, ("ingredient:water",)):
        out.append(("water", sign * (amount_base(hit.amount) or 0.0)))
    if adds:
        for name, item in (("flour_g", "flour"), ("starter_g", "starter"), ("salt_g", "salt")):
            if name in own:
                out.append((item, own.pop(name)))
    for part in [part for part in parts if part.g is not None and (part.flour or part.item[0] in rows)]:
        if adds or not part.flour:
            parts.remove(part)
            out.append((part.item[0], sign * (part.g or 0.0)))
    return tuple(out)


def for_every_piece(bound: Bound, parts: list[Part], own: dict[str, float]) -> None:
    """ "20 g of salt per loaf": what goes into one piece, taken so many times as there are pieces."""
    said = bound.base("pieces") or bound.context.known.pieces
    pairs = zip(bound.phrases, bound.phrases[1:], strict=False)
    each = any("per" in one.ids("link") and fits(two, ("piece:*", "bread:*")) for one, two in pairs)
    if not each or said is None or bound.first("part_g") is None or bound.first("piece_g") is not None:
        return
    own.update({name: g * said for name, g in own.items()})
    parts[:] = [replace(part, g=part.g * said) if part.g is not None else part for part in parts]


def _behind_a_pause(hit: Hit, bound: Bound) -> bool:
    """ "a touch more water, say 70", "water back to 58": a bare figure that a pause or "to" parts from its word says
    how much there is to be."""
    places = [n for n, phrase in enumerate(bound.phrases) if phrase is hit.label or phrase is hit.amount]
    between = bound.phrases[places[0] : places[-1]]
    parting = (phrase.kind == "sep" or fits(phrase, ("link:about", "link:to", "act:back")) for phrase in between)
    return any(parting)


def limits_of(bound: Bound, own: dict[str, float], counted: bool) -> tuple[tuple[str, float], ...]:
    """How much flour or starter there is at most, in g; taken out of `own`. counted: pieces were told beside."""
    if not bound.said("cue:limit") or not (counted or bound.context.has_bake):
        return ()
    names = (("flour_g", "flour"), ("starter_g", "starter"))
    return tuple((item, own.pop(name)) for name, item in names if name in own)


def more_flour_of(bound: Bound, own: dict[str, float]) -> float | None:
    """How much flour more than the dough in hand has, in g, less than nothing for less; taken out of `own`."""
    if not bound.context.has_bake or "flour_g" not in own or not bound.said("cue:fewer", "cue:greater"):
        return None
    return own.pop("flour_g") * (-1 if bound.said("cue:fewer") else 1)
