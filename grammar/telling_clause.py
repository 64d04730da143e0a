"""Which clauses of a line only tell how something is, or ask it: such a clause changes no dough.

"They look grey", "the oven's only got one tray", "gran says half the salt" and "is 80 g big" bid nothing; "70 g", "no
malt then", "make them smaller" and "i want 30" may. What small words do stands in `knowledge/words/speech.yaml`; behind
any other noun only a verb of being, having, seeming or holding makes a clause that tells.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from grammar.clause_begins import HOW_IT_IS, INVERTED, SUBJECT, begins, led_in
from grammar.lexicon import Lexicon, fold

_MARKS = r"(?<!\d)[,;:.!?()\n]+|[,;:.!?()\n]+(?!\d)|\s[-–—]\s"
_WORD = re.compile(r"[^\W_]+(?:'[^\W_]+)*")
_IS = ("is", "was", "is_not", "was_not", "appears", "stands")
_NAME = 3
"""Words of the name of a subject: "the shed fridge"."""

SO, PAST, HEARSAY, ASKED = "so", "past", "hearsay", "asked"


@dataclass(frozen=True, slots=True)
class Clause:
    """A clause that bids nothing. start, end: its first character and the one behind its last.

    mood: how it is (so), how it was (past), what another says (hearsay), or a question how it is (asked).
    """

    start: int
    end: int
    mood: str


@lru_cache(maxsize=64)
def telling_clauses(text: str, lexicon: Lexicon) -> tuple[Clause, ...]:
    """The clauses of a line that only tell or ask how something is, in order."""
    out, start, last = [], 0, 0
    cuts = _cuts(lexicon).finditer(text.lower())
    for end, following in [*((found.start(), found.end()) for found in cuts), (len(text), len(text))]:
        words = _words(text[start:end], lexicon)
        mood = _mood(words, lexicon)
        if len(words) == 2 and mood == SO and begins(words, lexicon, "tag"):
            start = last  # what is hung on behind a pause belongs to the clause before it
        if mood is not None:
            out.append(Clause(start, end, mood))
        last, start = start, following
    return tuple(out)


def only_tells(text: str, lexicon: Lexicon) -> bool:
    """Whether every clause of a text says how something is."""
    parts = [words for part in _cuts(lexicon).split(text.lower()) if (words := _words(part, lexicon))]
    return bool(parts) and all(_mood(words, lexicon) == SO for words in parts)


@lru_cache(maxsize=4)
def _cuts(lexicon: Lexicon) -> re.Pattern[str]:
    """Where a clause ends."""
    breaks = lexicon.small("breaks")
    return re.compile(rf"{_MARKS}|\b(?:{'|'.join(sorted(breaks))})\b" if breaks else _MARKS)


def _words(text: str, lexicon: Lexicon) -> Sequence[str]:
    """The words of a clause from where it begins to say something: folded, but for a noun that an "is" leans on."""
    words = (found.group() for found in _WORD.finditer(text.lower().replace("’", "'")))
    leaning = lexicon.small("leaning")
    said = [word if word.partition("'")[2] in leaning else fold(word) for word in words]
    return led_in(said, lexicon)


def _mood(words: Sequence[str], lexicon: Lexicon) -> str | None:
    """The mood of a clause that tells or asks how something is; None for any other."""
    said = " ".join(words[:4])
    if begins(words[-2:-1], lexicon, "tag") and begins(words[-1:], lexicon, *SUBJECT):
        return SO
    if said.startswith(tuple(lexicon.small("corrects"))):
        return None
    able = begins(words, lexicon, "may") and begins(words[1:], lexicon, "doer") and len(words) > _SHORT
    able = able and not begins(words[2:], lexicon, "wishes", "asks_for")
    if able or begins(words, lexicon, *HOW_IT_IS) or said in lexicon.small("asks_again"):
        return ASKED
    own = lexicon.small("teller")
    if any(word in lexicon.small("says") and own.isdisjoint(words[max(i - 1, 0) : i]) for i, word in enumerate(words)):
        return HEARSAY
    if not _tells(words, lexicon):
        return None
    return SO if lexicon.small("past").isdisjoint(words) else PAST


def _tells(words: Sequence[str], lexicon: Lexicon) -> bool:
    small = lexicon.small
    for i, word in enumerate(words):
        verb = next((one for one in words[i + 1 :] if one not in small("between")), "")
        acts = verb.isalpha() and verb not in small("wishes")
        if _is_leaning(word, lexicon):
            return verb not in small("about_to", "wishes")
        if word in small("doer_done") or (i == 0 and word.endswith("'s") and verb in small(*_IS)):
            return True
        if word in small(*SUBJECT) and acts and _is_subject(words, i, lexicon):
            return True
        if word in small("owner") and not small(*_IS).isdisjoint(words[i + 2 : i + 2 + _NAME]):
            return True
        if word in small("wishes"):
            return False
    return _is_named(words, lexicon)


def _is_named(words: Sequence[str], lexicon: Lexicon) -> bool:
    """Whether a clause begins with the name of a thing or of somebody and a verb of being."""
    if begins(words, lexicon, *_NO_NAME):
        return False
    name = words[begins(words, lexicon, "owner", "article") :]
    how = name[1:2] if name and name[0].partition("'")[2] in lexicon.small("leaning") else ()
    is_so = any(len(name) == _SHORT or one.endswith("ing") or lexicon.letter(one) in _HOW for one in how)
    return is_so or not lexicon.small(*INVERTED, *_IS).isdisjoint(name[1 : 1 + _NAME])


_NO_NAME = (
    "is", "was", "has", "does", "did", "do", "may", "asks_anywhere", "asks_whether", "wishes", "bids_first",
    "bids_either", "bids_plain", "joins", "you",
)  # fmt: skip
"""What no name begins with."""
_SHORT = 2
_HOW = frozenset("jr")
"""The letters of words for how something is: adjectives and adverbs."""


def _is_leaning(word: str, lexicon: Lexicon) -> bool:
    """Whether a pronoun has its verb of being leaning on it."""
    front, mark, _ = word.partition("'")
    return word in lexicon.small("it_is") or (bool(mark) and front in lexicon.small(*SUBJECT))


def _is_subject(words: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """Whether a pronoun does something: behind a verb it is asked ("can i") or has something done to it ("bump those
    up")."""
    pointing = words[at] in lexicon.small("pointing")
    if at == 0 or begins(words[at - 1 :], lexicon, "lead", "joins"):
        return not pointing or begins(words[at + 1 :], lexicon, *_IS)
    return words[at] in lexicon.small("doer") and not begins(words[at - 1 :], lexicon, *_IS, "wishes", "between")
