"""A question about a thing of the trade: which thing, and what is asked of it (what, why, whether needed, X or Y).

Things and shapes of question are two tables; every thing can be asked in every shape.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from grammar.lexicon import Lexicon, Term, fold

_WORD = re.compile(r"\d+(?:[.,]\d+)?|[^\W_]+(?:['’][^\W_]+)*|[;.!?,:()%]", re.UNICODE)
_MARKS = frozenset(";.!?,:()%")
LONGEST = 6
"""Words of the longest name or turn."""


@dataclass(frozen=True, slots=True)
class Named:
    """A thing named: its first and last word, what it can be, whether it is said to be the
    baker's own, or "the", and the words said beside it that make it what it is."""

    first: int
    last: int
    terms: tuple[Term, ...]
    own: bool
    the: bool = False
    beside: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Question:
    """What is asked. shape: of the table; named: the things it is asked of, in the order said; direct: whether they
    stand together; rest: words of the line that neither name nor ask; typed: the words of the names;
    turn: its words; long: more is said than the name;
    start, end: characters from the turn of the question to the thing, or the other way round."""

    shape: str
    named: tuple[Named, ...]
    direct: bool
    rest: tuple[str, ...]
    typed: tuple[str, ...]
    start: int
    end: int
    turn: str = ""
    long: bool = False


def question_in(text: str, lexicon: Lexicon) -> Question | None:
    """The question a line asks about a thing of the trade; None where it names none."""
    words, marks, places = _words(text)
    named = tuple(_names(words, marks, lexicon))
    small = lexicon.small("question_small")
    if not named:
        return None
    best: tuple[float, str, tuple[Named, ...], int, int] | None = None
    for first, last, shape, before in _turns(words, lexicon):
        for one in named:
            if one.first <= last and first <= one.last:
                continue
            closing = last + 1 == len(words) or last + 1 in marks
            closing = closing or (shape == "need" and words[last + 1] in lexicon.small("needed_where"))
            if not before and first == last and shape != "difference" and not closing:
                continue  # "when i used it" asks nothing
            gap = words[last + 1 : one.first] if before else words[one.last + 1 : first]
            if (before and one.first < last) or (not before and one.last > first):
                continue
            loose = [word for word in gap if word not in small and word not in one.beside]
            crossed = sum(n in marks for n in _between(one, first, last, before))
            score = (
                3.0 - len(loose) - 0.15 * len(gap) - 0.4 * crossed + 0.6 * (last - first) + 0.5 * (one.last - one.first)
            )
            score += 0.3 * (one.terms[0][0] == "topic") + 0.6 * (shape == "why" and bool(one.beside))
            if shape == "difference" and len(named) < 2 and (last == first):
                continue
            score += 1.5 if shape == "weight" or (shape == "difference" and len(named) > 1) else 0.0
            if best is None or score > best[0]:
                best = (score, shape, (one,), first, last)
    if best is None:
        used = {n for one in named for n in range(one.first, one.last + 1)}
        rest = tuple(word for n, word in enumerate(words) if n not in used and word not in small)
        one = named[0]
        alone = not rest and len(named) == 1
        shape = "what" if alone and text.rstrip().endswith((":", "?")) else ""
        start, end = places[one.first][0], places[one.last][1]
        return Question(
            shape, (one,), alone, rest, _typed((one,), words), start, end, "", len(words) > one.last - one.first + 2
        )
    score, shape, told, first, last = best
    if shape == "difference":
        told = named[:2]
    beside = frozenset(word for one in told for word in one.beside)
    used = {n for one in named for n in range(one.first, one.last + 1)} | set(range(first, last + 1))
    used |= {n for n, word in enumerate(words) if word in beside}
    rest = tuple(word for n, word in enumerate(words) if n not in used and word not in small)
    ends = [n for one in told for n in (one.first, one.last)] + [first, last]
    start, end = places[min(ends)][0], places[max(ends)][1]
    return Question(shape, told, score >= 2.2, rest, _typed(told, words), start, end, " ".join(words[first : last + 1]))


def _typed(named: Sequence[Named], words: Sequence[str]) -> tuple[str, ...]:
    return tuple(word for one in named for word in words[one.first : one.last + 1])


def _between(one: Named, first: int, last: int, before: bool) -> range:
    return range(last + 1, one.first + 1) if before else range(one.last + 1, first + 1)


_SWORN = re.compile(
    r"\b(what|why|how)((?:'?s)?) "
    r"(?:(?:in (?:the )?(?:name of (?:all (?:thats |that's |that is )?)?\w+|\w+'?s name|hell|blazes|world))"
    r"|on (?:gods )?earth"
    r"|the (?:hell|heck|devil|blazes|deuce|flip|dickens))\b", re.I
)
"""Oaths inside a question, left out of it."""


_IN_LAW = re.compile(r"\b\w+[- ]in[- ]laws?\b", re.I)
"""A relation by marriage, whose first word is no starter."""


_INDIRECT = re.compile(
    r"\bwhat ((?:(?:a|an|the) )?(?!(?:is|are|a|an|the|it|this|that|they|i|you|we) )[a-z'’-]+(?: [a-z'’-]+)?) "
    r"(is|are|was|means|mean)(?= then\b| please\b| exactly\b|\W*$)", re.I
)
"""What a thing is, asked within another clause ("tell me what gluten is"): the same as asked outright."""


def _words(text: str) -> tuple[list[str], frozenset[int], list[tuple[int, int]]]:
    """Folded words, those before which a mark stands, and where each stands in the text."""
    words: list[str] = []
    places: list[tuple[int, int]] = []
    marks: set[int] = set()
    text = _INDIRECT.sub(lambda hit: f"what {hit[2]} {hit[1]}", text)
    text = _IN_LAW.sub(lambda hit: "someone".ljust(len(hit.group())), text)
    text = _SWORN.sub(lambda hit: f"{hit[1]}{hit[2]}".ljust(len(hit.group())), text)
    for match in _WORD.finditer(text):
        if match.group() in _MARKS:
            marks.add(len(words))
        else:
            found = fold(match.group()).split()
            words.extend(found)
            places.extend([match.span()] * len(found))
    return words, frozenset(marks), places


def _names(words: Sequence[str], marks: frozenset[int], lexicon: Lexicon) -> Iterator[Named]:
    """Things named, the longest at each place."""
    at = 0
    while at < len(words):
        for count in range(min(LONGEST, len(words) - at), 0, -1):
            terms, beside = _meant(" ".join(words[at : at + count]), _stretch(words, marks, at), lexicon)
            if terms:
                before = words[at - 1] if at else ""
                yield Named(at, at + count - 1, terms, before in lexicon.small("own"), before == "the", beside)
                at += count
                break
        else:
            at += 1


def _stretch(words: Sequence[str], marks: frozenset[int], at: int) -> frozenset[str]:
    """The words of the stretch between two marks that a place lies in."""
    start = max((n for n in marks if n <= at), default=0)
    return frozenset(words[start : min((n for n in marks if n > at), default=len(words))])


def _meant(name: str, words: frozenset[str], lexicon: Lexicon) -> tuple[tuple[Term, ...], frozenset[str]]:
    """What a name can be in this line, topics first that need a word beside it and have one; and those words."""
    general = lexicon.subjects.get(name, ())
    of_bread = lexicon.beside.get("bread", ()) if any(kind == "bread" for kind, _ in general) else ()
    pairs = sorted((*lexicon.beside.get(name, ()), *of_bread), key=lambda pair: (-len(pair[1] & words), len(pair[1])))
    special = [(("topic", id), needed & words) for id, needed in pairs if needed & words]
    terms = (*(term for term, _ in special), *general)
    return tuple(dict.fromkeys(terms)), frozenset(word for _, beside in special for word in beside)


def _turns(words: Sequence[str], lexicon: Lexicon) -> Iterator[tuple[int, int, str, bool]]:
    """(first, last, shape, whether the thing follows) of every turn of a question."""
    for at in range(len(words)):
        for count in range(1, min(LONGEST, len(words) - at) + 1):
            for shape, before in lexicon.shapes.get(" ".join(words[at : at + count]), ()):
                yield at, at + count - 1, shape, before
