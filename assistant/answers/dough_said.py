"""From what a line said of a dough to the givens it is solved from, and to the dough."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, get_args

from assistant.engine.dough import Formula
from assistant.engine.formula import solve
from assistant.engine.givens import Defaults, Extra, FlourShare, Givens, Limit, Preferment, Tin
from assistant.engine.measures import CupSystem, Said, measure_book
from assistant.engine.naming import short_name
from assistant.engine.pieces import ONE_EACH_BELOW_G
from assistant.engine.refusal import Refused
from assistant.engine.weighing import weigh
from assistant.talk.room import Room
from grammar.requests.formula import FormulaRequest, Part
from knowledge import Knowledge

SHALLOW_CM = 5.0
DEPTH_OF_WIDTH = 0.55
"""Depth of a loaf tin as a share of its width where it was not said: tins of 4.25 to 5 in width are 2.75 to 3.5 deep,
the common 23 x 13 cm one 7 cm."""
LOAF_TIN_CM = 40.0
BY_MASS = ("old_dough", "soaker")
"""Preferments whose percentage is their own mass; the others are named by the flour in them."""


def givens_of(request: FormulaRequest, kb: Knowledge, system: CupSystem = "us") -> Givens:
    """The request in the engine's terms."""
    if request.clash:
        raise Refused(f"{request.clash[0]} and {request.clash[1]} cannot both hold", "say one of them")
    if "flour_bread" in request.without and not any(part.flour for part in request.parts):
        raise Refused("without flour there is no dough", "name the flour it is made of: 100 % spelt flour")
    parts = tuple(_weighed(part, system, kb) for part in request.parts)
    flour_parts = tuple(part for part in parts if _is_flour(part, kb))
    others = tuple(part for part in parts if not _is_flour(part, kb))
    flours = tuple(FlourShare(part.item[0], pct=part.pct, g=part.g, rest=part.rest) for part in flour_parts)
    extras = tuple(
        Extra(part.item[0], pct=part.pct, g=part.g, late=part.late, soaked=part.soaked) for part in others
    )
    word = kb.words.get(f"piece {request.piece}") if request.piece else None
    bread = request.bread or (word.bread if word is not None and word.names_bread else None)
    tin = tin_of(request)
    return Givens(
        # Tins whose size nobody gave are so many pieces.
        pieces=request.tins if request.pieces is None and tin is None else request.pieces,
        piece_g=request.piece_g,
        baked_g=request.baked_g,
        dough_g=request.dough_g,
        bowl_flour_g=request.flour_g,
        all_flour_g=request.all_flour_g,
        water_g=request.water_g,
        starter_g=request.starter_g,
        salt_g=request.salt_g,
        max_g=tuple(Limit(item, g) for item, g in request.limits),
        tin=tin,
        portions=request.portions,
        hydration_pct=request.hydration_pct,
        salt_pct=request.salt_pct,
        salt_item=request.salt,
        starter_pct=request.starter_pct,
        prefermented_pct=request.prefermented_pct,
        starter_hydration_pct=request.starter_hydration_pct,
        starter_flour=request.starter_flour,
        loss_pct=request.loss_pct,
        held_water_pct=request.held_water_pct,
        bread=bread,
        like=word.bread if word is not None and word.bread != bread else None,
        usual=request.usual,
        flours=flours,
        extras=extras,
        preferments=tuple(_preferment(*said) for said in request.preferments),
        old_discard_g=request.discard_g,
        without=request.without,
        late=request.late,
        from_masses=request.from_masses,
    )


def by_head(request: FormulaRequest, kb: Knowledge) -> FormulaRequest:
    """ "brioche for 12": of a bread that is sliced so many eat, of one that is handed out whole so many are baked."""
    if not request.for_heads:
        return request
    request = replace(request, for_heads=False)
    sliced = request.bread is not None and kb.breads[request.bread].piece_usual_g >= ONE_EACH_BELOW_G
    if not sliced or request.piece is not None or request.has_size:
        return request
    return replace(request, pieces=None, portions=request.pieces)


def _weighed(part: Part, system: CupSystem, kb: Knowledge) -> Part:
    """The part in grams where it was said by the cup, the spoon or the piece."""
    if part.measure is None:
        return part
    amount, unit = part.measure
    item = kb.ingredients[part.item[0]]
    if unit == "each":
        if item.each_g is None:
            raise Refused(f"one {short_name(item)} has no usual weight", "say it in grams")
        return replace(part, g=amount * item.each_g)
    return replace(part, g=weigh((Said(amount, amount, unit),), item.id, system, "", measure_book(kb)).g)


def _is_flour(part: Part, kb: Knowledge) -> bool:
    return part.flour or kb.ingredients[part.item[0]].group == "flour"


def _preferment(kind: str, pct: float | None, g: float | None, hydration_pct: float | None) -> Preferment:
    by_mass = kind in BY_MASS
    return Preferment(
        kind,  # type: ignore[arg-type]  # the ids of the preferment records are the kinds
        flour_pct=None if by_mass else pct,
        pct=pct if by_mass else None,
        g=g,
        hydration_pct=hydration_pct,
    )


def tin_of(request: FormulaRequest) -> Tin | None:
    """The tin that was said: by what it holds, or by its sides as its shape and their number tell.

    One length is a round (of a square tin its side), two a tray or, where a round was said, across and deep; two of a
    loaf tin leave its depth to be guessed. Three are a tin, five a tapered one.
    """
    sizes, deep_cm, shape = request.sizes_cm, request.deep_cm, request.tin_shape
    count = int(request.tins) if request.tins is not None and request.tins >= 1 else 1
    if request.tin_ml is not None:
        return Tin("tin", ml=request.tin_ml, count=count)
    if not sizes:
        return None
    if shape == "square" and len(sizes) == 1:
        sizes = (sizes[0], sizes[0])
    if len(sizes) == 2 and deep_cm is None and (shape == "round" or request.piece == "boule"):
        sizes, deep_cm = (max(sizes),), min(sizes)
    if len(sizes) == 1:
        return Tin("round", diameter_cm=sizes[0], depth_cm=deep_cm, count=count)
    if len(sizes) == 2 and deep_cm is None:
        loaf = shape == "loaf" and max(sizes) <= LOAF_TIN_CM
        return Tin(
            "tin" if loaf else "tray", length_cm=max(sizes), width_cm=min(sizes),
            depth_cm=round(DEPTH_OF_WIDTH * min(sizes), 1) if loaf else None, depth_guessed=loaf, count=count,
        )  # fmt: skip
    if len(sizes) >= 5:
        return Tin(
            "tin", length_cm=sizes[0], width_cm=sizes[1], base_length_cm=sizes[2], base_width_cm=sizes[3],
            depth_cm=sizes[4], count=count,
        )  # fmt: skip
    if len(sizes) == 4:
        return Tin(
            "tin", length_cm=sizes[0], width_cm=sizes[1], base_length_cm=sizes[2], base_width_cm=sizes[3],
            depth_cm=deep_cm, count=count,
        )  # fmt: skip
    if deep_cm is not None and len(sizes) == 2:
        length, width, depth = max(sizes), min(sizes), deep_cm
    else:
        length, width, depth = sorted(sizes[:3], reverse=True)
    return Tin("tray" if depth < SHALLOW_CM else "tin", length_cm=length, width_cm=width, depth_cm=depth, count=count)


def cup_system(settings: Mapping[str, Any]) -> CupSystem:
    """The kitchen's cups and spoons; US ones where nothing else was set."""
    name = settings.get("cup")
    return next((one for one in get_args(CupSystem) if one == name), "us")


def defaults_of(settings: Mapping[str, Any]) -> Defaults:
    """The kitchen's standing settings as far as a dough goes by them."""

    def number(name: str) -> float | None:
        value = settings.get(name)
        return float(value) if isinstance(value, int | float) else None

    flour = settings.get("flour")
    return Defaults(
        salt_pct=number("salt_pct"),
        loss_pct=number("loss_pct"),
        starter_hydration_pct=number("starter_hydration_pct"),
        starter_pct=number("starter_pct"),
        hydration_pct=number("hydration_pct"),
        flour=str(flour) if flour else None,
        piece_g=number("piece_g"),
    )


def piece_name(request: FormulaRequest, pieces: float | None, kb: Knowledge) -> str:
    """What the pieces are called, in the number the count wants: the word that was said, else the bread's."""
    one = pieces == 1
    word = kb.words.get(f"piece {request.piece}") if request.piece else None
    if word is not None:
        name = word.said_as[0]
    elif request.bread is not None:
        name = kb.breads[request.bread].said_as[0]
    else:
        return "piece" if one else "pieces"
    if one or name.endswith("s"):
        return name
    if name.endswith("loaf"):
        return name[:-1] + "ves"
    return name + ("es" if name.endswith(("ch", "sh", "x", "z")) else "s")


def solved(request: FormulaRequest, room: Room) -> Formula:
    """The formula of a request under this kitchen's settings. Raises Refused."""
    settings = room.bench.settings
    return solve(givens_of(request, room.kb, cup_system(settings)), defaults_of(settings), room.kb)
