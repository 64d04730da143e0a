"""An hour said after a plan: what it keeps of the hour it stands instead of."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from grammar.follow import changes, put_onto, without
from grammar.frames import Bound, beside
from grammar.moments import Moment, Window, minute_of_day
from grammar.requests.hour_put import nearest
from grammar.requests.plan_taken import Taken

if TYPE_CHECKING:
    from grammar.requests.plan import PlanRequest


def went_on(line: PlanRequest, earlier: PlanRequest, bound: Bound) -> PlanRequest:
    """An earlier wish as a line leaves it: one of its doughs changed, the whole of it, or another plan in its place."""
    own = one_of_them(line, earlier)
    if own is not None:
        return own
    return line if line.stands_alone else followed(line, earlier, adds_to_it(bound))


_OF_ITS_LINE = ("late_min", "bedtime", "risen_pct", "way", "side_by_side")
_BEGUN = ("start", "no_sooner", "start_now")
_WANTED = ("ready", "bake_at", "shift_min", "soonest", *_BEGUN)
_FORGETS = {"ready": _WANTED, "bake_at": _WANTED, "start": _BEGUN, "start_now": _BEGUN}
"""For an hour said, those of the earlier plan that hold no longer beside it."""


def followed(line: PlanRequest, earlier: PlanRequest, adds: bool = False) -> PlanRequest:
    """An earlier wish with what a line says put in the place of the same there; adds: hours away come on top."""
    changed = changes(line)
    freed = changed.pop("freed", False)
    if {"ready", "bake_at"} & changed.keys():
        earlier = replace(earlier, doughs=tuple(replace(one, ready=None) for one in earlier.doughs))
    if line.ready is not None:
        changed["ready"] = _same_day(line.ready, earlier.ready)
    if "late_min" not in changed and line.shift_min is not None:
        changed["shift_min"] = (earlier.shift_min or 0.0) + line.shift_min
    if line.taken and line.ready is None:
        kinds = {two.why for two in line.taken if not adds}
        kept = (one for one in earlier.taken if one.why not in kinds)
        changed["taken"] = (*kept, *(_of_that_day(one, earlier.taken) for one in line.taken))
    asleep = tuple(one for one in earlier.taken if one.why == "asleep" or not freed)
    return put_onto(replace(without(earlier, *_OF_ITS_LINE), taken=asleep), changed, _FORGETS)


_ADDS = frozenset({"also", "too", "plus"})


def adds_to_it(bound: Bound) -> bool:
    """Whether the line says something more, not something else: "and out from 2 till 3", "choir 6 to 8 too"."""
    words = bound.text.lower().rstrip(" .!").split()
    joins = "and" in beside(bound.phrases, 0, 0).ids("link")
    return joins or bool(_ADDS & {*words[:1], *words[-1:]}) or words[-2:] == ["as", "well"]


def one_of_them(line: PlanRequest, earlier: PlanRequest) -> PlanRequest | None:
    """A plan of several doughs with one of them changed: "the rings at 8 instead"; None where none of them is named."""
    if line.doughs or line.every or (line.bread is None and line.piece is None):
        return None
    doughs = list(earlier.doughs)
    place = next((n for n, one in enumerate(doughs) if (one.bread, one.piece) == (line.bread, line.piece)), None)
    if place is None:
        return None
    dough = doughs[place]
    if line.ready is not None:
        doughs[place] = replace(doughs[place], ready=_same_day(line.ready, dough.ready or earlier.ready))
    if line.pieces not in (None, dough.pieces):
        doughs[place] = replace(doughs[place], pieces=line.pieces, bake=None)
    rest = replace(line, pieces=None, piece_g=None, bread=None, piece=None, ready=None)
    return replace(followed(rest, earlier), doughs=tuple(doughs))


def _of_that_day(new: Taken, earlier: tuple[Taken, ...]) -> Taken:
    """ "away til 9 actually": of the day said before."""
    if new.till is None or new.till.day is not None:
        return new
    spans = [one.window for one in earlier if one.why == new.why and one.window is not None]
    if spans:
        late = (minute_of_day(spans[0].end) or 0) >= 12 * 60
        half = new.till.half or (None if new.till.sure else "pm" if late else "am")
        return Taken(new.why, Window(spans[0].start, replace(spans[0].end, minute=new.till.minute, half=half)))
    days = [one.till for one in earlier if one.why == new.why and one.till is not None and one.till.day is not None]
    return replace(new, till=replace(new.till, day=days[0].day, weeks=days[0].weeks)) if days else new


def _same_day(new: Moment, earlier: Moment | None) -> Moment:
    """A new hour alone keeps the day said before, and of its two the half nearer to that hour; a new day the hour."""
    if earlier is None or new.in_min is not None or new.part in ("tonight",):
        return new
    if new.day is None:
        stood = minute_of_day(earlier)
        open_half = new.half is None and not new.sure and new.part is None
        put = nearest(new.minute / 60, stood) if open_half and new.minute is not None and stood is not None else None
        half = new.half if put is None else "pm" if put >= 720 else "am"
        return replace(new, day=earlier.day, weeks=earlier.weeks, half=half)
    if new.minute is None and new.part is None:
        return replace(new, minute=earlier.minute, half=earlier.half, part=earlier.part)
    return new
