"""What a baker tells of the bake under way, kept on the account of its dough; the reply is where it then stands."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from assistant.answers import answers
from assistant.answers.account_kept import account_of, asked_for, iso, with_account
from assistant.answers.course_kept import asked_of, bake_key, course_now
from assistant.answers.learned import pace_of, with_pace
from assistant.answers.pace_said import how_usual
from assistant.answers.pieces_lost import note
from assistant.answers.progress import DONE, standing
from assistant.answers.told_hours import hour_of
from assistant.answers.told_things import Said, as_the_kitchen, measured, things_told, warm_rather
from assistant.engine.course.told import Account, Mark, Reading, begun_anew, out_of_order
from assistant.engine.refusal import Refused
from assistant.talk.bench import Bench
from assistant.talk.doughs import all_names, under_way
from assistant.talk.kitchen import place_named
from assistant.talk.reply import Outcome, Unclear
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import clock_said
from grammar.requests.report import ReportRequest
from grammar.telling import Told

_SEEN_AFTER_MIN = 60.0
"""A rise measured sooner than this after the mixing says little of the starter's pace."""


@answers(ReportRequest)
def answer(request: ReportRequest, room: Room) -> Outcome:
    """Everything told goes on the account, or nothing does.

    Raises Refused where an hour is still to come or comes before one it must follow, or a figure cannot be.
    """
    typed = room.text.strip()
    _degrees_or_pieces(request.told, room)
    room = replace(room, text="")  # a place named in it is where the dough is from now on, not where it was
    account = account_of(room)
    _on_the_bench(request.of, room)
    request = _as_last(request, room)
    if request.told and request.told[0].what == "mend":
        account, said = _mended(request.told[0], account, room)
    else:
        said = things_told(request.told, account, room)
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
        "text": typed, "bake": room.bake.name if room.bake is not None else None,
    }  # fmt: skip
    told = "; ".join(words)
    fewer = note(account, there) if isinstance(last, Reading) and last.what in ("lost", "left") else None
    kept = () if fewer is None else (Line(fewer, role="note"),)
    if isinstance(last, Reading) and last.what == "rise_pct":
        kept = (*kept, *(Line(one, role="note") for one in how_usual(there)))
    filled = as_the_kitchen(request.told, room)
    kept = (*kept, *(Line(f"Taken: {one}.", role="warn") for one in filled))
    page = Page((Line(f"{told[0].upper()}{told[1:]}."), *kept, *outcome.page.blocks))
    assumed = (*filled, *outcome.assumed)
    read_as = f"{told}; where the bake stands"
    return replace(outcome, read_as=read_as, page=page, bench=bench, change=change, assumed=assumed)


_DEGREES = re.compile(r"\d\s*(?:°|deg|[cf]\b)", re.I)
_UNLIKE_C = 8.0
"""A place is hardly ever so many degrees warmer or colder than it was told to be."""


def _degrees_or_pieces(told: Sequence[Told], room: Room) -> None:
    """ "35 in the boathouse now", of 36 rings, where it is 9 °C: asked about."""
    moved = next((one for one in told if one.what == "moved"), None)
    warm = next((one.value for one in told if one.what == "room_c" and one.value is not None), None)
    wanted = asked_for(room)
    if moved is None or warm is None or wanted is None or _DEGREES.search(room.text) or warm != int(warm):
        return
    place = place_named(moved.place or "", room.bench.settings)
    if place is None or place.day_c is None:
        return  # of a place nobody has told of, its warmth is what is worth telling
    if warm <= wanted and abs(warm - place.day_c) > _UNLIKE_C:
        question = f"Is it {warm:g} °C in the {moved.place}, or are {warm:g} pieces there?"
        raise Unclear(question, (f"the {moved.place} is {warm:g} °C", f"into the {moved.place} with them"))


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


def _mended(told: Told, account: Account, room: Room) -> tuple[Account, list[Said]]:
    """The last one told put right: a figure where that was a measurement, an hour where it was a step."""
    now = room.now.replace(tzinfo=None, second=0, microsecond=0)
    was = _that_was(told.old, account)
    last = was or _last_told(room)
    reading = next((one for one in reversed(account.readings) if one.what == last), None)
    if reading is not None and told.value is not None:
        fresh = account.without(reading)
        one = next(iter(things_told((Told(str(last), value=told.value),), fresh, room)))
        new = replace(reading, value=one.thing.value) if isinstance(one.thing, Reading) else reading
        return fresh.with_reading(new), [Said(new, f"put right: {one.words}")]
    if told.value is not None and was is None and last in ("mix", "bulk") and warm_rather(told.value, now):
        one = measured(Told("dough_c", step=last, value=told.value), (), account, now)
        return _with(account, one.thing, room), [one]
    marks = [one for one in account.marks if one.step == last] or list(account.marks)
    mark = marks[-1] if marks else None
    if mark is None or (told.at is None and told.ago_min is None):
        raise Refused("there is nothing to put right", "say it whole: “mixed at 7”")
    new_mark = replace(mark, at=hour_of(Told("mark", at=told.at, ago_min=told.ago_min), now), sure=True)
    measured_then = tuple(
        replace(one, at=new_mark.at) if one.what == "dough_c" and one.at == mark.at else one for one in account.readings
    )
    others = replace(account, marks=tuple(one for one in account.marks if one is not mark), readings=measured_then)
    words = f"put right: {DONE[mark.step]} {clock_said(new_mark.at, now)}"
    return _with(others, new_mark, room), [Said(new_mark, words)]


def _that_was(old: Told | None, account: Account) -> str | None:
    """The step told last with the hour that is put right, else what was measured with that figure; None for none."""
    if old is None or not account.marks:
        return None
    hour = old.at.minute if old.at is not None else None
    for mark in reversed(account.marks if hour is not None else ()):
        if (mark.at.hour * 60 + mark.at.minute - (hour or 0)) % _DIAL_MIN == 0:
            return mark.step
    if old.value is None:
        return account.marks[-1].step  # an hour that nobody told is an hour all the same
    return next((one.what for one in reversed(account.readings) if one.value == old.value), None)


_DIAL_MIN = 720
"""Once round the face of a clock."""


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
