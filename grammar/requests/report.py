"""A bake under way told of: steps as they are done, and what was measured."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.shell import part_of
from grammar.telling import Telling, Told, telling
from grammar.telling.asked import asked


@dataclass(frozen=True, slots=True)
class ReportRequest:
    """mixed at 9:10, dough 24
    it's in the oven
    up by a third
    shaped 22, into the fridge at 7 pm

    told: each thing in the order of the line; of: the pieces or breads named in it, folded; starter_pct: of the dough,
    where nothing else says it; ratio: of a feed.
    """

    told: tuple[Told, ...] = ()
    starter_pct: float | None = None
    ratio: tuple[float, float, float] | None = None
    of: tuple[str, ...] = ()


_BASE, _EACH, _AMOUNT, _LEFT = 7.0, 1.5, 1.2, 3.5
_SAYS_MORE = frozenset({"water"})
"""Topics that may take a line of mixing wholly: how warm it makes the dough."""
_BY_THE_CLOCK = 4.0
"""Told as done at an hour: nothing that is wanted by then."""
_UNDER_WAY = 5.0
"""A report is the likelier where others were told of the same dough."""
_MAY_TELL = frozenset({None, "formula", "progress", "timer", "notes", "setting"})
"""Topics beside which a bare place or stage tells, rather than changing what was asked."""


def _report(line: Line) -> Own | None:
    found = telling(line) or (_then_asked(line) if "told" in line.context.standing else None)
    if found is None:
        return None
    if not found.sure and line.context.focus not in _MAY_TELL and "told" not in line.context.standing:
        return None
    if _goes_on(line) and not any(one.what == "mark" for one in found.told):
        return None  # how warm it is where the dough of a question would lie
    if not line.context.has_bake and "told" not in line.context.standing and any(p.ids("ask") for p in line.phrases):
        return None  # a question, and no bake it could tell of
    shown = (one for one in found.told if one.what != "core_c")  # a core is of what went wrong, unless an hour is told
    timed = any(one.at is not None or one.ago_min is not None or one.value is not None for one in shown)
    if not timed and line.context.focus in ("mend", "diagnosis") and not line.context.raw:
        return None  # how far a dough was that went wrong
    under_way = "told" in line.context.standing and (line.context.raw or line.context.focus != "diagnosis")
    score = _BASE + _EACH * len(found.told) + _AMOUNT * found.amounts - _LEFT * len(found.unread)
    score += _UNDER_WAY if under_way else _BY_THE_CLOCK if _done_then(found) else 0.0
    return Own(ReportRequest(found.told, found.starter_pct, found.ratio, found.of), score, found.unread, _SAYS_MORE)


_ASKING = frozenset({"timing", "feed", "water", "plan", "loads"})
"""Topics in which a figure told changes what was just asked, where nothing is under way."""


def _goes_on(line: Line) -> bool:
    return line.context.focus in _ASKING and not line.context.has_bake and "told" not in line.context.standing


_SENTENCE = re.compile(r"(?<=[.!,;])\s+(?=[^.!,;]+\?*\s*$)")


def _then_asked(line: Line) -> Telling | None:
    """What is told before a question after what is left, which the reply to a report answers anyway."""
    parts = _SENTENCE.split(line.text.strip(), 1)
    nothing_there = not line.context.has_bake and "told" not in line.context.standing
    if len(parts) < 2 or "\n" in line.text or nothing_there:
        return None
    head, tail = parts
    return telling(part_of(line, head)) if asked(part_of(line, tail)) is not None else None


_WANTED = frozenset({"by", "for", "until", "before"})
"""Small words before an hour at which something is wanted."""


def _done_then(found: Telling) -> bool:
    """Whether a step is told as done at an hour."""
    return found.sure and any(
        one.what == "mark" and ((one.at is not None and one.at.lead not in _WANTED) or one.ago_min is not None)
        for one in found.told
    )  # fmt: skip


FRAME = Frame(ReportRequest, "progress", never_by_slots, reads=_report, settles=True)
