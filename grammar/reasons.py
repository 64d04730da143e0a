"""A change bidden with its reason: "too sweet for us, take the honey out", "salt 26 g then, it tasted of nothing".

The part that bids is read by itself; the part that only tells why changes nothing and counts as read. Only with a dough
in hand, only where the reason holds no figure, and only a part that bids in so many words: "it was dense, 62 %
hydration" tells two facts of one bake.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from grammar.frames import Line, fits
from grammar.lexicon import Lexicon, fold
from grammar.phrases import Phrase
from grammar.telling_clause import only_tells

_BIDS = (
    "act:change", "act:add", "act:back", "act:put_back", "act:double", "act:triple", "act:halve", "act:half_again",
    "act:use", "act:swap", "act:make", "act:leave_out", "cue:lowered", "cue:raised", "cue:limit", "ask:what_if",
)  # fmt: skip
_NO_REASON = ("mistake:poured", "stance:must_not", "cue:missing", "stock:*", "link:if", "ask:*")
"""What makes the other part more than a reason: something done, lacking, supposed or asked."""
_NO_WHY = (*_NO_REASON, "act:*", "cue:fewer", "cue:greater")
"""What makes more than a reason of the part behind "because"."""
_ENDS = ",;.!-"
_LONGEST = 4
_IT = re.compile(r"\b(it|them|that|those)\b", re.IGNORECASE)
_WISHED = re.compile(r"\b(then|please|pls|thanks|instead)\b", re.IGNORECASE)
_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*")


def bidden_parts(line: Line) -> Iterator[str]:
    """The parts of a line that may be what is bidden, likeliest first; none where the rest gives no reason."""
    if not line.context.has_bake or line.text.rstrip().endswith("?") or "\n" in line.text.strip():
        return
    phrases = line.phrases
    for n, phrase in enumerate(phrases):
        before, after = phrases[:n], phrases[n:]
        start = phrase.tokens[0].start
        opens = n > 0 and (phrase.negated or fits(phrase, _BIDS))
        opens = opens or (n > 1 and phrases[n - 1].kind == "sep" and phrases[n - 1].text.strip() in _ENDS)
        if n and _is_figure_alone(after) and (_leads_to(line.text[:start], line.lexicon) or opens):
            yield from _of_what(line.text[start:], line.text[:start], before, line.lexicon)
        head, tail, rest = line.text[:start], line.text[start:], line.text[phrase.tokens[-1].end :]
        if opens:
            cut = not line.lexicon.small("breaks").isdisjoint(_words(head)[-1:])
            yield from _where_the_rest_tells(_Part(after, tail), _Part(before, head, cut), line.lexicon)
        if n and phrase.kind == "sep" and phrase.text.strip() in _ENDS:
            for bid, told in ((before, head), (after[1:], rest)), ((after[1:], rest), (before, head)):
                yield from _where_the_rest_tells(_Part(*bid), _Part(*told, cut=True), line.lexicon)
    for token in line.tokens[1:]:
        if "why" in _reasons(token.text, line.lexicon):
            before = tuple(one for one in phrases if one.tokens[0].start < token.start)
            after = tuple(one for one in phrases if one.tokens[0].start > token.start)
            bids = _bids(before, line.text[: token.start])
            if bids and not any(phrase.kind == "amount" or fits(phrase, _NO_WHY) for phrase in after):
                yield line.text[: token.start]


@dataclass(frozen=True, slots=True)
class _Part:
    """A part of a line. cut: a sign or a word like "so" parts it from the rest."""

    phrases: Sequence[Phrase]
    text: str
    cut: bool = False


def _where_the_rest_tells(bid: _Part, told: _Part, lexicon: Lexicon) -> Iterator[str]:
    """The part that bids, where the other one only gives the reason, tells of people or how something is."""
    bids = _bids(bid.phrases, bid.text)
    if bids and _is_reason(told.phrases, told.text, lexicon):
        yield _with_its_thing(bid.text, told.phrases)
    says = bids or _says_so_much(bid.phrases)
    plainly = told.cut and (bids or _does_once(bid.phrases)) and _only_tells(told, lexicon)
    if plainly or (says and _is_of_people(told.phrases, told.text, bid.phrases, lexicon)):
        yield bid.text


def _only_tells(told: _Part, lexicon: Lexicon) -> bool:
    """Whether a part without a figure says how something is, and nothing else."""
    more = any(phrase.kind == "amount" or fits(phrase, _NO_REASON) for phrase in told.phrases)
    return not more and only_tells(told.text, lexicon)


def _does_once(phrases: Sequence[Phrase]) -> bool:
    """Whether a part makes the whole so many times as much, or leaves a thing out."""
    return any(fits(phrase, _TIMES) for phrase in phrases) or _leaves_out(phrases)


def says_a_total(line: Line) -> bool:
    """Whether a line tells of people who come or stay away and says apart from that, or ends in, how many are needed
    then: "two cannot come, so 34"."""
    last = line.phrases[-1:]
    led = last and _is_figure_alone(last) and _leads_to(line.text[: last[0].tokens[0].start], line.lexicon)
    many = [one for one in line.phrases if one.kind == "amount"]
    ends = [0, *(one.tokens[0].start for one in line.phrases if one.kind == "sep"), len(line.text)]
    told = [
        (start, end) for start, end in pairwise(ends)
        if _of_how_many_come([one for one in line.phrases if start <= one.tokens[0].start < end],
                             _reasons(line.text[start:end], line.lexicon))
    ]  # fmt: skip
    apart = bool(told) and not any(start <= one.tokens[0].start < end for one in many for start, end in told)
    return (apart and bool(many)) or (bool(led) and bool(told))


def _of_how_many_come(phrases: Sequence[Phrase], why: frozenset[str]) -> bool:
    return "absence" in why or any(fits(phrase, ("cue:arriving", "cue:leaving")) for phrase in phrases)


def _is_figure_alone(phrases: Sequence[Phrase]) -> bool:
    """Whether a part is one bare figure and nothing else."""
    said = [phrase for phrase in phrases if phrase.kind in ("amount", "label", "junk")]
    return len(said) == 1 and said[0].kind == "amount" and said[0].dim in ("num", "pct", "share")


def _of_what(figure: str, reason: str, before: Sequence[Phrase], lexicon: Lexicon) -> Iterator[str]:
    """A figure at the end of a reason, with what it is of: "too salty, so 1.6" is of the salt, "three cannot come, so
    only 14" of the pieces."""
    why = _reasons(reason, lexicon)
    told = any(fits(phrase, _NO_REASON) and not fits(phrase, ("mistake:*",)) for phrase in before)
    many = [phrase for phrase in before if phrase.kind == "amount"]
    if _of_how_many_come(before, why) and not told and all(phrase.dim == "num" for phrase in many):
        yield f"only {figure}"
    for row, fault in _ROWS.items():
        if fault in why and not (told or many):
            yield f"{row} {figure}"
    if "amiss" in why and not told and all(phrase.dim == "num" for phrase in many):
        yield figure if _OF_IT.search(figure) else f"no, {figure}"


_ROWS = {"salt": "salty", "water": "wetness"}
"""A row of the dough, and the reason that is a fault of it."""


def _bids(phrases: Sequence[Phrase], text: str) -> bool:
    """Whether a part says what is to be done, and to what: a verb with a figure or a thing, or a thing left out."""
    first = next((phrase for phrase in phrases if phrase.kind != "sep" and not fits(phrase, ("act:correct",))), None)
    if first is None:
        return False
    figures = any(phrase.kind == "amount" for phrase in phrases)
    things = any(phrase.ids("ingredient") or phrase.ids("cue") for phrase in phrases)
    bids = fits(first, ("act:leave_out",)) or (fits(first, _BIDS) and (figures or things))
    return bids or (things and (first.negated or (figures and _WISHED.search(text) is not None)))


def _says_so_much(phrases: Sequence[Phrase]) -> bool:
    """Whether a part holds a figure, or leaves a thing out: what may be bidden, whatever its verb."""
    return any(phrase.kind == "amount" for phrase in phrases) or _does_once(phrases)


def _leaves_out(phrases: Sequence[Phrase]) -> bool:
    return any((phrase.negated and (phrase.ids("ingredient") or phrase.ids("cue"))) or fits(phrase, _OUT)
               for phrase in phrases)


def _is_of_people(phrases: Sequence[Phrase], text: str, bid: Sequence[Phrase], lexicon: Lexicon) -> bool:
    """Whether a part only tells of people: who, how they are, what they have on. bid: the other part; what somebody
    cannot eat is no more than the reason where that is left out in it."""
    allowed = ("stance:must_not", "diet:*") if _leaves_out(bid) else ()
    barred = tuple(one for one in (*_NO_REASON, *_OF_ANOTHER_KIND) if one not in allowed)
    told = [phrase for phrase in phrases if "person" not in _reasons(phrase.text, lexicon)]
    if any(fits(phrase, barred) or (phrase.kind == "amount" and phrase.dim not in _HARMLESS) for phrase in told):
        return False
    why = _reasons(text, lexicon)
    return _NAME.match(text) is not None or bool(_OF_PEOPLE & why) or _of_how_many_come(phrases, why)


_OF_PEOPLE = frozenset({"person", "health", "doings"})
_TIMES = ("act:double", "act:triple", "act:halve", "act:half_again")
_HARMLESS = ("num", "share", "day")
"""Amounts a reason about people may hold: how many or what part of them they are, and a day without an hour."""
_OUT = ("act:leave_out",)
_OF_ANOTHER_KIND = (
    "ingredient:*", "bread:*", "diet:*", "person:baby", "person:pregnant", "person:coeliac", "person:pet",
    "preferment:*", "cue:kitchen", "cue:oven", "symptom:*",
)  # fmt: skip
"""What makes a part about people say more than why: what they eat, a danger, the kitchen."""
_NAME = re.compile(r"\W*[A-Z][a-z]+\b")
_OF_IT = re.compile(r"\bof (?:it|that|them|those)\b", re.IGNORECASE)


def _is_reason(phrases: Sequence[Phrase], text: str, lexicon: Lexicon) -> bool:
    """Whether a part only tells why: a fault or a dislike in it, no figure but what part of them dislikes it, nothing
    done, asked or supposed."""
    if any((phrase.kind == "amount" and phrase.dim != "share") or fits(phrase, _NO_REASON) for phrase in phrases):
        return False
    return bool({"fault", "dislike"} & _reasons(text, lexicon))


def _leads_to(text: str, lexicon: Lexicon) -> bool:
    """Whether a reason ends in words that lead to the figure it is for."""
    words = _words(text)
    return any("leads_to" in _reasons(" ".join(words[-n:]), lexicon, n) for n in range(1, _LONGEST + 1))


def _words(text: str) -> list[str]:
    return [part for match in _WORD.finditer(text) for part in fold(match.group()).split()]


@lru_cache(maxsize=256)
def _reasons(text: str, lexicon: Lexicon, least: int = 1) -> frozenset[str]:
    """What kinds of reason the words of a text give, in stretches of at least so many."""
    words = _words(text)
    stretches = (" ".join(words[i : i + n]) for i in range(len(words)) for n in range(least, _LONGEST + 1))
    return frozenset(id for said in stretches for kind, id in lexicon.asides.get(said, ()) if kind == "reason")


def _with_its_thing(text: str, before: Sequence[Phrase]) -> str:
    """The part that bids with the thing for its "it", where the reason named one: "the egg was old. leave it out"."""
    things = [phrase for phrase in before if phrase.ids("ingredient")]
    return _IT.sub(things[-1].tokens[-1].text, text, count=1) if things and not re.search(r"\d", text) else text
