"""Small talk and what is not ours: heard only where nothing of the trade is said with it."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.clause_begins import asks, asks_or_bids
from grammar.frames import Frame, Line, Own, fits, never_by_slots
from grammar.levels import LIKELY
from grammar.lexicon import Lexicon, fold
from grammar.phrases import Phrase
from grammar.shell import without_shell
from grammar.tokens import Token

_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*", re.UNICODE)
_LONGEST = 5
_HEARD = 6.0
_OF_THE_TRADE = frozenset(
    {"ingredient", "bread", "piece", "step", "stage", "topic", "preferment", "bath", "topping", "yeast", "diet"}
)
"""Kinds of words that make a line more than talk."""
_LIGHT = frozenset(
    {"filler", "away", "link", "ask", "clock", "act", "kept", "shift", "day", "span", "card", "stance", "turn", "past",
     "tail", "bedtime", "person", "eater"}
)  # fmt: skip
"""Kinds of words that plain talk holds as well."""
_PASSING = ("FILL", "MARK", "LINK", "NEG", "DAY", "PART")
"""Kinds of words that say nothing by themselves: a day is but when it was."""
_OF_TIME = ("r", "p")
"""Sorts of English words that tell but how, where or when: adverbs, people, places and times."""
_FOR_WORK = ("ask:how_much", "ask:how_many", "ask:how_long", "ask:when", "ask:can_i", "ask:how_to", "ask:what_if")
"""Words that ask for what is worked out or looked up."""
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
    answers = _SOMEWHERE if line.context.focus not in (None, "help") else ()  # of what was asked before
    about = _said(line)
    elsewhere = about if not line.context.asked and not asks_or_bids(line.text, line.lexicon) else ()
    figures = not any(line.lexicon.small_talk_holds.get(one) == "figures" for one in elsewhere)
    more = any(fits(p, (*_BIDDING, *answers)) or (figures and _a_figure(p)) for p in line.phrases)
    named = any(p.kind == "label" and not fits(p, ("filler:*", "cue:company")) for p in line.phrases)
    asks_nothing = not (of_the_trade or more or (named and about == ("thanks",)))
    bare = without_shell(line)
    opens = bare is not None and not _said(bare)  # "sorry to bother you, ..." only leads to what is asked
    return Own(SmallTalkRequest(about), LIKELY if opens else _HEARD) if about and asks_nothing else None


def _chats(line: Line) -> Own | None:
    """Plain English that names nothing of the trade, holds no figure and asks for nothing that could be reckoned."""
    words = [one for one in line.tokens if one.kind not in _PASSING]
    of_it = not line.lexicon.small("of_the_talk").isdisjoint(fold(line.text).split())
    talks_of_it = of_it and line.context.focus not in (None, "help")
    about = _said(line)
    telling = about or any(one.kind != "TERM" for one in words)
    plain = all(one.kind in ("TERM", "JUNK") and _plain(one, line.lexicon) for one in words)
    if not words or talks_of_it or not (telling and plain) or any(map(_of_work, line.phrases)):
        return None
    return Own(SmallTalkRequest(about or (("not_ours",) if asks(line) else ("chat",))), LIKELY)


def _plain(token: Token, lexicon: Lexicon) -> bool:
    """Whether a word is English and weighs nothing in the trade; a name of somebody is nothing of it either."""
    said = fold(token.text)
    named = token.start > 0 and token.text[:1].isupper()
    if token.kind == "TERM":
        return not {kind for kind, _ in token.terms} - _LIGHT or lexicon.letter(said) in _OF_TIME
    return named or all(
        lexicon.letter(word) in _OF_TIME or (lexicon.letter(word) and word not in lexicon.weighty)
        for word in said.split()
    )


def _a_figure(phrase: Phrase) -> bool:
    """Whether a phrase is an amount or an hour."""
    hour = phrase.window is not None or (phrase.moment is not None and phrase.moment.has_hour)
    return hour or phrase.quantity is not None


def _of_work(phrase: Phrase) -> bool:
    """Whether a phrase is an amount, an hour, or asks for one."""
    return (phrase.kind == "amount" and phrase.text.lower() != "one") or fits(phrase, _FOR_WORK)


def _of_bread(line: Line) -> bool:
    """Whether it is small talk that names a bread ("best loaf yet", "do you like rye"); a praise asks nothing."""
    sorts = {line.lexicon.small_talk_holds.get(one) for one in _said(line)}
    return "bread" in sorts or ("bread_told" in sorts and "?" not in line.text)


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


FRAMES = (
    Frame(SmallTalkRequest, "help", never_by_slots, reads=_reads, needs=("slot:none",)),
    Frame(SmallTalkRequest, "help", never_by_slots, reads=_chats, needs=("slot:none",), last=True),
)
