"""The replies of the conversation itself: an answer with what was repaired, a refusal, a question back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any

from assistant.answers.talk import first_examples
from assistant.command.safety import for_refusal
from assistant.engine.refusal import Refused
from assistant.notebook import Event
from assistant.talk.echo import echoed
from assistant.talk.reply import Outcome, Reply
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.reader import Read, Reading


def greeted(text: str) -> Reply:
    """The reply to a line of nothing but "hello" or "thanks"."""
    examples = (Line(one, indent=2) for one in first_examples())
    page = Page((Line("Say what you want to bake, or ask."), *examples))
    return Reply(text, "a greeting", "help", {"topics": []}, page)


def answered(text: str, outcome: Outcome, found: Read, best: Reading, room: Room) -> Reply:
    """The reply an answer makes: what was understood, the bake it leans on, slips repaired, words left over."""
    understood = echoed(outcome.read_as, best.bound, (*outcome.unread, *best.unread))
    repairs = repaired(found)
    read_as = "; ".join(part for part in (understood, _of_another_day(room, best), repairs) if part)
    reply = outcome.reply_to(text, read_as, found.margin)
    return (ending(reply, Line(repairs, role="note")) if repairs else reply).with_unread(best.unread)


def refused(text: str, why: Refused, found: Read, best: Reading, room: Room) -> Reply:
    """The reply of a refusal: why, the nearest that works, and the cautions that hold all the same."""
    answer: dict[str, Any] = {"why": why.why, "nearest": why.nearest_answer or why.nearest}
    blocks = [Line(_sentence(why.why), role="warn")]
    if why.nearest:
        blocks.append(Line(_sentence(why.nearest)))
    told = tuple(dict.fromkeys((*getattr(why, "cautions", ()), *for_refusal(room))))
    understood = echoed(why.read_as, best.bound, best.unread)
    heard = "; ".join(part for part in (understood, repaired(found)) if part)
    return Reply(text, heard, "refused", answer, Page(tuple(blocks)), cautions=told).with_unread(best.unread)


def no_such_dough(text: str, missing: str) -> Reply:
    """The reply where the dough a line names is not there."""
    page = Page((Line(f"{missing}.", role="warn"), Line("“my bakes” lists what is.")))
    return Reply(text, "", "refused", {"why": missing, "nearest": "my bakes"}, page)


def asked_back(text: str, near: Sequence[str], page: Page, unread: Sequence[str], heard: str = "") -> Reply:
    """The question which of several readings was meant, or what a line was to mean at all."""
    return Reply(text, heard, "unread", {"near": list(near)}, page, unread=tuple(unread))


def only_kind_words(found: Read) -> bool:
    """Whether a line is nothing but "hello" or "thanks": no request, and nothing that was not understood."""
    kinds = {token.kind for token in found.tokens}
    return "FILL" in kinds and kinds <= {"FILL", "MARK"}


def all_words(found: Read) -> tuple[str, ...]:
    """Every word of a line that carries meaning."""
    words = [t.text for t in found.tokens if t.kind not in ("FILL", "MARK", "LINK")]
    return tuple(words) or ((found.text.strip(),) if found.text.strip() else ())


def repaired(found: Read) -> str:
    """The slips of a line and what each was read as; "" without one."""
    return ", ".join(f"“{typed}” read as “{meant}”" for typed, meant in found.repairs)


def ending(reply: Reply, *lines: Line) -> Reply:
    """The reply with further lines at its end."""
    return replace(reply, page=Page((*reply.page.blocks, *lines)))


def beginning(reply: Reply, *lines: Line) -> Reply:
    """The reply with further lines before it."""
    return replace(reply, page=Page((*lines, *reply.page.blocks)))


def records(reply: Reply, event: Event) -> bool:
    """Whether the reply says that something is kept from now on, rather than answering something."""
    return reply.kind in ("record", "setting") and event.change is not None


def not_kept(reply: Reply, event: Event, why: str) -> Reply:
    """What is not on disk is not acknowledged as kept: a note is refused, an answer still comes and owns up to it."""
    return unchanged(reply, why) if records(reply, event) else ending(reply, Line(f"Not kept: {why}.", role="warn"))


def unchanged(reply: Reply, why: str) -> Reply:
    """A refusal in place of a reply that could not be kept."""
    said = f"Nothing was changed: {why}."
    page = Page((Line(said, role="warn"),))
    return Reply(reply.request, reply.read_as, "refused", {"why": said, "nearest": None}, page)


def _of_another_day(room: Room, best: Reading) -> str:
    """The bake an answer leans on, named with its date where it was begun on another day."""
    bake = room.bench.bake
    whole = getattr(best.request, "whole", False) or getattr(best.request, "stands_alone", False)
    if bake is None or whole or not (room.leaned or best.frame.topic == "formula"):
        return ""
    begun = datetime.fromisoformat(bake.begun)
    if begun.date() == room.now.date():
        return ""
    return f"for {bake.name or 'the dough'} of {begun.strftime('%a')} {begun.day} {begun.strftime('%b')}"


def _sentence(text: str) -> str:
    """A clause as a sentence: a capital at the front, a stop at the end."""
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "?", "!", ":")) else text + "."
