"""Pot and oven in batches: which pieces go when."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from grammar.follow import Follow, changes, put_onto
from grammar.frames import NOTHING, Bound, Frame, fits
from grammar.levels import TELLING
from grammar.moments import Moment
from grammar.requests.loads_slots import CUES, NEEDS, RULED_OUT, SLOTS


@dataclass(frozen=True, slots=True)
class LoadsRequest:
    """start boiling at 7, 30 rings, pot takes 5, two trays of 12, 22 min bake: when is the last one out
    24 rolls, 9 in the oven at a time, 20 min: how many loads
    pot only takes 4

    Only what was said. `oven_pieces` at once; `trays` and `tray_pieces` where it was said by the tray; `iron`: each
    loaf bakes in a lidded pot of its own; `pots` and `ovens` side by side, each of which takes so much; `tray_gone`:
    one of the trays can no longer be used; `tray_too`: one more goes in.
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
    tray_too: bool = False
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
        changed |= _a_tray_takes(earlier)
    if earlier.iron and not line.iron:
        pots = changed.pop("pot_pieces", None) or changed.get("pots")  # "a fourth pot" beside the iron ones
        changed.pop("pots", None)
        changed |= {} if pots is None else {"oven_pieces": pots}
    return put_onto(earlier, changed, _FORGETS)


def _trays_left(line: LoadsRequest, earlier: LoadsRequest) -> dict[str, float]:
    """How many trays there still are, where one is gone or "just one then" is said after so many trays."""
    if earlier.trays is None or line.trays is not None:
        return {}
    if line.tray_gone or line.tray_too:
        return {"trays": max(1.0, earlier.trays + (1 if line.tray_too else -1))} if line.oven_pieces is None else {}
    return {"trays": 1.0} if line.oven_pieces == 1 else {}


def _a_tray_takes(earlier: LoadsRequest) -> dict[str, float]:
    """How many pieces lie on a tray, where so many were said of so many trays."""
    told = earlier.tray_pieces is None and earlier.oven_pieces is not None and earlier.trays
    return {"tray_pieces": (earlier.oven_pieces or 0) / (earlier.trays or 1)} if told else {}


_NOTHING = LoadsRequest()
_FORGETS = {"oven_pieces": ("trays", "tray_pieces"), "trays": ("oven_pieces",), "tray_pieces": ("oven_pieces",)}
"""What the oven takes is said by the piece or by the tray."""


def build(bound: Bound) -> LoadsRequest | None:
    """The request; None where nothing about pot or oven was said."""
    request = LoadsRequest(**_counted(bound), **_told(bound))
    holds = (request.pot_pieces, request.oven_pieces, request.trays, request.tray_pieces, request.bake_min)
    asked = bound.said("ask:batches", "ask:last_out") or (bound.asks() and bound.said("look:done_by"))
    wanted = asked or request.pieces is not None or request.start is not None
    # what the oven takes is how this kitchen is; with the minutes it bakes it is about the dough in hand
    baked = request.bake_min is not None and bound.context.has_bake
    about = asked or any(one is not None for one in holds) if wanted else baked
    on_loads = bound.context.focus == "loads" and request != LoadsRequest()
    return request if asked or on_loads or (bound.context.focus != "loads" and about) else None


_BOILS = ("stage:boil", "holds:pot")


def _counted(bound: Bound) -> dict[str, Any]:
    """How many pieces there are, and how many of them pot, pan, tray and oven take at once."""
    pieces, pot, oven = bound.base("pieces"), bound.base("pot_pieces"), bound.base("oven_pieces")
    tray, per_tray, bake_min = bound.base("tray_pieces"), bound.base("per_tray"), bound.base("bake_min")
    at_once = bound.base("at_once") or bound.base("only_so_many")
    pan, side_min = bound.base("pan_pieces"), bound.base("side_min")
    by_tray = _held_by_each_tray(bound)
    tray = per_tray or (bound.base(by_tray) if by_tray else tray)
    at_once, oven = (None if by_tray == "at_once" else at_once), (None if by_tray == "oven_pieces" else oven)
    if pieces is None and at_once is not None and bound.word("pot_pieces").ids("stage"):
        pieces, pot = pot, None  # so many boiled, so many at a time
    of_pot = pot is None and bound.said(*_BOILS, "cue:pot", "cue:side")
    pot, oven = at_once if of_pot else pot, oven or (None if of_pot else at_once)
    on_tray = tray is None and bound.said("holds:tray") and not bound.said(*_BOILS)
    tray = pan if on_tray else tray
    pot = pot or (None if on_tray or bound.said("cue:side") else pan)  # without a side to brown, rings boil in a pan
    oven = oven or bound.base("iron_pots")  # a loaf to each lidded pot that stands in the oven
    on_pan = side_min is not None and bound.said("holds:pan") and not bound.said(*_BOILS, "cue:pot")
    if on_pan and side_min is not None:
        bake_min, oven = 2 * side_min, at_once or pan or oven
    by_trays = _of_trays(bound)
    step_less = any(p.negated and (p.ids("step_left") or "pot" in p.ids("holds")) for p in bound.phrases)
    return {
        "pieces": None if bound.said("second:*") and _bare_few(bound) else pieces,
        "pot_pieces": None if on_pan or _only_one(bound, "pot") else pot,
        "oven_pieces": None if by_trays is not None or _only_one(bound, "oven") else oven,
        "trays": _trays(bound) if by_trays is None else by_trays,
        "tray_pieces": tray,
        "bake_min": bake_min or bound.base("bake_num"),
        "boil_s_per_side": None if side_min is None or on_pan else round(side_min * 60, 3),
        "no_boil": on_pan or step_less,
    }


def _told(bound: Bound) -> dict[str, Any]:
    """What else is said of pieces, pots and ovens."""
    bread, piece = _kinds(bound)
    return {
        "bread": bread,
        "piece": piece,
        "piece_g": bound.base("piece_g"),
        "tray_gone": bound.said("second:tray_gone"),
        "tray_too": bound.said("second:tray_too"),
        "start": bound.amount("start").moment,
        "start_in_oven": _starts_in_oven(bound),
        "iron": bound.base("iron_pots") is not None,
        "pots": _side_by_side(bound, "pot"),
        "ovens": _side_by_side(bound, "oven"),
    }


def _held_by_each_tray(bound: Bound) -> str | None:
    """Which of the numbers that go in at once stands behind its tray: "two trays of 9 at once"."""
    for slot in ("at_once", "oven_pieces"):
        amount = bound.amount(slot)
        of = amount is not NOTHING and "of" in bound.next_to(amount, -1).ids("link")
        if of and fits(bound.next_to(amount, -2), ("holds:tray",)):
            return slot
    return None


def _of_trays(bound: Bound) -> float | None:
    """The number the oven takes where it counts trays: "two trays in the oven", "oven does 2 trays of 8"."""
    told = [name for name in ("oven_pieces", "at_once") if bound.amount(name) is not NOTHING]
    beside = next((name for name in told if fits(bound.next_to(bound.amount(name)), ("holds:tray",))), None)
    owned = "oven_pieces" if "tray" in bound.word("oven_pieces").ids("holds") else None
    name = (beside or owned) if bound.first("trays") is None else None
    return None if name is None else bound.base(name)


def _side_by_side(bound: Bound, what: str) -> float:
    """How many pots or ovens: "two ovens", "a second pot", "his oven too, so three"."""
    too = bound.said(f"second:{what}_too")
    few = bound.base("pieces") if too and _bare_few(bound) else None
    said = None if _owns_what_follows(bound, f"{what}s") else bound.base(f"{what}s")
    return few or said or (2.0 if too else 1.0)


def _only_one(bound: Bound, what: str) -> bool:
    """Whether there is but one of it: "just the one oven", "one pot"."""
    ahead = bound.amount(f"{what}_pieces").text.lower() == "one"
    return bound.said(f"second:{what}_only") or (ahead and not _owns_what_follows(bound, f"{what}_pieces"))


def _bare_few(bound: Bound) -> bool:
    """Whether the one bare number beside a second pot or oven counts those rather than pieces."""
    return bound.word("pieces") is NOTHING and 2 <= (bound.base("pieces") or 0) <= 4


def _owns_what_follows(bound: Bound, slot: str) -> bool:
    """Whether the word stands before its number and so holds so many, rather than being so many: "oven's two trays"."""
    word, amount = bound.word(slot), bound.amount(slot)
    both = word is not NOTHING and amount is not NOTHING
    return both and bound.phrases.index(word) < bound.phrases.index(amount)


def _trays(bound: Bound) -> float | None:
    """How many trays go in at once."""
    owned = _owns_what_follows(bound, "ovens") and bound.said("holds:tray", "cue:tin")
    return bound.base("trays_left") or bound.base("ovens" if owned else "trays")


def _kinds(bound: Bound) -> tuple[str | None, str | None]:
    """Bread and piece named: by a word of their own, or as what is counted."""
    bread, piece = bound.term("bread", "bread"), bound.term("piece", "piece")
    for hit in bound.hits:
        bread = bread or next(iter(hit.ids("bread")), None)
        piece = piece or next(iter(hit.ids("piece")), None)
    return bread, piece


def _starts_in_oven(bound: Bound) -> bool:
    return any(
        phrase.ids("starts") and ("oven" in phrase.text.lower() or "bak" in phrase.text.lower())
        for phrase in bound.phrases
    )


FRAME = Frame(
    LoadsRequest, "loads", build, slots=SLOTS, cues=CUES, needs=NEEDS, rules_out=RULED_OUT, base=TELLING, asked=True,
    follow=Follow(account=_followed),
)  # fmt: skip
