"""A dough made larger, smaller or otherwise: what a line leaves as it was when it changes one thing."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant.answers.dough_moved import by_moves, share_pct
from assistant.answers.dough_said import solved
from assistant.engine.dough import Formula
from assistant.engine.naming import figure, grams, short_name
from assistant.engine.refusal import Refused
from assistant.talk.reply import Unclear
from assistant.talk.room import Room
from grammar.requests.formula import FormulaRequest, Part
from grammar.requests.formula_merge import divides, only_a_row, same_mass, went_on
from grammar.requests.formula_sizes import PieceChange


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
    pieces, choices = times(request.pieces), request.choices
    if pieces is not None and pieces > 1 and abs(pieces - round(pieces)) > 1e-9:
        choices = (*choices, f"{round(pieces)} pieces, the nearest to {figure(pieces)}")
        pieces = float(round(pieces))
    new = replace(
        request, pieces=pieces, choices=choices, parts=parts, preferments=preferments, limits=(), scale=None, **masses
    )
    if request.sizes_cm or request.tin_ml is not None:
        many = (request.pieces if request.pieces is not None else request.tins or 1) * factor
        if abs(many - round(many)) < 1e-9 and request.pieces is not None:
            return replace(new, pieces=float(round(many)))
        if abs(many - round(many)) < 1e-9:
            return replace(new, tins=float(round(many)))
        return replace(new, sizes_cm=(), tin_ml=None, tins=None, pieces=None, dough_g=dough_g * factor)
    sized = (new.pieces, new.dough_g, new.flour_g, new.all_flour_g, new.water_g, new.starter_g, new.portions)
    weighed = any(part.g is not None for part in parts)
    if sized == (None,) * 7 and not weighed:
        return replace(new, dough_g=dough_g * factor)
    return new


_UNLEAVENED = ("starter", "yeast")


def is_weighed(request: FormulaRequest) -> bool:
    """Whether shares of the dough follow from weights that were said."""
    weights = (request.water_g, request.salt_g, request.starter_g, request.discard_g)
    return request.from_masses or weights != (None,) * 4 or any(_is_by_weight(part) for part in request.parts)


def _is_by_weight(part: Part) -> bool:
    """Whether a row was said in grams, cups or spoons rather than as a share."""
    return part.g is not None or part.measure is not None


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
    flours = [part.item[0] for part in request.parts if _is_by_weight(part) and part.flour]
    largest = max(flours, key=lambda item: rows[item].g, default=None)
    parts = []
    for part in request.parts:
        row = rows.get(part.item[0])
        if not _is_by_weight(part) or row is None:
            parts.append(part)
        elif part.item[0] == largest:
            parts.append(replace(part, g=None, measure=None, rest=True))
        else:
            parts.append(replace(part, g=None, measure=None, pct=row.pct))
    return replace(
        request, parts=tuple(parts), from_masses=False, by_weight=request.by_weight or request.from_masses,
        flour_g=None, all_flour_g=None, dough_g=None, water_g=None,
        starter_g=None, salt_g=None, hydration_pct=share("hydration_pct"), salt_pct=share("salt_pct"),
        piece_g=request.piece_g if request.baked_g or request.piece_g else formula.piece_g,
        starter_pct=share("starter_pct"), without=request.without + (_UNLEAVENED if unleavened else ()),
    )  # fmt: skip


def how_much(asked: str, room: Room) -> Unclear:
    """ "more salt" needs a figure: what there is now, and lines with a figure a step to either side."""
    earlier = room.formula_said
    formula = solved(earlier, room) if isinstance(earlier, FormulaRequest) else None
    name = short_name(room.kb.ingredients[asked]) if asked in room.kb.ingredients else asked
    if formula is None:
        return Unclear(f"how much {name}?", (f"5 % {name}",))
    shares = {"salt": formula.salt_pct, "starter": formula.starter_pct or 0.0, "hydration": formula.hydration_pct}
    now = shares.get(asked, 100 * formula.row_g(asked) / formula.flour_g)
    step = 0.2 if asked == "salt" else 2.0 if asked == "hydration" else 5.0 if asked == "starter" else max(1.0, now / 4)
    near = tuple(f"{figure(round(value, 1))} % {name}" for value in (now + step, now - step) if value > 0)
    return Unclear(f"how much {name}? It is {figure(round(now, 1))} % now.", near)


def kept_in_proportion(request: FormulaRequest, line: FormulaRequest | None, room: Room) -> FormulaRequest:
    """A new size for a dough that was said in weights: the weights become the percentages they stand for.

    Only a number of pieces, where there were none, divides the dough as it is.
    """
    earlier = room.formula_said
    if line is None or room.bound is None or not isinstance(earlier, FormulaRequest) or line.begins_anew(earlier):
        return request
    if same_mass(line, earlier, room.bound) is not line or only_a_row(line, earlier):
        return request
    if divides(line, earlier):
        return replace(request, **masses_of(earlier), piece_g=line.piece_g)
    sizes = (line.piece_g, line.baked_g, line.dough_g, line.flour_g, line.all_flour_g, line.water_g, line.portions)
    sized = sizes != (None,) * 7 or bool(line.sizes_cm) or line.tin_ml is not None
    if line.pieces is not None and not sized and earlier.pieces is None and earlier.piece_g is None:
        weighed = earlier.dough_g or earlier.flour_g or earlier.all_flour_g or is_weighed(earlier)
        return replace(request, **masses_of(earlier), pieces=line.pieces) if weighed else request
    whole = (earlier.flour_g, earlier.all_flour_g, earlier.dough_g)
    divided = earlier.pieces is not None and (earlier.piece_g, earlier.baked_g) == (None, None) and any(whole)
    if (not sized and line.pieces is None) or not (is_weighed(earlier) or divided):
        return request
    return went_on(line, in_percent(earlier, solved(earlier, room)), room.bound)


def resized(request: FormulaRequest, line: FormulaRequest | None, room: Room) -> FormulaRequest:
    """The dough in hand made so many times as large, or by so many pieces more or fewer."""
    if line is not None and line.poured_g and room.bake is not None:
        now = solved(request, room)
        bowl = tuple((item, g) for item, g in line.poured_g if item in _BOWL or item.startswith("flour_"))
        rows = tuple((item, 100 * g / now.flour_g) for item, g in line.poured_g if (item, g) not in bowl)
        request = poured_into(request, bowl, now) if bowl else request
        return by_points(request, rows, now) if rows else request
    if line is not None and line.stays is not None and isinstance(room.formula_said, FormulaRequest):
        request = kept_so(request, line, solved(room.formula_said, room))
    if line is not None and line.times and room.bake is not None:
        request = by_times(request, line.times, solved(request, room))
    if line is not None and line.moves and room.bake is not None:
        return by_moves(request, line, room)
    if line is not None and line.times and room.bake is not None:
        return request
    if line is not None and line.more_pct and (room.bake is not None or request.has_size or request.pieces):
        return by_points(request, line.more_pct, solved(request, room))
    if line is not None and line.piece_change is not None and room.bake is not None:
        return by_piece(request, line.piece_change, solved(request, room))
    scale = request.scale if request.scale is not None else (line.scale if line is not None else None)
    more = request.more_pieces if request.more_pieces is not None else (line.more_pieces if line is not None else None)
    flour_g = line.more_flour_g if line is not None else None
    if scale is None and more is None and flour_g is None:
        return request
    if room.bake is None and scale is not None and request.has_size:
        alone = replace(request, scale=None)  # "a double batch of 12 rolls": of what the line itself says
        return scaled(alone, scale, solved(alone, room).dough_g)
    if room.bake is None:
        raise Refused("there is no dough in hand to change", "say the dough first: 24 rolls of 80 g at 66 %")
    plain = replace(request, scale=None, more_pieces=None, more_flour_g=None)
    if scale is not None:
        return scaled(plain, scale, solved(plain, room).dough_g)
    if flour_g is not None:
        now_g = solved(plain, room).bowl_flour_g
        if now_g + flour_g <= 0:
            why = f"there are {grams(now_g)} g of flour in it, and {grams(-flour_g)} g less leaves none"
            raise Refused(why, f"less than {grams(now_g)} g")
        return replace(
            plain, flour_g=now_g + flour_g, sizes_cm=(), tin_ml=None, pieces=None, dough_g=None, all_flour_g=None,
            water_g=None, portions=None, tins=None,
        )  # fmt: skip
    pieces = request.pieces if request.pieces is not None else solved(plain, room).pieces
    if pieces is None:
        raise Refused("this dough is not in pieces", "say how many pieces, and how heavy")
    if pieces + (more or 0) <= 0:
        raise Refused(f"{figure(-(more or 0))} fewer than {figure(pieces)} pieces leaves none", "a smaller number")
    return replace(plain, pieces=pieces + (more or 0))


def kept_so(request: FormulaRequest, line: FormulaRequest, now: Formula) -> FormulaRequest:
    """The dough in another number or weight of pieces, each as heavy as it is, or all of it as much as it is."""
    weighed: dict[str, Any] = dict.fromkeys((*_SIZES, "baked_g"))
    if line.stays == "size" and line.pieces is not None and now.piece_g is not None:
        return replace(in_percent(request, now), **{**weighed, "piece_g": now.piece_g, "pieces": line.pieces})
    if line.stays != "dough" or (line.pieces is None and line.piece_g is None):
        return request
    cut = {"dough_g": now.dough_g, "pieces": line.pieces, "piece_g": line.piece_g}
    return replace(in_percent(request, now), **{**weighed, **cut})


_SIZES = ("dough_g", "flour_g", "all_flour_g", "water_g", "starter_g", "salt_g", "portions", "tin_ml", "tins")
"""Fields that say how much dough there is, in place of pieces and their weight."""
_BOWL = ("flour", "water", "salt", "starter")
"""What is put in on top of a dough and makes more of it; of a row beside these there is more in as much dough."""


def by_piece(said: FormulaRequest, change: PieceChange, now: Formula) -> FormulaRequest:
    """The dough with as many pieces of another weight. Raises Refused where it is not in pieces, or none is left."""
    if now.pieces is None or now.piece_g is None:
        raise Refused("this dough is not in pieces", "say how many pieces, and how heavy")
    piece_g = change.to_g
    if piece_g is None:
        piece_g = now.piece_g * change.times if change.times is not None else now.piece_g + (change.by_g or 0.0)
    if piece_g <= 0:
        why = f"{grams(-(change.by_g or 0.0))} g less leaves nothing of {grams(now.piece_g)} g"
        raise Refused(why, "a smaller step")
    said = in_percent(said, now) if is_weighed(said) else said
    return replace(
        said, pieces=now.pieces, piece_g=piece_g, baked_g=None, dough_g=None, flour_g=None, all_flour_g=None,
        portions=None, sizes_cm=(), tin_ml=None, tins=None, limits=(), piece_change=None,
    )  # fmt: skip


def by_times(said: FormulaRequest, times: tuple[tuple[str, float], ...], now: Formula) -> FormulaRequest:
    """The dough with a row so many times as large as it is. Raises Refused for a row that is not in it."""
    points: list[tuple[str, float]] = []
    for name, factor in times:
        was = share_pct(now, name)
        if not was:
            thing = name.replace("_", " ")
            why = f"there is no {thing} in this dough to make {figure(factor)} times as much of"
            raise Refused(why, f"5 % {thing}")
        points.append((name, was * (factor - 1)))
    return by_points(said, tuple(points), now)


def by_points(said: FormulaRequest, more_pct: tuple[tuple[str, float], ...], now: Formula) -> FormulaRequest:
    """The dough with a share so many points larger or smaller than it is. Raises Refused below nothing."""
    for name, points in more_pct:
        was = share_pct(now, name)
        share = was + points
        if share < 0:
            why = f"there are only {figure(was)} % of {name.replace('_', ' ')} in it"
            raise Refused(why, f"at most {figure(was)} points less")
        if name == "hydration":
            said = replace(said, hydration_pct=share, water_g=None)
        elif name == "salt":
            said = replace(said, salt_pct=share, salt_g=None)
        elif name == "starter":
            said = replace(said, starter_pct=share, prefermented_pct=None, starter_g=None)
        else:
            rest = tuple(part for part in said.parts if part.item[0] != name)
            part = Part((name,), pct=share, flour=name.startswith("flour_"))
            said = replace(said, parts=(*rest, part) if share else rest)
    return replace(said, more_pct=())


def poured_into(said: FormulaRequest, poured_g: tuple[tuple[str, float], ...], now: Formula) -> FormulaRequest:
    """The dough as it is with something put in on top: every other mass stays, the shares are those that result.

    The pieces stay as many and change in weight. Raises Refused where more is taken out than is in.
    """
    gained = {"flour": 0.0, "water": 0.0, "salt": 0.0, "starter": 0.0}
    flours: dict[str, float] = {}
    for item, g in poured_g:
        if item in gained:
            gained[item] += g
        elif item.startswith("flour_"):
            flours[item] = flours.get(item, 0.0) + g
    starter_h = now.starter.hydration_pct if now.starter is not None else said.starter_hydration_pct or 100.0
    starter_flour_g = gained["starter"] / (1 + starter_h / 100)
    flour_g = now.flour_g + gained["flour"] + sum(flours.values()) + starter_flour_g
    water_g = now.water_g + gained["water"] + gained["starter"] - starter_flour_g
    salt_g = now.salt_pct / 100 * now.flour_g + gained["salt"]
    plain_g = next((row.g for row in now.rows if row.item == "water"), 0.0)
    if plain_g + gained["water"] < 0:
        raise Refused(f"there are only {grams(plain_g)} g of water poured in it", f"at most {grams(plain_g)} g less")
    starter_g = (now.starter.g if now.starter is not None else 0.0) + gained["starter"]
    parts = [part for part in said.parts if part.rest or part.item[0] not in flours]
    parts = [
        part if part.rest else replace(part, g=None, measure=None, pct=_grams_in(now, part.item[0]) / flour_g * 100)
        for part in parts
    ]
    for item, g in flours.items():
        parts.append(Part((item,), pct=(_grams_in(now, item) + g) / flour_g * 100, flour=True))
    dry_g = flour_g - starter_g / (1 + starter_h / 100)
    starter_pct = 100 * starter_g / dry_g if starter_g else said.starter_pct
    return replace(
        said, parts=tuple(parts), poured_g=(), pieces=now.pieces, piece_g=None, baked_g=None, dough_g=None,
        flour_g=None, all_flour_g=flour_g, water_g=None, starter_g=None, salt_g=None, sizes_cm=(), tin_ml=None,
        portions=None, limits=(), from_masses=False, hydration_pct=100 * water_g / flour_g,
        salt_pct=100 * salt_g / flour_g, starter_pct=starter_pct, prefermented_pct=None,
    )  # fmt: skip


def _grams_in(now: Formula, item: str) -> float:
    return sum(row.g for row in now.rows if row.item == item)
