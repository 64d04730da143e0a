"""What a line says beside the name of a dough, and whether that only points to it."""

from __future__ import annotations

import re

from grammar.lexicon import Lexicon
from grammar.spoken import Spoken, matched, spoken

_IS = re.compile(r"^['’]s ")
"""A verb hung on a name: "the rye's out"."""
_BUT = re.compile(r"^(?:[ ,.;:]*(?:but|only|and|just|then|this time|now|again|please|for me))*[ ,.;:]+", re.I)


def rest_of(said: Spoken, hit: re.Match[str], lexicon: Lexicon) -> str:
    """What is said beside the name of the dough; "" where that only fetches it."""
    before, after = said.typed(0, hit.start()), said.text[said.places[hit.end() - 1] + 1 :]
    if steers(before, lexicon):
        before = ""
    stands = _IS.match(after) is not None and not said.text.rstrip().endswith("?")
    after = _BUT.sub("", f" {_IS.sub('is ' if stands else '', after)}").strip(" ,.!?;:")
    if not before and not stands and steers(after, lexicon):
        return ""
    head, pause, tail = after.partition(",")
    if pause and not before and steers(head, lexicon):
        after = tail.strip()
    after = counted(after, lexicon)
    subject = bool(before) or (_SAYS_HOW.match(after) is not None and not said.text.rstrip().endswith("?"))
    return " ".join(f"{before} {'the dough' if subject else ''} {after}".split())


_POINTS = r"(?:(?:<hand:steer>|<hand:fetch>|<hand:polite>|<hand:again>|<hand:behind_name>)[ ,.:;]*)*"
_COUNTED = (
    rf"{_POINTS}(?P<n>\d+|(?:a |two |three |half a )?dozen)(?: (?:of (?:them|those|these)|pieces))?"
    r"(?:,? (?:<hand:behind_name>|<hand:again>|<hand:polite>|<hand:then>))*"
)
"""A number of pieces, who wants them and when they are for."""
SO_MANY = "make it"


def counted(words: str, lexicon: Lexicon) -> str:
    """Words that only say how many are wanted, and when, as the number of pieces; others as they are."""
    hit = matched(_COUNTED, spoken(words), lexicon)
    return f"{SO_MANY} {hit['n']} pieces" if hit is not None else words


_SAYS_HOW = re.compile(r"(?:is|are|was|were|has|have|had)\b", re.I)
"""How words begin that say how the thing named is: without it they would ask."""


_STEERS = (
    r"(?:(?:<hand:steer>|<hand:fetch>|<hand:polite>|<hand:again>|<hand:the>|<hand:behind_name>)[ ,.:;!?]*)*"
)
_NEXT = re.compile(r"\bwhat(?:s| is|'s|’s)? next\b", re.I)


def steers(words: str, lexicon: Lexicon) -> bool:
    """Whether words do nothing but point to a dough."""
    if _NEXT.search(words):
        return False
    return matched(_STEERS, spoken(words), lexicon) is not None
