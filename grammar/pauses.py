"""The stretches of a line where something may be taken back: commas and dashes, and the words that do it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from grammar.lexemes import Lexeme

PAUSES = frozenset(",-.;!():?/")
_LONGEST = 5
"""Words of the longest phrase that takes back."""


@dataclass(frozen=True, slots=True)
class Pause:
    """The stretch of lexemes between a value and the one that replaces it.

    start, end: its place; plain: whether its words take back whatever stands before them; led: whether softer words do,
    with a comma before them or the value right behind; negating: whether its last word is a "no", which of a thing
    means that there is none.
    """

    start: int
    end: int
    plain: bool
    led: bool
    negating: bool


@dataclass(frozen=True, slots=True)
class Judgement:
    """What is found wrong with a value, and the words that lead from there to the one that is to be; start, end: its
    place."""

    start: int
    end: int


def judgements(lx: Sequence[Lexeme], words: Mapping[str, frozenset[str]]) -> list[Judgement]:
    """Every stretch that finds fault with what stands before it and leads to something else: "is too many, make it"."""
    out: list[Judgement] = []
    for start in range(1, len(lx)):
        if lx[start - 1].kind == "word" and phrase_length(lx, start - 1, words, "leads"):
            continue
        i = past(lx, start, words, "leads")
        count = phrase_length(lx, i, words, "judged")
        if not count:
            continue
        i += count
        if i < len(lx) and lx[i].word in _FOR:
            whom = range(i + 1, min(i + _FOR_WHOM, len(lx)))
            i = next((k for k in whom if lx[k].text in PAUSES or phrase_length(lx, k, words, "plain", "then")), i)
        end = past(lx, i, words, "plain", "soft", "aside", "leads", "then")
        end = _who_they_are(lx, end, words) or end
        if end < len(lx):
            out.append(Judgement(start, end))
    return out


def _who_they_are(lx: Sequence[Lexeme], i: int, words: Mapping[str, frozenset[str]]) -> int | None:
    """Where "the crew is", "our class are" ends that leads to how many they are; None where nothing like it stands."""
    told = i + 2 < len(lx) and lx[i].word in _OWNED and lx[i + 2].word in ("is", "are") and lx[i + 1].kind == "word"
    return past(lx, i + 2, words, "leads", "aside") if told else None


_OWNED = frozenset({"the", "our", "my"})
_FOR, _FOR_WHOM = frozenset({"for", "to"}), 5
"""Small words behind which it is said for whom something is too much, and in how many words at most."""


def past(lx: Sequence[Lexeme], i: int, words: Mapping[str, frozenset[str]], *classes: str) -> int:
    """The first place from i on where no pause and no phrase of these classes stands."""
    while i < len(lx):
        mark = "then" in classes and lx[i].text in PAUSES and not _joins(lx, i)
        count = 1 if mark else phrase_length(lx, i, words, *classes)
        if not count:
            break
        i += count
    return i


def phrase_length(lx: Sequence[Lexeme], i: int, words: Mapping[str, frozenset[str]], *classes: str) -> int:
    """How many lexemes the longest phrase of these classes takes that begins here; 0 where none does."""
    said: list[str] = []
    for one in lx[i : i + _LONGEST]:
        if one.kind != "word":
            break
        said.append(one.word)
    for count in range(len(said), 0, -1):
        if words.get(" ".join(said[:count]), frozenset()) & set(classes):
            return count
    return 0


def pauses_of(lx: Sequence[Lexeme], words: Mapping[str, frozenset[str]]) -> list[Pause]:
    """Every stretch of pauses and words that take back that has something before and behind it."""
    out: list[Pause] = []
    behind = any(phrase_length(lx, k, words, "behind") for k in range(len(lx)))
    i = 0
    while i < len(lx):
        start, plain, soft, mark, no, negating = i, False, False, False, False, False
        while i < len(lx):
            count = phrase_length(lx, i, words, "plain")
            plain = plain or bool(count)
            if not count:
                count = phrase_length(lx, i, words, *(("soft", "aside") if plain or soft else ("soft",)))
                soft = soft or bool(count)
            if not count and (lx[i].kind == "leader" or (lx[i].text in PAUSES and not _joins(lx, i))):
                count, mark = 1, True
            if not count:
                break
            negating = phrase_length(lx, i + count - 1, words, "negating") > 0
            no = no or negating
            i += count
        if start > 0 and i < len(lx) and (plain or soft or (mark and behind)):
            out.append(Pause(start, i, plain or (mark and no), soft and (mark or negating), negating))
        i = max(i, start + 1)
    return out


def _joins(lx: Sequence[Lexeme], i: int) -> bool:
    """Whether a mark belongs to what stands beside it: the hyphen of "20-24"."""
    return lx[i].glued and i + 1 < len(lx) and lx[i + 1].glued and lx[i].text in "-/:"
