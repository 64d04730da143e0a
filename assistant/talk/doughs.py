"""Which dough a line is about: one on the bench by its name or kind, or one of the notebook by name or by day."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from functools import lru_cache
from typing import Any

from assistant.notebook.event import Entry
from assistant.talk.bench import Bake, Bench
from assistant.talk.lexicon import lexicon
from grammar.lexicon import fold
from grammar.past import Span
from knowledge import Knowledge
from knowledge.vocabulary import plural

UNDER_WAY = timedelta(days=3)
"""A dough begun longer ago is one of the notebook, unless it is in hand."""


@dataclass(frozen=True, slots=True)
class Baked:
    """A dough that was made: what was said of it, when it was begun (ISO), its title, the name it was given, and where
    it still stands on the bench its number there. verdict: what was thought of it."""

    said: Mapping[str, Any]
    begun: str
    title: str
    called: str = ""
    bake: int | None = None
    verdict: str = ""

    @property
    def day(self) -> date:
        return date.fromisoformat(self.begun[:10])


def under_way(bench: Bench, now: datetime) -> tuple[Bake, ...]:
    """The doughs on the bench: those of the last days and the one in hand, oldest first."""
    new = {bake.id for bake in recent(bench, now)}
    return tuple(bake for bake in bench.bakes if bake.id in new or bake.id == bench.in_hand)


def recent(bench: Bench, now: datetime) -> tuple[Bake, ...]:
    """The doughs begun in the last days, oldest first."""
    since = (now.replace(tzinfo=None) - UNDER_WAY).isoformat()
    return tuple(bake for bake in bench.bakes if bake.begun >= since)


def short_label(bake: Bake) -> str:
    """The name it was given, else how many of what: "24 rings"."""
    return bake.called or bake.name.split(" x ")[0] or "the dough"


def answers_to(said: Mapping[str, Any], called: str, kb: Knowledge) -> tuple[str, ...]:
    """The words a dough answers to, folded: the name it was given first, then what its pieces and bread are called."""
    kinds = _kind_words(kb, str(said.get("piece") or ""), str(said.get("bread") or ""))
    return tuple(dict.fromkeys((*((fold(called),) if called else ()), *kinds)))


@lru_cache(maxsize=256)
def _kind_words(kb: Knowledge, piece: str, bread: str) -> tuple[str, ...]:
    forms: list[str] = []
    word = kb.words.get(f"piece {piece}")
    if word is not None and piece != "piece":
        forms.extend(word.said_as)
    if bread in kb.breads:
        forms.extend(kb.breads[bread].said_as)
        named = (one for one in kb.words.values() if one.bread == bread and one.names_bread)
        forms.extend(form for one in named for form in one.said_as)
    folded = [fold(form) for form in forms]
    many = [plural(one) for one in folded]
    return tuple(dict.fromkeys(one for one in (*folded, *many) if one))


def history(bench: Bench, entries: Iterable[Entry], bakes_before: str = "") -> tuple[Baked, ...]:
    """Every dough made, newest first, as it stood last: those on the bench, then those of the notebook's entries."""
    found: dict[int, Baked] = {
        bake.id: Baked(bake.said, bake.begun, bake.name, bake.called, bake.id, _verdict(bake)) for bake in bench.bakes
    }
    for entry in entries:
        change = entry.change or {}
        number, said = change.get("bake"), change.get("said")
        if not isinstance(number, int) or not isinstance(said, Mapping):
            continue
        known = found.get(number)
        if known is None:
            found[number] = Baked(said, entry.said_at, str(change.get("dough") or ""))
        elif known.bake is None:  # entries come newest first: the oldest tells when it was begun
            found[number] = Baked(known.said, entry.said_at, known.title)
    return tuple(sorted(found.values(), key=lambda one: one.begun, reverse=True))


def _verdict(bake: Bake) -> str:
    return str((bake.facts.get("verdict") or {}).get("text") or "")


def of_kind(baked: Sequence[Baked], label: str | None, kb: Knowledge) -> list[Baked]:
    """Those a word fits; all where none was said."""
    if label is None:
        return list(baked)
    return [one for one in baked if label in answers_to(one.said, one.called, kb)]


def of_days(baked: Sequence[Baked], span: Span, now: datetime) -> list[Baked]:
    """Those begun within the days named."""
    first, last = span.days(now.date())
    return [one for one in baked if first <= one.day <= last]


def labels(bench: Bench, now: datetime, kb: Knowledge) -> Iterator[tuple[Bake, tuple[str, ...]]]:
    """Each dough under way with the words it answers to, newest first."""
    there = under_way(bench, now)
    yield from zip(reversed(there), reversed(all_names(there, kb)), strict=True)


def all_names(there: Sequence[Bake], kb: Knowledge) -> tuple[tuple[str, ...], ...]:
    """The words each of some doughs answers to: its own, and where no other dough may be meant the last word of them
    ("loaves" of tin loaves) and the first ("rye" of rye loaves)."""
    own = [answers_to(bake.said, bake.called, kb) for bake in there]
    heads = [{name.split()[-1] for name in names if " " in name} for names in own]
    fronts = [{word for name in names if " " in name and is_flour(word := name.split()[0], kb)} for names in own]
    out = []
    for place, names in enumerate(own):
        others = [at for at in range(len(own)) if at != place]
        taken = {word for at in others for word in (*own[at], *heads[at])}
        inside = {word for word in fronts[place] for at in others if word in fronts[at] or _holds(there[at].said, word)}
        out.append((*names, *sorted((heads[place] - taken | fronts[place] - inside) - set(names))))
    return tuple(out)


def is_flour(word: str, kb: Knowledge) -> bool:
    """Whether a word names a flour."""
    return any(kind == "ingredient" and name.startswith("flour_") for kind, name in lexicon(kb).phrases.get(word, ()))


def _holds(said: Any, word: str) -> bool:
    """Whether a word stands in the name of anything told of a dough: the rye of its flour."""
    if isinstance(said, Mapping):
        return any(_holds(value, word) for value in said.values())
    if isinstance(said, list | tuple):
        return any(_holds(value, word) for value in said)
    return isinstance(said, str) and word in re.split(r"[_ ]", said)
