"""The role of each hour of a line, told by the small word before it, and what the ends of a stretch tell each other.

by: ready or done then at the latest; at; from: a stretch begins; until: one ends; since: begun then, so it has been;
before: earlier than that; not_before: no sooner; after; in: so much from now; ago, past: so much before now; for.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from grammar.days import is_weekday
from grammar.moments import Moment, Window, joined

if TYPE_CHECKING:
    from grammar.phrases import Phrase

_LINKS = ("by", "until", "before", "from", "after", "at", "for", "in", "on")
_UNTIL = {"till": "until", "til": "until"}
_HALF_MIN = 720


def led(phrases: Sequence[Phrase]) -> tuple[Phrase, ...]:
    """The phrases with the lead of each hour, stretch and length of time; stretches of a list share their day."""
    phrases = _spans_dated(phrases)
    out: list[Phrase] = []
    for i, phrase in enumerate(phrases):
        if phrase.window is not None:
            out.append(replace(phrase, window=_of_that_day(_ends_agreed(phrase.window), out), lead="from"))
        elif phrase.moment is not None:
            lead = _lead(phrases, i)
            out.append(replace(phrase, moment=replace(phrase.moment, lead=lead), lead=lead))
        elif phrase.kind == "amount" and phrase.dim == "time":
            out.append(replace(phrase, lead=_length_lead(phrases, i)))
        else:
            out.append(phrase)
    return tuple(out)


def _spans_dated(phrases: Sequence[Phrase]) -> list[Phrase]:
    """A day or its part before a stretch is the stretch's ("tonight from 7 to 9"); "9-5 mon to fri" is of every day."""
    out: list[Phrase] = []
    for phrase in phrases:
        small = next((n for n in range(len(out) - 1, -1, -1) if out[n].kind != "link"), -1)
        last = out[small] if small >= 0 else None
        if last is not None and phrase.window is not None and _only_a_day(last) and not _has_day(phrase.window):
            assert last.moment is not None
            tokens = tuple(token for one in (*out[small:], phrase) for token in one.tokens)
            window = Window(joined(phrase.window.start, last.moment), _in_part(phrase.window.end, last.moment))
            out[small:] = [replace(phrase, tokens=tokens, window=window)]
        elif (
            last is not None
            and last.window is not None
            and phrase.moment is not None
            and _only_a_day(phrase)
            and is_weekday(last.window.end.day)
            and small == len(out) - 2
            and {"to", "until"} & set(out[-1].ids("link"))
        ):
            tokens = (*last.tokens, *out[-1].tokens, *phrase.tokens)
            daily = Window(last.window.start, replace(last.window.end, day=None, weeks=0))
            out[small:] = [replace(last, tokens=tokens, window=daily)]
        else:
            out.append(phrase)
    return out


def _only_a_day(phrase: Phrase) -> bool:
    return phrase.moment is not None and not phrase.moment.has_hour


def _has_day(window: Window) -> bool:
    return any((window.start.day, window.end.day, window.start.part, window.end.part))


def _in_part(moment: Moment, of: Moment) -> Moment:
    return moment if moment.sure or moment.part is not None else replace(moment, part=of.part)


def _lead(phrases: Sequence[Phrase], i: int) -> str | None:
    """The small word before an hour; words that only soften it stand between at most."""
    for phrase in reversed(phrases[max(0, i - 3) : i]):
        text = phrase.text.lower()
        if "not_before" in phrase.ids("clocked"):
            return "not_before"
        if text.split()[-1:] == ["since"]:
            return "since"
        links = phrase.ids("link")
        if "before" in links:
            return "not_before" if phrase.negated else "before"
        found = next((one for one in _LINKS if one in links), None)
        if found is not None:
            return found
        if "about" not in links:
            spoken = [one for one in text.split() if one != "about"] if phrase.kind == "label" else []
            last = _UNTIL.get(spoken[-1], spoken[-1]) if spoken else ""
            return last if last in _LINKS else None
    return None


def _length_lead(phrases: Sequence[Phrase], i: int) -> str | None:
    after = phrases[i + 1] if i + 1 < len(phrases) else None
    if after is not None and after.text.lower() in ("ago", "back", "since"):
        return "ago"
    before = phrases[i - 1].ids("link") if i else ()
    return next((one for one in ("in", "for", "by", "after") if one in before), None)


def _ends_agreed(window: Window) -> Window:
    """A half or part of the day said once holds for both ends where the stretch does not cross noon or midnight:
    "5 to 7 in the morning", "8 to 10pm"."""
    start, end = window.start, window.end
    if start.minute is None or end.minute is None:
        return window
    forward = start.minute % _HALF_MIN < end.minute % _HALF_MIN
    if forward and not start.sure and start.part is None and (end.half or end.part) and _before_one(end):
        start = replace(start, half=end.half, part=end.part)
    elif forward and not end.sure and end.part is None and (start.half or start.part) and _before_one(start):
        end = replace(end, half=start.half, part=start.part)
    return Window(replace(start, lead="from"), replace(end, lead="until"))


def _before_one(moment: Moment) -> bool:
    """Whether the hour is one of the face rather than of a 24-hour clock."""
    return moment.minute is not None and moment.minute < _HALF_MIN + 60


def _of_that_day(window: Window, before: Sequence[Phrase]) -> Window:
    """The next stretch of a list is of the day the list began with."""
    if window.start.day is not None or window.end.day is not None:
        return window
    for phrase in reversed(before):
        if phrase.window is not None:
            return Window(_dated(window.start, phrase.window.start), window.end)
        if phrase.kind not in ("sep", "link"):
            break
    return window


def _dated(moment: Moment, earlier: Moment) -> Moment:
    return replace(moment, day=earlier.day, weeks=earlier.weeks)
