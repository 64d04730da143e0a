"""An hour said after a plan: what it keeps of the hour it stands instead of."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import TYPE_CHECKING

from grammar.frames import Bound
from grammar.moments import Moment, Window, minute_of_day
from grammar.requests.plan_taken import Taken

if TYPE_CHECKING:
    from grammar.requests.plan import PlanRequest


def went_on(line: PlanRequest, earlier: PlanRequest, bound: Bound) -> PlanRequest:
    """An earlier wish as a line leaves it: one of its doughs changed, the whole of it, or another plan in its place."""
    own = one_of_them(line, earlier)
    if own is not None:
        return own
    return line if line.stands_alone else followed(line, earlier, adds_to_it(bound))


def followed(line: PlanRequest, earlier: PlanRequest, adds: bool = False) -> PlanRequest:
    """An earlier wish with what a line says put in the place of the same there; adds: hours away come on top."""
    said = {one.name: getattr(line, one.name) for one in fields(line)}
    changes = {name: one for name, one in said.items() if not (one is None or one is False or one == ())}
    changes.pop("freed", None)
    new = replace(earlier, late_min=None, bedtime=False, risen_pct=None, way=None, side_by_side=False)
    if line.freed:
        new = replace(new, taken=tuple(one for one in earlier.taken if one.why == "asleep"))
    if line.ready is not None or line.bake_at is not None:
        new = replace(new, ready=None, bake_at=None, shift_min=None, start=None, no_sooner=False)
        new = replace(new, start_now=False, soonest=False)
        new = replace(new, doughs=tuple(replace(one, ready=None) for one in new.doughs))
    if line.ready is not None:
        changes["ready"] = _same_day(line.ready, earlier.ready)
    if line.start is not None or line.start_now:
        new = replace(new, start=None, no_sooner=False, start_now=False)
    if line.shift_min is not None and earlier.shift_min is not None and "late_min" not in changes:
        changes["shift_min"] = earlier.shift_min + line.shift_min
    if line.taken and line.ready is None:
        kinds = set() if adds else {two.why for two in line.taken}
        kept = tuple(one for one in earlier.taken if one.why not in kinds)
        changes["taken"] = (*kept, *(_of_that_day(one, earlier.taken) for one in line.taken))
    return replace(new, **changes)


_ADDS = frozenset({"also", "too", "plus"})


def adds_to_it(bound: Bound) -> bool:
    """Whether the line says something more, not something else: "and out from 2 till 3", "choir 6 to 8 too"."""
    first = bound.phrases[0] if bound.phrases else None
    words = bound.text.lower().rstrip(" .!").split()
    more = bool(_ADDS & {*words[:1], *words[-1:]}) or words[-2:] == ["as", "well"]
    return more or (first is not None and "and" in first.ids("link"))


def one_of_them(line: PlanRequest, earlier: PlanRequest) -> PlanRequest | None:
    """A plan of several doughs with one of them changed: "the rings at 8 instead"; None where none of them is named."""
    if not earlier.doughs or line.doughs or line.every or (line.bread is None and line.piece is None):
        return None
    for place, dough in enumerate(earlier.doughs):
        if (line.bread, line.piece) != (dough.bread, dough.piece):
            continue
        own = dough.ready or earlier.ready
        ready = None if line.ready is None else _same_day(line.ready, own)
        new = replace(dough, ready=ready or dough.ready)
        if line.pieces is not None and line.pieces != dough.pieces:
            new = replace(new, pieces=line.pieces, bake=None)
        doughs = (*earlier.doughs[:place], new, *earlier.doughs[place + 1 :])
        rest = replace(line, pieces=None, piece_g=None, bread=None, piece=None, ready=None)
        return replace(followed(rest, earlier), doughs=doughs)
    return None


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
    """A new hour alone keeps the day said before, a new day alone the hour."""
    if earlier is None or new.in_min is not None or new.part in ("tonight",):
        return new
    if new.day is None:
        return replace(new, day=earlier.day, weeks=earlier.weeks)
    if new.minute is None and new.part is None:
        return replace(new, minute=earlier.minute, half=earlier.half, part=earlier.part)
    return new
