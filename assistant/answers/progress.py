"""Where the bake in hand stands: the stage marked last, how far it has risen, what is left of it and what is next."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Any

from assistant import answers as registry
from assistant.answers import answers
from assistant.answers.fermenting import bread_of
from assistant.answers.recall import notes_in
from assistant.bench import Bench
from assistant.engine.naming import short_name
from assistant.engine.refusal import Refused
from assistant.reply import Outcome
from assistant.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import clock_said, hours_said
from grammar.moments import Moment, latest
from grammar.requests.progress import COURSE, ProgressRequest
from grammar.requests.recall import folded, plain
from grammar.requests.timing import TimingRequest

MARKS = "stages"
"""Fact of a bake (and note of the bench where none is in hand): the stages marked, as [step, hour] pairs."""
STAGE = {
    "mix": "bulk", "bulk": "bulk", "autolyse": "autolyse", "divide": "bench_rest", "preshape": "bench_rest",
    "shape": "proof", "retard": "retard", "warm_up": "warm_up", "boil": "boil", "bake": "bake", "cool": "cool",
    "feed_starter": "starter", "preheat": "preheat",
}  # fmt: skip
"""What a mark begins."""
BESIDE = frozenset({"fold", "preheat", "feed_starter"})
"""Marks that leave the dough in the stage it is in."""
ONCE = frozenset({"autolyse", "mix", "bulk", "divide", "preshape", "shape", "retard"})
"""Marks that a bake has once; folds, loads and feeds come again."""
DONE = {
    "mix": "mixed", "bulk": "bulk begun", "autolyse": "autolyse begun", "fold": "folded", "divide": "bulk ended",
    "preshape": "preshaped", "shape": "shaped", "retard": "into the fridge", "warm_up": "out of the fridge",
    "preheat": "oven on", "boil": "boiled", "bake": "into the oven", "cool": "out of the oven",
    "feed_starter": "starter fed",
}  # fmt: skip
NEXT = {
    "autolyse": "mix", "starter": "mix", "bulk": "divide", "bench_rest": "shape", "boil": "bake", "bake": "cool",
    "preheat": "bake",
}  # fmt: skip
LAST_H = 72.0


@dataclass(frozen=True, slots=True)
class Mark:
    """A stage begun, and when."""

    step: str
    at: datetime


@answers(ProgressRequest)
def answer(request: ProgressRequest, room: Room) -> Outcome:
    """The mark kept, where the line made one, and where the bake stands with it."""
    marks = marks_of(room)
    if request.poured:
        return _went_in(request.poured, room)
    bench, change, kept_line = None, None, None
    if request.step is not None:
        mark = Mark(request.step, _hour(request, room.now))
        marks = _with(marks, mark)
        bench = _benched(marks, room)
        change = {
            "what": "stage", "step": mark.step, "at_hour": _iso(mark.at), "text": room.text.strip(),
            "bake": room.bake.name if room.bake is not None else None,
        }  # fmt: skip
        kept_line = f"{DONE[mark.step]} {clock_said(mark.at, room.now)}"
    told = _standing(marks, request, replace(room, bench=bench) if bench is not None else room)
    if told.kind != "progress":
        return told
    read_as = f"{kept_line}; where the bake stands" if kept_line else "where the bake stands"
    page = told.page
    if request.asked is not None:
        head = _when_done(request.asked, marks, room)
        return replace(told, read_as=f"when: {DONE[request.asked]}", page=Page((Line(head, role="head"), *page.blocks)))
    last = next((one for one in reversed(marks) if one.step not in BESIDE), None)
    if kept_line and (request.step in BESIDE or last is None or last.step != request.step):
        page = Page((Line(f"{kept_line[0].upper()}{kept_line[1:]}."), *page.blocks))
    return replace(told, read_as=read_as, page=page, bench=bench, change=change)


SAME = {"bulk": ("bulk", "mix"), "mix": ("mix", "bulk")}
"""A bulk begins when the dough is mixed: either mark tells of the other."""


def _when_done(step: str, marks: tuple[Mark, ...], room: Room) -> str:
    """When a step was marked, the last time; that it was not, where it was not."""
    found = [one for one in marks if one.step in SAME.get(step, (step,))]
    name = DONE[step][0].upper() + DONE[step][1:]
    if not found:
        return f"{name}: not marked."
    now = room.now.replace(tzinfo=None)
    gone = (now - found[-1].at).total_seconds() / 60
    return f"{name} {clock_said(found[-1].at, now)}" + (f", {hours_said(gone)} ago." if gone >= 1 else ", just now.")


def _went_in(items: tuple[str, ...], room: Room) -> Outcome:
    """What the notebook says of a thing having gone in: what was noted with its name since the dough was said."""
    food = room.kb.ingredients[items[0]]
    names = {folded(word) for form in (food.name, *food.said_as) for word in plain(form).split()} - {"table", "fine"}
    begun = room.bake.begun[:16] if room.bake is not None else ""
    entries = room.entries() if room.entries is not None else ()
    found = [
        one for one in notes_in(entries)
        if str(one["at"]) >= begun and names & {folded(word) for word in plain(str(one["text"])).split()}
    ]  # fmt: skip
    name = short_name(food)
    if found:
        lines = [Line(f"{str(one['at'])[11:16]}  {one['text']}") for one in found[:4]]
    else:
        lines = [Line(f"The notebook does not say whether the {name} went in. “note: {name} in” keeps it.")]
        if food.id.startswith("salt"):
            lines.append(Line("Unsalted dough tastes flat: a crumb on the tongue, spat out: raw flour is not safe."))
    return Outcome("recall", {"entries": found}, f"whether the {name} went in", Page(tuple(lines)))


def marks_of(room: Room) -> tuple[Mark, ...]:
    """The stages marked for the bake in hand, oldest first; those marked before there was one, of the last days."""
    bake = room.bake
    loose = [Mark(step, datetime.fromisoformat(at)) for step, at in (room.bench.notes.get(MARKS) or {}).get("made", ())]
    own = [Mark(step, datetime.fromisoformat(at)) for step, at in (bake.facts.get(MARKS) or ())] if bake else []
    recent = [one for one in loose if room.now.replace(tzinfo=None) - one.at < timedelta(hours=LAST_H)]
    return tuple(own or recent)


def _with(marks: tuple[Mark, ...], mark: Mark) -> tuple[Mark, ...]:
    """The marks with a new one in its place: by the hour, but never before a step that comes earlier in a bake.

    "shaped 10 min ago", said after "bulk's done" that was taken for now: the shaping still is where it stands.
    """
    if mark.step in ONCE:  # said again, it is put right
        marks = tuple(one for one in marks if one.step != mark.step)
    place = len(marks)
    while place and marks[place - 1].at > mark.at and COURSE.index(marks[place - 1].step) >= COURSE.index(mark.step):
        place -= 1
    return (*marks[:place], mark, *marks[place:])


def _benched(marks: tuple[Mark, ...], room: Room) -> Bench:
    made = [[one.step, _iso(one.at)] for one in marks]
    if room.bake is not None:
        return room.bench.with_changed_bake(facts={MARKS: made})
    return room.bench.with_notes(MARKS, {"made": made})


def _iso(at: datetime) -> str:
    return at.replace(tzinfo=None).isoformat(timespec="minutes")


def _hour(request: ProgressRequest, now: datetime) -> datetime:
    """When a mark was made: the last such hour that has been. Refused where it is still to come."""
    now = now.replace(tzinfo=None)
    if request.ago_min is not None:
        return now - timedelta(minutes=request.ago_min)
    if request.at is None:
        return now
    return _last(request.at, now)


def _last(moment: Moment, now: datetime) -> datetime:
    at = latest(moment, now)
    if at > now + timedelta(minutes=5):
        raise Refused(
            f"{clock_said(at, now)} is still to come: say a stage once it has begun.",
            "it began at an hour that has been, or now",
        )
    return min(at, now)


def _standing(marks: tuple[Mark, ...], request: ProgressRequest, room: Room) -> Outcome:
    course = [one for one in marks if one.step not in BESIDE] or list(marks)
    if not course:
        return _unmarked(request, room)
    now = room.now.replace(tzinfo=None)
    last = course[-1]
    stage = STAGE.get(last.step, "bulk")
    since = last.at
    if stage == "bulk":
        begun = [one.at for one in course if one.step == "mix" and one.at <= since]
        since = begun[-1] if begun else since
    elapsed = max(0.0, (now - since).total_seconds() / 60)
    fields: dict[str, Any] = {
        "stage": stage, "since": _iso(since), "elapsed_min": elapsed, "left_min": None, "rise_pct": None,
        "next": _next(stage, course, room), "marks": [{"step": one.step, "at": _iso(one.at)} for one in marks],
    }  # fmt: skip
    blocks: list[Line] = []
    head = f"{_name(stage)} since {clock_said(since, now)}" + (f", {hours_said(elapsed)}" if elapsed >= 1 else "")
    try:
        seen = registry.answer(_asked(stage, elapsed), room)
    except Refused as unknown:
        why = f"How long it still takes cannot be told: {unknown.why}."
        blocks = [Line(f"{head}."), Line(why, role="note"), *_following(fields["next"], None, room)]
        return Outcome("progress", fields, "", Page(tuple(blocks)))
    timed = seen.answer
    left, low, high = _left(timed, elapsed)
    fields |= {"left_min": left, "low_left_min": low, "high_left_min": high, "temp_c": timed.get("temp_c")}
    risen = timed.get("rise_now_pct")
    if elapsed == 0 and timed.get("rise_pct") is not None:
        risen = 0.0
    if risen is not None:
        fields |= {"rise_pct": risen, "target_rise_pct": timed.get("rise_pct")}
        target = f", of {timed['rise_pct']:.0f} %" if timed.get("rise_pct") is not None else ""
        if elapsed >= 1:
            head += f": risen about {risen:.0f} %{target}" if risen >= 1 else f": hardly risen yet{target}"
    ends = now + timedelta(minutes=left)
    if left > 0:
        blocks.append(Line(f"{head}."))
        span = f" ({hours_said(low)} to {hours_said(high)})" if high > low else ""
        blocks.append(Line(f"About {hours_said(left)} left{span}, to {clock_said(ends, now)}.", role="head"))
    else:
        over = "Time is up by the usual figures" + (f", and at the latest in {hours_said(high)}" if high > 0 else "")
        blocks += [Line(f"{head}."), Line(f"{over}: look at it now.", role="warn")]
    blocks += _following(fields["next"], ends if left > 0 else now, room)
    if seen.assumed:
        blocks.append(Line("Assumed: " + "; ".join(seen.assumed) + ".", role="note"))
    blocks += [Line(note, role="warn") for note in seen.cautions]
    return Outcome(
        "progress", fields, "", Page(tuple(blocks)), assumed=seen.assumed, cautions=seen.cautions, sources=seen.sources
    )


def _asked(stage: str, elapsed: float) -> TimingRequest:
    """The question whose answer holds what is left of a stage that has run so long."""
    rises = stage in ("bulk", "proof", "starter")
    return TimingRequest(stage=stage, elapsed_min=elapsed if rises and elapsed > 0 else None)


def _left(timed: Any, elapsed: float) -> tuple[float, float, float]:
    """Minutes left: the usual figure, the least, the most."""
    minutes, low, high = (float(timed[name]) for name in ("minutes", "low_min", "high_min"))
    if timed["stage"] in ("bulk", "proof", "starter"):  # what is left is what fermentation still needs
        target, risen = timed.get("rise_pct"), timed.get("rise_now_pct")
        if target is not None and risen is not None and risen >= target - 0.5:
            return 0.0, 0.0, 0.0
        return minutes, low, high
    return max(0.0, minutes - elapsed), max(0.0, low - elapsed), max(0.0, high - elapsed)


def _next(stage: str, course: list[Mark], room: Room) -> str | None:
    """The step that follows: boil for a bread that is boiled, bake for the rest; after a cold bulk, shape."""
    if stage in ("proof", "retard", "warm_up"):
        if stage != "proof" and not any(one.step == "shape" for one in course):
            return "divide"
        bread = bread_of(room, None, None)
        return "boil" if bread is not None and bread.boil_s_per_side else "bake"
    return NEXT.get(stage)


def _following(step: str | None, at: datetime | None, room: Room) -> list[Line]:
    if step is None:
        return []
    when = f" at {clock_said(at, room.now.replace(tzinfo=None))}" if at is not None else ""
    planned = next((one for one in _planned(room) if one["label"] == step.replace("_", " ")), None)
    then = f"; the plan says {datetime.fromisoformat(str(planned['start'])):%H:%M}" if planned is not None else ""
    return [Line(f"Next: {step.replace('_', ' ')}{when}{then}.")]


def _name(stage: str) -> str:
    return {"starter": "Starter fed", "cool": "Cooling", "bake": "In the oven", "retard": "In the fridge"}.get(
        stage, stage.replace("_", " ").capitalize()
    )


def _planned(room: Room) -> list[dict[str, Any]]:
    """The steps of the plan kept for the bake in hand."""
    plan = room.bench.notes.get("plan") or {}
    ours = room.bake is None or plan.get("dough") == room.bake.name
    return list(plan.get("steps") or ()) if ours else []


def _unmarked(request: ProgressRequest, room: Room) -> Outcome:
    """Nothing is marked: the plan's clock tells the stage; without one, how long the bulk takes, or how to mark it."""
    now = room.now.replace(tzinfo=None)
    steps = _planned(room)
    begun = [one for one in steps if datetime.fromisoformat(str(one["start"])) <= now]
    coming = [one for one in steps if datetime.fromisoformat(str(one["start"])) > now]
    if begun or coming:
        since = datetime.fromisoformat(str(begun[-1]["start"])) if begun else None
        after = datetime.fromisoformat(str(coming[0]["start"])) if coming else None
        elapsed = (now - since).total_seconds() / 60 if since is not None else 0.0
        left = (after - now).total_seconds() / 60 if after is not None else None
        following = str(coming[0]["label"]) if coming else None
        fields: dict[str, Any] = {
            "stage": str(begun[-1]["label"]).replace(" ", "_") if begun else None,
            "since": _iso(since) if since is not None else None, "elapsed_min": elapsed, "left_min": left,
            "rise_pct": None, "next": following.replace(" ", "_") if following else None, "marks": [],
        }  # fmt: skip
        lines = []
        if since is not None:
            lines.append(Line(f"By the plan: {begun[-1]['label']} since {clock_said(since, now)}."))
        if after is not None and left is not None:
            lines.append(Line(f"Next: {following} at {clock_said(after, now)}, in {hours_said(left)}."))
        lines.append(Line("Nothing is marked yet: “mixed at 9:10” lets it follow the dough itself.", role="note"))
        return Outcome("progress", fields, "", Page(tuple(lines)))
    if request.left:
        return registry.answer(TimingRequest(), room)
    fields = {
        "stage": None, "since": None, "elapsed_min": 0.0, "left_min": None, "rise_pct": None,
        "next": "mix" if room.bake is not None else None, "marks": [],
    }  # fmt: skip
    what = f"{room.bake.name}: nothing" if room.bake is not None else "Nothing"
    return Outcome(
        "progress", fields, "", Page((Line(f"{what} is marked yet. Say “mixed at 9:10” or “it's in the oven”."),))
    )
