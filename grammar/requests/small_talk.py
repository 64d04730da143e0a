"""Small talk and what is not ours: heard only where nothing of the trade is said with it."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.frames import Bound, Frame, Line, Own, fits
from grammar.lexicon import fold

_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*", re.UNICODE)
_LONGEST = 5
_HEARD = 6.0
_OF_THE_TRADE = frozenset(
    {"ingredient", "bread", "piece", "step", "stage", "topic", "preferment", "bath", "topping", "yeast", "diet"}
)
"""Kinds of words that make a line more than talk."""
_SOMEWHERE = ("cue:place", "cue:kitchen")
"""Words for where the dough stands."""
_BIDDING = (
    "act:undo", "act:change", "act:show", "act:put_back", "act:double", "act:triple", "act:halve", "act:half_again",
    "act:scale",
)  # fmt: skip
"""Words that bid something be done, which is then the point of the line."""


@dataclass(frozen=True, slots=True)
class SmallTalkRequest:
    """what is the weather like
    thank you so much

    about: ids of what was said, in the order said.
    """

    about: tuple[str, ...] = ()


def _reads(line: Line) -> Own | None:
    told = {kind for phrase in line.phrases for kind, _ in phrase.terms}
    of_the_trade = bool(told & _OF_THE_TRADE) and not _of_bread(line)
    hour = any(p.window is not None or (p.moment is not None and p.moment.has_hour) for p in line.phrases)
    if of_the_trade or hour or any(p.quantity is not None for p in line.phrases):
        return None
    if any(fits(phrase, _BIDDING) for phrase in line.phrases):
        return None  # "thank you, but put that back to where it was"
    if any(fits(phrase, _SOMEWHERE) for phrase in line.phrases):
        return None  # "no sorry, the pantry": of what was asked before
    about = _said(line)
    if about == ("thanks",) and any(
        p.kind == "label" and not fits(p, ("filler:*", "cue:company")) for p in line.phrases
    ):
        return None  # "without counting it, cheers"
    return Own(SmallTalkRequest(about), _HEARD) if about else None


def _of_bread(line: Line) -> bool:
    """Whether it is small talk that names a bread ("best loaf yet", "do you like rye"); a praise asks nothing."""
    sorts = {line.lexicon.small_talk_of_bread.get(one) for one in _said(line)}
    return "asked" in sorts or ("told" in sorts and "?" not in line.text)


def _said(line: Line) -> tuple[str, ...]:
    words = [part for match in _WORD.finditer(line.text) for part in fold(match.group()).split()]
    found: list[str] = []
    at = 0
    while at < len(words):
        for count in range(min(_LONGEST, len(words) - at), 0, -1):
            name = line.lexicon.small_talk.get(" ".join(words[at : at + count]))
            if name is not None:
                found.append(name)
                at += count - 1
                break
        at += 1
    return tuple(dict.fromkeys(found))


def _never(bound: Bound) -> None:
    """Small talk is heard in the whole line, not by slots."""


FRAME = Frame(SmallTalkRequest, "help", _never, reads=_reads, needs=("slot:none",))
