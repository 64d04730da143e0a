"""Makes the request of a dough from the figures and words of a line."""

from __future__ import annotations

from dataclasses import replace

from grammar.frames import Bound, fits
from grammar.moods import without_asides
from grammar.requests.formula_asked import asked_of, share_asked
from grammar.requests.formula_beside import beside
from grammar.requests.formula_blend import blended, hydration_of_white, white_beside
from grammar.requests.formula_counts import Counts, counts_of, heads_meant, scales_at, what_stays
from grammar.requests.formula_ferments import settled as ferments_settled
from grammar.requests.formula_figures import (
    bare_pair,
    batches_of,
    choices_of,
    clash_of,
    counts_starter,
    dough_warmth,
    in_usual_order,
    points_of,
    said_twice,
    unless_mass,
    wet_not_many,
    without_pronoun,
)
from grammar.requests.formula_leaven import fed_with, preferments_of, share_hit, two_waters
from grammar.requests.formula_lists import bare_rows, lists_grams, masses_told, wet_by_share
from grammar.requests.formula_moves import moved
from grammar.requests.formula_none import is_exchange, is_of_something_else, is_too_little, weighs_nothing
from grammar.requests.formula_parts import late_of, number, parts_of, salt_named, unweighed, without_amount
from grammar.requests.formula_poured import for_every_piece, limits_of, more_flour_of, poured_of
from grammar.requests.formula_preferments import MadeUp, made_up
from grammar.requests.formula_request import FormulaRequest
from grammar.requests.formula_rows import in_its_row, times_of, water_back
from grammar.requests.formula_sides import depth_of, shape_of, sides_of
from grammar.requests.formula_sizes import counted_not_sized, of_one_piece, weighed_not_counted
from grammar.requests.formula_steps import Moves, step_beside, step_of
from grammar.requests.formula_without import left_out, stood_in_for
from grammar.roles import possible

_STEPS_BESIDE = ("more_pct", "times", "poured_g", "piece_change", "heads_changed")
"""What a step in a clause of its own does."""
_LOAF_G = 300.0
"""From here on one piece with its weight is a dough to weigh out: "900 g loaf"."""


def build(bound: Bound) -> FormulaRequest | None:
    """The request, or None where the line says nothing a dough could be made of or changed by."""
    if is_of_something_else(bound):
        return None
    bound, made = made_up(_sizes_settled(without_pronoun(in_its_row(without_asides(bound)))))
    moves, bound = moved(ferments_settled(bound))
    than_usual = bound.said("cue:usual") and "than" in bound.links()
    if bound.first("points") is not None and not (bound.context.has_bake or than_usual):
        return None  # so much more or less than what, was not said
    if than_usual and points_of(bound) is not None:
        return _than_usual(bound)
    beside_it = step_beside(bound) if not moves else None
    if beside_it is not None and (rest := build(beside_it[1])) is not None and not rest.whole:
        return replace(rest, size_lead=True, **{name: getattr(beside_it[0], name) for name in _STEPS_BESIDE})
    step = step_of(bound, moves)
    if step is not None:
        return step
    ordered = in_usual_order(bound) if moves or not is_exchange(bound) else None
    if ordered is None:
        return None
    batches = batches_of(ordered)
    if batches:
        return FormulaRequest(batches=batches, size_lead=bound.context.has_bake, pieces=ordered.base("pieces"))
    asked = asked_of(ordered)
    shared = share_asked(wet_not_many(ordered), asked)
    return _told(shared, made, moves, asked, masses_told(ordered)) if shared is not None else None


def _sizes_settled(bound: Bound) -> Bound:
    """The line with what is counted, what one piece weighs and what all of the dough weighs each in its slot."""
    return of_one_piece(weighed_not_counted(counted_not_sized(bound)))


def _than_usual(bound: Bound) -> FormulaRequest | None:
    """ "24 rolls with 10 % less water than usual": the dough as it is usual, by so many points another."""
    points, hit = points_of(bound), bound.first("points") or bound.first("bare_points")
    rest = build(replace(bound, hits=tuple(one for one in bound.hits if one is not hit)))
    return replace(rest, more_pct=(points,), usual=False) if rest is not None and points is not None else None


def _told(
    bound: Bound, made: tuple[MadeUp, ...], moves: Moves, asked: tuple[str, ...], masses: bool
) -> FormulaRequest | None:
    """A dough told in figures. masses: a list of weights whose percentages are wanted."""
    listed = lists_grams(bound)
    wet_share = wet_by_share(bound, listed)
    parts, own = parts_of(bound, masses or listed, asked)
    for_every_piece(bound, parts, own)
    if wet_share:
        own.pop("water_g", None)
    masses = masses or (listed and "water_g" in own)
    if is_too_little(bound, own, parts):
        return None
    without, late, no_loss = left_out(bound)
    replaced = stood_in_for(bound)
    parts = [part for part in parts if part.pct is not None or part.g is not None or part.item[0] not in replaced]
    if bound.said("stance:must_not") and not all(unweighed(part) for part in parts):
        parts = [part for part in parts if not unweighed(part)]  # who is allergic to what is no row of the dough
    counts = counts_of(bound)
    if asked == ("piece_g",) and (counts.pieces == 1 or scales_at(bound)):
        counts = Counts()  # "what does one roll weigh" asks, and makes no dough of one
    counted = counts.pieces is not None or counts.more is not None
    limits = limits_of(bound, own, counted) if not masses else ()
    poured = poured_of(bound, parts, own)
    more_flour = more_flour_of(bound, own)
    with_starter = counts_starter(bound)
    if with_starter and "flour_g" in own and not masses:
        own["all_flour_g"] = own.pop("flour_g")
    scale, times = counts.scale, times_of(bound, moves)
    cut = bound.first("piece_g") is not None
    if scale is not None and scale < 1 and cut and bound.first("pieces") is not None:
        return FormulaRequest(two_sizes=True, piece_g=bound.base("piece_g"), scale=scale)  # "make half of them 100 g"
    if times:  # "starter 25, and a third less honey": the share is the row's, not the batch's
        scale = None
        parts = [part for part in parts if not unweighed(part) or part.item[0] not in dict(times)]
    parts = blended(parts, bound)
    if counts.pieces is not None and cut and not masses:
        parts = white_beside(parts)
    plain = not (masses or listed)
    wet = bound.first("hydration_pct") or bound.first("dough_pct")
    hydration = None if any(item == "water" for item, _ in poured) else unless_mass(wet, plain or wet_share)
    starter_h, hydration = two_waters(bound, hydration, masses and {"water_g", "starter_g"} <= own.keys())
    if weighs_nothing(bound):
        return None
    as_ever = water_back(bound)
    piece_g, hydration = bare_pair(bound, bound.base("piece_g"), hydration)
    if not moves and scale is not None and scale < 1 and any(unweighed(part) for part in parts):
        return None  # "half of them with sesame": what goes on top of which
    if hydration is None and plain:
        hydration, parts = hydration_of_white(parts, bound)
    request = _of_the_tin(bound, _of_the_counts(counts, FormulaRequest(
        piece_g=piece_g,
        baked_g=bound.base("baked_g"),
        dough_g=bound.base("dough_g"),
        flour_g=own.get("flour_g"),
        all_flour_g=own.get("all_flour_g", bound.base("all_flour_g")),
        counted=with_starter,
        water_g=own.get("water_g"),
        starter_g=own.get("starter_g"),
        salt_g=own.get("salt_g"),
        discard_g=own.get("discard_g"),
        limits=limits,
        hydration_pct=hydration,
        salt_pct=unless_mass(bound.first("salt_pct") or bound.first("then_salt_pct"), plain),
        salt=salt_named(bound),
        starter_pct=unless_mass(share_hit(bound), plain),
        prefermented_pct=number(bound.first("prefermented_pct")),
        open_preferments=without_amount(bound),
        starter_hydration_pct=starter_h,
        starter_flour=fed_with(bound),
        loss_pct=0.0 if no_loss else bound.base("loss_pct"),
        held_water_pct=bound.base("held_pct") if not poured else None,
        bread=_bread(bound),
        piece=_piece(bound),
        usual=bound.said("cue:usual") and not as_ever,
        put_back=("water",) if bound.context.has_bake and as_ever else (),
        kitchen_c=bound.base("kitchen_c"),
        dough_c=dough_warmth(bound),
        choices=choices_of(bound),
        parts=tuple(parts),
        preferments=preferments_of(bound, made),
        without=tuple(dict.fromkeys([*without, *replaced])),
        late=tuple(dict.fromkeys([*late, *late_of(bound)])),
        from_masses=masses,
        pieces_asked=bound.said("ask:how_many") and counts.pieces is None,
        asked=asked,
        scale=scale,
        more_flour_g=more_flour,
        poured_g=poured,
        bare_rows=bare_rows(bound),
        stays=what_stays(bound),
        figure=bound.base("other_figure") or bound.base("meant_figure") or bound.base("again_part"),
        times=times,
        moves=moves,
        clash=clash_of(bound) or said_twice(bound),
        for_heads=heads_meant(bound),
        adds=bound.said("act:add"),
        as_much=bound.said("again:measure"),
        anew=bound.said("act:new_dough") or beside(bound),
        size_lead=_lead(bound) and bound.context.has_bake,
    )))  # fmt: skip
    return request if _is_a_dough(request, bound) else None


def _of_the_counts(counts: Counts, request: FormulaRequest) -> FormulaRequest:
    return replace(
        request, pieces=counts.pieces, portions=counts.portions, heads=counts.heads, per_head=counts.per_head,
        tables=counts.tables, more_pieces=counts.more, vague=counts.vague,
    )  # fmt: skip


def _of_the_tin(bound: Bound, request: FormulaRequest) -> FormulaRequest:
    tins = bound.base("tins")
    if tins is not None and bound.context.has_bake and bound.said("cue:fewer", "cue:greater"):
        return replace(request, more_pieces=-tins if bound.said("cue:fewer") else tins)  # "one more tin"
    if tins is not None and bound.context.has_bake and bound.said("cue:split"):
        return replace(request, pieces=tins, stays="dough")  # "split that over 2 tins"
    request = replace(request, tin_ml=bound.base("tin_ml"), tins=tins)
    sizes = bound.first("sizes")
    if sizes is None:
        return request
    return replace(
        request, sizes_cm=sides_of(bound, sizes), deep_cm=depth_of(bound, sizes), tin_shape=shape_of(bound)
    )


def _bread(bound: Bound) -> str | None:
    counted = (hit for hit in bound.hits if hit.slot in ("pieces", "piece_g") and hit.ids("bread"))
    return bound.term("bread", "bread") or next((hit.ids("bread")[0] for hit in counted), None)


def _piece(bound: Bound) -> str | None:
    piece = next((p.ids("piece")[0] for p in bound.phrases if p.ids("piece") and not p.negated), None)
    loaf = piece in (None, "piece") and shape_of(bound) == "loaf" and bound.first("sizes") is not None
    return "loaf" if loaf else piece


def _lead(bound: Bound) -> bool:
    """Whether the line begins as a change to what is in hand: "for 40", "and with", "make it", "same but"."""
    for phrase in bound.phrases:
        if phrase.kind == "sep" or fits(phrase, ("span:now", "filler:*")):
            continue
        if phrase.kind == "link":
            return bool(set(phrase.ids("link")) & {"for", "with", "and", "at", "instead", "if", "to"})
        return fits(phrase, ("act:change", "act:same", "act:correct", "act:add", "ask:what_if", "act:use", "act:scale"))
    return False


def _is_a_dough(request: FormulaRequest, bound: Bound) -> bool:
    """Whether so much was said that a dough can be made of it, changed by it or shown."""
    bare = FormulaRequest(asked=request.asked, size_lead=request.size_lead, anew=request.anew)
    least, most = possible("dough_c") or (0.0, 0.0)
    if request.dough_c is not None and not least <= request.dough_c <= most:
        return True  # no dough is so warm, whatever else is said of it
    # warmth alone makes no dough; a question shows the one in hand
    if replace(request, kitchen_c=None, dough_c=None) == bare:
        return bool(request.asked) and bound.context.has_bake and request.kitchen_c is None
    named = request.bread or request.piece
    loaf = request.piece_g is not None and request.piece_g >= _LOAF_G
    told = request.has_size or request.has_shares or request.portions or request.usual or request.tins
    return bool(told or (named and (request.pieces is not None or loaf)) or bound.context.has_bake)
