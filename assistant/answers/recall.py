"""What was noted, said and baked before, newest first."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime, timedelta
from typing import Any

from assistant.answers import answers
from assistant.engine.refusal import Refused
from assistant.notebook.event import Entry
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.days import past_date_of
from grammar.past import Span
from grammar.requests.recall import RecallRequest
from grammar.requests.recall_words import folded, plain
from knowledge import Knowledge

SHOWN = 6
"""Entries on a compact page; the rest follow on "more"."""
NOT_SAID = frozenset({"recall", "unread", "help", "refused"})
"""Kinds of line that looking through what was said passes over."""


@answers(RecallRequest)
def answer(request: RecallRequest, room: Room) -> Outcome:
    """All entries that match, newest first; an empty list, said so, where there is none."""
    if request.scope == "drop":
        raise Refused("Notes stay as they were said; “undo” takes back what was said last.", "undo")
    if "-" in (request.when or ""):
        past_date_of(str(request.when), room.now.date())  # a day that no calendar has is told, not looked for
    everything: tuple[Entry, ...] = tuple(room.entries() if room.entries is not None else ())
    found = _found(request, everything, room)
    if request.when is not None:
        found = [one for one in found if _falls(str(one["at"]), request.when, room.now, request.since)]
    if request.count is not None:
        found = found[: request.count]
    return Outcome("recall", {"entries": found}, _read_as(request), _page(request, found, room))


def notes_in(entries: Iterable[Entry]) -> list[dict[str, Any]]:
    """The notes among the notebook's entries, in the same order."""
    return [_shown(one) for one in entries if _what(one) == "note"]


def _found(request: RecallRequest, entries: Sequence[Entry], room: Room) -> list[dict[str, Any]]:
    ways = _ways_of_saying(request.about, room.kb)
    if request.scope == "bakes":
        return [_shown(one) for one in entries if _is_bake(one) and _matches(one, ways)]
    if request.scope == "last_time":
        return _last_time(request, entries, ways, room)
    names = _names_kept(entries)
    notes = [_shown(one) for one in entries if _what(one) == "note" and _matches(one, ways, names)]
    if request.scope == "notes" or (notes and request.about):
        return notes
    return [_shown(one) for one in entries if one.kind not in NOT_SAID and _matches(one, ways)]


def _last_time(
    request: RecallRequest, entries: Sequence[Entry], ways: Sequence[frozenset[str]], room: Room
) -> list[dict[str, Any]]:
    """The bake before the one in hand (the one in hand where it is the only one), with all that was kept during it.

    Where a day was named, all of that day; where other words were, the last bake that they fit, else every entry.
    """
    kept = [one for one in entries if one.change is not None and _what(one) not in ("setting", "in_hand", "cleared")]
    if request.when is not None:
        return [_shown(one) for one in kept if _matches(one, ways)]
    bakes = [one for one in kept if _is_bake(one)]
    fitting = [one for one in bakes if _matches(one, ways)] if request.about else bakes
    if not fitting:
        return [_shown(one) for one in kept if _matches(one, ways)]
    in_hand = room.bake
    before = [one for one in fitting if in_hand is None or one.said_at[:16] != in_hand.begun[:16]]
    chosen = (before or fitting)[0]
    ends = min((one.seq for one in bakes if one.seq > chosen.seq), default=None)
    starts = chosen.seq if len(bakes) > 1 else 0
    return [_shown(one) for one in kept if one.seq >= starts and (ends is None or one.seq < ends)]


def _names_kept(entries: Iterable[Entry]) -> dict[int, str]:
    """For each dough kept under names, by its id, those names."""
    names: dict[int, str] = {}
    for one in entries:
        if _what(one) == "kept" and one.change is not None and "bake_id" in one.change:
            number = one.change["bake_id"]
            names[number] = f"{names.get(number, '')} {one.change['text']}"
    return names


def _what(entry: Entry) -> str:
    return str((entry.change or {}).get("what", ""))


def _is_bake(entry: Entry) -> bool:
    return _what(entry) in ("formula", "plan") and bool((entry.change or {}).get("new"))


def _shown(entry: Entry) -> dict[str, Any]:
    change: Mapping[str, Any] = entry.change or {}
    kind = "bake" if _is_bake(entry) else _what(entry) or entry.kind
    return {
        "id": entry.seq,
        "at": entry.said_at[:16],
        "text": str(change.get("text") or " ".join(entry.text.split())),
        "bake": change.get("bake") if kind in ("note", "timer", "stage") else change.get("dough"),
        "kind": kind,
    }


def _ways_of_saying(words: Sequence[str], kb: Knowledge) -> tuple[frozenset[str], ...]:
    """For each word looked for, every word that will do: a bread answers to each of its names."""
    whole = _names_of(" ".join(words), kb)
    if len(whole) > 1:
        return (whole,)
    return tuple(_names_of(word, kb) for word in words)


def _names_of(said: str, kb: Knowledge) -> frozenset[str]:
    names = {said}
    for bread in kb.breads.values():
        own = [*bread.said_as, *(form for word in kb.words.values() if word.bread == bread.id for form in word.said_as)]
        singular = {_folded(form) for form in own}
        if said in singular:
            names |= singular
    return frozenset(names)


def _folded(text: str) -> str:
    return " ".join(folded(word) for word in plain(text).replace(".", " ").split())


def _matches(entry: Entry, ways: Sequence[frozenset[str]], kept: Mapping[int, str] | None = None) -> bool:
    """Whether every word looked for stands in the entry, by one of its names, or in a name its dough was kept under."""
    shown = _shown(entry)
    called = (kept or {}).get((entry.change or {}).get("bake_id", -1), "")
    text = _folded(f"{shown['text']} {shown['bake'] or ''} {called}")
    return all(any(f" {name} " in f" {text} " for name in names) for names in ways)


def _falls(at: str, when: str, now: datetime, since: bool = False) -> bool:
    """Whether an entry's date is within the day or week that was named, looking back from now."""
    day, today = date.fromisoformat(at[:10]), now.date()
    monday = today - timedelta(days=today.weekday())
    spans = {
        "today": (today, today),
        "yesterday": (today - timedelta(days=1), today - timedelta(days=1)),
        "this_week": (monday, today),
        "last_week": (today - timedelta(days=7 + today.weekday()), today - timedelta(days=1)),
        "month": (today - timedelta(days=31), today),
        "last_weekend": Span(stretch="weekend").days(today),
    }
    if when in spans:
        first, last = spans[when]
    elif "-" in when:
        first = last = past_date_of(when, today)
    else:
        first = last = today - timedelta(days=(today.weekday() - int(when)) % 7)
    return first <= day <= (today if since else last)


def _read_as(request: RecallRequest) -> str:
    what = {
        "notes": "the notes", "said": "what was said", "bakes": "the bakes", "last_time": "the last bake",
        "drop": "a note to be struck out",
    }[request.scope]  # fmt: skip
    about = f" with “{' '.join(request.about)}”" if request.about else ""
    return what + about + (f", {_when_said(request)}" if request.when else "")


def _when_said(request: RecallRequest) -> str:
    when = request.when or ""
    days = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
    lead = "since" if request.since else "on"
    if "-" in when:
        return f"{lead} {_date_said(when)}"
    if when.isdigit():
        return f"{lead} {days[int(when)]}"
    if request.since:
        return f"since {when.replace('_', ' ')}"
    return "in the last month" if when == "month" else when.replace("_", " ")


def _date_said(when: str) -> str:
    if when.startswith("---"):
        return f"day {int(when[3:])} of the month"
    day = date.fromisoformat(when if not when.startswith("--") else f"2000-{when[2:]}")
    return f"{day.day} {day:%B}" + (f" {day.year}" if not when.startswith("--") else "")


def _page(request: RecallRequest, found: Sequence[Mapping[str, Any]], room: Room) -> Page:
    if not found:
        about = f" with “{' '.join(request.about)}”" if request.about else ""
        things = "bake" if request.scope in ("bakes", "last_time") else "note"
        when = f" {_when_said(request)}" if request.when else ""
        how = " “note: …” keeps one." if things == "note" else ""
        return Page((Line(f"No {things}{about} is in the notebook{when}.{how}"),))
    blocks = [
        Line(f"{_dated(str(one['at']), room.now)}  {_told(one, above)}", more=number >= SHOWN)
        for number, (one, above) in enumerate(zip(found, (None, *found), strict=False))
    ]
    if len(found) > SHOWN:
        blocks.insert(SHOWN, Line(f"{len(found) - SHOWN} older ones: “more”.", role="note"))
    return Page(tuple(blocks))


def _told(entry: Mapping[str, Any], above: Mapping[str, Any] | None) -> str:
    """An entry with its bake, which is named once for all that stand together."""
    text, bake = str(entry["text"])[:300], entry["bake"]
    named = above is not None and above["bake"] == bake
    return f"{text} ({bake})" if bake and bake not in text and not named else text


def _dated(at: str, now: datetime) -> str:
    """The hour, with the day where it is not today's and the date where it is more than six days gone."""
    moment = datetime.fromisoformat(at)
    if moment.date() == now.date():
        return f"{moment:%H:%M}"
    if (now.date() - moment.date()).days <= 6:
        return f"{moment:%a %H:%M}"
    return f"{moment:%a} {moment.day} {moment:%b}" + (f" {moment.year}" if moment.year != now.year else "")
