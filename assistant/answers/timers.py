"""Timers as entries of the notebook: set, listed with what is left of them, stopped."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from assistant.answers import answers
from assistant.engine.refusal import Refused
from assistant.notebook.event import Entry
from assistant.talk.local_time import later, minutes_until
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import clock_said, hours_said
from grammar.moments import Moment, resolve
from grammar.requests.timers import TimerRequest, TimersSet
from grammar.requests.timers_running import RUNNING, TimersRequest, stems

LONGEST_MIN = 7 * 1440.0
"""A timer of more than a week is taken for a slip."""
LISTED_MIN = 12 * 60.0
"""How long one that has ended stays on the list."""
USUAL_TIMES = 4
"""Over and over, where nobody said how often or how long."""
MOST_TIMES = 48


@dataclass(frozen=True, slots=True)
class _Timer:
    """One to be set: when it ends (to the second), minutes from now, what for."""

    ends: datetime
    minutes: float
    label: str | None

    def words(self, now: datetime) -> str:
        """ "fold: 30 min, to 08:00"."""
        span = f"{hours_said(self.minutes)}, to {clock_said(self.ends, now)}"
        return f"{self.label}: {span}" if self.label else span

    def kept(self, now: datetime) -> dict[str, Any]:
        """As plain JSON."""
        ends_at = self.ends.isoformat(timespec="seconds" if self.ends.second else "minutes")
        return {"text": self.words(now), "label": self.label, "minutes": self.minutes, "ends_at": ends_at}


@answers(TimerRequest)
def answer(request: TimerRequest, room: Room) -> Outcome:
    """A timer noted with its end."""
    return _set([_timer(request.minutes, request.at, request.label, room.now)], room)


@answers(TimersSet)
def several(request: TimersSet, room: Room) -> Outcome:
    """Several timers noted at once: each with its own end, or one over and over."""
    if request.every_min is None:
        return _set([_timer(one.minutes, one.at, one.label, room.now) for one in request.calls], room)
    every = request.every_min
    if every < 1:
        raise Refused("a timer over and over needs a minute between at least", "every 30 min for two hours")
    times = request.times
    if request.till is not None:
        span = minutes_until(room.now, resolve(request.till, room.now))
        times = int(span / every + 1e-6)
    elif times is None:
        span = request.span_min if request.span_min is not None else every * USUAL_TIMES
        times = int(span / every + 1e-6)
    if not 1 <= times <= MOST_TIMES:
        raise Refused(f"{times} times every {hours_said(every)} is none", "for example every 30 min for two hours")
    return _set([_timer(every * n, None, request.label, room.now) for n in range(1, times + 1)], room)


def _timer(minutes: float | None, at: Moment | None, label: str | None, now: datetime) -> _Timer:
    if at is not None:
        ends = resolve(at, now)
    elif minutes is not None:
        ends = later(now, min(minutes, 2 * LONGEST_MIN))
    else:
        raise Refused("A timer needs a length or an hour: “timer 20 min”, “timer at 7:15”.", "timer 20 min")
    left = minutes_until(now, ends)
    if left <= 0 or left > LONGEST_MIN:
        raise Refused(
            f"A timer of {hours_said(max(0.0, left))} is none: it takes more than nothing and at most a week.",
            "timer 20 min",
        )
    return _Timer(_naive(ends), left, label)


def _naive(at: datetime) -> datetime:
    return at.replace(tzinfo=None)


def _set(timers: Sequence[_Timer], room: Room) -> Outcome:
    now = _naive(room.now)
    bake = room.bake.name if room.bake is not None else None
    rows = [one.kept(now) for one in timers]
    text = "; ".join(str(row["text"]) for row in rows)
    kept = [{**row, "bake": bake} for row in rows]
    first = {"id": room.number, "at": room.stamp(), "kind": "timer", **kept[0], "text": text}
    answer: dict[str, Any] = {"entry": first}
    if len(rows) > 1:
        answer["entries"] = [{"id": f"{room.number}.{n}", "kind": "timer", **row} for n, row in enumerate(kept, 1)]
    head = f"Timer{f' for {timers[0].label}' if timers[0].label else ''}: {hours_said(timers[0].minutes)}, ends at "
    lines = [Line(head + f"{clock_said(timers[0].ends, now)}.")]
    if len(rows) > 1:
        lines = [Line(f"{len(rows)} timers:"), *(Line(one.words(now), indent=2) for one in timers)]
    lines.append(Line("Told once it is over, with the next line; “timers?” tells what is left.", role="note"))
    labels = (*(room.bench.notes.get(RUNNING) or {}).get("labels", ()), *(one.label for one in timers if one.label))
    until = max(row["ends_at"] for row in rows)
    bench = room.bench.with_notes(RUNNING, {"until": until, "labels": list(dict.fromkeys(labels))[-MOST_TIMES:]})
    change = {"what": "timer", "text": text, "bake": bake, "timers": kept}
    return Outcome("record", answer, f"a timer, {text}", Page(tuple(lines)), bench=bench, change=change)


@answers(TimersRequest)
def listed(request: TimersRequest, room: Room) -> Outcome:
    """The timers running and those ended in the last hours, newest first; or the newest one (or all) stopped."""
    running = timers_in(room.entries() if room.entries is not None else (), room.now)
    if request.label:
        named = [one for one in running if _is_for(one, request.label)]
        if not named:
            others = f" {len(running)} other: “timers?”." if running else ""
            told = f"No timer is running for {request.label}.{others}"
            return Outcome("recall", {"entries": []}, f"the timer for {request.label}", Page((Line(told),)))
        running = named
    if request.stop:
        return _stopped(request, [one for one in running if one["left_min"] > 0] or running, room)
    return Outcome("recall", {"entries": running}, "the timers", _page(running, room.now))


def timers_in(entries: Sequence[Entry], now: datetime) -> list[dict[str, Any]]:
    """Timers not stopped and not long over, newest first, each with the minutes left (negative: since it ended)."""
    stopped: set[str] = set()
    found = []
    for entry in entries:
        change: Mapping[str, Any] = entry.change or {}
        if change.get("what") == "timer_stopped":
            stopped |= {str(seq) for seq in change.get("timers", ())}
        if change.get("what") != "timer":
            continue
        rows = change.get("timers") or [change]
        for number, row in reversed(list(enumerate(rows, 1))):
            name = str(entry.seq) if len(rows) == 1 else f"{entry.seq}.{number}"
            left = minutes_until(now, datetime.fromisoformat(str(row["ends_at"])))
            if left > -LISTED_MIN and name not in stopped:
                found.append({
                    "id": entry.seq if len(rows) == 1 else name, "at": entry.said_at[:16], "text": row["text"],
                    "bake": row.get("bake"), "kind": "timer", "label": row.get("label"), "minutes": row["minutes"],
                    "ends_at": row["ends_at"], "left_min": left,
                })  # fmt: skip
    return found


def _is_for(timer: Mapping[str, Any], label: str) -> bool:
    """Whether a timer is for what is named: a word of the one stands in the other."""
    return bool(stems(label) & stems(str(timer["label"] or "")))


def _stopped(request: TimersRequest, running: Sequence[Mapping[str, Any]], room: Room) -> Outcome:
    if not running:
        return Outcome("recall", {"entries": []}, "stop the timer", Page((Line("No timer is running."),)))
    series = str(running[0]["id"]).split(".")[0]
    taken = running if request.all else [one for one in running if str(one["id"]).split(".")[0] == series]
    if request.label is None and not request.all:
        taken = taken[:1]
    text = "; ".join(str(one["text"]) for one in taken)
    change = {"what": "timer_stopped", "timers": [one["id"] for one in taken], "text": f"stopped: {text}"}
    entry = {"id": room.number, "at": room.stamp(), "text": f"stopped: {text}", "bake": None, "kind": "timer_stopped"}
    page = Page((Line(f"Stopped: {text}."),))
    return Outcome("record", {"entry": entry}, f"timer stopped: {text}", page, change=change)


def _page(running: Sequence[Mapping[str, Any]], now: datetime) -> Page:
    if not running:
        return Page((Line("No timer is running. “timer 20 min” sets one."),))
    return Page(tuple(Line(_told(one, now), more=number >= 6) for number, one in enumerate(running)))


def _told(timer: Mapping[str, Any], now: datetime) -> str:
    left = float(timer["left_min"])
    ends = clock_said(datetime.fromisoformat(str(timer["ends_at"])), now.replace(tzinfo=None))
    name = f"{timer['label']}: " if timer["label"] else ""
    if left <= 0:
        return f"{name}over since {ends} ({hours_said(-left)} ago)"
    return f"{name}{hours_said(left)} left of {hours_said(float(timer['minutes']))}, to {ends}"
