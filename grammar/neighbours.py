"""What stands round an amount: the words it may take and how near they are, the small words before it, what it counts.

Worked out once for a line and used by every kind of request.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grammar.frames import amount_base, fits
from grammar.lexicon import patterns_of
from grammar.phrases import Phrase

ADJACENT = 2.5  # a word right beside its amount
_DESCRIBES = ("look:freezer", "look:frozen", "state:cold", "look:shaped")
"""How pieces are that are counted, between them and their number."""
COUNTED = ("piece:*", "bread:*", "cue:pieces")


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
        self.unknown = [p for p in phrases if is_unknown(p)]
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


def is_unknown(phrase: Phrase) -> bool:
    """Whether a phrase is a word nobody knows, rather than a sign."""
    return phrase.kind == "junk" and any(c.isalnum() for c in phrase.text)


def is_rated(phrases: Sequence[Phrase], place: int) -> bool:
    """Whether a number is so many for each: "two and a half rolls a head"."""
    behind = phrases[place + 1 : place + 4]
    return any(set(one.ids("link")) & {"each", "per"} or fits(one, ("serving:each",)) for one in behind)


def _is_counted(phrases: Sequence[Phrase], place: int) -> bool:
    """Whether a bare number stands right before what it counts: "24 rolls" are no grams, degrees or per cent."""
    after = place + 1
    if after + 1 < len(phrases) and fits(phrases[after], _DESCRIBES):
        after += 1  # "12 frozen rolls"
    return after < len(phrases) and fits(phrases[after], COUNTED[:2]) and not phrases[after].negated


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


_JOINS_LEFT = {"about": 0.2, "of": 0.0, "at": 0.1, "to": 0.3, "is": 0.0, "with": 0.6, "for": 0.5, "by": 0.5}


_PAUSES = {":": 0.1, "=": 0.0, "-": 0.3, "(": 0.4, ")": 0.4, "/": 0.5, "~": 0.1, "x": 0.2, ",": 2.1}


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
            leads_on = i + 1 < place and "about" in phrases[i + 1].ids("link")  # "a bit firmer, say 61"
            score -= 0.3 if leads_on else _PAUSES.get(sign, 1.8)
        elif between.kind == "label":
            score -= 1.6 if between.negated else 0.9
        else:
            score -= 0.7
    return score
