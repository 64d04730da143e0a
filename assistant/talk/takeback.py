"""Changes taken back and made again: what then stands, and what is said of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from assistant import answers
from assistant.engine.refusal import Refused
from assistant.notebook import Entry, Event, Notebook, Target
from assistant.talk.bench import Bench
from assistant.talk.memory import recalled
from assistant.talk.reply import Outcome, Reply
from assistant.talk.room import Room
from assistant.talk.trying import Trial
from assistant.voice.page import Line, Page
from assistant.voice.settings_said import setting_label, setting_said
from grammar.requests.doughs import DoughsAsked
from grammar.requests.keeping import KeptAsked
from grammar.requests.plan_stands import PlanStands
from grammar.requests.progress import ProgressRequest
from grammar.requests.recall import RecallRequest
from grammar.requests.recall_words import folded, plain
from grammar.requests.stock import StockRequest
from grammar.requests.timers_running import TimersRequest
from grammar.requests.undo import RedoRequest, UndoRequest

_BESIDE_THE_DOUGH = {
    "note": RecallRequest(),
    "stock": StockRequest(listed=True),
    "timer": TimersRequest(),
    "timer_stopped": TimersRequest(),
    "stage": ProgressRequest(),
    "named": DoughsAsked(),
    "dropped": DoughsAsked(),
    "kept": KeptAsked(),
    "forgotten": KeptAsked(),
}
"""What is asked again once a change beside the formula was taken back."""


def taken_back(text: str, request: UndoRequest | RedoRequest, trial: Trial) -> tuple[Reply, Event]:
    """The reply to "undo" or "redo", and the event that points at the change it takes back or makes again."""
    book, undo = trial.notebook, isinstance(request, UndoRequest)
    stamp = trial.now.replace(tzinfo=None).isoformat(timespec="seconds")
    target = book.undo_target() if undo else book.redo_target()
    if target is None:
        word = "undo" if undo else "redo"
        why = f"There is nothing to {word}."
        reply = Reply(text, word, "explanation", {"topic": word, "text": why}, Page((Line(why),)))
        return reply, Event(text=text, kind="explanation", change=None, state=None, said_at=stamp)
    if isinstance(request, UndoRequest) and request.about and not _says(target.what, request.about):
        why = f"The last change was “{' '.join(target.what.text.split())[:60]}”; “undo” takes that back first."
        reply = Reply(text, "undo", "refused", {"why": why, "nearest": "undo"}, Page((Line(why, role="warn"),)))
        return reply, Event(text=text, kind="refused", change=None, state=None, said_at=stamp)
    standing = Bench.from_json(target.state)
    entries = _entries_with(target, undo, book)
    room = Room(trial.kb, trial.now, standing, None, text, None, entries, 0, trial.cards)
    outcome = _standing("undone" if undo else "done again", target.what, room)
    reply = outcome.reply_to(text)
    event = Event(
        text=text,
        kind=outcome.kind,
        change=None,
        state=standing.as_json(),
        said_at=stamp,
        undoes=target.seq if undo else None,
        redoes=None if undo else target.seq,
    )
    return reply, event


def _entries_with(target: Target, undo: bool, book: Notebook) -> Callable[..., tuple[Entry, ...]]:
    """The notebook's entries as they stand once the target's change is taken back, or made again."""

    def entries(kind: str | None = None, limit: int | None = None) -> tuple[Entry, ...]:
        found = [
            replace(one, taken_back=False)
            for one in book.entries(kind, taken_back=True)
            if (not undo if one.seq == target.what.seq else not one.taken_back)
        ]
        return tuple(found[:limit])

    return entries


def _says(what: Entry, about: str) -> bool:
    """Whether a change is the one meant by a word of it: "undo the seeds"."""
    change = what.change or {}
    told = f"{what.text} {change.get('dough') or ''} {' '.join(str(name) for name in change.get('names', ()))}"
    words = {folded(word) for word in plain(told.replace("_", " ")).split()}
    return any(folded(word) in words for word in plain(about).split() if len(word) > 2)


def _card(verb: str, said: str, change: Mapping[str, Any], room: Room) -> Outcome:
    """A card is taken out of its folder again, or written again; one that was changed since stays."""
    name, text = str(change.get("name")), str(change.get("content"))
    path: str | None = None
    if verb == "undone":
        gone = room.cards is not None and room.cards.take_back(name, text)
        told = f"the card {name} is gone" if gone else f"the card {name} was changed since and stays"
        path = None if gone or room.cards is None else str(room.cards.folder / name)
    else:
        path = str(room.cards.write(name, text)) if room.cards is not None else None
        told = f"card written: {path}"
    answer = {"path": path, "format": change.get("format")}
    return Outcome("card", answer, said, Page((Line(f"{said[0].upper()}{said[1:]}; {told}."),)))


def _standing(verb: str, what: Entry, room: Room) -> Outcome:
    said = f"{verb}: “{' '.join(what.text.split())[:60]}”"
    change = what.change or {}
    if change.get("what") == "setting":
        names = [str(name) for name in change.get("names", ())]
        values = [room.bench.settings.get(name) for name in names]
        now = ", ".join(
            f"{setting_label(name, room.kb)} is not set" if value is None else setting_said(name, value, room.kb)
            for name, value in zip(names, values, strict=True)
        )
        answer: dict[str, Any] = {"name": names[0] if names else "", "value": values[0] if values else None}
        if len(names) > 1:
            answer["settings"] = [{"name": n, "value": v} for n, v in zip(names, values, strict=True)]
        return Outcome("setting", answer, said, Page((Line(f"{said}; {now}."),)))
    if change.get("what") == "card":
        return _card(verb, said, change, room)
    beside = _BESIDE_THE_DOUGH.get(str(change.get("what")))
    if change.get("what") == "plan" and "plan" in room.bench.standing:
        beside = PlanStands()
    if beside is not None:
        stands = answers.answer(beside, room)
        return replace(stands, read_as=said, page=Page((Line(f"{said[0].upper()}{said[1:]}."), *stands.page.blocks)))
    bake = room.bench.bake
    if bake is not None:
        request = recalled(bake.said)
        if request is not None:
            try:
                outcome = answers.answer(request, room)
                page = Page((Line(said, role="note"), *outcome.page.blocks))
                return Outcome(
                    outcome.kind,
                    outcome.answer,
                    f"{said}; {outcome.read_as}",
                    page,
                    outcome.assumed,
                    outcome.cautions,
                    outcome.sources,
                )
            except Refused:
                pass
    text = f"{said[0].upper()}{said[1:]}. No dough is in hand now."
    return Outcome("explanation", {"topic": "undo", "text": text}, said, Page((Line(text),)))
