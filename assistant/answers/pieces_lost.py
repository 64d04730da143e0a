"""Pieces that came to grief: how many are left, and what no longer holds of them. The formula stays as it was."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.answers.account_kept import asked_for
from assistant.answers.told_hours import hour_of
from assistant.engine.course.told import Account, Mark, Reading
from assistant.engine.refusal import Refused
from assistant.talk.reply import Unclear
from assistant.talk.room import Room
from grammar.telling import Told


def lost(told: Told, found: Sequence[Mark | Reading], account: Account, room: Room) -> tuple[Reading, str] | None:
    """What goes on the account of pieces lost or left, and its words; None where the count told beside it says it all.

    Raises Refused where there are not so many, Unclear where it was trays and nobody said what is on one.
    """
    assert told.value is not None
    at = hour_of(told, room.now.replace(tzinfo=None, second=0, microsecond=0))
    before = account
    for thing in found:
        before = before.with_mark(thing) if isinstance(thing, Mark) else before.with_reading(thing)
    wanted = asked_for(room)
    there = before.pieces_of(wanted) if wanted is not None else _counted(before)
    if there is None:
        raise Refused("how many pieces there are was not said", "say how many are left: “shaped 24”, “only 18 left”")
    value = _pieces(told, there, room)
    counts = [thing.pieces for thing in found if isinstance(thing, Mark) and thing.pieces is not None]
    if told.what == "lost" and counts and wanted is not None and counts[-1] + value == account.pieces_of(wanted):
        return None  # counted after it was lost
    left = value if told.what == "left" else there - value
    if left < 0 or left > max(there, wanted or 0):
        raise Refused(f"there are {there} pieces, not {value:g}", "say how many are left")
    words = f"{there - left:g} lost, {left:g} of {there} left" if left < there else f"{left:g} pieces are there"
    return Reading("left" if told.what == "left" else "lost", value, at), words


def note(account: Account, room: Room) -> str | None:
    """What is said beside pieces lost: what goes by those that are left; None where none were."""
    wanted = asked_for(room)
    if wanted is None or not (account.of("lost") or account.of("left")):
        return None
    return f"Loads and plan count {account.pieces_of(wanted)} from now on; the formula stays as it is."


def _counted(account: Account) -> int | None:
    """How many there are by what was told, where nobody asked for a number."""
    told = [one.pieces for one in account.marks if one.pieces is not None]
    return account.pieces_of(told[-1]) if told else None


def _pieces(told: Told, there: int, room: Room) -> float:
    assert told.value is not None
    if told.place == "share":
        return float(round(told.value * there))
    if told.place != "tray":
        return told.value
    each = room.setting("tray_takes")
    if each is None:
        raise Unclear("How many pieces were on the tray?", ("lost 12", "lost 9", "lost 6"))
    return told.value * float(each)
