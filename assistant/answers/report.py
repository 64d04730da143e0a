"""What a baker tells of the bake under way, kept on the account of its dough; the reply is where it then stands."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from assistant.answers import answers
from assistant.answers.course_kept import account_of, asked_of, bake_key, course_now, iso, with_account
from assistant.answers.learned import pace_of, with_pace
from assistant.answers.progress import DONE, standing
from assistant.answers.told_hours import hour_of, no_sooner, planned, since_told
from assistant.engine.course.told import Account, Mark, Reading, begun_anew, out_of_order
from assistant.engine.refusal import Refused
from assistant.talk.bench import Bench
from assistant.talk.doughs import all_names, under_way
from assistant.talk.kitchen import place_named
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import clock_said, degrees_said
from grammar.requests.report import ReportRequest
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
_SEEN_AFTER_MIN = 60.0
"""A rise measured sooner than this after the mixing says little of the starter's pace."""


@dataclass(frozen=True, slots=True)
class _Said:
    """One thing as it goes on the account, and its words."""

    thing: Mark | Reading
    words: str


@answers(ReportRequest)
def answer(request: ReportRequest, room: Room) -> Outcome:
    """Everything told goes on the account, or nothing does.

    Raises Refused where an hour is still to come or comes before one it must follow, or a figure cannot be.
    """
    account = account_of(room)
    _on_the_bench(request.of, room)
    request = _as_last(request, room)
    if request.told and request.told[0].what == "mend":
        account, said = _mended(request.told[0], account, room)
    else:
        said = _said(request.told, account, room)
        for one in said:
            account = _with(account, one.thing, room)
        if request.ratio is not None:
            account = replace(account, ratio=request.ratio)
        if request.starter_pct is not None and room.bake is None:
            account = replace(account, starter_pct=request.starter_pct)
    bench = with_account(room.bench, account)
    there = replace(room, bench=bench)
    bench = _learned(bench, account, there)
    there = replace(room, bench=bench)
    words = [one.words for one in said]
    if request.ratio is not None:
        words.append("fed " + ":".join(f"{part:g}" for part in request.ratio))
    outcome = standing(there)
    last = said[-1].thing
    change = {
        "what": "stage", "mark": next((one.thing.step for one in reversed(said) if isinstance(one.thing, Mark)), None),
        "step": last.step if isinstance(last, Mark) else last.what, "at_hour": iso(last.at),
        "text": room.text.strip(), "bake": room.bake.name if room.bake is not None else None,
    }  # fmt: skip
    told = "; ".join(words)
    page = Page((Line(f"{told[0].upper()}{told[1:]}."), *outcome.page.blocks))
    return replace(outcome, read_as=f"{told}; where the bake stands", page=page, bench=bench, change=change)


def _on_the_bench(named: Sequence[str], room: Room) -> None:
    """Refused where there are several doughs, and something is told of one that is none of them."""
    there = under_way(room.bench, room.now)
    known = " ".join(name for names in all_names(there, room.kb) for name in names)
    strange = [one for one in named if one not in known and one.removesuffix("s") not in known]
    if len(there) > 1 and named and len(strange) == len(named):
        raise Refused(f"no {strange[0]} is on the bench", "“my bakes” lists what is")


def _as_last(request: ReportRequest, room: Room) -> ReportRequest:
    """What was "done too" is what was told last, of whichever dough."""
    if not any(one.what == "again" for one in request.told):
        return request
    step = _last_told(room, "mark")
    if step not in DONE:
        raise Refused("what was done is not clear", "say it whole: “mixed at 7”")
    return replace(request, told=tuple(replace(one, what="mark", step=step) for one in request.told))


def _with(account: Account, thing: Mark | Reading, room: Room) -> Account:
    if isinstance(thing, Reading):
        return account.with_reading(thing)
    account = begun_anew(account, thing)
    other = out_of_order(account, thing)
    if other is not None:
        now = room.now.replace(tzinfo=None)
        before = thing.at < other.at
        raise Refused(
            f"{DONE[thing.step]} {clock_said(thing.at, now)} cannot be {'before' if before else 'after'} "
            f"{DONE[other.step]} {clock_said(other.at, now)}",
            f"say which hour is right: “{DONE[thing.step]} at …”, “{DONE[other.step]} at …”",
        )
    return account.with_mark(thing)


def _said(told: Sequence[Told], account: Account, room: Room) -> list[_Said]:
    """What was told with its hours settled: of a line the marks first, then what was measured."""
    now = room.now.replace(tzinfo=None, second=0, microsecond=0)
    found: list[_Said] = []
    deeds = [one for one in told if one.what in ("mark", "in", "out") and one.step != "proofed"]
    for place, one in enumerate(deeds):
        step = one.step or _where(one.what, account, found, room)
        sure = one.at is not None or one.ago_min is not None
        floor = no_sooner(step, account, room)
        later = [hour_of(two, now, floor) for two in deeds[place:] if two.at is not None or two.ago_min is not None]
        at = min(later, default=now)  # done before what is told after it with its hour
        if not sure and later:
            at = min(planned(step, room) or at, at)
        pieces = int(one.pieces) if one.pieces is not None else None
        words = f"{DONE[step]} {clock_said(at, now)}" + (f", {pieces} pieces" if pieces is not None else "")
        found.append(_Said(Mark(step, at, pieces, sure), words))
    for one in told:
        if one.what == "moved":
            found.append(_moved(one, told, since_told(one, account) or now, room))
        elif one.what == "room_c" and any(two.what == "moved" for two in told):
            continue  # told with the place it was put in
        elif one.what not in ("mark", "in", "out", "mend"):
            found.append(_measured(one, found, since_told(one, account) or now))
    if not found:
        raise Refused("nothing in that can be marked", "for example: mixed at 9:10, dough 24")
    return found


def _moved(one: Told, told: Sequence[Told], now: datetime, room: Room) -> _Said:
    """Put somewhere else: as warm as was said with it, else as that place was told to be."""
    known = place_named(one.place or "", room.bench.settings)
    warm_c = next((two.value for two in told if two.what == "room_c"), None if known is None else known.day_c)
    if warm_c is None:
        raise Refused(f"how warm the {one.place} is was not told", f"say it with its warmth: {one.place} 12 °C")
    at = now if one.at is None and one.ago_min is None else hour_of(one, room.now.replace(tzinfo=None, second=0))
    named = f"{'in' if one.throughout else 'to'} the {one.place}" if " " not in (one.place or "") else str(one.place)
    words = f"{named}, {degrees_said(warm_c)}"
    return _Said(Reading("room_c", warm_c, at), words)


def _measured(one: Told, found: Sequence[_Said], now: datetime) -> _Said:
    assert one.value is not None
    low, high, why = _POSSIBLE[one.what]
    if not low <= one.value <= high:
        raise Refused(f"{one.value:g} {'%' if one.what.endswith('pct') else '°C'}: {why}", "say the figure again")
    at = now if one.at is None and one.ago_min is None else hour_of(one, now)
    marks = [said.thing for said in found if isinstance(said.thing, Mark) and said.thing.sure]
    if one.at is None and one.ago_min is None and marks and marks[-1].step in _OF_ITS_MARK.get(one.what, ()):
        at = marks[-1].at
    value = round(one.value, 2)
    if one.what in _NAMES:
        words = f"{_NAMES[one.what]} {degrees_said(value)}"
    else:
        words = f"{'starter ' if one.what == 'starter_rise_pct' else ''}risen {value:g} %"
    if at != now and one.at is not None:
        words += f" at {clock_said(at, now)}"
    return _Said(Reading(one.what, value, at), words)  # type: ignore[arg-type]


def _where(way: str, account: Account, found: Sequence[_Said], room: Room) -> str:
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


def _mended(told: Told, account: Account, room: Room) -> tuple[Account, list[_Said]]:
    """The last one told put right: a figure where that was a measurement, an hour where it was a step."""
    now = room.now.replace(tzinfo=None, second=0, microsecond=0)
    last = _last_told(room)
    reading = next((one for one in reversed(account.readings) if one.what == last), None)
    if reading is not None and told.value is not None:
        one = _measured(Told(str(last), value=told.value), (), now)
        new = replace(reading, value=one.thing.value) if isinstance(one.thing, Reading) else reading
        return account.with_reading(new), [_Said(new, f"put right: {one.words}")]
    marks = [one for one in account.marks if one.step == last] or list(account.marks)
    mark = marks[-1] if marks else None
    if mark is None or (told.at is None and told.ago_min is None):
        raise Refused("there is nothing to put right", "say it whole: “mixed at 7”")
    new_mark = replace(mark, at=hour_of(Told("mark", at=told.at, ago_min=told.ago_min), now), sure=True)
    others = replace(account, marks=tuple(one for one in account.marks if one is not mark))
    words = f"put right: {DONE[mark.step]} {clock_said(new_mark.at, now)}"
    return _with(others, new_mark, room), [_Said(new_mark, words)]


def _last_told(room: Room, what: str = "step") -> str | None:
    """What was told last, by the notebook: a step or what was measured; with "mark" the last step."""
    entries = room.entries() if room.entries is not None else ()
    for entry in entries:
        change = entry.change or {}
        if change.get("what") == "stage" and change.get(what) is not None:
            return str(change.get(what))
    return None


def _learned(bench: Bench, account: Account, room: Room) -> Bench:
    """What a measured rise says of the starter's pace, where the dough has one and an hour has gone by."""
    try:
        asked = asked_of(room, account)
        course = course_now(room, account)
    except Refused:
        return bench
    stands = course.stands
    if stands.seen_pace is None or stands.elapsed_min < _SEEN_AFTER_MIN or asked.batch.dough.starter_pct <= 0:
        return bench
    key = bake_key(room, account)
    return with_pace(bench, key, pace_of(room, key).value * stands.seen_pace, room.stamp())
