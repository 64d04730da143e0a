"""The steps of a plan in stretches of work, each in the words of one row."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import groupby

from assistant.voice.clock_said import at


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
_LONG_REST = timedelta(hours=4)
"""A rack longer than this is a rest that the crumb needs, and is named."""


def stretches_of(steps: Sequence[Shown], ready: datetime) -> list[tuple[datetime, str]]:
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
