"""Where the bake stands: asked for at any time, read from the one course of time."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers import answers
from assistant.answers.account_kept import account_of, asked_for, iso
from assistant.answers.bread_meant import bread_of
from assistant.answers.course_kept import asked_of, course_now
from assistant.answers.dough_in_hand import formula_in_hand
from assistant.answers.fermentation_models import models
from assistant.answers.progress_fields import UNKNOWN, fields_of, folds_to_come, told_fields
from assistant.answers.stage_cautions import safety_notes
from assistant.answers.went_in import went_in
from assistant.engine.course.asked import CourseOfTime
from assistant.engine.course.run import course_of
from assistant.engine.course.told import STAGE, Account
from assistant.engine.refusal import Refused
from assistant.talk.local_time import later, minutes_until
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Block, Line, Page
from assistant.voice.spans import clock_said, degrees_said, hours_said
from grammar.requests.progress import ProgressRequest

DONE = {
    "mix": "mixed", "bulk": "bulk begun", "autolyse": "autolyse begun", "fold": "folded", "divide": "bulk ended",
    "preshape": "preshaped", "shape": "shaped", "retard": "into the fridge", "warm_up": "out of the fridge",
    "preheat": "oven on", "boil": "into the pot", "bake": "into the oven", "cool": "out of the oven",
    "feed_starter": "starter fed",
}  # fmt: skip
"""What a mark is called."""
SAME = {"bulk": ("bulk", "mix"), "mix": ("mix", "bulk")}
"""A bulk begins when the dough is mixed: either mark tells of the other."""
_FEED = "feed_starter"
_NAMES = {"feed_starter": "Starter fed", "cool": "Cooling", "bake": "In the oven", "retard": "In the fridge",
          "boil": "In the pot"}  # fmt: skip


@answers(ProgressRequest)
def answer(request: ProgressRequest, room: Room) -> Outcome:
    """Where the bake stands, or when one of its steps was done; a thing asked about is looked for in the notes."""
    if request.poured:
        return went_in(request.poured, room)
    outcome = standing(room)
    if request.asked is not None:
        head = _when_done(request.asked, account_of(room), room)
        page = Page((Line(head, role="head"), *outcome.page.blocks))
        return replace(outcome, read_as=f"when: {DONE[request.asked]}", page=page)
    wanted = asked_for(room)
    if request.pieces and wanted is not None:
        count = Line(f"{account_of(room).pieces_of(wanted)} of {wanted} are there.", role="head")
        return replace(outcome, read_as="how many are left", page=Page((count, *outcome.page.blocks)))
    if request.next:
        return replace(outcome, page=Page((*outcome.page.blocks, *_then(room))))
    if request.ready:
        return replace(outcome, read_as="when it is ready", page=_ready_first(outcome, room))
    return outcome


def standing(room: Room, read_as: str = "where the bake stands") -> Outcome:
    """The dough in hand as it stands now, what is left of its stage, what is next and when it is ready."""
    account = account_of(room)
    try:
        asked = asked_of(room)
        course = course_of(asked, room.now.replace(tzinfo=None))
    except Refused as unknown:
        if not account.main:
            return _nothing(room, read_as)
        return _untold(account, unknown.why, room, read_as)
    stands = course.stands
    if stands.stage is None and stands.next is None:
        return _nothing(room, read_as, account)
    fields = fields_of(course, account, room)
    told = bool(account.main or account.of("rise_pct"))
    assumed = _assumed(room, account) if told else ()
    notes = _safety(room, course) if told else ()
    blocks = [*_lines(course, room, told), *_ready_line(course, asked.ready_by, room)]
    if assumed:
        blocks.append(Line("Assumed: " + "; ".join(assumed) + ".", role="note"))
    blocks += [Line(note, role="warn") for note in notes]
    sources = (models(room.kb).records["sourdough_gas"].source,) if told else ()
    return Outcome(
        "progress", fields, read_as, Page(tuple(blocks)), assumed=assumed, cautions=notes, sources=sources
    )


def _lines(course: CourseOfTime, room: Room, told: bool) -> list[Block]:
    stands, now = course.stands, room.now.replace(tzinfo=None)
    blocks: list[Block] = []
    name = _name(stands.stage)
    elapsed, left = stands.elapsed_min, stands.left_min
    head = name
    if stands.since is not None:
        head += f" since {clock_said(stands.since, now)}" + (f", {hours_said(elapsed)}" if elapsed >= 1 else "")
    if not told:
        head = f"By the plan: {head[:1].lower()}{head[1:]}" if stands.stage else ""
    elif stands.stage == _FEED and not left:
        head += ": at its peak or past it"
    elif stands.rise_pct is not None and (elapsed >= 1 or stands.since is None):
        target = f", of {stands.target_rise_pct:.0f} %" if stands.target_rise_pct is not None else ""
        risen = stands.rise_pct
        if risen > _FAR_PAST * (stands.target_rise_pct or risen):
            head += f": far past its mark{target}"
        else:
            head += f": risen about {risen:.0f} %{target}" if risen >= 1 else f": hardly risen yet{target}"
    if head:
        blocks.append(Line(f"{head}."))
    low, high = stands.low_left_min, stands.high_left_min
    if left is None and told:
        why = "the bread is not known" if stands.stage in ("bake", "boil", "cool") else "it does not get there as it is"
        blocks.append(Line(f"How long it still takes cannot be told: {why}.", role="note"))
    elif left is not None and left > 0 and told:
        ranged = low is not None and high is not None and high > low
        span = f" ({hours_said(low or 0)} to {hours_said(high or 0)})" if ranged else ""
        ends = later(now, left)
        until = "ripe about" if stands.stage == _FEED else "to"
        blocks.append(Line(f"About {hours_said(left)} left{span}, {until} {clock_said(ends, now)}.", role="head"))
    elif left is not None and told:
        over = "Time is up by the usual figures" + (f", and at the latest in {hours_said(high)}" if high else "")
        blocks.append(Line(f"{over}: look at it now.", role="warn"))
    if stands.next is not None:
        when = f" at {clock_said(later(now, left), now)}" if left is not None else ""
        within = f", in {hours_said(left)}" if left and not told else ""
        folds = [clock_said(course.clock.local(one.at), now) for one in folds_to_come(course, now)]
        first = f"fold at {folds[0]}" + (f", then {', '.join(folds[1:])}" if folds[1:] else "") + "; " if folds else ""
        blocks.append(Line(f"Next: {first}{stands.next.replace('_', ' ')}{when}{within}."))
    if not told:
        blocks.append(Line("Nothing is marked yet: “mixed at 9:10” lets it follow the dough itself.", role="note"))
    return blocks


def _ready_line(course: CourseOfTime, planned_min: int | None, room: Room) -> list[Block]:
    """When it is ready. planned_min: the minute the plan that stands has it ready, None without one."""
    if course.ready_min is None:
        return []
    now = room.now.replace(tzinfo=None)
    ready = f"Ready at {clock_said(course.clock.local(course.ready_min), now)}"
    behind = 0 if planned_min is None else course.ready_min - planned_min
    if planned_min is None or behind < _LATE_MIN:
        return [Line(f"{ready}.")]
    planned = clock_said(course.clock.local(planned_min), now)
    more = f"{ready}, {hours_said(behind)} later than planned."
    return [Line(f"{more} “Can they still be ready at {planned}?” moves what can be moved.", role="warn")]


_FAR_PAST = 3.0
"""From so many times its mark on a rise is no figure any more: the dough has been forgotten, or done unmarked."""
_LATE_MIN = 20
"""From here on a bake that ends after its plan is said to be late."""
_STEPS_SHOWN = 4
_BESIDE = frozenset({"fold", "heat_pot", "score"})


def _then(room: Room) -> list[Block]:
    """The steps ahead with their hours, a few of them."""
    try:
        course = course_now(room)
    except Refused:
        return []
    now = room.now.replace(tzinfo=None)
    ahead = {task.step: task for task in reversed(course.ahead_of(now)) if task.step not in _BESIDE}
    rows = [
        f"{one.step.replace('_', ' ')} {clock_said(course.clock.local(one.at), now)}"
        for one in sorted(ahead.values(), key=lambda one: one.at)
    ]
    return [Line("Ahead: " + ", ".join(rows[:_STEPS_SHOWN]) + ".", role="note")] if len(rows) > 1 else []


def _ready_first(outcome: Outcome, room: Room) -> Page:
    ready = [one for one in outcome.page.blocks if isinstance(one, Line) and one.text.startswith("Ready at")]
    rest = [one for one in outcome.page.blocks if one not in ready]
    if not ready:
        return outcome.page
    return Page((*(replace(one, role="head") for one in ready), *rest))


def _assumed(room: Room, account: Account) -> tuple[str, ...]:
    """What was filled in for the forecast."""
    found = []
    if not room.kitchen_is_set and room.bench.notes.get("plan") is None and not account.of("room_c"):
        found.append(f"kitchen {degrees_said(room.kitchen_c)}")
    if room.bake is None:
        found.append("a lean dough" + ("" if account.starter_pct else ", 20 % starter"))
    return tuple(found)


def _safety(room: Room, course: CourseOfTime) -> tuple[str, ...]:
    stands = course.stands
    stage = "starter" if stands.stage == "feed_starter" else stands.stage or "bulk"
    bread = bread_of(room, None, None)
    warm_min = stands.elapsed_min + (stands.left_min or 0.0)
    return safety_notes(room, stage, bread, formula_in_hand(room), stands.air_c or room.kitchen_c, warm_min)


def _name(stage: str | None) -> str:
    return _NAMES.get(stage or "", (stage or "").replace("_", " ").capitalize())


def _nothing(room: Room, read_as: str, account: Account | None = None) -> Outcome:
    """Nothing says where it stands: how to mark it."""
    account = account or Account()
    fields = {**UNKNOWN, "next": "mix" if room.bake is not None else None, **told_fields(account)}
    what = f"{room.bake.name}: nothing" if room.bake is not None else "Nothing"
    text = f"{what} is marked yet. Say “mixed at 9:10” or “it's in the oven”."
    return Outcome("progress", fields, read_as, Page((Line(text),)))


def _untold(account: Account, why: str, room: Room, read_as: str) -> Outcome:
    """What was told, where the dough itself cannot be worked out."""
    last, now = account.main[-1], room.now.replace(tzinfo=None)
    stage = STAGE[last.step]
    elapsed = max(0.0, -minutes_until(now, last.at))
    fields = {**UNKNOWN, "stage": stage, "since": iso(last.at), "elapsed_min": elapsed, **told_fields(account)}
    lines = (
        Line(f"{_name(stage)} since {clock_said(last.at, now)}, {hours_said(elapsed)}."),
        Line(f"How long it still takes cannot be told: {why}.", role="note"),
    )
    return Outcome("progress", fields, read_as, Page(lines))


def _when_done(step: str, account: Account, room: Room) -> str:
    """When a step was marked, the last time; that it was not, where it was not."""
    found = [one for one in account.marks if one.step in SAME.get(step, (step,))]
    name = DONE[step][0].upper() + DONE[step][1:]
    if not found:
        return f"{name}: not marked."
    now = room.now.replace(tzinfo=None)
    gone = -minutes_until(now, found[-1].at)
    return f"{name} {clock_said(found[-1].at, now)}" + (f", {hours_said(gone)} ago." if gone >= 1 else ", just now.")
