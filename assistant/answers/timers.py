"""Timers as entries of the notebook: set, listed with what is left of them, stopped."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from assistant.answers import answers
from assistant.engine.refusal import Refused
from assistant.local_time import later, minutes_until
from assistant.notebook.event import Entry
from assistant.reply import Outcome
from assistant.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import clock_said, hours_said
from grammar.moments import resolve
from grammar.requests.timers import TimerRequest, TimersRequest

LONGEST_MIN = 7 * 1440.0
"""A timer of more than a week is taken for a slip."""
LISTED_MIN = 12 * 60.0
"""How long one that has ended stays on the list."""


@answers(TimerRequest)
def answer(request: TimerRequest, room: Room) -> Outcome:
    """A timer noted with its end; it makes no sound, and says so."""
    ends = _end(request, room.now)
    minutes = minutes_until(room.now, ends)
    if minutes <= 0 or minutes > LONGEST_MIN:
        raise Refused(
            f"A timer of {hours_said(max(0.0, minutes))} is none: it takes more than nothing and at most a week.",
            "timer 20 min",
        )
    label = request.label
    text = (f"{label}: " if label else "") + f"{hours_said(minutes)}, to {clock_said(ends, room.now)}"
    bake = room.bake.name if room.bake is not None else None
    ends_at = ends.replace(tzinfo=None).isoformat(timespec="seconds" if ends.second else "minutes")
    entry = {
        "id": room.number, "at": room.stamp(), "text": text, "bake": bake, "kind": "timer", "label": label,
        "minutes": minutes, "ends_at": ends_at,
    }  # fmt: skip
    change = {"what": "timer", "text": text, "bake": bake, "label": label, "minutes": minutes, "ends_at": ends_at}
    once = "It runs once, not over and over. " if request.every else ""
    lines = (
        Line(f"Timer{f' for {label}' if label else ''}: {hours_said(minutes)}, ends at {clock_said(ends, room.now)}."),
        Line(once + "It does not ring: “timers?” tells what is left.", role="note"),
    )
    return Outcome("record", {"entry": entry}, f"a timer, {text}", Page(lines), change=change)


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
    stopped: set[int] = set()
    found = []
    for entry in entries:
        change: Mapping[str, Any] = entry.change or {}
        if change.get("what") == "timer_stopped":
            stopped |= {int(seq) for seq in change.get("timers", ())}
        if change.get("what") != "timer" or entry.seq in stopped:
            continue
        left = minutes_until(now, datetime.fromisoformat(str(change["ends_at"])))
        if left > -LISTED_MIN:
            found.append({
                "id": entry.seq, "at": entry.said_at[:16], "text": change["text"], "bake": change.get("bake"),
                "kind": "timer", "label": change.get("label"), "minutes": change["minutes"],
                "ends_at": change["ends_at"], "left_min": left,
            })  # fmt: skip
    return found


def _is_for(timer: Mapping[str, Any], label: str) -> bool:
    """Whether a timer is for what is named: a word of the one stands in the other."""
    return bool(set(label.lower().split()) & set(str(timer["label"] or "").lower().split()))


def _end(request: TimerRequest, now: datetime) -> datetime:
    if request.at is not None:
        return resolve(request.at, now)
    if request.minutes is None:
        raise Refused("A timer needs a length or an hour: “timer 20 min”, “timer at 7:15”.", "timer 20 min")
    return later(now, min(request.minutes, 2 * LONGEST_MIN))


def _stopped(request: TimersRequest, running: Sequence[Mapping[str, Any]], room: Room) -> Outcome:
    if not running:
        return Outcome("recall", {"entries": []}, "stop the timer", Page((Line("No timer is running."),)))
    taken = running if request.all else running[:1]
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
