"""From what a line said of a dough to the givens it is solved from; scaling, and the givens in plain words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, get_args

from assistant.engine.dough import Formula
from assistant.engine.givens import Defaults, Extra, FlourShare, Givens, Limit, Preferment, Tin
from assistant.engine.measures import CupSystem, Said, measure_book, weigh
from assistant.engine.naming import figure, grams, short_name
from assistant.engine.refusal import Refused
from grammar.requests.formula import FormulaRequest, Part
from knowledge import Knowledge

SHALLOW_CM = 5.0
BY_MASS = ("old_dough", "soaker")
"""Preferments whose percentage is their own mass; the others are named by the flour in them."""


def givens_of(request: FormulaRequest, kb: Knowledge, system: CupSystem = "us") -> Givens:
    """The request in the engine's terms."""
    if request.clash:
        raise Refused(f"{request.clash[0]} and {request.clash[1]} cannot both hold", "say one of them")
    parts = tuple(_weighed(part, system, kb) for part in request.parts)
    flour_parts = tuple(part for part in parts if _is_flour(part, kb))
    others = tuple(part for part in parts if not _is_flour(part, kb))
    flours = tuple(FlourShare(part.item[0], pct=part.pct, g=part.g, rest=part.rest) for part in flour_parts)
    extras = tuple(
        Extra(part.item[0], pct=part.pct, g=part.g, late=part.late, soaked=part.soaked) for part in others
    )
    word = kb.words.get(f"piece {request.piece}") if request.piece else None
    bread = request.bread or (word.bread if word is not None and word.names_bread else None)
    return Givens(
        # Tins whose size nobody gave are so many pieces.
        pieces=request.tins if request.pieces is None and not request.sizes_cm else request.pieces,
        piece_g=request.piece_g,
        baked_g=request.baked_g,
        dough_g=request.dough_g,
        bowl_flour_g=request.flour_g,
        all_flour_g=request.all_flour_g,
        water_g=request.water_g,
        starter_g=request.starter_g,
        salt_g=request.salt_g,
        max_g=tuple(Limit(item, g) for item, g in request.limits),
        tin=tin_of(request),
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
        like=word.bread if word is not None and bread is None else None,
        usual=request.usual,
        flours=flours,
        extras=extras,
        preferments=tuple(_preferment(*said) for said in request.preferments),
        old_discard_g=request.discard_g,
        without=request.without,
        late=request.late,
        from_masses=request.from_masses,
    )


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
    """The tin that was said: one length is a round, two a tray or a deep round, three a tin, five a tapered one."""
    sizes = request.sizes_cm
    if not sizes:
        return None
    count = int(request.tins) if request.tins is not None and request.tins >= 1 else 1
    if len(sizes) == 1:
        return Tin("round", diameter_cm=sizes[0], count=count)
    if len(sizes) == 2 and request.piece == "boule":
        return Tin("round", diameter_cm=max(sizes), depth_cm=min(sizes), count=count)
    if len(sizes) == 2:
        return Tin("tray", length_cm=sizes[0], width_cm=sizes[1], count=count)
    if len(sizes) >= 5:
        return Tin(
            "tin", length_cm=sizes[0], width_cm=sizes[1], base_length_cm=sizes[2], base_width_cm=sizes[3],
            depth_cm=sizes[4], count=count,
        )  # fmt: skip
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


def scaled(request: FormulaRequest, factor: float, dough_g: float) -> FormulaRequest:
    """The same dough `factor` times as large. dough_g: what it weighs now, for a size that does not multiply."""
    if factor <= 0:
        raise Refused("a dough cannot be scaled to nothing", "double it, or halve it")

    def times(value: float | None) -> float | None:
        return None if value is None else value * factor

    masses: dict[str, Any] = {
        name: times(getattr(request, name))
        for name in ("flour_g", "all_flour_g", "water_g", "starter_g", "salt_g", "discard_g", "dough_g", "portions")
    }
    parts = tuple(replace(part, g=times(part.g)) for part in request.parts)
    preferments = tuple((kind, pct, times(g), hydration) for kind, pct, g, hydration in request.preferments)
    new = replace(
        request, pieces=times(request.pieces), parts=parts, preferments=preferments, limits=(), scale=None, **masses
    )
    if request.sizes_cm:
        many = (request.pieces if request.pieces is not None else request.tins or 1) * factor
        if abs(many - round(many)) < 1e-9 and request.pieces is not None:
            return replace(new, pieces=float(round(many)))
        if abs(many - round(many)) < 1e-9:
            return replace(new, tins=float(round(many)))
        return replace(new, sizes_cm=(), tins=None, pieces=None, dough_g=dough_g * factor)
    sized = (new.pieces, new.dough_g, new.flour_g, new.all_flour_g, new.water_g, new.starter_g, new.portions)
    weighed = any(part.g is not None for part in parts)
    if sized == (None,) * 7 and not weighed:
        return replace(new, dough_g=dough_g * factor)
    return new


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


_UNLEAVENED = ("starter", "yeast")


def is_weighed(request: FormulaRequest) -> bool:
    """Whether shares of the dough follow from weights that were said."""
    weights = (request.water_g, request.salt_g, request.starter_g, request.discard_g)
    return request.from_masses or weights != (None,) * 4 or any(part.g is not None for part in request.parts)


def masses_of(request: FormulaRequest) -> dict[str, Any]:
    """The fields of a request that say how much there is."""
    names = ("dough_g", "flour_g", "all_flour_g", "water_g", "starter_g", "salt_g", "discard_g", "from_masses", "parts")
    return {name: getattr(request, name) for name in names}


def in_percent(request: FormulaRequest, formula: Formula) -> FormulaRequest:
    """The same dough with its weights as shares of the flour, so that it can be made in another size.

    A share that was neither said nor weighed stays open, so that it is still told as assumed.
    """

    def share(name: str) -> float | None:
        said: float | None = getattr(request, name)
        return getattr(formula, name) if formula.layers.get(name) == "solved" else said

    rows = {row.item: row for row in formula.rows}
    unleavened = request.from_masses and formula.starter is None and not any("yeast" in item for item in rows)
    flours = [part.item[0] for part in request.parts if part.g is not None and part.flour]
    largest = max(flours, key=lambda item: rows[item].g, default=None)
    parts = []
    for part in request.parts:
        row = rows.get(part.item[0])
        if part.g is None or row is None:
            parts.append(part)
        elif part.item[0] == largest:
            parts.append(replace(part, g=None, rest=True))
        else:
            parts.append(replace(part, g=None, pct=row.pct))
    return replace(
        request, parts=tuple(parts), from_masses=False, flour_g=None, all_flour_g=None, dough_g=None, water_g=None,
        starter_g=None, salt_g=None, hydration_pct=share("hydration_pct"), salt_pct=share("salt_pct"),
        piece_g=request.piece_g if request.baked_g or request.piece_g else formula.piece_g,
        starter_pct=share("starter_pct"), without=request.without + (_UNLEAVENED if unleavened else ()),
    )  # fmt: skip


def read_as(request: FormulaRequest, givens: Givens, kb: Knowledge) -> str:
    """What was understood, in plain words, every quantity with its unit."""
    said: list[str] = []
    name = piece_name(request, givens.pieces, kb)
    if givens.pieces is not None:
        each = f" of {figure(givens.piece_g)} g" if givens.piece_g is not None else ""
        said.append(f"{figure(givens.pieces)} {name}{each}")
    elif givens.piece_g is not None:
        said.append(f"{name} of {figure(givens.piece_g)} g")
    if givens.bread is not None and kb.breads[givens.bread].name.lower() not in " ".join(said):
        said.append(kb.breads[givens.bread].name.lower())
    said += [words for value, words in _masses(givens) if value is not None]
    said += _shares(givens, kb)
    said += [_flour_words(share, kb) for share in givens.flours]
    said += [_extra_words(extra, kb) for extra in givens.extras]
    said += [_preferment_words(part) for part in givens.preferments]
    said += [f"no {_name(item, kb)}" for item in givens.without]
    said += [f"{_name(item, kb)} later" for item in givens.late]
    if givens.usual:
        said.append("its usual dough")
    return ", ".join(said) if said else "a dough"


def _masses(givens: Givens) -> list[tuple[float | None, str]]:
    tin = givens.tin
    return [
        (givens.baked_g, f"{figure(givens.baked_g or 0)} g each when baked"),
        (givens.dough_g, f"{grams(givens.dough_g or 0)} g dough"),
        (givens.bowl_flour_g, f"{grams(givens.bowl_flour_g or 0)} g flour"),
        (givens.all_flour_g, f"{grams(givens.all_flour_g or 0)} g of all flour"),
        (givens.water_g, f"{grams(givens.water_g or 0)} g water"),
        (givens.starter_g, f"{grams(givens.starter_g or 0)} g starter"),
        (givens.salt_g, f"{grams(givens.salt_g or 0)} g salt"),
        (givens.old_discard_g, f"{grams(givens.old_discard_g or 0)} g old discard"),
        (givens.portions, f"enough for {figure(givens.portions or 0)}"),
        (float(tin.count) if tin is not None else None, _tin_words(tin) if tin is not None else ""),
        *((limit.g, f"at most {grams(limit.g)} g {limit.item.replace('_', ' ')}") for limit in givens.max_g),
    ]


def _tin_words(tin: Tin) -> str:
    many = f"{tin.count} {tin.shape}s" if tin.count > 1 else f"a {tin.shape}"
    if tin.diameter_cm is not None:
        deep = f", {figure(tin.depth_cm)} cm deep" if tin.depth_cm is not None else ""
        return f"{many} of {figure(tin.diameter_cm)} cm{deep}"
    lengths = [tin.length_cm, tin.width_cm, tin.base_length_cm, tin.base_width_cm, tin.depth_cm]
    return f"{many} of {' x '.join(figure(x) for x in lengths if x is not None)} cm"


def _shares(givens: Givens, kb: Knowledge) -> list[str]:
    salt_pct = None if "salt" in givens.without else givens.salt_pct
    salt = short_name(kb.ingredients[givens.salt_item]) if givens.salt_item is not None else "salt"
    starter_pct = None if "starter" in givens.without else givens.starter_pct
    shares = [
        (givens.hydration_pct, "hydration"), (salt_pct, salt), (starter_pct, "starter"),
        (givens.prefermented_pct, "prefermented flour"), (givens.loss_pct, "bench loss"),
        (givens.held_water_pct, "of the water held back"),
    ]  # fmt: skip
    said = [f"{figure(value)} % {words}" for value, words in shares if value is not None]
    if givens.starter_hydration_pct is not None:
        said.append(f"starter at {figure(givens.starter_hydration_pct)} % hydration")
    if givens.starter_flour is not None:
        said.append(f"starter fed with {_name(givens.starter_flour, kb)}")
    return said


def _flour_words(share: FlourShare, kb: Knowledge) -> str:
    name = short_name(kb.ingredients[share.item])
    if share.g is not None:
        return f"{grams(share.g)} g {name}"
    return f"{figure(share.pct)} % {name}" if share.pct is not None else name


def _extra_words(extra: Extra, kb: Knowledge) -> str:
    name = short_name(kb.ingredients[extra.item])
    if extra.g is not None:
        return f"{grams(extra.g)} g {name}"
    name = f"soaked {name}" if extra.soaked else name
    return f"{figure(extra.pct)} % {name}" if extra.pct is not None else name


def _preferment_words(part: Preferment) -> str:
    at = f" at {figure(part.hydration_pct)} %" if part.hydration_pct is not None else ""
    name = part.kind.replace("_", " ") + at
    if part.flour_pct is not None:
        return f"{figure(part.flour_pct)} % of the flour in a {name}"
    if part.pct is not None:
        return f"{figure(part.pct)} % {name}"
    return f"{grams(part.g)} g {name}" if part.g is not None else name


def _name(item: str, kb: Knowledge) -> str:
    return short_name(kb.ingredients[item]) if item in kb.ingredients else item
