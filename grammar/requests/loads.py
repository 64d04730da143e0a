"""Pot and oven in batches: which pieces go when."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.follow import Follow, changes, put_onto
from grammar.frames import Bound, Frame, fits
from grammar.levels import ALONE, TELLING
from grammar.moments import Moment
from grammar.requests.loads_slots import CUES, NEEDS, RULED_OUT, SLOTS


@dataclass(frozen=True, slots=True)
class LoadsRequest:
    """start boiling at 7, 30 rings, pot takes 5, two trays of 12, 22 min bake: when is the last one out
    24 rolls, 9 in the oven at a time, 20 min: how many loads
    pot only takes 4

    Only what was said. `oven_pieces` at once; `trays` and `tray_pieces` where it was said by the tray; `iron`: each
    loaf bakes in a lidded pot of its own; `pots` and `ovens` side by side, each of which takes so much; `tray_gone`:
    one of the trays can no longer be used.
    """

    pieces: float | None = None
    bread: str | None = None
    piece: str | None = None
    piece_g: float | None = None
    pot_pieces: float | None = None
    oven_pieces: float | None = None
    trays: float | None = None
    tray_pieces: float | None = None
    bake_min: float | None = None
    boil_s_per_side: float | None = None
    start: Moment | None = None
    start_in_oven: bool = False
    no_boil: bool = False
    tray_gone: bool = False
    iron: bool = False
    pots: float = 1.0
    ovens: float = 1.0


def _followed(line: LoadsRequest, earlier: LoadsRequest, bound: Bound) -> LoadsRequest:
    """The loads asked about before, with what a line says of pot, oven and pieces in the place of the same."""
    holds = (line.pot_pieces, line.oven_pieces, line.trays, line.tray_pieces)
    if line.pieces is not None and (line.bread or line.piece):
        if any(one is not None for one in holds):
            return line
        if line.bread in (None, earlier.bread) and (line.bread or earlier.bread is None):
            return replace(earlier, pieces=line.pieces, piece=line.piece or earlier.piece)
        # other pieces in the same kitchen
        return replace(line, oven_pieces=earlier.oven_pieces, trays=earlier.trays, tray_pieces=earlier.tray_pieces)
    changed = {name: value for name, value in changes(line).items() if value != getattr(_NOTHING, name)}
    changed |= {f"{what}s": 1.0 for what in ("oven", "pot") if _only_one(bound, what)}
    changed |= _trays_left(line, earlier)
    if "trays" in changed:
        changed.pop("oven_pieces", None)
    if earlier.iron and not line.iron:
        more = changed.pop("pot_pieces", None), changed.pop("pots", None)
        pots = next((one for one in more if one is not None), None)  # "a fourth pot" beside the iron ones
        changed |= {} if pots is None else {"oven_pieces": pots}
    return put_onto(earlier, changed, _FORGETS)


def _trays_left(line: LoadsRequest, earlier: LoadsRequest) -> dict[str, float]:
    """How many trays there still are, where one is gone or "just one then" is said after so many trays."""
    if earlier.trays is None or line.trays is not None:
        return {}
    if line.tray_gone:
        return {"trays": max(1.0, earlier.trays - 1)}
    return {"trays": 1.0} if line.oven_pieces == 1 else {}


_NOTHING = LoadsRequest()
_FORGETS = {"oven_pieces": ("trays", "tray_pieces"), "trays": ("oven_pieces",), "tray_pieces": ("oven_pieces",)}
"""What the oven takes is said by the piece or by the tray."""


def build(bound: Bound) -> LoadsRequest | None:
    """The request; None where nothing about pot or oven was said."""
    start = bound.first("start")
    bake_min, oven_pieces = bound.base("bake_min"), bound.base("oven_pieces")
    if bake_min is None:
        bake_min = bound.base("bake_num")  # "24 rings, pot takes 5, bake 20"
    pieces, pot_pieces = bound.base("pieces"), bound.base("pot_pieces")
    tray_pieces, per_tray = bound.base("tray_pieces"), bound.base("per_tray")
    if per_tray is not None:
        # "9 buns on a tray, need 54"; "bake 24 rolls on one tray"
        if bound.context.focus != "loads" or tray_pieces is not None:
            pieces = pieces if pieces is not None else tray_pieces or per_tray
        tray_pieces = per_tray
    potful = bound.first("pot_pieces")
    if pieces is None and potful is not None and potful.ids("stage") and bound.first("at_once") is not None:
        pieces, pot_pieces = pot_pieces, None  # "boil 24 rings 5 at a time"
    if bound.first("at_once") is not None:
        if bound.said("stage:boil", "holds:pot", "cue:pot", "cue:side") and pot_pieces is None:
            pot_pieces = bound.base("at_once")
        elif oven_pieces is None:
            oven_pieces = bound.base("at_once")
    if tray_pieces is None and bound.said("holds:tray") and not bound.said("stage:boil", "holds:pot"):
        tray_pieces = bound.base("pan_pieces")  # "two sheet pans, 15 to a pan"
    elif pot_pieces is None and not bound.said("cue:side"):
        pot_pieces = bound.base("pan_pieces")  # without a side to brown, a pan is what the rings boil in
    iron_pots = bound.base("iron_pots")
    if oven_pieces is None and iron_pots is not None:
        oven_pieces = iron_pots  # a loaf to each lidded pot that stands in the oven
    by_trays = _of_trays(bound)
    bread, piece = _kinds(bound)
    side_min = bound.base("side_min")
    on_pan = side_min is not None and bound.said("holds:pan") and not bound.said("holds:pot", "cue:pot", "stage:boil")
    if on_pan and side_min is not None:
        bake_min, oven_pieces = 2 * side_min, bound.base("at_once") or bound.base("pan_pieces") or oven_pieces
    request = LoadsRequest(
        pieces=None if bound.said("second:*") and _bare_few(bound) else pieces,
        bread=bread,
        piece=piece,
        piece_g=bound.base("piece_g"),
        pot_pieces=None if on_pan or _only_one(bound, "pot") else pot_pieces,
        oven_pieces=None if by_trays or _only_one(bound, "oven") else oven_pieces,
        trays=bound.base("oven_pieces") if by_trays else _trays(bound),
        tray_gone=bound.said("second:tray_gone"),
        tray_pieces=tray_pieces,
        bake_min=bake_min,
        boil_s_per_side=None if side_min is None or on_pan else round(side_min * 60, 3),
        start=start.amount.moment if start is not None and start.amount is not None else None,
        start_in_oven=_starts_in_oven(bound),
        no_boil=on_pan
        or any(p.negated and (p.ids("step_left") or "pot" in p.ids("holds")) for p in bound.phrases),
        iron=iron_pots is not None,
        pots=_side_by_side(bound, "pot"),
        ovens=_side_by_side(bound, "oven"),
    )
    holds = (request.pot_pieces, request.oven_pieces, request.trays, request.tray_pieces, request.bake_min)
    asked = bound.said("ask:batches", "ask:last_out") or (bound.asks() and bound.said("look:done_by"))
    if bound.context.focus == "loads":
        return request if request != LoadsRequest() or asked else None
    if asked or request.pieces is not None or request.start is not None:
        return request if asked or any(one is not None for one in holds) else None
    # "oven takes 8" alone is how this kitchen is; with the minutes it bakes it is about the dough in hand
    return request if request.bake_min is not None and bound.context.has_bake else None


def build_change(bound: Bound) -> LoadsRequest | None:
    """So many pieces rather than those of the loads just worked out, where no dough is in hand that would change."""
    if bound.context.focus != "loads" or bound.context.has_bake:
        return None
    request = build(bound)
    return request if request is not None and request.pieces is not None else None


def _of_trays(bound: Bound) -> bool:
    """Whether the number the oven takes counts trays: "two trays in the oven", "oven does 2 trays of 8"."""
    hit = bound.first("oven_pieces")
    if hit is None or hit.amount is None or bound.first("trays") is not None:
        return False
    after = bound.phrases.index(hit.amount) + 1
    beside = after < len(bound.phrases) and fits(bound.phrases[after], ("holds:tray",))
    return beside or "tray" in hit.ids("holds")


def _side_by_side(bound: Bound, what: str) -> float:
    """How many pots or ovens: "two ovens", "a second pot", "his oven too, so three"."""
    if bound.said(f"second:{what}_too") and _bare_few(bound):
        return bound.base("pieces") or 2.0
    said = None if _owns_what_follows(bound, f"{what}s") else bound.base(f"{what}s")
    return said if said is not None else 2.0 if bound.said(f"second:{what}_too") else 1.0


def _only_one(bound: Bound, what: str) -> bool:
    """Whether there is but one of it: "just the one oven", "one pot"."""
    hit = bound.first(f"{what}_pieces")
    ahead = hit is not None and hit.amount is not None and hit.amount.text.lower() == "one"
    return bound.said(f"second:{what}_only") or (ahead and not _owns_what_follows(bound, f"{what}_pieces"))


def _bare_few(bound: Bound) -> bool:
    """Whether the one bare number beside a second pot or oven counts those rather than pieces."""
    hit = bound.first("pieces")
    return hit is not None and hit.label is None and 2 <= (bound.base("pieces") or 0) <= 4


def _owns_what_follows(bound: Bound, slot: str) -> bool:
    """Whether the word stands before its number and so holds so many, rather than being so many: "oven's two trays"."""
    hit = bound.first(slot)
    if hit is None or hit.amount is None or hit.label is None:
        return False
    places = {id(phrase): place for place, phrase in enumerate(bound.phrases)}
    return places.get(id(hit.label), 0) < places.get(id(hit.amount), 0)


def _trays(bound: Bound) -> float | None:
    """How many trays go in at once."""
    if (left := bound.base("trays_left")) is not None:
        return left
    return bound.base("ovens") if _owns_what_follows(bound, "ovens") and bound.said("holds:tray", "cue:tin") else (
        bound.base("trays")
    )


def _kinds(bound: Bound) -> tuple[str | None, str | None]:
    """Bread and piece named: by a word of their own, or as what is counted."""
    bread, piece = bound.term("bread", "bread"), bound.term("piece", "piece")
    for hit in bound.hits:
        bread = bread or next(iter(hit.ids("bread")), None)
        piece = piece or next(iter(hit.ids("piece")), None)
    return bread, piece


def _starts_in_oven(bound: Bound) -> bool:
    words = " ".join(phrase.text.lower() for phrase in bound.phrases if phrase.ids("starts"))
    return "oven" in words or "bak" in words


FRAMES = (
    Frame(
        LoadsRequest, "loads", build, slots=SLOTS, cues=CUES, needs=NEEDS, rules_out=RULED_OUT, base=TELLING,
        asked=True, follow=Follow(account=_followed),
    ),
    # After loads, "only 8 then" is about them where there is no dough to be made smaller.
    Frame(LoadsRequest, "loads", build_change, slots=SLOTS, cues=CUES, needs=NEEDS, rules_out=RULED_OUT, base=ALONE),
)
