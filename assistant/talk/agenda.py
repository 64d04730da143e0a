"""What is under way and what comes next on the whole bench, read from each dough's one course of time and the timers.

An agenda is made once for each line said: until something else is told, nothing in it changes, and the clock only
passes along it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from assistant.answers.course_kept import course_as_plan
from assistant.answers.plan_words import shown_steps
from assistant.answers.timers import timers_in
from assistant.engine.plan.clock import Clock
from assistant.engine.refusal import Refused
from assistant.notebook.event import Entry
from assistant.talk.bench import RUNNING_TIMERS, Bake, Bench
from assistant.talk.doughs import short_label, under_way
from assistant.talk.room import Room
from assistant.voice.plan_stretches import Shown
from assistant.voice.spans import clock_said, hours_said
from assistant.voice.width import width_of
from knowledge import Knowledge

_GOES_ON = frozenset({"knead", "bulk", "preshape", "bench_rest", "proof", "score"})
"""Steps that follow from the one before without anybody being called."""
_SHORT = {
    "feed_starter": "feed the starter", "mix": "mix", "divide": "divide", "retard": "into the fridge",
    "cool": "out of the oven",
}  # fmt: skip
_STAGES = {
    "feed_starter": "starter fed", "retard": "in the fridge", "bake": "in the oven", "boil": "in the pot",
    "bench_rest": "bench rest", "warm_up": "warming up", "cool": "cooling",
}  # fmt: skip
LONG_OVER = timedelta(hours=12)
"""What came due longer ago is no longer called out."""
_NARROW = 50
"""Fewer columns show the most urgent only."""


@dataclass(frozen=True, slots=True)
class Coming:
    """A step to be begun, or a timer to go off. what: "divide"; whose: which dough, or what the timer is for; id: the
    same in every agenda in which the thing and its hour are."""

    at: datetime
    what: str
    whose: str
    timer: bool = False

    @property
    def id(self) -> str:
        return f"{self.at.isoformat()} {self.what} {self.whose}"

    def words(self) -> str:
        """What to do, and with what: "divide 24 rings", "timer over: pot"."""
        if self.timer:
            return f"timer over: {self.whose}" if self.whose else "timer over"
        return f"{self.what}: {self.whose}" if self.whose else self.what


@dataclass(frozen=True, slots=True)
class Under:
    """A dough under way: its stages as (from, what it is called), in order of the clock."""

    whose: str
    stages: tuple[tuple[datetime, str], ...] = ()

    def stage(self, now: datetime) -> str:
        """Where it stands; "" before its first step."""
        return next((name for at, name in reversed(self.stages) if at <= now), "")


@dataclass(frozen=True, slots=True)
class Agenda:
    """made: the hour it was made (local, naive); coming: in order of the clock; doughs: oldest first."""

    made: datetime
    coming: tuple[Coming, ...] = ()
    doughs: tuple[Under, ...] = ()

    def due(self, now: datetime) -> tuple[Coming, ...]:
        """What has come due since the agenda was made: every timer, and of each dough the latest step."""
        found = [one for one in self.coming if max(self.made, now - LONG_OVER) < one.at <= now]
        last = {one.whose: one for one in found if not one.timer}
        return tuple(one for one in found if one.timer or last[one.whose] is one)

    def glance(self, now: datetime, columns: int, kitchen: str = "") -> str:
        """One line of at most `columns`: each dough's stage, its next step and hour, the timers; the most urgent first.

        Where there is little room, only the most urgent, however many there are.
        """
        parts = list(self._parts(now))
        if not parts:
            return kitchen if width_of(kitchen) <= columns else ""
        parts.sort(key=lambda part: part[0])
        if columns < _NARROW and parts[0][0] != datetime.max:
            return next((said for said in (parts[0][1], parts[0][2]) if width_of(said) <= columns), parts[0][2])
        line = parts[0][1]
        for said in (*(part[1] for part in parts[1:]), kitchen):
            if said and width_of(line) + 3 + width_of(said) <= columns:
                line = f"{line} · {said}"
        return line

    def _parts(self, now: datetime) -> Iterator[tuple[datetime, str, str]]:
        """(when it is next wanted, what is said of it, the same shorter) for each dough and timer."""
        due = self.due(now)
        for dough in self.doughs:
            stage = dough.stage(now)
            mine = [one for one in self.coming if one.whose == dough.whose and not one.timer]
            late = next((one for one in mine if one in due), None)
            after = next((one for one in mine if one.at > now), None)
            head = f"{dough.whose}: {stage}" if stage else dough.whose
            if late is not None:
                yield late.at, f"now {late.what} {dough.whose} ({late.at:%H:%M})", f"now {late.what} ({late.at:%H:%M})"
            elif after is not None:
                hour = clock_said(after.at, now)
                joined = f"{head}, {hour} {after.what}" if stage else f"{head}: {hour} {after.what}"
                yield after.at, joined, f"{hour} {after.what}"
            else:
                yield datetime.max, head, dough.whose
        for timer in self.coming:
            name = timer.whose or "timer"
            if timer.timer and timer.at > now:
                left = hours_said(max(1.0, (timer.at - now).total_seconds() / 60))
                yield timer.at, f"{name} {timer.at:%H:%M} ({left})", f"{name} {timer.at:%H:%M}"
            elif timer.timer and timer in due:
                yield timer.at, f"now {name}: timer over {timer.at:%H:%M}", f"now {name}"


def agenda_of(kb: Knowledge, bench: Bench, entries: Sequence[Entry], now: datetime) -> Agenda:
    """What is ahead of every dough under way and of every timer, as forecast at `now`.

    entries: the notebook's, newest first; looked at only for timers.
    """
    now = now.replace(tzinfo=None)
    coming: list[Coming] = []
    doughs: list[Under] = []
    for bake in under_way(bench, now):
        whose = short_label(bake)
        steps = _steps(kb, bench, bake, now)
        coming += [Coming(one.start, _said(one), whose) for one in steps if one.step not in _GOES_ON]
        if steps and max(one.end for one in steps) < now - LONG_OVER:
            continue
        if steps or bake.id == bench.in_hand:
            stages = tuple((one.start, _STAGES.get(one.step, one.step)) for one in _in_turn(steps))
            doughs.append(Under(whose if steps else bake.label, stages))
    if RUNNING_TIMERS in bench.notes:
        for row in timers_in(entries, now):
            coming.append(Coming(datetime.fromisoformat(str(row["ends_at"])), "timer", str(row["label"] or ""), True))
    return Agenda(now, tuple(sorted(coming, key=lambda one: one.at)), tuple(doughs))


def _steps(kb: Knowledge, bench: Bench, bake: Bake, now: datetime) -> tuple[Shown, ...]:
    """The steps of one dough's course in words; none where it has no course."""
    own = bench if bake.id == bench.in_hand else bench.taking(bake.id)
    room = Room(kb, now, own, None, "", None, lambda *_: (), 0)
    try:
        found = course_as_plan(room)
        if found is None:
            return ()
        _, said, plan = found
        return shown_steps(plan, said, kb, Clock(said.wish.now))
    except (Refused, ValueError, KeyError):
        return ()  # a dough that cannot be worked out has no hours; a line about it says why


def _in_turn(steps: Sequence[Shown]) -> Iterator[Shown]:
    """The steps that say where a dough stands, without what goes on beside them."""
    return (one for one in steps if one.step not in ("preheat", "heat_pot", "fold", "score"))


def _said(step: Shown) -> str:
    if step.step in _SHORT:
        return _SHORT[step.step]
    return step.label.split(" (")[0].split(",")[0]


def once(coming: Coming, now: datetime) -> str:
    """A thing that came due as it is called out: "07:50 timer over: pot"."""
    late = (now - coming.at).total_seconds() / 60
    ago = f" ({hours_said(late)} ago)" if late >= 2 else ""
    return f"{clock_said(coming.at, now)}  {coming.words()}{ago}"
