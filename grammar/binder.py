"""Fills a frame's slots from the phrases of a line by the best overall assignment.

Each amount may take one neighbouring word (to the left or right, never across another amount) that a slot knows, or
none where the slot takes bare amounts. All combinations are weighed together, so "63 % salt 2 %" gives the 2 % to the
salt: the other reading leaves an implausible hydration. A beam keeps the work small on long lines.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from grammar.binder_options import Option, options_for
from grammar.context import Context
from grammar.frames import Bound, Frame, Hit
from grammar.levels import FILLED, LEANING, OF_THE_TALK, SAME_SIDE, UNCLAIMED_WITHOUT, UNCLAIMED_WORD
from grammar.lexicon import Lexicon, Term, patterns_of
from grammar.neighbours import Laid, is_unknown
from grammar.phrases import Phrase

_BEAM = 48
"""Ways to fill a frame that are followed on a long line."""


@dataclass(frozen=True, slots=True)
class Fit:
    """How well a frame fits a line. unclaimed: phrases that carry meaning and that nothing took."""

    bound: Bound
    score: float
    unclaimed: tuple[Phrase, ...]


@dataclass(frozen=True, slots=True)
class _State:
    score: float = 0.0
    side: int = 0
    slots: frozenset[str] = frozenset()
    labels: frozenset[int] = frozenset()
    chosen: tuple[Option, ...] = ()


def bind(frame: Frame, laid: Laid, context: Context, text: str, lexicon: Lexicon) -> Fit | None:
    """The best filling of a frame's slots; None where the frame is ruled out or lacks what it needs."""
    if not laid.open.isdisjoint(frame.rules_out):
        return None
    follows = context.focus == frame.topic or context.focus in frame.follows
    if frame.needs and not follows and not any(_within_reach(frame, need, laid) for need in frame.needs):
        return None
    phrases, amounts = laid.phrases, laid.amounts
    states = [_State()]
    for n in range(len(amounts)):
        options = options_for(frame, laid, n, lexicon.groups, context.has_bake)
        grown: list[tuple[float, _State, Option]] = []
        for state in states:
            for option in options:
                if option.slot in state.slots or (option.label in state.labels and not _shares(frame, option)):
                    continue
                bonus = SAME_SIDE if option.side and option.side == state.side else 0.0
                grown.append((state.score + option.score + bonus, state, option))
        grown.sort(key=lambda one: -one[0])
        states = [_step(frame, *one) for one in grown[:_BEAM]]
    words = _words(frame, phrases)
    best = max((_finish(frame, phrases, words, amounts, state) for state in states), key=lambda f: f[0])
    score, hits, unclaimed = best
    free = {id(hit.label) for hit in hits}
    if frame.wholly and (unclaimed or any(id(p) not in free for p in laid.unknown)):
        return None
    bound = Bound(tuple(hits), phrases, context, text, lexicon)
    needed = not frame.needs or any(_present(need, laid, bound) for need in frame.needs)
    if not needed and not (follows and hits):
        return None
    if not needed:
        score += LEANING
    score += OF_THE_TALK if context.focus == frame.topic and hits else 0.0
    return Fit(bound, score + frame.base, tuple(unclaimed))


def _within_reach(frame: Frame, need: str, laid: Laid) -> bool:
    """Whether a need could be met at all, before the slots are filled."""
    if not need.startswith("slot:"):
        return need in laid.known
    slot = frame.slots.get(need[5:])
    return slot is not None and (
        "share" in laid.dims or not laid.dims.isdisjoint(slot.dims) or not laid.known.isdisjoint(slot.term)
    )


def _present(need: str, laid: Laid, bound: Bound) -> bool:
    if need.startswith("slot:"):
        return bound.first(need[5:]) is not None
    return need in laid.known


def _shares(frame: Frame, option: Option) -> bool:
    return option.slot is not None and frame.slots[option.slot].shares


def _step(frame: Frame, score: float, state: _State, option: Option) -> _State:
    used = state.slots
    if option.slot is not None and not frame.slots[option.slot].many:
        used = used | {option.slot}
    labels = state.labels
    if option.label is not None and not _shares(frame, option):
        labels = labels | {option.label}
    return _State(score, option.side or state.side, used, labels, (*state.chosen, option))


@dataclass(frozen=True, slots=True)
class _Word:
    """A word of the line to one frame: its place, what it speaks for, and the slots it may fill, in order.

    rest: the slot that takes it where none of those does and it speaks for nothing.
    """

    place: int
    weight: float | None
    slots: tuple[str, ...]
    rest: str | None = None


def _words(frame: Frame, phrases: Sequence[Phrase]) -> tuple[_Word, ...]:
    """Every word of the line as the frame sees it; worked out once for all ways of filling the slots."""
    out = []
    rest = next((name for name, slot in frame.slots.items() if slot.rest), None)
    for i, phrase in enumerate(phrases):
        if rest and is_unknown(phrase):
            out.append(_Word(i, None, (), rest))
        if phrase.kind == "label":
            out.append(_Word(i, *_meaning(frame, phrase.terms, phrase.negated), rest))
    return tuple(out)


@lru_cache(maxsize=16384)
def _meaning(frame: Frame, terms: tuple[Term, ...], negated: bool) -> tuple[float | None, tuple[str, ...]]:
    """What a word speaks for to a frame, and the slots it may fill: the same on every line."""
    means = patterns_of(terms)
    weight = max((w for pattern, w in frame.cues.items() if pattern in means), default=None)
    slots = (n for n, slot in frame.slots.items() if slot.without == negated and not means.isdisjoint(slot.term))
    return weight, tuple(slots)


def _finish(
    frame: Frame, phrases: Sequence[Phrase], words: Sequence[_Word], amounts: Sequence[int], state: _State
) -> tuple[float, list[Hit], list[Phrase]]:
    score = state.score
    hits: list[tuple[int, Hit]] = []
    unclaimed: list[tuple[int, Phrase]] = []
    for place, option in zip(amounts, state.chosen, strict=True):
        if option.slot is None:
            unclaimed.append((place, phrases[place]))
        else:
            label = phrases[option.label] if option.label is not None else None
            hits.append((place, Hit(option.slot, phrases[place], label)))
    filled = set(state.slots)
    spoken: set[str] = set()
    for word in words:
        phrase = phrases[word.place]
        if word.weight is not None and phrase.terms[0][1] not in spoken and not phrase.negated:
            score += word.weight
            spoken.add(phrase.terms[0][1])
        if word.place in state.labels:
            continue
        slot = next((name for name in word.slots if frame.slots[name].many or name not in filled), None)
        if slot is not None:
            hits.append((word.place, Hit(slot, None, phrase)))
            score += FILLED + frame.slots[slot].weight
            if not frame.slots[slot].many:
                filled.add(slot)
        elif word.weight is None and word.rest is not None:
            hits.append((word.place, Hit(word.rest, None, phrase)))
            score += frame.slots[word.rest].weight
        elif word.weight is None:
            unclaimed.append((word.place, phrase))
            score += UNCLAIMED_WITHOUT if phrase.negated else UNCLAIMED_WORD
    hits.sort(key=lambda pair: pair[0])
    unclaimed.sort(key=lambda pair: pair[0])
    return score, [hit for _, hit in hits], [phrase for _, phrase in unclaimed]
