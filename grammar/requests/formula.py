"""A dough to weigh out, said from any side, whole or as a change to the one in hand."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil

from grammar.batch_part import batch_part
from grammar.frames import Bound, Frame, Hit, amount_base, fits
from grammar.mishap_words import factor_told
from grammar.requests.formula_asked import asked_of, more_or_less_of, share_asked
from grammar.requests.formula_beside import beside
from grammar.requests.formula_ferments import STARTER
from grammar.requests.formula_ferments import settled as ferments_settled
from grammar.requests.formula_figures import (
    bare_pair,
    batches_of,
    choices_of,
    clash_of,
    counts_pieces,
    counts_starter,
    each_of_them,
    heads_meant,
    in_usual_order,
    is_plus,
    most_of,
    points_of,
    said_twice,
    scaled_by,
    shape_of,
    sides_of,
    unless_mass,
    wet_not_many,
    without_pronoun,
)
from grammar.requests.formula_heads import Heads, heads_changed
from grammar.requests.formula_merge import STEPS, merged
from grammar.requests.formula_moves import FREED, Move, moved
from grammar.requests.formula_parts import (
    Part,
    blended,
    counted_through,
    hydration_of_white,
    is_flour,
    late_beside,
    left_out,
    number,
    own_hydration,
    parts_of,
    salt_named,
    stood_in_for,
    unweighed,
    without_amount,
)
from grammar.requests.formula_preferments import made_up
from grammar.requests.formula_rows import lists_grams, put_back, raised_by, row_of, times_of, wet_by_share
from grammar.requests.formula_sizes import PieceChange, piece_changed
from grammar.requests.formula_slots import SLOTS, WHITE

__all__ = ["FRAME", "FormulaRequest", "Part", "build"]

_STARTER_FLOURS = {"starter_rye_100": "flour_rye_medium", "starter_whole_wheat_100": "flour_whole_wheat"}


@dataclass(frozen=True, slots=True)
class FormulaRequest:
    """24 rolls of 80 g at 66 %, 2 % salt, 20 % starter
    thirty rings at 95 grams, 58 percent
    2 kg flour at 62 %, 1 % instant yeast
    what are my percentages: 900 g strong flour, 560 g water, 180 g starter, 18 g salt
    make it 68
    and for 40?

    Only what was said; None and empty mean unsaid. Masses in g, shares in %, lengths in cm.
    """

    pieces: float | None = None
    piece_g: float | None = None
    baked_g: float | None = None
    dough_g: float | None = None
    flour_g: float | None = None
    all_flour_g: float | None = None
    water_g: float | None = None
    starter_g: float | None = None
    salt_g: float | None = None
    limits: tuple[tuple[str, float], ...] = ()
    sizes_cm: tuple[float, ...] = ()
    deep_cm: float | None = None  # where a depth was said by itself: "20 cm round tin, 7 cm deep"
    tin_shape: str | None = None  # "round", "square", "loaf" or "sheet", where it was said
    tin_ml: float | None = None  # what one tin holds, to the brim
    tins: float | None = None
    portions: float | None = None
    hydration_pct: float | None = None
    salt_pct: float | None = None
    salt: str | None = None  # which salt, where one was named ("salt_kosher_dense")
    starter_pct: float | None = None
    prefermented_pct: float | None = None
    starter_hydration_pct: float | None = None
    starter_flour: str | None = None  # what the starter is fed with, where it was said ("rye starter")
    loss_pct: float | None = None
    held_water_pct: float | None = None
    bread: str | None = None
    piece: str | None = None
    usual: bool = False
    parts: tuple[Part, ...] = ()
    preferments: tuple[tuple[str, float | None, float | None, float | None], ...] = ()  # kind, % of flour, g, hydration
    open_preferments: tuple[str, ...] = ()  # named without an amount: asked for, not put in
    without: tuple[str, ...] = ()
    late: tuple[str, ...] = ()
    discard_g: float | None = None
    from_masses: bool = False
    pieces_asked: bool = False
    kitchen_c: float | None = None
    choices: tuple[str, ...] = ()  # where a range was said: what was taken, in words
    asked: tuple[str, ...] = ()  # what the line asks for: "water", "salt_table", "starter" ...
    scale: float | None = None
    more_pieces: float | None = None  # "3 fewer" is -3
    more_flour_g: float | None = None  # "with 500 g less flour" is -500
    more_pct: tuple[tuple[str, float], ...] = ()  # "2 points less salt": ("salt", -2.0)
    times: tuple[tuple[str, float], ...] = ()  # "double the salt": ("salt", 2.0)
    bare_rows: tuple[str, ...] = ()  # rows whose figure had no unit: it is in the unit the row was said in
    counted: bool | None = None  # whether the flour said is meant to hold the starter's
    heads: float | None = None  # how many eat, where so many pieces each were said
    per_head: float | None = None
    poured_g: tuple[
        tuple[str, float], ...
    ] = ()  # put in on top of the dough in hand: ("water", 50.0), ("flour", 100.0)
    clash: tuple[str, ...] = ()  # the same thing said twice with two figures
    vague: bool = False  # "knock 3 off": of what, was not said
    two_sizes: bool = False  # "make half of them 100 g"
    heads_changed: Heads | None = None  # "2 more guests", "3 each": of the dough in hand
    piece_change: PieceChange | None = None  # "bigger ones, 95", "10 g lighter each", "half the size"
    by_weight: bool = False  # the dough was first told in weights: a bare figure of a row is grams
    moves: tuple[Move, ...] = ()  # rows that give way to others: "swap the rye for spelt"
    put_back: tuple[str, ...] = ()  # rows that go in again as they were before they were left out
    taken_out: tuple[Part, ...] = ()  # rows as they were when they were left out
    batches: tuple[str, ...] = ()  # two doughs in one line, as typed: asked about
    either: float | None = None  # "make it 95" of 60 rolls of 80 g: pieces or grams
    last: tuple[str, ...] = ()  # the figures the last line set, by field: what a bare correction is of
    adds: bool = False  # "add 8 % seeds"
    anew: bool = False  # "new dough:"
    for_heads: bool = False  # "brioche for 12": pieces, or people where it is a bread that is sliced
    size_lead: bool = False  # began with "for", "and", "make it": a change of size, not a new dough

    @property
    def has_size(self) -> bool:
        """Whether a batch size can be worked out from this alone."""
        one = (self.dough_g, self.flour_g, self.all_flour_g, self.water_g, self.starter_g, self.baked_g)
        return (
            any(x is not None for x in one)
            or bool(self.sizes_cm)
            or self.tin_ml is not None
            or (self.pieces is not None and self.piece_g is not None)
        )

    @property
    def has_shares(self) -> bool:
        """Whether any share of the dough was said."""
        shares = (self.hydration_pct, self.salt_pct, self.starter_pct, self.prefermented_pct)
        return any(x is not None for x in shares) or any(p.pct is not None for p in self.parts)

    @property
    def whole(self) -> bool:
        """A dough of its own rather than a change to the one in hand."""
        if self.anew or self.from_masses:
            return True
        if self.steps or self.put_back or self.size_lead or self.adds:
            return False
        return self.has_size and (self.pieces is not None or self.has_shares)

    @property
    def steps(self) -> bool:
        """Whether it changes what is there by so much or so many times, rather than setting a figure."""
        return any(getattr(self, name) not in (None, ()) for name in STEPS)

    def begins_anew(self, earlier: FormulaRequest) -> bool:
        """Whether this is another dough than the one in hand. Pieces of the same kind, and no word of what is in them,
        are the same dough in another size."""
        if not self.whole or self.anew or self.from_masses:
            return self.whole
        told = self.has_shares or self.bread or self.parts or self.preferments or self.usual or self.starter_g
        return bool(told) or self.pieces is None or self.piece not in (None, "piece", earlier.piece)

    def onto(self, earlier: FormulaRequest, bound: Bound) -> FormulaRequest:
        """This line as a change to an earlier dough: what it says replaces the same there, slot by slot."""
        if self.begins_anew(earlier):
            return replace(self, anew=False, size_lead=False)
        return merged(self, earlier, bound)


def _masses(bound: Bound) -> bool:
    """A list of weights whose percentages are wanted: flour and another thing by mass, and no size or share that
    rules."""
    weighed = [hit for hit in (*bound.of("part_g"), *bound.of("part_volume")) if hit.label is not None]
    flour = any(hit.label is not None and is_flour(hit.label) for hit in weighed)
    water = any(hit.label is not None and fits(hit.label, ("ingredient:water", "cue:water")) for hit in weighed)
    starter = any(hit.label is not None and fits(hit.label, STARTER) for hit in weighed)
    if flour and water and starter and not bound.first("pieces") and not bound.first("piece_g"):
        return True  # a hydration said beside these is the starter's
    if bound.first("pieces") or bound.first("piece_g") or bound.first("hydration_pct") or bound.first("dough_pct"):
        return bool(bound.said("cue:percentages") and flour and len(weighed) > 1 and not bound.first("piece_g"))
    return flour and (water or bound.said("cue:percentages"))


def _is_exchange(bound: Bound) -> bool:
    """Whether the line only asks for one thing in place of so many grams of another: that is a swap, not a dough."""
    amounts = [phrase for phrase in bound.phrases if phrase.kind == "amount"]
    plain = bound.links() & {"instead_of", "in_place_of"} and not bound.said("act:*", "cue:rest", "blend:*")
    if not amounts and plain and len({phrase.ids("ingredient")[:1] for phrase in bound.phrases} - {()}) == 2:
        return True  # "beer instead of the water in my pretzels"
    if len(amounts) != 1 or amounts[0].dim != "mass" or amounts[0].old is not None:
        return False
    at = bound.phrases.index(amounts[0])
    before = bound.phrases[at - 1] if at else None
    given = {name for phrase in bound.phrases for name in phrase.ids("ingredient")[:1]}
    instead = before is not None and set(before.ids("link")) & {"instead_of", "in_place_of"}
    return bool(instead) and len(given) == 2 and not bound.said("act:change", "act:use", "act:add")


def _bare_rows(bound: Bound) -> tuple[str, ...]:
    """The rows whose figure was said without a unit, by ingredient, salt or starter."""
    bare = [hit.label for hit in bound.hits if hit.amount is not None and hit.amount.dim == "num" and hit.label]
    flours = (id for label in bare for id in label.ids("ingredient")[:1])
    return tuple(dict.fromkeys(name for name in (*map(row_of, bare), *flours) if name))


def _lead(bound: Bound) -> bool:
    """Whether the line begins as a change to what is in hand: "for 40", "and with", "make it", "same but"."""
    for phrase in bound.phrases:
        if phrase.kind == "sep":
            continue
        if phrase.kind == "link":
            return bool(set(phrase.ids("link")) & {"for", "with", "and", "at", "instead", "if", "to"})
        return fits(phrase, ("act:change", "act:same", "act:correct", "act:add", "ask:what_if", "act:use", "act:scale"))
    return False


def _poured(bound: Bound, parts: list[Part], own: dict[str, float]) -> tuple[tuple[str, float], ...]:
    """What is put into the dough in hand on top of the rest, in g; taken out of `parts` and `own`.

    "add 50 g water", "another 50 water", "20 g less water"; "100 g more flour" is a larger dough instead.
    """
    adds, changes = bound.said("act:add"), bound.said("act:add", "cue:greater", "cue:fewer")
    if not bound.context.has_bake or not changes or bound.said("act:new_dough"):
        return ()
    sign, rows = -1.0 if bound.said("cue:fewer") else 1.0, bound.context.known.rows
    out: list[tuple[str, float]] = []
    if "water_g" in own:
        out.append(("water", sign * own.pop("water_g")))
    hit = bound.first("hydration_pct")
    bare = hit is not None and hit.amount is not None and hit.amount.dim == "num"
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


def _weight_of_nothing(bound: Bound) -> bool:
    """Whether a bare number was taken for a piece's weight where no pieces are talked of, or weighs too little.

    "1 g yeast in 500 g flour overnight at 18": degrees. "24 rolls for 9": an hour, or heads.
    """
    hit = bound.first("piece_g")
    if hit is None or hit.amount is None or hit.amount.dim != "num" or hit.amount.role is not None:
        return False
    grams_said = amount_base(hit.amount) or 0.0
    weighed = bound.first("part_g") is not None and bound.first("pieces") is None and hit.label is None
    return grams_said < _LIGHTEST_G or (weighed and not bound.links() & {"each", "per"})


def _exchanged(bound: Bound) -> bool:
    """ "honey in place of 60 g sugar": one weighed thing for another is an exchange, not a dough."""
    instead = bound.links() & {"instead_of", "in_place_of", "rather_than"}
    weighed = bound.first("part_g") is not None or bound.first("part_volume") is not None
    sized = bound.first("pieces") or bound.first("piece_g") or bound.first("hydration_pct") or bound.first("dough_g")
    return bool(instead) and weighed and not sized


def _taken_off(bound: Bound, counted: Hit) -> bool:
    """Whether the word right before a count says that so many are fewer: "minus 5 rolls"."""
    place = next((n for n, phrase in enumerate(bound.phrases) if phrase is counted.amount), 0)
    before = bound.phrases[place - 1] if place else None
    return before is not None and fits(before, ("cue:fewer",)) and fits(before, ("cue:minus",))


def build(bound: Bound) -> FormulaRequest | None:
    """The request, or None where the line says nothing a dough could be made of or changed by."""
    if batch_part(bound) is not None or (bound.context.has_bake and factor_told(bound) is not None):
        return None  # the rest of the batch stays as it is
    bare_item = all(hit.amount is None for hit in bound.hits) and bool(bound.of("item"))
    if bound.context.has_bake and bare_item and bound.said("link:instead"):
        return None  # "olive oil instead": of what it is for, not beside it
    bound, ferments = made_up(without_pronoun(bound))
    moves, bound = moved(ferments_settled(bound))
    than_usual = bound.said("cue:usual") and "than" in bound.links()
    if bound.first("points") is not None and not (bound.context.has_bake or than_usual):
        return None  # so much more or less than what, was not said
    points = points_of(bound)
    if than_usual and points is not None:  # "24 rolls with 10 % less water than usual"
        hit = bound.first("points") or bound.first("bare_points")
        rest = build(replace(bound, hits=tuple(one for one in bound.hits if one is not hit)))
        return replace(rest, more_pct=(points,), usual=False) if rest is not None else None
    if points is not None and not points[0]:
        return FormulaRequest(scale=1 + points[1] / 100, size_lead=True)
    if points is not None:
        return FormulaRequest(more_pct=(points,), size_lead=True)
    by = raised_by(bound)
    if by is not None:
        return FormulaRequest(
            times=((by.row, by.times),) if by.times is not None else (),
            more_pct=((by.row, by.points),) if by.points is not None else (),
            poured_g=(("water" if by.row == "hydration" else by.row, by.g),) if by.g is not None else (),
            moves=moves, size_lead=True,
        )  # fmt: skip
    freed = all(move.out == FREED for move in moves)
    times = times_of(bound) if freed else ()
    if times and all(hit.amount is None or hit.amount.dim == "share" or hit.slot == "scale" for hit in bound.hits):
        return FormulaRequest(times=times, moves=moves, size_lead=True)
    heads_told = heads_changed(bound)
    if heads_told is not None:
        return FormulaRequest(heads_changed=heads_told, size_lead=True)
    resized = piece_changed(bound)
    if resized is not None:
        return FormulaRequest(piece_change=resized, size_lead=True)
    newest = bound.context.known.newest
    if bound.said("act:leave_out") and newest and all(hit.amount is None for hit in bound.hits):
        return FormulaRequest(without=(newest,), size_lead=True)
    returned = put_back(bound)
    if returned:
        return FormulaRequest(put_back=returned, size_lead=True)
    open_end = more_or_less_of(bound)
    if open_end:
        return FormulaRequest(asked=open_end, vague=True)
    if not moves and (_is_exchange(bound) or _exchanged(bound)):
        return None
    ordered = in_usual_order(bound)
    if ordered is None:
        return None
    bound = ordered
    batches = batches_of(bound)
    if batches:
        return FormulaRequest(batches=batches, size_lead=bound.context.has_bake, pieces=bound.base("pieces"))
    masses = _masses(bound)
    asked = asked_of(bound)
    shared = share_asked(wet_not_many(bound), asked)
    if shared is None:
        return None  # a share of what, was not said
    bound = shared
    listed = lists_grams(bound)
    wet_share = wet_by_share(bound, listed)
    parts, own = parts_of(bound, masses or listed, asked)
    if wet_share:
        own.pop("water_g", None)
    masses = masses or (listed and "water_g" in own)
    if own.get("flour_g", _LEAST_FLOUR_G) < _LEAST_FLOUR_G:
        return None  # "1 bag of flour", "half the flour": of how much, was not said
    if bound.said("feeding:stiff") and not bound.context.has_bake and set(own) == {"starter_g"} and not parts:
        return None  # a starter to be built, and no dough
    without, late, no_loss = left_out(bound)
    replaced = stood_in_for(bound)
    without = list(dict.fromkeys([*without, *replaced]))
    parts = [part for part in parts if part.pct is not None or part.g is not None or part.item[0] not in replaced]
    pieces = most_of(bound.first("pieces") or counted_through(bound))
    limited = bound.said("cue:limit") and not masses
    limits: list[tuple[str, float]] = []
    if limited and "flour_g" in own and (pieces is not None or bound.context.has_bake):
        limits.append(("flour", own.pop("flour_g")))
    if limited and "starter_g" in own and (pieces is not None or bound.context.has_bake):
        limits.append(("starter", own.pop("starter_g")))
    portions = bound.base("portions") or bound.base("heads")
    heads, per_head = None, None
    if portions is not None and pieces is None and counts_pieces(bound):
        pieces, portions = portions, None  # "enough for 3 sandwich loaves"
    if portions is not None and pieces is not None and each_of_them(bound):
        heads, per_head = portions, pieces
        pieces, portions = float(ceil(pieces * portions - 1e-9)), None  # "12 rowers, 2 rolls each"
    scale = scaled_by(bound)
    part = bound.first("scale_by_part")
    if scale is None and part is not None and bound.context.has_bake:  # "a third more", "a quarter less"
        scale = 1 + (amount_base(part.amount) or 0.0) * (-1 if bound.said("cue:fewer") else 1)
    if scale is None and bound.context.has_bake:
        scale = bound.base("scale_to_part")
    if scale is None and pieces is not None and pieces < 1 and bound.context.has_bake:
        scale, pieces = pieces, None  # "half of them"
    poured = _poured(bound, parts, own)
    more_flour = None
    if bound.context.has_bake and "flour_g" in own and bound.said("cue:fewer", "cue:greater"):
        more_flour = own.pop("flour_g") * (-1 if bound.said("cue:fewer") else 1)
    if scale is None:
        scale = (
            2.0
            if bound.said("act:double")
            else 3.0
            if bound.said("act:triple")
            else 1.5
            if bound.said("act:half_again")
            else 0.5
            if bound.said("act:halve")
            else None
        )
    with_starter = counts_starter(bound)
    if with_starter and "flour_g" in own and not masses:
        own["all_flour_g"] = own.pop("flour_g")
    more, vague = None, False
    if scale is not None and scale < 1 and bound.first("piece_g") is not None and bound.first("pieces") is not None:
        return FormulaRequest(two_sizes=True, piece_g=bound.base("piece_g"), scale=scale)  # "make half of them 100 g"
    counted = bound.first("pieces")
    if pieces is not None and counted is not None and counted.amount is not None and counted.amount.old is not None:
        more = None
    elif pieces is not None and (bound.said("cue:fewer", "cue:greater") or is_plus(bound)) and bound.context.has_bake:
        more, pieces = (-pieces if bound.said("cue:fewer") else pieces), None
        named = (
            counted is not None
            and counted.label is not None
            and fits(counted.label, ("piece:*", "bread:*", "cue:pieces"))
        )
        whole = (more or 0.0) % 1 == 0 and not bound.said("cue:taken_off") and not is_plus(bound)  # "two fewer"
        vague = not (named or whole) and not bound.said("piece:*", "bread:*")
        portions = None  # "two guests cancelled, so four buns fewer": the buns say it
    elif pieces is not None and counted is not None and _taken_off(bound, counted):
        pieces = -pieces  # with no dough in hand there is nothing to take them off
    sizes = bound.first("sizes")
    own_water = ("starter_hydration_pct", "starter_firm_pct", "starter_at_pct")
    starter_h = next((value for slot in own_water if (value := bound.base(slot))), None)
    if starter_h is None and bound.said("ingredient:starter_stiff_50"):
        starter_h = 50.0
    if starter_h is None and bound.said("cue:stiff") and bound.said(*STARTER):
        starter_h = 50.0
    if starter_h is None and bound.said("cue:liquid_starter") and bound.said(*STARTER):
        starter_h = 100.0
    if times:  # "starter 25, and a third less honey": the share is the row's, not the batch's
        scale = None
        parts = [part for part in parts if not unweighed(part) or part.item[0] not in dict(times)]
    parts = blended(parts, bound)
    part_flours = [part for part in parts if part.flour]
    cut = pieces is not None and bound.first("piece_g") is not None and not masses
    if cut and part_flours and all(part.g is not None and part.item[0] not in WHITE for part in part_flours):
        parts.append(Part(("flour_bread",), rest=True, flour=True))  # "300 g of wholemeal in 12 rolls of 90 g"
    for hit in (*bound.of("salt_pct"), *bound.of("starter_pct")):
        if hit.label is not None and late_beside(bound, hit.label):
            late.append("salt" if hit.slot == "salt_pct" else "starter")
    plain = not (masses or listed)
    depth = bound.base("depth")
    wet = bound.first("hydration_pct") or bound.first("dough_pct")
    hydration = None if any(item == "water" for item, _ in poured) else unless_mass(wet, plain or wet_share)
    stiff = bound.said("ingredient:starter_stiff_50") and bound.context.has_bake
    if stiff and hydration is not None and hydration <= _STIFFEST_PCT:
        starter_h, hydration = hydration, None  # "with a stiff starter, 50 % hydration?"
    if masses and "water_g" in own and "starter_g" in own and hydration is not None and starter_h is None:
        hydration, starter_h = None, hydration  # the weights fix the dough's own; what is left to say is the starter's
    if _weight_of_nothing(bound):
        return None
    piece_g, hydration = bare_pair(bound, bound.base("piece_g"), hydration)
    if not moves and scale is not None and scale < 1 and any(unweighed(part) for part in parts):
        return None  # "half of them with sesame": what goes on top of which
    bread = bound.term("bread", "bread")
    if bread is None:
        bread = next(
            (hit.ids("bread")[0] for hit in bound.hits if hit.slot in ("pieces", "piece_g") and hit.ids("bread")), None
        )
    piece = next((p.ids("piece")[0] for p in bound.phrases if p.ids("piece") and not p.negated), None)
    if piece in (None, "piece") and shape_of(bound) == "loaf" and bound.first("sizes") is not None:
        piece = "loaf"
    if hydration is None and plain:
        hydration, parts = hydration_of_white(parts, bound)
    request = FormulaRequest(
        pieces=pieces,
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
        limits=tuple(limits),
        sizes_cm=sides_of(bound, sizes),
        deep_cm=depth if sizes is not None else None,
        tin_shape=shape_of(bound) if sizes is not None else None,
        tin_ml=bound.base("tin_ml"),
        tins=bound.base("tins"),
        portions=portions,
        hydration_pct=hydration,
        salt_pct=unless_mass(bound.first("salt_pct") or bound.first("then_salt_pct"), plain),
        salt=salt_named(bound),
        starter_pct=unless_mass(
            bound.first("starter_pct")
            or bound.first("starter_of_pct")
            or bound.first("then_starter_pct")
            or bound.first("starter_share_pct"),
            plain,
        ),
        prefermented_pct=number(bound.first("prefermented_pct")),
        open_preferments=without_amount(bound),
        starter_hydration_pct=starter_h,
        starter_flour=next((fed for item, fed in _STARTER_FLOURS.items() if bound.said(f"ingredient:{item}")), None),
        loss_pct=0.0 if no_loss else bound.base("loss_pct"),
        held_water_pct=bound.base("held_pct"),
        bread=bread,
        piece=piece,
        usual=bound.said("cue:usual"),
        kitchen_c=bound.base("kitchen_c"),
        choices=choices_of(bound),
        parts=tuple(parts),
        preferments=tuple((one.kind, None, one.g, one.hydration_pct) for one in ferments)
        + tuple(
            (
                hit.ids("preferment")[0],
                number(hit) if hit.slot == "preferment_pct" else None,
                number(hit) if hit.slot == "preferment_g" else None,
                own_hydration(bound, hit),
            )
            for hit in (*bound.of("preferment_pct"), *bound.of("preferment_g"))
        ),
        without=tuple(without),
        late=tuple(dict.fromkeys(late)),
        from_masses=masses,
        pieces_asked=bound.said("ask:how_many") and pieces is None,
        asked=asked,
        scale=scale,
        more_pieces=more,
        more_flour_g=more_flour,
        poured_g=poured,
        vague=vague,
        bare_rows=_bare_rows(bound),
        times=times,
        moves=moves,
        heads=heads,
        per_head=per_head,
        clash=clash_of(bound) or said_twice(bound),
        for_heads=heads_meant(bound),
        adds=bound.said("act:add"),
        anew=bound.said("act:new_dough") or beside(bound),
        size_lead=_lead(bound) and bound.context.has_bake,
    )
    bare = FormulaRequest(asked=asked, size_lead=request.size_lead, anew=request.anew, kitchen_c=request.kitchen_c)
    if request == bare:  # a kitchen's warmth alone makes no dough; a question about the one in hand shows it
        return request if asked and bound.context.has_bake and request.kitchen_c is None else None
    size_or_share = (
        request.has_size
        or request.has_shares
        or request.portions
        or request.usual
        or request.tins
        or (request.pieces is not None and (request.bread or request.piece))
        or (request.piece_g is not None and request.piece_g >= _LOAF_G and (request.bread or request.piece))
    )
    if not size_or_share and not bound.context.has_bake:
        return None
    return request


_LIGHTEST_G = 15.0
"""No piece weighs less; a smaller bare number is an hour, a headcount or degrees."""
_LEAST_FLOUR_G = 8.0
"""Less flour than this is a count or a share that was taken for grams."""
_STIFFEST_PCT = 60.0
"""Up to here a hydration said beside a stiff starter is the starter's."""
_LOAF_G = 300.0
"""From here on one piece with its weight is a dough to weigh out: "900 g loaf"."""


FRAME = Frame(
    FormulaRequest,
    "formula",
    build,
    slots=SLOTS,
    cues={
        "cue:formula": 0.6,
        "cue:percentages": 1.2,
        "cue:soaked": 0.1,
        "act:make": 0.6,
        "act:change": 0.8,
        "act:same": 0.8,
        "act:more": 1.2,
        "act:add": 0.6,
        "act:use": 0.3,
        "act:new_dough": 1.2,
        "act:scale": 1.2,
        "act:double": 1.6,
        "act:triple": 1.6,
        "act:halve": 1.6,
        "act:half_again": 1.6,
        "act:correct": 0.3,
        "cue:usual": 0.6,
        "cue:limit": 0.5,
        "cue:rest": 0.2,
        "cue:rest_of": 0.2,
        "cue:later": 0.1,
        "cue:stiff": 0.7,
        "cue:liquid_starter": 0.5,
        "blend:*": 0.5,
        "cue:dough": 0.1,
        "cue:tin": 0.1,
        "cue:deep": 0.1,
        "cue:broad": 0.1,
        "cue:hold": 0.1,
        "shape:*": 0.1,
        "cue:total": 0.1,
        "cue:fewer": 0.2,
        "cue:greater": 0.2,
        "cue:raised_by": 0.2,
        "serving:each": 0.1,
        "cue:starter_counted": 0.6,
        "feeding:stiff": 1.2,
        "cue:use_up": 0.5,
        "cue:preferment": 0.1,
        "cue:lean": 0.2,
        "cue:baked": 0.1,
        "ask:how_much": 0.3,
        "ask:how_many": 0.4,
        "ask:what": 0.1,
        "ask:can_i": 0.1,
        "ask:how_to": 0.1,
        "ask:plan*": 0.1,
        "ask:what_if": 0.2,
        "cue:baked_mark": 0.1,
        "unit:g": 0.0,
        "into:g": 0.0,
        "cue:all_the": 0.1,
        "cue:discard": 0.1,
        "cue:held": 0.1,
        "diet:*": 0.0,
        "cue:company": 0.0,
        "cue:bigger": 0.2,
        "cue:larger_piece": 0.8,
        "cue:smaller_piece": 0.8,
        "cue:size": 0.4,
        "cue:arriving": 0.4,
        "cue:leaving": 0.4,
        "cue:pairs": 0.4,
        "cue:all_water": 0.0,
        "cue:all_flour": 0.2,
        "eating:give": 0.0,
        "cue:wetter": 1.4,
        "cue:split": 0.3,
        "act:swap": 0.6,
        "cue:piece_mass": 0.1,
        "clock:set": 0.0,
        "act:back": 2.2,
        "act:put_back": 1.4,
        "cue:points": 0.4,
        "cue:pieces": 0.1,
        "ask:is_it": 0.0,
        "cue:all_of_it": 0.0,
        "cue:freed": 1.2,
        "money:comes_to": 1.6,
        "ask:what_share": 1.6,
        "ask:asap": 0.0,
        "act:leave_out": 1.6,
        "span:now": 0.0,
        "cue:lowered": 0.8,
        "cue:raised": 0.8,
        "mark:mix": 0.0,
    },
    rules_out=(
        "cue:pot", "ask:how_long", "ask:when", "act:undo", "act:help", "into:cm", "into:inch", "unit:cm", "unit:inch*",
    ),
    help_topic="dough",
    settles=True,
)
