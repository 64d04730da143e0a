"""Fills a frame's slots from the phrases of a line by the best overall assignment.

Each amount may take one neighbouring word (to the left or right, never across another amount) that a slot knows, or
none where the slot takes bare amounts. All combinations are weighed together, so "63 % salt 2 %" gives the 2 % to the
salt: the other reading leaves an implausible hydration. A beam keeps the work small on long lines.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from grammar.frames import Bound, Context, Frame, Hit, Slot, amount_base, fits, patterns_of
from grammar.lexicon import Term
from grammar.phrases import Phrase

ADJACENT = 2.5  # a word right beside its amount
PLAUSIBLE, IMPLAUSIBLE, ABSURD = 0.5, -1.5, -3.0
UNCLAIMED_AMOUNT, UNCLAIMED_WORD, UNCLAIMED_WITHOUT = -4.0, -1.0, -3.0
SAME_SIDE = 0.3  # a line that puts its words before the numbers goes on doing so
BEAM, OPTIONS = 48, 14
_COUNTED = ("piece:*", "bread:*", "cue:pieces")
_MEASURES = frozenset({"pct", "mass", "temperature", "time", "share", "length", "volume", "moment"})
_OWN_ONLY = ("cue:hydration", "cue:prefermented")
OWNED_ELSEWHERE = -4.5  # a number that stands behind a noun is none of another's


@dataclass(frozen=True, slots=True)
class Fit:
    """How well a frame fits a line. unclaimed: phrases that carry meaning and that nothing took."""

    bound: Bound
    score: float
    unclaimed: tuple[Phrase, ...]


@dataclass(frozen=True, slots=True)
class _Place:
    """An amount among the phrases: what every kind of request asks of its neighbours.

    words: (place, side, reach) of the words it may take; beyond: of those behind the next amount; links: the small
    words before it; counted: it stands before what it counts.
    """

    words: tuple[tuple[int, int, float], ...]
    beyond: tuple[tuple[int, int, float], ...]
    links: tuple[str, ...]
    counted: bool


class Laid:
    """The phrases of a line with what every kind of request asks of them, worked out once for all.

    known, open: the patterns that fit any word of the line, and any that is not denied; means: those of each phrase;
    dims: what sorts of amount there are; amounts: the places of the amounts.
    """

    __slots__ = ("_at", "amounts", "dims", "known", "means", "open", "phrases", "unknown")

    def __init__(self, phrases: Sequence[Phrase]) -> None:
        self.phrases = tuple(phrases)
        self.means = [patterns_of(p.terms) for p in phrases]
        self.known: frozenset[str] = frozenset().union(*self.means)
        self.open: frozenset[str] = frozenset().union(
            *(means for p, means in zip(phrases, self.means, strict=True) if not p.negated)
        )
        self.amounts = [i for i, p in enumerate(phrases) if p.kind == "amount"]
        self.dims = frozenset(phrases[i].dim for i in self.amounts)
        self.unknown = [p for p in phrases if _unknown(p)]
        self._at: dict[int, _Place] = {}

    def at(self, n: int) -> _Place:
        """What stands round the n-th amount."""
        if n not in self._at:
            self._at[n] = self._place(n)
        return self._at[n]

    def _place(self, n: int) -> _Place:
        phrases, place = self.phrases, self.amounts[n]
        left_edge = self.amounts[n - 1] if n else -1
        right_edge = self.amounts[n + 1] if n + 1 < len(self.amounts) else len(phrases)
        near = [(i, -1) for i in range(place - 1, left_edge, -1)] + [(i, 1) for i in range(place + 1, right_edge)]
        words = tuple(
            (i, side, reach)
            for i, side in near
            if phrases[i].kind == "label" and not phrases[i].negated and (reach := _reach(phrases, place, i)) > -1.0
        )
        counted = phrases[place].dim == "num" and _is_counted(phrases, place)
        beyond = tuple(_beyond(phrases, place, right_edge))
        return _Place(words, beyond, _links_before(phrases, place, left_edge), counted)


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


def bind(frame: Frame, laid: Laid, context: Context, text: str, groups: Mapping[str, str]) -> Fit | None:
    """The best filling of a frame's slots; None where the frame is ruled out or lacks what it needs."""
    if not laid.open.isdisjoint(frame.rules_out):
        return None
    follows = context.focus == frame.topic or context.focus in frame.follows
    if frame.needs and not follows and not any(_within_reach(frame, need, laid) for need in frame.needs):
        return None
    phrases, amounts = laid.phrases, laid.amounts
    states = [_State()]
    for n in range(len(amounts)):
        options = _options(frame, laid, n, groups, context.has_bake)
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
    bound = Bound(tuple(hits), phrases, context, text)
    needed = not frame.needs or any(_present(need, laid, bound) for need in frame.needs)
    if not needed and not (follows and hits):
        return None
    if not needed:
        score -= 0.4  # leaning on what was said before is a little less sure than being named
    return Fit(bound, score + frame.base + (0.8 if context.focus == frame.topic and hits else 0.0), tuple(unclaimed))


def _unknown(phrase: Phrase) -> bool:
    """Whether a phrase is a word nobody knows, rather than a sign."""
    return phrase.kind == "junk" and any(c.isalnum() for c in phrase.text)


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
    alone = len(laid.amounts) == 1  # the dough in hand says what it is of
    loose = dim == "num" and not counted and follows_up
    near_noun = _named_before(frame, phrases, place, groups) if loose else frozenset()
    for name, slot in frame.slots.items():
        likes = slot.dims.get(dim)
        if likes is None and dim == "share" and "temperature" not in slot.dims:
            likes = slot.dims.get("num")
            likes = None if likes is None else likes - 0.6
        if likes is None or (slot.where and laid.known.isdisjoint(slot.where)):
            continue
        if slot.whole and broken and not alone and not _rated(phrases, place):
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
            fit = _range_score(slot, amount, None, groups, slot.bare_high)
            if slot.strict and fit < 0:
                continue
            owned = OWNED_ELSEWHERE if near_noun and name not in near_noun else 0.0
            options.append(_Option(name, None, 0, base + slot.bare + owned + (fit if fit >= 0 else fit * 2)))
        for i, side, reach in (*words, *around.beyond) if slot.across else words:
            if means[i].isdisjoint(slot.cues):
                continue
            if slot.role == "each" and dim == "num" and side > 0 and not means[i].isdisjoint(_COUNTED):
                continue  # "24 rolls" are so many of them, never of so much each
            if counted and _MEASURES & slot.dims.keys() and means[place + 1].isdisjoint(slot.cues):
                continue  # "enough starter for 24 rolls" is no share of starter, "scale it to 24 rolls" no multiple
            if for_many and i != place + 1 and {"pct", "mass"} & slot.dims.keys():
                continue  # "24 rolls for 10, starter by 6": heads or an hour, neither grams nor per cent
            if means[i].isdisjoint(slot.never):
                fit = _range_score(slot, amount, phrases[i], groups)
                if not (slot.strict and fit < 0):
                    options.append(_Option(name, i, side, base + reach + fit))
    options.sort(key=lambda o: -o.score)
    kept = options[:OPTIONS]
    if options[-1] not in kept and all(o.slot is not None for o in kept):
        kept.append(_Option(None, None, 0, UNCLAIMED_AMOUNT))
    return kept


def _rated(phrases: Sequence[Phrase], place: int) -> bool:
    """Whether a number is so many for each: "two and a half rolls a head"."""
    behind = phrases[place + 1 : place + 4]
    return any(set(one.ids("link")) & {"each", "per"} or fits(one, ("serving:each",)) for one in behind)


def _named_before(
    frame: Frame, phrases: Sequence[Phrase], place: int, groups: Mapping[str, str]
) -> frozenset[str]:
    """The slots of the noun a bare number stands behind, a comma between ("more butter, 10"), or nothing where the noun
    is a figure's own name ("hydration 230"). A noun that has an amount of its own before it wants none."""
    at = place - 1
    right_behind = at >= 0 and fits(phrases[at], _OWN_ONLY)
    if right_behind:
        at += 1
    elif at < 1 or phrases[at].kind != "sep" or phrases[at].text.strip() != ",":
        return frozenset()
    noun = phrases[at - 1]
    if noun.kind != "label" or noun.negated or (at > 1 and phrases[at - 2].kind == "amount"):
        return frozenset()
    return frozenset(
        name for name, slot in frame.slots.items()
        if "num" in slot.dims and fits(noun, slot.cues) and not (slot.never and fits(noun, slot.never))
        and (right_behind or _range_score(slot, phrases[place], noun, groups) >= PLAUSIBLE)
    )  # fmt: skip


def _is_counted(phrases: Sequence[Phrase], place: int) -> bool:
    """Whether a bare number stands right before what it counts: "24 rolls" are no grams, degrees or per cent."""
    return place + 1 < len(phrases) and fits(phrases[place + 1], _COUNTED[:2]) and not phrases[place + 1].negated


def _beyond(phrases: Sequence[Phrase], place: int, right_edge: int) -> list[tuple[int, int, float]]:
    """Words behind the next amount, where "of" leads there: "15 % of a 60 % hydration starter"."""
    if right_edge >= len(phrases) or place + 1 >= len(phrases) or "of" not in phrases[place + 1].ids("link"):
        return []
    if right_edge != place + 2:
        return []
    return [(i, 1, 1.6) for i in range(right_edge + 1, min(right_edge + 3, len(phrases))) if phrases[i].kind == "label"]


def _links_before(phrases: Sequence[Phrase], place: int, edge: int) -> tuple[str, ...]:
    found: list[str] = []
    for i in range(place - 1, max(edge, place - 3), -1):
        if phrases[i].kind == "sep" and phrases[i].text == "(":
            found.append("(")
        if fits(phrases[i], ("act:change",)):
            found.append("change")
        if fits(phrases[i], ("cue:use_up",)):
            found.append("use_up")
        if phrases[i].kind != "link":
            break
        found.extend(phrases[i].ids("link"))
    found.extend(_in_a_run(phrases, place))
    if place + 1 < len(phrases) and phrases[place + 1].kind == "link":
        found.extend(i for i in phrases[place + 1].ids("link") if i in ("each", "per"))
    return tuple(dict.fromkeys(found))


_LARGE, _SMALL = 40.0, 4.0


def _in_a_run(phrases: Sequence[Phrase], place: int) -> tuple[str, ...]:
    """Whether a bare figure follows a large or small one, a comma or nothing between: the 2, the 20 of "57, 2, 20"."""
    after = phrases[place + 1] if place + 1 < len(phrases) else None
    beyond = phrases[place + 2] if place + 2 < len(phrases) else None
    if after is not None and after.kind == "label" and beyond is not None and beyond.kind == "amount":
        after = None if beyond.dim in ("num", "pct") else after  # "68 1.8 poolish 33": the word is the next one's
    other = after is not None and after.kind == "amount" and after.dim not in ("num", "pct", "mass")
    if (other and phrases[place].dim == "num") or (after is not None and after.kind in ("label", "junk")):
        return ()  # "64 %, 2 tins", "70 %, 3 9x5 inch tins"
    n = place - 1
    if n > 0 and phrases[n].kind == "sep" and phrases[n].text.strip() in (",", "/", "-"):
        n -= 1
    if n < 0 or phrases[n].kind != "amount" or phrases[n].dim not in ("num", "pct"):
        return ()
    value = amount_base(phrases[n]) or 0.0
    return ("after_large",) if value >= _LARGE else ("after_small",) if value <= _SMALL else ()


_JOINS_LEFT = {"of": 0.0, "at": 0.1, "to": 0.3, "is": 0.0, "with": 0.6, "for": 0.5, "by": 0.5}


def _reach(phrases: Sequence[Phrase], place: int, label: int) -> float:
    """How close a word stands to an amount: ADJACENT right beside it, less for each thing between."""
    score = ADJACENT
    left = label < place
    if left and label and fits(phrases[label - 1], ("ask:how_much", "ask:how_many")):
        score -= 2.0  # "how much salt for 50 rolls": the word is asked about
    for i in range(min(label, place) + 1, max(label, place)):
        between = phrases[i]
        if between.kind == "link":
            links = between.ids("link")
            if "of" in links:
                score += 0.2 if not left else 0.0
            elif left:
                score -= min((_JOINS_LEFT.get(one, 1.0) for one in links), default=1.0)
            else:
                score -= 2.2 if "with" in links else 1.2
        elif between.kind == "sep":
            sign = between.text.strip()
            score -= {":": 0.1, "=": 0.0, "-": 0.3, "(": 0.4, ")": 0.4, "/": 0.5, "~": 0.1, "x": 0.2, ",": 2.1}.get(
                sign, 1.8
            )
        elif between.kind == "label":
            score -= 1.6 if between.negated else 0.9
        else:
            score -= 0.7
    return score


def _range_score(
    slot: Slot, amount: Phrase, label: Phrase | None, groups: Mapping[str, str], most: float | None = None
) -> float:
    low, high = slot.low, slot.high if most is None else most
    if slot.by_group and label is not None:
        group = next((groups.get(i) for i in label.ids("ingredient")), None) or ""
        low, high = slot.by_group.get(group, (low if low is not None else 0.0, high if high is not None else 1e12))
    value = amount_base(amount, high)
    if value is None or (low is None and high is None):
        return 0.0
    if amount.dim == "share":
        value *= 100
    if (low is None or value >= low) and (high is None or value <= high):
        return PLAUSIBLE
    # far outside is worse than just outside
    if low is not None and value < low:
        return ABSURD if value <= low / 4 else IMPLAUSIBLE
    assert high is not None
    return ABSURD if value >= high * 4 else IMPLAUSIBLE


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
        if rest and _unknown(phrase):
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
