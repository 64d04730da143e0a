"""A dough made larger, smaller or otherwise: what a line leaves as it was when it changes one thing."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.dough_in_percent import in_percent, is_weighed, masses_of
from assistant.answers.dough_moved import by_moves
from assistant.answers.dough_poured import BOWL, by_points, by_times, poured_into
from assistant.answers.dough_said import solved
from assistant.answers.dough_sized import by_piece, kept_so, scaled, with_more_flour
from assistant.engine.naming import figure, short_name
from assistant.engine.refusal import Refused
from assistant.talk.reply import Unclear
from assistant.talk.room import Room
from grammar.requests.formula import FormulaRequest
from grammar.requests.formula_kept_size import divides, only_a_row
from grammar.requests.formula_merge import same_mass, went_on


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
    """The dough as a line changes it: with more of a thing in it, so many times as large, or in other pieces."""
    if line is not None:
        if line.poured_g and room.bake is not None:
            return _with_poured(request, line, room)
        if line.stays is not None and isinstance(room.formula_said, FormulaRequest):
            request = kept_so(request, line, solved(room.formula_said, room))
        changed = _with_rows_moved(request, line, room)
        if changed is not None:
            return changed
    scale = _first(request.scale, line.scale if line is not None else None)
    more = _first(request.more_pieces, line.more_pieces if line is not None else None)
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
    return (
        with_more_flour(plain, flour_g, solved(plain, room)) if flour_g is not None else _more(plain, more or 0.0, room)
    )


def _first(said: float | None, else_said: float | None) -> float | None:
    return said if said is not None else else_said


def _with_poured(request: FormulaRequest, line: FormulaRequest, room: Room) -> FormulaRequest:
    """The dough with what a line puts in on top: what makes more of it, and rows that become more of it."""
    now = solved(request, room)
    bowl = tuple((item, g) for item, g in line.poured_g if item in BOWL or item.startswith("flour_"))
    rows = tuple((item, 100 * g / now.flour_g) for item, g in line.poured_g if (item, g) not in bowl)
    request = poured_into(request, bowl, now) if bowl else request
    return by_points(request, rows, now) if rows else request


def _with_rows_moved(request: FormulaRequest, line: FormulaRequest, room: Room) -> FormulaRequest | None:
    """The dough with rows or pieces changed from what they are; None where the line moves none."""
    if room.bake is not None:
        if line.times:
            request = by_times(request, line.times, solved(request, room))
        if line.moves:
            return by_moves(request, line, room)
        if line.times:
            return request
    if line.more_pct and (room.bake is not None or request.has_size or request.pieces):
        return by_points(request, line.more_pct, solved(request, room))
    if line.piece_change is not None and room.bake is not None:
        return by_piece(request, line.piece_change, solved(request, room))
    return None


def _more(plain: FormulaRequest, more: float, room: Room) -> FormulaRequest:
    """The dough with so many pieces more, or fewer where that is negative."""
    pieces = plain.pieces if plain.pieces is not None else solved(plain, room).pieces
    if pieces is None:
        raise Refused("this dough is not in pieces", "say how many pieces, and how heavy")
    if pieces + more <= 0:
        raise Refused(f"{figure(-more)} fewer than {figure(pieces)} pieces leaves none", "a smaller number")
    return replace(plain, pieces=pieces + more)
