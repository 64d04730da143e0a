"""Fills a frame's slots from the phrases of a line by the best overall assignment.

Each amount may take one neighbouring word (to the left or right, never across another amount) that a slot knows, or
none where the slot takes bare amounts. All combinations are weighed together, so "63 % salt 2 %" gives the 2 % to the
salt: the other reading leaves an implausible hydration. A beam keeps the work small on long lines.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from grammar.frames import Bound, Context, Frame, Hit, amount_base, patterns_of
from grammar.lexicon import Lexicon, Term
from grammar.neighbours import COUNTED, Laid, is_rated, is_unknown
from grammar.phrases import Phrase
from grammar.plausible import named_before, range_score

UNCLAIMED_AMOUNT, UNCLAIMED_WORD, UNCLAIMED_WITHOUT = -4.0, -1.0, -3.0
SAME_SIDE = 0.3  # a line that puts its words before the numbers goes on doing so
BEAM, OPTIONS = 48, 14
_MEASURES = frozenset({"pct", "mass", "temperature", "time", "share", "length", "volume", "moment"})
_ASKED_OF = frozenset({"ask:what", "ask:how_much", "into:g", "ask:what_if"})
"""Words before a "one" that stands for a piece and counts nothing."""
OWNED_ELSEWHERE = -4.5  # a number that stands behind a noun is none of another's


@dataclass(frozen=True, slots=True)
class Fit:
    """How well a frame fits a line. unclaimed: phrases that carry meaning and that nothing took."""

    bound: Bound
    score: float
    unclaimed: tuple[Phrase, ...]


@dataclass(frozen=True, slots=True)
class _Option:
    slot: str | None
    label: int | None
    side: int
    score: float


@dataclass(frozen=True, slots=True)
class _State:
    score: float = 0.0
    side: int = 0
    slots: frozenset[str] = frozenset()
    labels: frozenset[int] = frozenset()
    chosen: tuple[_Option, ...] = ()


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
        options = _options(frame, laid, n, lexicon.groups, context.has_bake)
        grown: list[tuple[float, _State, _Option]] = []
        for state in states:
            for option in options:
                if option.slot in state.slots or (option.label in state.labels and not _shares(frame, option)):
                    continue
                bonus = SAME_SIDE if option.side and option.side == state.side else 0.0
                grown.append((state.score + option.score + bonus, state, option))
        grown.sort(key=lambda one: -one[0])
        states = [_step(frame, *one) for one in grown[:BEAM]]
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
        score -= 0.4  # leaning on what was said before is a little less sure than being named
    return Fit(bound, score + frame.base + (0.8 if context.focus == frame.topic and hits else 0.0), tuple(unclaimed))


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


def _shares(frame: Frame, option: _Option) -> bool:
    return option.slot is not None and frame.slots[option.slot].shares


def _step(frame: Frame, score: float, state: _State, option: _Option) -> _State:
    used = state.slots
    if option.slot is not None and not frame.slots[option.slot].many:
        used = used | {option.slot}
    labels = state.labels
    if option.label is not None and not _shares(frame, option):
        labels = labels | {option.label}
    return _State(score, option.side or state.side, used, labels, (*state.chosen, option))


def _options(frame: Frame, laid: Laid, n: int, groups: Mapping[str, str], follows_up: bool) -> list[_Option]:
    phrases, place, around = laid.phrases, laid.amounts[n], laid.at(n)
    words, linked, counted, means = around.words, around.links, around.counted, laid.means
    amount = phrases[place]
    dim = amount.dim
    options = [_Option(None, None, 0, UNCLAIMED_AMOUNT)]
    for_many = dim == "num" and "for" in linked
    broken = amount.quantity is not None and not amount.quantity.fraction and amount.quantity.value % 1 > 0
    # "one oven", "that one": no warmth and no share; "one part rye" is a quarter by then
    pronoun = amount.text.lower() == "one" and dim == "num"
    alone = len(laid.amounts) == 1  # the dough in hand says what it is of
    if pronoun and not alone and not counted and place and laid.means[place - 1] & _ASKED_OF:
        return [_Option(None, None, 0, 0.0)]  # "that makes 5, what does one weigh"
    loose = dim == "num" and not counted and follows_up
    near_noun = named_before(frame, phrases, place, groups) if loose else frozenset()
    for name, slot in frame.slots.items():
        likes = slot.dims.get(dim)
        if likes is None and dim == "share" and "temperature" not in slot.dims:
            likes = slot.dims.get("num")
            likes = None if likes is None else likes - 0.6
        if likes is None or (slot.where and laid.known.isdisjoint(slot.where)):
            continue
        if pronoun and {"temperature", "pct"} & slot.dims.keys():
            continue
        if slot.whole and broken and not alone and not is_rated(phrases, place):
            continue
        base = likes + slot.weight + sum(slot.links.get(link, 0.0) for link in linked)
        base += sum(level for aspect, level in slot.meant.items() if aspect in amount.meant)
        if slot.role and amount.role:
            base += 2.0 if slot.role == amount.role else -2.0
        elif amount.role:
            base -= 1.0
        part = dim == "share" and "share" not in slot.dims  # "a quarter" counts nothing without a noun beside it
        least = slot.bare_low is not None and (amount_base(amount) or 0.0) < slot.bare_low
        if slot.bare is not None and not part and not least and not (counted and slot.role != "count"):
            fit = range_score(slot, amount, None, groups, slot.bare_high)
            if slot.strict and fit < 0:
                continue
            owned = OWNED_ELSEWHERE if near_noun and name not in near_noun else 0.0
            options.append(_Option(name, None, 0, base + slot.bare + owned + (fit if fit >= 0 else fit * 2)))
        for i, side, reach in (*words, *around.beyond) if slot.across else words:
            if means[i].isdisjoint(slot.cues) or (side > 0 and _owns_ahead(phrases[i])):
                continue
            if slot.role == "each" and dim == "num" and side > 0 and not means[i].isdisjoint(COUNTED):
                continue  # "24 rolls" are so many of them, never of so much each
            if counted and _MEASURES & slot.dims.keys() and means[place + 1].isdisjoint(slot.cues):
                continue  # "enough starter for 24 rolls" is no share of starter, "scale it to 24 rolls" no multiple
            if for_many and i != place + 1 and {"pct", "mass"} & slot.dims.keys():
                continue  # "24 rolls for 10, starter by 6": heads or an hour, neither grams nor per cent
            if means[i].isdisjoint(slot.never):
                fit = range_score(slot, amount, phrases[i], groups)
                if not (slot.strict and fit < 0):
                    options.append(_Option(name, i, side, base + reach + fit))
    options.sort(key=lambda o: -o.score)
    kept = options[:OPTIONS]
    if options[-1] not in kept and all(o.slot is not None for o in kept):
        kept.append(_Option(None, None, 0, UNCLAIMED_AMOUNT))
    return kept


_TAKE = frozenset({"takes", "take", "took", "holds", "hold", "fits", "fit", "does", "manages"})
"""Verbs of what holds so many: the number comes behind them."""


def _owns_ahead(label: Phrase) -> bool:
    """Whether a word can only own what follows it: "make it 40, the oven only takes 15"."""
    return bool(label.ids("holds")) and label.text.lower().split()[-1] in _TAKE


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
            score += 0.8 + frame.slots[slot].weight
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
