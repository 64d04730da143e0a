"""The page of a plan: the next thing to do first, the clock at the left, then why it runs this way."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, datetime

from assistant.voice.clock_said import at
from assistant.voice.page import Block, Line, Page, Picture, Table, laid_out, wrapped
from assistant.voice.plan_stretches import Shown, stretches_of
from assistant.voice.timeline import Bar, timeline, timelines

_LINES, _COLUMNS = 8, 80
"""A short page: so many lines on a screen of so many columns; the rest comes on "more"."""
_NOTES = 3
"""Several doughs take as many notes below their rows."""
_FALLBACKS = ("feed_starter", "mix", "bulk", "retard", "proof", "boil", "bake", "refresh")


def plan_page(
    steps: Sequence[Shown], ready: datetime, first: Sequence[str], warnings: Sequence[str], notes: Sequence[str],
    reasons: Sequence[str], today: date,
) -> Page:  # fmt: skip
    """Compact: one row for each stretch of work, then what is always said (`first`: what was assumed), what can hurt,
    and notes while there is room (what was moved, what to watch). More: the timeline, every step with its sign, the
    fallbacks, the reasons."""
    few = _few(compact(steps, ready, today), _LINES - _lines_of(first))
    blocks: list[Block] = [Table(few, "rl"), *_always(first)]
    blocks += _noted(blocks, notes, _LINES)
    blocks += [Line(one, role="warn") for one in warnings]
    blocks.append(day_picture(steps))
    rows = tuple((at(step.start, today), f"{step.label}: {step.look_for}") for step in steps)
    blocks.append(Table(rows, "rl", more=True))
    backs = {step.step: step.fallback for step in steps if step.step in _FALLBACKS}
    blocks += [Line(f"{step.replace('_', ' ')}: {text}", more=True) for step, text in backs.items()]
    blocks += [Line(reason, more=True) for reason in reasons]
    return Page(tuple(blocks))


def together_page(
    doughs: Sequence[tuple[str, Sequence[Shown], datetime]], head: Sequence[str], first: Sequence[str],
    warnings: Sequence[str], notes: Sequence[str], reasons: Sequence[str], today: date,
) -> Page:  # fmt: skip
    """Several doughs, (name, steps, ready) each, in one list by the clock, each row naming its dough; the totals
    before it, what is always said behind it. More: every step by the clock with its sign, the fallbacks, the
    reasons."""
    stretches = [
        (begin, f"{name}: {text}") for name, steps, ready in doughs for begin, text in stretches_of(steps, ready)
    ]
    rows = tuple((at(begin, today), text) for begin, text in sorted(stretches, key=lambda row: row[0]))
    few = _few(rows, _LINES * len(doughs) - _lines_of(first))
    blocks: list[Block] = [*(Line(one, role="head") for one in head), Table(few, "rl"), *_always(first)]
    blocks += _noted(blocks, notes, _LINES * len(doughs) + _NOTES)
    blocks += [Line(one, role="warn") for one in warnings]
    every = sorted(((step, name) for name, steps, _ in doughs for step in steps), key=lambda pair: pair[0].start)
    blocks.append(Picture(_drawn_together([(name, steps) for name, steps, _ in doughs]), more=True))
    told = tuple((at(step.start, today), f"{name}: {step.label}: {step.look_for}") for step, name in every)
    blocks.append(Table(told, "rl", more=True))
    backs = {step.step: step.fallback for step, _ in every if step.step in _FALLBACKS}
    blocks += [Line(f"{step.replace('_', ' ')}: {text}", more=True) for step, text in backs.items()]
    blocks += [Line(reason, more=True) for reason in reasons]
    return Page(tuple(blocks))


def _always(first: Sequence[str]) -> list[Block]:
    return [Line(one, role="note") for one in first]


def _noted(above: Sequence[Block], notes: Sequence[str], lines: int) -> list[Block]:
    """The notes, those for which a page of so many lines has no room only on "more"."""
    room = lines - len(laid_out(Page(tuple(above)), _COLUMNS))
    out: list[Block] = []
    for note in notes:
        needs = len(wrapped(note, _COLUMNS))
        out.append(Line(note, role="note", more=needs > room))
        room -= needs
    return out


def _lines_of(notes: Sequence[str]) -> int:
    return sum(len(wrapped(one, _COLUMNS)) for one in notes)


def _few(rows: tuple[tuple[str, str], ...], lines: int = _LINES) -> tuple[tuple[str, str], ...]:
    """No more rows than leave the page short: the next things to do, and the last."""
    kept = list(rows)
    cut = False
    while len(kept) > 3 and len(laid_out(Page((Table(tuple(kept), "rl"),)), _COLUMNS)) > lines - 1 - cut:
        kept.pop(min(3, len(kept) - 2))
        cut = True
    place = min(3, len(kept) - 1)
    return (*kept[:place], ("", "..."), *kept[place:]) if cut else rows


def day_picture(steps: Sequence[Shown]) -> Picture:
    """The steps of one dough drawn along the clock, held back until more is asked for."""
    bars = bars_of(steps)
    return Picture(lambda width: timeline(bars, width), more=True)


def bars_of(steps: Sequence[Shown]) -> tuple[Bar, ...]:
    """The steps as they are drawn."""
    return tuple(Bar(step.step, step.start, step.end) for step in steps)


def _drawn_together(doughs: Sequence[tuple[str, Sequence[Shown]]]) -> Callable[[int], Sequence[str]]:
    bars = tuple((name, bars_of(steps)) for name, steps in doughs)
    return lambda width: timelines(bars, width)


def compact(steps: Sequence[Shown], ready: datetime, today: date) -> tuple[tuple[str, str], ...]:
    """(clock, what) for each stretch of work, the next one first."""
    return tuple((at(begin, today), text) for begin, text in stretches_of(steps, ready))
