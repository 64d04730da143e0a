"""A line that goes on from a swap: another thing to come in, another amount of what goes out, or another unit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from grammar.exchange import Weighed
from grammar.follow import changes, put_onto
from grammar.frames import NOTHING, Bound, Line, Own, fits
from grammar.levels import PLAINLY
from grammar.onward import FITS, Put, put_of
from grammar.phrases import Phrase
from grammar.requests.swap_request import SwapRequest
from grammar.stance import THING, ids_of

_AMOUNTS = ("out_g", "out_measure", "out_pct", "count", "have_g")
_WILL_TAKE = ("stance:will_take", "act:change")
_TAKEN = ("into", "out_g", "out_measure", "job", "overnight", "take", "pick")


def reads(line: Line) -> Own | None:
    """The value a line puts into the swap just answered, or the thing just talked of, of which there is none; a bidding
    to use something is left to the whole frame."""
    if line.context.thing and _none_of_it(line.phrases):
        return Own(SwapRequest(out=line.context.thing, anew=True), PLAINLY)
    if line.context.focus != "swap" or taken(Bound((), line.phrases, line.context, line.text)) is not None:
        return None
    put = Put() if _asks_again(line.phrases) else put_of(line.phrases, line.text, line.context)
    return Own(SwapRequest(put=put), FITS) if put is not None and not put.without else None


def _asks_again(phrases: Sequence[Phrase]) -> bool:
    """Whether a line only asks what else serves, of nothing named."""
    said = [one for one in phrases if one.kind not in ("sep", "link")]
    asked = any(fits(one, ("ask:what_else",)) for one in said)
    return asked and all(one.kind == "label" and fits(one, _NONE) and not fits(one, THING) for one in said)


def _none_of_it(phrases: Sequence[Phrase]) -> bool:
    """Whether a line says only that there is none, of nothing named, and at most asks for another."""
    said = [one for one in phrases if one.kind not in ("sep", "link")]
    none = any(fits(one, ("cue:missing", "away:out")) for one in said)
    return none and all(one.kind == "label" and fits(one, _NONE) and not fits(one, THING) for one in said)


_NONE = ("cue:missing", "away:out", "cue:all_of_it", "ask:what_else", "ask:what", "ask:can_i", "act:use", "filler:*")


def taken(bound: Bound) -> SwapRequest | None:
    """ "do that", "use the oil then": the swap just offered is made."""
    if bound.context.focus != "swap" or not bound.context.has_bake or any(p.kind == "amount" for p in bound.phrases):
        return None
    pick = next((int(i) for p in bound.phrases for i in p.ids("pick")), None)
    first = next((p for p in bound.phrases if p.kind == "label"), NOTHING)
    things = [p for p in bound.phrases if p.kind == "label" and fits(p, THING) and not p.negated]
    if not things and (bound.said("act:take") or pick is not None):
        return SwapRequest(take=True, pick=(pick or 1) - 1)
    bids = fits(first, ("act:use",)) or bound.said("act:take") or (fits(first, _WILL_TAKE) and _told(bound))
    bidden = len(things) == 1 and bids and not bound.links()
    return SwapRequest(take=True, into=ids_of(things[0])) if bidden else None


def _told(bound: Bound) -> bool:
    """Whether what one will take is told, and not asked: "I'll go with the oil", not "could I use oil"."""
    asking = {"can", "could", "may", "might", "shall", "should", "would", "is", "will", "am", "do"}
    return not bound.asks() and not asking & set(bound.text.lower().split()[:1])


def of_its_own(line: SwapRequest, earlier: SwapRequest, bound: Bound) -> bool:
    """Whether a line says itself what goes out, and takes no swap that was offered; what stands in the place of the one
    just talked of to come in ("active dry in place of the instant") goes on."""
    if line.put is not None or line.take or _in_its_place(line, earlier) or _lacks_another(line, earlier):
        return False
    return bool(line.out or line.diets or line.avoid or line.anew)


def _in_its_place(line: SwapRequest, earlier: SwapRequest) -> bool:
    weighed = any(getattr(line, name) is not None for name in _AMOUNTS)
    return bool(line.into and not weighed and set(line.out) & set(earlier.into))


def _lacks_another(line: SwapRequest, earlier: SwapRequest) -> bool:
    """Whether a line says, unweighed, that there is none of something else than what went out before: it may have been
    offered in its place."""
    weighed = any(getattr(line, name) is not None for name in _AMOUNTS) or line.have or line.rows
    other = line.out and earlier.out and not set(line.out) & set(earlier.out)
    return bool(other and not weighed and not line.diets and line.job is None)


def followed(line: SwapRequest, earlier: SwapRequest, bound: Bound) -> SwapRequest:
    """The swap asked for before with what the line says in the place of the same."""
    if line.put is not None:
        return _put_in(line.put, earlier)
    if _lacks_another(line, earlier) and not line.take and not _in_its_place(line, earlier):
        return replace(earlier, into=line.into, beside=(), lacking=(*line.out, *line.avoid), goes_on=True, take=False)
    said = {name: value for name, value in changes(line).items() if name in _TAKEN}
    earlier = replace(earlier, goes_on=True)
    return put_onto(earlier, said, {"out_g": ("out_measure",), "into": ("beside", "to")})


def _put_in(put: Put, earlier: SwapRequest) -> SwapRequest:
    """The swap with one value of it put anew."""
    earlier = replace(earlier, take=False, goes_on=True)
    if put.unit is not None and not put.thing:
        return replace(earlier, to=put.unit)
    if put.thing and put.gone:
        shunned = (*earlier.avoid, *earlier.into[:1], put.thing[0])
        return replace(earlier, into=(), beside=(), avoid=tuple(dict.fromkeys(shunned)))
    amount = put.amount or _in_its_unit(put.figure, earlier)
    of_out = not put.thing or bool(set(put.thing) & set(earlier.out)) or not earlier.out
    if amount is not None and of_out:
        field = amount_field(amount)
        kept = put_onto(earlier, field, dict.fromkeys(field, _AMOUNTS))
        return replace(kept, into_g=None, into_measure=None)
    if not put.thing or of_out:
        return earlier
    return replace(earlier, into=put.thing, beside=(), to=put.unit or earlier.to, into_g=None, into_measure=None)


def _in_its_unit(figure: float | None, earlier: SwapRequest) -> Weighed | None:
    """A bare number in the unit that was told of what goes out."""
    unit = earlier.out_measure[1] if earlier.out_measure is not None else None
    dim = "volume" if unit is not None else "mass" if earlier.count is None else "count"
    return None if figure is None else Weighed(dim, figure, unit, figure)


def amount_field(amount: Weighed) -> dict[str, Any]:
    """The field of a swap that an amount of what goes out stands in."""
    if amount.dim == "volume" and amount.unit is not None:
        return {"out_measure": (amount.said, amount.unit)}
    return {"count" if amount.dim == "count" else "out_g": amount.value}
