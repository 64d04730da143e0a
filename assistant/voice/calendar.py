"""A plan as a calendar file (RFC 5545): an entry for each step, with a reminder where somebody must be there."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

_WIDEST = 75
"""Octets a line may have before it is folded (RFC 5545, 3.1)."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry. start and end: local times, naive: they hold wherever the baker is; remind: ring at its start."""

    summary: str
    start: datetime
    end: datetime
    note: str = ""
    remind: bool = False


def as_calendar(entries: Sequence[Entry], title: str, made: datetime) -> str:
    """The file, lines ended and folded as the standard wants them. `made` is local; it stamps every entry.

    An entry's id comes from what it says and when, so the same plan taken in twice is not there twice.
    """
    stamp = made.astimezone(UTC).strftime("%Y%m%dT%H%M%SZ")
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//benchside//plan//EN", "CALSCALE:GREGORIAN", "METHOD:PUBLISH"]
    for entry in entries:
        lines += _event(entry, title, stamp)
    lines.append("END:VCALENDAR")
    return "".join(f"{one}\r\n" for line in lines for one in _folded(line))


def _event(entry: Entry, title: str, stamp: str) -> list[str]:
    start, end = (moment.strftime("%Y%m%dT%H%M00") for moment in (entry.start, entry.end))
    identity = hashlib.sha256(f"{title}|{entry.summary}|{start}".encode()).hexdigest()[:24]
    lines = [
        "BEGIN:VEVENT",
        f"UID:{identity}@benchside",
        f"DTSTAMP:{stamp}",
        f"DTSTART:{start}",
        f"DTEND:{end}",
        f"SUMMARY:{_escaped(entry.summary)}",
        f"DESCRIPTION:{_escaped(entry.note)}",
        f"CATEGORIES:{_escaped(title)}",
        "TRANSP:TRANSPARENT",
    ]
    if entry.remind:
        ring = f"DESCRIPTION:{_escaped(entry.summary)}"
        lines += ["BEGIN:VALARM", "ACTION:DISPLAY", "TRIGGER:PT0S", ring, "END:VALARM"]
    return [*lines, "END:VEVENT"]


def _escaped(text: str) -> str:
    """A text value (RFC 5545, 3.3.11)."""
    for sign in ("\\", ";", ","):
        text = text.replace(sign, f"\\{sign}")
    return "\\n".join(text.replace("\r\n", "\n").replace("\r", "\n").split("\n"))


def _folded(line: str) -> list[str]:
    """The line in pieces of at most 75 octets, all but the first led by a space; no character is cut in two."""
    pieces: list[str] = []
    piece, room = "", _WIDEST
    for sign in line:
        size = len(sign.encode("utf-8"))
        if size > room:
            pieces.append(piece)
            piece, room = " ", _WIDEST - 1
        piece += sign
        room -= size
    return [*pieces, piece]
