"""The page of a plan: the next thing to do first, the clock at the left, then why it runs this way."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import groupby

from assistant.voice.page import Block, Line, Page, Picture, Table, laid_out, wrapped
from assistant.voice.timeline import Bar, timeline, timelines


@dataclass(frozen=True, slots=True)
class Shown:
    """One step in words: id, what to do, start and end, the sign to look for, what to do when it is not there; aside:
    made before the mix by itself; load: the oven load its pieces are, 0 for all; does: what a
    step at pot or oven is in one word."""

    step: str
    label: str
    start: datetime
    end: datetime
    look_for: str
    fallback: str
    aside: bool = False
    load: int = 0
    does: str = ""


_STRETCH = {
    "feed_starter": "feed", "autolyse": "mix", "mix": "mix", "knead": "mix", "bulk": "mix", "fold": "mix",
    "warm_up": "warm", "divide": "shape", "preshape": "shape", "bench_rest": "shape", "shape": "shape",
    "retard": "cold", "proof": "proof", "preheat": "bake", "heat_pot": "bake", "boil": "bake", "score": "bake",
    "bake": "bake", "cool": "bake", "thaw": "thaw", "refresh": "refresh",
}  # fmt: skip
_WEEKDAYS_TELL = 6
_LONG_REST = timedelta(hours=4)
"""A rack longer than this is a rest that the crumb needs, and is named."""
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
        (begin, f"{name}: {text}") for name, steps, ready in doughs for begin, text in _stretches(steps, ready)
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


def at(moment: datetime, day: date) -> str:
    """The clock, with its day where that is not `day`."""
    return moment.strftime("%H:%M") if moment.date() == day else day_and_hour(moment, day)


def day_and_hour(moment: datetime, day: date) -> str:
    """The clock with its day, and with its date where the day alone could be one nearer to `day`."""
    far = abs((moment.date() - day).days) > _WEEKDAYS_TELL
    return f"{moment:%a} {moment.day} {moment:%b %H:%M}" if far else moment.strftime("%a %H:%M")


def compact(steps: Sequence[Shown], ready: datetime, today: date) -> tuple[tuple[str, str], ...]:
    """(clock, what) for each stretch of work, the next one first."""
    return tuple((at(begin, today), text) for begin, text in _stretches(steps, ready))


def _stretches(steps: Sequence[Shown], ready: datetime) -> list[tuple[datetime, str]]:
    """(begin, what) for each stretch of work of one dough, the last with the hour it is ready."""
    ordered = _by_stretch(steps)
    rows = [(group[0].start, _words(name, group, group[0].start.date())) for name, group in ordered]
    if rows:
        begin, text = rows[-1]
        last = steps[-1]
        rests = "; rests until it is" if last.step == "cool" and last.end - last.start >= _LONG_REST else ";"
        rows[-1] = (begin, f"{text}{rests} ready {at(ready, begin.date())}")
    return rows


def _by_stretch(steps: Sequence[Shown]) -> list[tuple[str, list[Shown]]]:
    """Steps in stretches. Oven and pot, which go on while other things last, belong to the bake or the warming through
    that follows them; a proof or a bulk that goes straight into the cold is one stretch with it."""
    hot = [step for step in steps if step.step in ("preheat", "heat_pot")]
    turn = min((step.start for step in steps if step.does), default=datetime.max)
    rest = [step for step in steps if step not in hot and not (step.load > 1 and step.start >= turn and not step.does)]
    stretches = [(name, part) for name, group in groupby(rest, key=_stretch) for part in _apart(name, list(group))]
    out: list[tuple[str, list[Shown]]] = []
    for name, group in stretches:
        after_shape = name == "proof" and bool(out) and out[-1][0] == "shape"
        its_own = after_shape and group[0].load > 1
        before_cold = after_shape and _cold_follows(stretches, group)
        if out and (name == "cold" or before_cold or its_own):
            out[-1][1].extend(group)
        else:
            out.append((name, list(group)))
    for name, group in out:
        if name in ("bake", "refresh"):
            until = max(step.end for step in group)
            mine = [step for step in hot if step.start < until]
            hot = [step for step in hot if step not in mine]
            group[:0] = mine
    return out


def _stretch(step: Shown) -> str:
    return "feed" if step.aside else _STRETCH[step.step]


def _apart(name: str, group: list[Shown]) -> list[list[Shown]]:
    """Each thing made before the mix has a row of its own: they are hours apart."""
    return [[step] for step in group] if name == "feed" else [group]


def _cold_follows(stretches: Sequence[tuple[str, list[Shown]]], group: list[Shown]) -> bool:
    following = [name for name, other in stretches if other[0].start >= group[-1].end]
    return bool(following) and following[0] == "cold"


def _words(name: str, group: Sequence[Shown], first: date) -> str:
    if name == "bake":
        return _bake_words(group, first)
    parts: list[str] = []
    folds = [step for step in group if step.step == "fold"]
    for step in group:
        if step.step in ("fold", "bench_rest", "preshape"):
            continue
        if step.step == "retard":
            parts.append(f"fridge until {at(step.end, first)}")
        elif step.step in ("bulk", "proof", "warm_up"):
            parts.append(f"{step.label} until {at(step.end, first)}")
        else:
            parts.append(step.label)
    if folds:
        many = f"{len(folds)} folds from" if len(folds) > 1 else "fold at"
        parts.append(f"{many} {at(folds[0].start, first)}")
    if name == "feed" and group[-1].step == "feed_starter":
        parts.append(f"ripe {at(group[-1].end, first)}")
    if name == "shape" and group[-1].step == "shape":
        parts.append(f"done {at(group[-1].end, first)}")
    return "; ".join(_listed(parts))


def _listed(parts: Sequence[str]) -> list[str]:
    """Plain work is a list; what lasts until an hour stands for itself."""
    timed = (" until ", " folds from ", "fold at ")
    work = [one for one in parts if not any(word in one for word in timed) and not one.startswith(("ripe ", "done "))]
    return ([", ".join(work)] if work else []) + [part for part in parts if part not in work]


def _pot_words(step: Shown, first: date) -> str:
    """ "pot on 07:30 (malt bath, 30 g malt syrup a litre)"."""
    on, _, bath = step.label.partition(", ")
    return f"{on} {at(step.start, first)}" + (f" ({bath})" if bath else "")


def _bake_words(group: Sequence[Shown], first: date) -> str:
    parts = [_pot_words(step, first) for step in group if step.step == "heat_pot"]
    oven = [step.label for step in group if step.step == "preheat"]
    bakes = [step for step in group if step.step == "bake"]
    boils = [step for step in group if step.step == "boil"]
    hot = ", ".join([*oven, *parts])
    doing = " and ".join(one.does for one in (*boils[:1], *bakes[:1]))
    begin = (boils or [step for step in group if step.step == "score"] or bakes)[0]
    loads = f" in {len(bakes)} loads" if len(bakes) > 1 else ""
    return "; ".join(one for one in (hot, f"{doing}{loads} from {at(begin.start, first)}") if one)
