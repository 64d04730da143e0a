"""A line as a change to the dough in hand: what it says replaces the same there, and what contradicts it goes."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import TYPE_CHECKING

from grammar.frames import Bound
from grammar.requests.formula_bare import FIGURES
from grammar.requests.formula_before import put_back_in
from grammar.requests.formula_blend import weighed_as_before
from grammar.requests.formula_heads import for_heads
from grammar.requests.formula_kept_size import divides, is_its_starter, only_a_row
from grammar.requests.formula_lists import in_row_units
from grammar.requests.formula_sides import as_deep

if TYPE_CHECKING:
    from grammar.requests.formula_parts import Part
    from grammar.requests.formula_request import FormulaRequest


def went_on(line: FormulaRequest, earlier: FormulaRequest, bound: Bound) -> FormulaRequest:
    """The dough a line makes with one in hand: one of its own, or that one with what the line says of it."""
    if line.begins_anew(earlier):
        return replace(line, anew=False, size_lead=False)
    return merged(line, earlier, bound)


def merged(line: FormulaRequest, earlier: FormulaRequest, bound: Bound) -> FormulaRequest:
    """The dough in hand with what the line says of it."""
    line = as_deep(for_heads(line, earlier), earlier)
    line = in_row_units(line, earlier)
    if line.counted is not None and line.flour_g is None and line.all_flour_g is None:
        flour_g = earlier.flour_g or earlier.all_flour_g
        line = replace(line, **{"all_flour_g" if line.counted else "flour_g": flour_g})  # type: ignore[arg-type]
    if _is_one_piece(line, earlier, bound):
        line = replace(line, piece_g=line.dough_g, dough_g=None)
    line = same_mass(_cut_otherwise(line, earlier), earlier, bound)
    if line.pieces is not None and line.per_head is None:
        earlier = replace(earlier, heads=None, per_head=None, tables=())
    if line.portions is not None and earlier.per_head is not None and line.pieces is None:
        line = replace(line, pieces=line.portions * earlier.per_head, heads=line.portions, portions=None)
    changes: dict[str, object] = {}
    for one in fields(line):
        value = getattr(line, one.name)
        if value is None or value == () or value is False:
            continue
        changes[one.name] = value
    for name in (*_BY_THEMSELVES, *STEPS):
        changes.pop(name, None)
    if line.piece == "piece" and earlier.piece is not None:
        changes.pop("piece", None)  # "20 pieces", "half of them": still rolls
    if earlier.bread is not None and (line.more_pieces is not None or (line.piece and line.piece == earlier.piece)):
        changes.pop("bread", None)  # "four buns fewer" of cinnamon rolls
    new = replace(
        earlier, asked=line.asked, adds=False, anew=False, size_lead=False, pieces_asked=line.pieces_asked,
        open_preferments=line.open_preferments, choices=(),
    )  # fmt: skip
    new = new if is_its_starter(line, new, bound) else _without_rival_sizes(new, line)
    new = _without_rival_shares(new, line)
    if line.tins is not None and line.pieces is None:
        line, new = _more_tins(line, new, earlier)
        changes.pop("tins", None)
    new = replace(new, **changes)  # type: ignore[arg-type]
    new = replace(new, parts=_merged_parts(new, line), without=_merged_without(new, line), late=_late(new, line))
    new = replace(new, by_weight=earlier.by_weight or earlier.from_masses)
    return replace(put_back_in(new, line.put_back), last=_figures(line))


STEPS = (
    "scale", "more_pieces", "more_flour_g", "more_pct", "times", "poured_g", "piece_change", "heads_changed", "moves",
    "stays",
)  # fmt: skip
"""Fields of a line that are done to the dough once, from what it is, and are no part of it."""
_BY_THEMSELVES = (
    "parts", "without", "late", "adds", "as_much", "anew", "size_lead", "asked", "last", "open_preferments", "figure",
    "bare_rows", "put_back",
)  # fmt: skip
"""Fields that take nobody's place as they stand: put together with what was there, or of the line alone."""
_PIECE_TIMES = (0.3, 3.0)
"""How far from what a piece weighs a bare mass is still another weight of the piece, not of the whole dough."""


def _is_one_piece(line: FormulaRequest, earlier: FormulaRequest, bound: Bound) -> bool:
    """ "same but 900 g" of loaves of 700 g: a mass with no noun beside it, near what one piece weighs."""
    hit = bound.first("dough_g")
    if hit is None or hit.label is not None or line.dough_g is None or earlier.piece_g is None:
        return False
    low, high = _PIECE_TIMES
    return line.pieces is None and line.piece_g is None and low <= line.dough_g / earlier.piece_g <= high


def _more_tins(
    line: FormulaRequest, new: FormulaRequest, earlier: FormulaRequest
) -> tuple[FormulaRequest, FormulaRequest]:
    """Another number of tins or trays: of a dough that was weighed for so many, each keeps its share of it."""
    before = earlier.tins or earlier.pieces or 1.0
    if earlier.dough_g is None or line.tins is None or earlier.sizes_cm or earlier.tin_ml is not None:
        return line, replace(new, pieces=None, tins=line.tins)
    dough_g = earlier.dough_g * line.tins / before
    return replace(line, tins=None), replace(new, pieces=line.tins, tins=None, dough_g=dough_g)


_LARGE = ("loaf", "boule", "batard", "tin_loaf", "cob")
_SMALL = ("roll", "bun", "bap", "ring", "ball", "muffin", "twist")


def _cut_otherwise(line: FormulaRequest, earlier: FormulaRequest) -> FormulaRequest:
    """ "just the one loaf out of it" of a dough for rolls, "12 rolls instead" of loaves: the dough stays as large."""
    sizes = (line.piece_g, line.baked_g, line.dough_g, line.flour_g, line.all_flour_g, line.portions, line.water_g)
    if line.pieces is None or earlier.pieces is None or earlier.piece_g is None or sizes != (None,) * 7:
        return line
    turned = any(line.piece in new and earlier.piece in old for new, old in ((_LARGE, _SMALL), (_SMALL, _LARGE)))
    each_g = earlier.pieces * earlier.piece_g / line.pieces
    return replace(line, piece_g=each_g) if turned and not line.sizes_cm else line


_MASS_TIMES = (0.2, 5.0)
"""How far from a weight of flour a bare mass is still another weight of the flour."""


def same_mass(line: FormulaRequest, earlier: FormulaRequest, bound: Bound) -> FormulaRequest:
    """ "make that 4 pounds" of a dough sized by its flour alone: another weight of the flour, not of the dough."""
    hit = bound.first("dough_g")
    if hit is None or hit.label is not None or line.dough_g is None or earlier.dough_g or earlier.pieces:
        return line
    weighed = [part for part in earlier.parts if part.g is not None]
    low, high = _MASS_TIMES
    if len(weighed) == 1 and weighed[0].flour and low <= line.dough_g / (weighed[0].g or 1.0) <= high:
        return replace(line, dough_g=None, parts=(*line.parts, replace(weighed[0], g=line.dough_g)))
    for name in ("flour_g", "all_flour_g"):
        flour_g = getattr(earlier, name)
        if flour_g is not None and not weighed and low <= line.dough_g / flour_g <= high:
            return replace(line, dough_g=None, **{name: line.dough_g})  # type: ignore[arg-type]
    return line


def _figures(line: FormulaRequest) -> tuple[str, ...]:
    """The figures a line set, by field; of a part its item."""
    set_ = [name for name in FIGURES if getattr(line, name) is not None]
    return (*set_, *(f"part {part.item[0]}" for part in line.parts if part.pct is not None))


def _unsized(earlier: FormulaRequest) -> FormulaRequest:
    """The dough in hand without what said how much of it there is, but for its pieces and its salt."""
    return replace(
        earlier, dough_g=None, flour_g=None, all_flour_g=None, water_g=None, starter_g=None, portions=None,
        sizes_cm=(), deep_cm=None, tin_shape=None, tin_ml=None, from_masses=False,
    )  # fmt: skip


def _without_rival_sizes(earlier: FormulaRequest, new: FormulaRequest) -> FormulaRequest:
    """A new size replaces the old one; pieces and piece mass replace one another only as far as they were said."""
    if divides(new, earlier) or only_a_row(new, earlier):
        return earlier
    if new.pieces is not None or new.piece_g is not None or new.baked_g is not None:
        cleared = replace(_unsized(earlier), salt_g=None)
        if new.baked_g is not None:
            cleared = replace(cleared, piece_g=None)
        elif new.piece_g is not None:
            cleared = replace(cleared, baked_g=None)
        if new.pieces is not None and new.piece_g is None and earlier.pieces is None and earlier.piece_g is None:
            return earlier if earlier.dough_g is not None else cleared
        return cleared
    if (
        any(
            x is not None for x in (new.dough_g, new.flour_g, new.all_flour_g, new.water_g, new.starter_g, new.portions)
        )
        or new.sizes_cm
        or new.tin_ml is not None
        or _all_flour_in_cups(earlier, new)
    ):
        return replace(_unsized(earlier), pieces=None)
    return earlier


def _all_flour_in_cups(earlier: FormulaRequest, new: FormulaRequest) -> bool:
    """ "what if I use 4 cups of flour": the flour of a dough of one flour, and so another size."""
    flours = {part.item[0] for part in earlier.parts if part.flour}
    said = [part for part in new.parts if part.flour and part.measure is not None]
    return len(said) == len(new.parts) == 1 and not new.adds and flours <= set(said[0].item)


def _without_rival_shares(earlier: FormulaRequest, new: FormulaRequest) -> FormulaRequest:
    """A new share replaces the old one, and the mass that stood for it unless that mass alone says how much dough."""
    flour = (
        earlier.flour_g is not None or earlier.all_flour_g is not None or any(p.flour and p.g for p in earlier.parts)
    )
    sized = flour or earlier.dough_g is not None or earlier.pieces is not None or bool(earlier.sizes_cm)
    if new.starter_g is not None and earlier.pieces is not None:
        earlier = replace(earlier, starter_pct=None, prefermented_pct=None)
    if new.starter_pct is not None or new.prefermented_pct is not None:
        starter_g = None if sized or earlier.water_g is not None else earlier.starter_g
        earlier = replace(earlier, starter_pct=None, prefermented_pct=None, starter_g=starter_g)
    if new.hydration_pct is not None and sized:
        earlier = replace(earlier, water_g=None)
    if new.salt_pct is not None and sized:
        earlier = replace(earlier, salt_g=None)
    if new.salt_g is not None and sized:
        earlier = replace(earlier, salt_pct=None)
    return earlier


def _merged_parts(earlier: FormulaRequest, new: FormulaRequest) -> tuple[Part, ...]:
    """Parts by item: what is said anew replaces the same item; a new flour share takes its room from the rest."""
    there = {part.item[0] for part in earlier.parts if _has_a_figure(part)}
    again = [part for part in new.parts if not (_has_a_figure(part) or part.rest) and part.item[0] in there]
    new = replace(new, parts=tuple(part for part in new.parts if part not in again))
    said = {part.item[0]: part for part in new.parts}
    if len(new.parts) == 1 and new.parts[0].flour and new.parts[0].rest and new.parts[0].alone:
        weighed_g = sum(part.g or 0.0 for part in earlier.parts if part.flour)
        flour = replace(new.parts[0], rest=False, g=weighed_g) if weighed_g else new.parts[0]
        return (*(part for part in earlier.parts if not part.flour), flour)  # "all white", "bread flour only"
    if not new.adds and any(part.item[0].startswith("yeast") for part in new.parts):
        earlier = replace(earlier, parts=tuple(p for p in earlier.parts if not p.item[0].startswith("yeast")))
    kept = [part for part in earlier.parts if part.item[0] not in said and part.item[0] not in new.without]
    if any(part.flour for part in new.parts) and not new.adds:
        kept = [part for part in kept if not part.flour or part.pct is None or len(new.parts) == 1]
    return weighed_as_before(kept, new.parts, sum(part.g or 0.0 for part in earlier.parts if part.flour))


def _has_a_figure(part: Part) -> bool:
    return (part.pct, part.g, part.measure) != (None, None, None)


def _merged_without(earlier: FormulaRequest, new: FormulaRequest) -> tuple[str, ...]:
    back = {name for part in new.parts for name in (part.item[0], part.item[0].partition("_")[0])}
    if new.salt_pct is not None:
        back.add("salt")
    if new.starter_pct is not None or new.prefermented_pct is not None:
        back.add("starter")
    return tuple(dict.fromkeys(x for x in (*earlier.without, *new.without) if x not in back))


def _late(earlier: FormulaRequest, new: FormulaRequest) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*earlier.late, *new.late)))
