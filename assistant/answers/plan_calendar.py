"""The plan that stands as a calendar file, written into the folder of cards."""

from __future__ import annotations

from assistant.answers.course_kept import course_as_plan
from assistant.answers.plan_kept import TOPIC
from assistant.answers.plan_words import shown_steps
from assistant.engine.plan.clock import Clock
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.calendar import Entry, as_calendar
from assistant.voice.clock_said import day_and_hour
from assistant.voice.page import Line, Page

ENDING = "ics"
FORMAT = "calendar"


def calendar_card(name: str | None, room: Room) -> Outcome:
    """Every step of the plan as an entry; what hands must begin rings.

    Raises Refused where no plan stands, or where the folder cannot be written.
    """
    stood = course_as_plan(room)
    if stood is None:
        raise Refused("There is no plan to put into a calendar.", "ask for one first: 24 rings ready by 9 on Sunday")
    if room.cards is None:
        raise Refused("There is no folder to write a calendar into.", "start the program with a home folder")
    _, said, found = stood
    title = str((room.bench.notes.get(TOPIC) or {}).get("dough") or said.bread.name)
    shown = shown_steps(found, said, room.kb, Clock(said.wish.now))
    entries = [Entry(one.label, one.start, one.end, f"{one.look_for}. {one.fallback}", remind=True) for one in shown]
    text = as_calendar(entries, title, room.now)
    given = name or f"{title} plan"
    path = room.cards.write(given if given.lower().endswith(f".{ENDING}") else f"{given}.{ENDING}", text)
    first, last = entries[0], max(entries, key=lambda one: one.end)
    today = room.now.date()
    hours = f"from {day_and_hour(first.start, today)} to {day_and_hour(last.end, today)}"
    blocks = (
        Line(f"Calendar written: {path}"),
        Line(f"{title}: {len(entries)} steps {hours}. Open it with your calendar; each step rings when it begins."),
    )
    change = {"what": "card", "name": path.name, "content": text, "format": FORMAT, "dough": title}
    answer = {"path": str(path), "format": FORMAT}
    return Outcome("card", answer, f"the plan of {title} as a calendar", Page(blocks), change=change)
