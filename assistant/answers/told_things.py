"""What a report tells, each thing with its hour settled and its words: steps, measurements, places, pieces lost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from assistant.answers.course_kept import course_now
from assistant.answers.pieces_lost import lost
from assistant.answers.progress import DONE
from assistant.answers.told_hours import hour_of, no_sooner, planned, since_told
from assistant.engine.course.told import Account, Mark, Reading
from assistant.engine.refusal import Refused
from assistant.talk.kitchen import place_named
from assistant.talk.room import Room
from assistant.voice.spans import clock_said, degrees_said
from grammar.telling import Told

_OUT_OF = {"bake": "cool", "retard": "warm_up", "boil": "bake"}
"""What comes out of where it is: the step that marks."""
_NAMES = {"dough_c": "dough", "room_c": "kitchen", "core_c": "core", "starter_c": "starter"}
_POSSIBLE = {
    "dough_c": (0.0, 45.0, "a dough is between 0 and 45 °C"), "room_c": (-10.0, 45.0, "a kitchen is under 45 °C"),
    "core_c": (0.0, 105.0, "a core gets no hotter than 105 °C"), "rise_pct": (0.0, 500.0, "no dough rises so far"),
    "starter_c": (0.0, 45.0, "a starter is between 0 and 45 °C"),
    "starter_rise_pct": (0.0, 500.0, "no starter rises so far"),
}  # fmt: skip
_OF_ITS_MARK = {
    "dough_c": ("mix", "bulk"), "room_c": ("mix", "bulk", "feed_starter"), "rise_pct": ("divide",),
}  # fmt: skip
"""What was measured without an hour, and the steps in the same line whose hour it then has."""


@dataclass(frozen=True, slots=True)
class Said:
    """One thing as it goes on the account, and its words."""

    thing: Mark | Reading
    words: str


def things_told(told: Sequence[Told], account: Account, room: Room) -> list[Said]:
    """What was told with its hours settled: of a line the marks first, then what was measured."""
    now = room.now.replace(tzinfo=None, second=0, microsecond=0)
    found: list[Said] = []
    deeds = [one for one in told if one.what in ("mark", "in", "out") and one.step != "proofed"]
    for place, one in enumerate(deeds):
        step = one.step or _where(one.what, account, found, room)
        sure = one.at is not None or one.ago_min is not None
        floor = no_sooner(step, account, room)
        later = [hour_of(two, now, floor) for two in deeds[place:] if two.at is not None or two.ago_min is not None]
        at = min(later, default=now)  # done before what is told after it with its hour
        if not sure and later:
            at = min(planned(step, account, room) or at, at)
        pieces = int(one.pieces) if one.pieces is not None else None
        words = f"{DONE[step]} {clock_said(at, now)}" + (f", {pieces} pieces" if pieces is not None else "")
        found.append(Said(Mark(step, at, pieces, sure), words))
    for one in told:
        if one.what == "moved":
            there = _moved(one, told, since_told(one, account) or now, room)
            found += [] if there is None else [there]
        elif one.what == "room_c" and any(two.what == "moved" for two in told):
            continue  # told with the place it was put in
        elif one.what in ("lost", "left"):
            thing = lost(one, [two.thing for two in found], account, room)
            found += [] if thing is None else [Said(*thing)]
        elif one.what not in ("mark", "in", "out", "mend"):
            found.append(measured(one, found, account, since_told(one, account) or now))
    if not found:
        raise Refused("nothing in that can be marked", "for example: mixed at 9:10, dough 24")
    return found


def _moved(one: Told, told: Sequence[Told], now: datetime, room: Room) -> Said | None:
    """Put somewhere else: as warm as was said with it, else as that place was told to be; None where it never was,
    and a step is told beside it, whose hour is not to be lost for that."""
    warm_c = _warmth_there(one, told, room)
    if warm_c is None and any(two.what == "mark" for two in told):
        return None
    if warm_c is None:
        raise Refused(f"how warm the {one.place} is was not told", f"say it with its warmth: {one.place} 12 °C")
    at = now if one.at is None and one.ago_min is None else hour_of(one, room.now.replace(tzinfo=None, second=0))
    named = f"{'in' if one.throughout else 'to'} the {one.place}" if " " not in (one.place or "") else str(one.place)
    words = f"{named}, {degrees_said(warm_c)}"
    return Said(Reading("room_c", warm_c, at), words)


def _warmth_there(one: Told, told: Sequence[Told], room: Room) -> float | None:
    """How warm it is where something was put: as said with it, else as the place was told to be, by day or at least
    by night."""
    known = place_named(one.place or "", room.bench.settings)
    told_c = next((two.value for two in told if two.what == "room_c"), None)
    if told_c is not None or known is None:
        return told_c
    return known.night_c if known.day_c is None else known.day_c


def as_the_kitchen(told: Sequence[Told], room: Room) -> tuple[str, ...]:
    """What was filled in for places the dough was put in and whose warmth was never told."""
    strange = [one.place for one in told if one.what == "moved" and _warmth_there(one, told, room) is None]
    here = degrees_said(room.kitchen_c)
    return tuple(f"the {place} as warm as the kitchen, {here} (not told yet: “{place} 26 °C”)" for place in strange)


def measured(one: Told, found: Sequence[Said], account: Account, now: datetime) -> Said:
    """A measurement at its own hour, that of the step it is said of or told with, or now."""
    assert one.value is not None
    low, high, why = _POSSIBLE[one.what]
    if not low <= one.value <= high:
        raise Refused(f"{one.value:g} {'%' if one.what.endswith('pct') else '°C'}: {why}", "say the figure again")
    at = now if one.at is None and one.ago_min is None else hour_of(one, now)
    marks = [said.thing for said in found if isinstance(said.thing, Mark) and said.thing.sure]
    if one.at is None and one.ago_min is None and marks and marks[-1].step in _OF_ITS_MARK.get(one.what, ()):
        at = marks[-1].at
    of_step = [mark.at for mark in account.marks if mark.step == one.step]
    if one.step is not None and of_step:
        at = of_step[-1]
    value = round(one.value, 2)
    if one.what in _NAMES:
        words = f"{_NAMES[one.what]} {degrees_said(value)}"
    else:
        words = f"{'starter ' if one.what == 'starter_rise_pct' else ''}risen {value:g} %"
    if at != now and (one.at is not None or one.step is not None):
        words += f" at {clock_said(at, now)}"
    return Said(Reading(one.what, value, at), words)  # type: ignore[arg-type]


_WARM_C = (17.0, 35.0)
_LATELY_H = 3.0


def warm_rather(value: float, now: datetime) -> bool:
    """Whether a bare figure said of a mixing is the dough's warmth: a dough may have it, no hour just gone."""
    since_h = (now.hour + now.minute / 60 - value) % 24
    return _WARM_C[0] <= value <= _WARM_C[1] and since_h > _LATELY_H


def _where(way: str, account: Account, found: Sequence[Said], room: Room) -> str:
    """What "they're in", "they're out" marks: by where they were, or by what comes next."""
    marks = [one for one in account.main if one.step != "feed_starter"]
    marks += [one.thing for one in found if isinstance(one.thing, Mark)]
    last = marks[-1].step if marks else None
    if way == "out":
        return _OUT_OF.get(last or "bake", "cool")
    if last == "shape":
        try:
            if course_now(room).stands.next == "retard":
                return "retard"
        except Refused:
            pass
    return "bake"
