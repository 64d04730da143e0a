"""How a clause begins: with a question how something is or whether it may be, with a verb that bids, or with neither.

One account for all who ask. The small words that decide it are classes of `knowledge/words/speech.yaml`; before them
may stand words that lead in ("ok so"). `HOW_IT_IS` asks how something is, `IN_GENERAL` whether it is so of any such
thing; `TURNED` may be either.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from grammar.lexicon import Lexicon, fold

if TYPE_CHECKING:
    from grammar.frames import Line

INVERTED = ("is", "was", "has")
HOW_IT_IS = (*INVERTED, "is_not", "was_not", "does", "did", "asks_how_it_is")
WHETHER = ("is", "is_not", "does", "did", "do", "may", "asks_whether")
IN_GENERAL = ("is", "does", "do", "may")
TURNED = ("is", "was", "does", "did", "do", "may")
SUBJECT = ("doer", "pointing", "it", "anyone")
POINTED = ("owner", "pointing", "it", "doer", "mine")
"""What says that a thing is one here, and no thing of the trade in general."""
_SMALL = ("doer", "you", "it", "it_is", "pointing", "article", "owner")
"""Words behind which a verb tells and does not ask, though they say nothing by themselves."""
_DONE_TO = ("owner", "article", "pointing", "it", "object")
_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*")
_VERB_AND_THING = 2
_CLAUSE = re.compile(r"[.,;:!?–—-]+\s+")


def words_of(text: str) -> list[str]:
    """The words of a text, folded."""
    return [fold(found.group()) for found in _WORD.finditer(text)]


def led_in(words: Sequence[str], lexicon: Lexicon, *leads: str) -> Sequence[str]:
    """The words of a clause from where it begins to say something."""
    passed = lexicon.small("lead", *leads)
    return words[next((n for n, word in enumerate(words) if word not in passed), len(words)) :]


def begins(words: Sequence[str], lexicon: Lexicon, *classes: str) -> bool:
    """Whether the first word is one of these classes."""
    return not lexicon.small(*classes).isdisjoint(words[:1])


def asks_or_bids(text: str, lexicon: Lexicon) -> bool:
    """Whether a line begins as a question whether something may be done, or with a verb that bids: it tells nothing."""
    head = led_in(words_of(text), lexicon)[:2]
    if len(head) < _VERB_AND_THING:
        return False
    acted = begins(head[1:], lexicon, "doer", "it", "anyone")
    bids = begins(head, lexicon, "bids_first", "bids_either") and not acted
    return bids or (begins(head, lexicon, "may") and (acted or begins(head[1:], lexicon, "pointing")))


def turned(text: str, lexicon: Lexicon) -> bool:
    """Whether a line turns to a question anywhere ("will it fit"), or begins with one of a thing that is here."""
    words = words_of(text)
    who = lexicon.small("doer", "pointing", "it")
    if any(one in lexicon.small("may") and next_one in who for one, next_one in pairwise(words)):
        return True
    said = led_in(words, lexicon, "lead_joining")
    here = begins(said[1:], lexicon, *POINTED, "article") or begins(said[2:], lexicon, "place_before")
    return here and begins(said, lexicon, *TURNED)


def asked_in_general(words: Sequence[str], lexicon: Lexicon) -> int | None:
    """The place of the word behind the opening of a question about no thing that is here; None where it is no such
    question."""
    said = led_in(words, lexicon, "lead_joining")
    if not begins(said, lexicon, *IN_GENERAL) or not lexicon.small(*POINTED).isdisjoint(words):
        return None
    return len(words) - len(said) + 1 + begins(said[1:], lexicon, "article")


def asks(line: Line) -> bool:
    """Whether a line is a question, or says that somebody wonders."""
    lexicon = line.lexicon
    if line.text.rstrip().endswith("?") or any(phrase.ids("ask") for phrase in line.phrases):
        return not _bids(words_of(line.text), lexicon)
    harmless = {word for token in line.tokens if token.kind == "FILL" for word in fold(token.text).split()}
    passed = (harmless | lexicon.small("lead", "lead_joining")) - lexicon.small(*_SMALL)
    for words in map(words_of, _CLAUSE.split(line.text)):
        said = [word for word in words if word in lexicon.small(*WHETHER) or word not in passed]
        opened = begins(said, lexicon, *WHETHER) and not _bids(words, lexicon)
        if opened or not lexicon.small("asks_anywhere").isdisjoint(words):
            return True
    return False


def _bids(words: Sequence[str], lexicon: Lexicon) -> bool:
    """Whether a clause bids what is to be done, and does not ask it."""
    does = begins(words, lexicon, "do") and begins(words[1:], lexicon, *_DONE_TO)
    return does or begins(words, lexicon, "bids_plain", "bids_either")
