"""Which single words of a line are known, and what an unknown one is a slip of."""

from __future__ import annotations

import re
from functools import lru_cache

from grammar import days, number_words
from grammar.lexicon import Lexicon, fold
from grammar.moments import PART_WORDS
from grammar.slips import repair

_OWN = frozenset(
    {"cent", "kelvin", "kelvins", "deg", "degree", "degrees", "oclock", "o'clock", "past", "am", "pm", "ish"}
)
"""Words the scanner reads itself."""
_NUMBERS = frozenset({*number_words.ONES, *number_words.TENS, *number_words.PARTS, *number_words.DOZEN})
_READ_HERE = frozenset({*_OWN, *_NUMBERS, *days.WEEKDAYS, *days.MONTHS, *PART_WORDS})
_SHORT_DAY = 4
"""Letters of the name of a day that is too near to other words."""


def whole_ing(word: str, lexicon: Lexicon) -> str:
    """A word said with its last g dropped ("makin", "kneadin") in full, where only the full one is known."""
    if len(word) < 4 or not word.endswith("in") or known(word, lexicon):
        return word
    return word + "g" if known(word + "g", lexicon) else word


_SHORT_VERBS = ("'s", "'re", "'ve", "'ll", "'d")
"""Small verbs that lean on the word before them ("when's", "how long's"); alone they mean nothing to a request."""


def uncontracted(typed: str, lexicon: Lexicon) -> str:
    """A word folded; one that is known only without the verb or the 's that leans on it, without that."""
    word = fold(typed)
    if "'" not in typed:
        return word
    front = next((typed[: -len(end)] for end in _SHORT_VERBS if typed.lower().endswith(end)), "")
    many, one = lexicon.phrases.get(word, ()), lexicon.phrases.get(fold(front), ())
    if many and set(many) <= set(one) and not {kind for kind, _ in many} & {"ask", "act", "filler", "link"}:
        return fold(front)  # "salt's": no plural
    if many or (not one and (word in lexicon.words or word in lexicon.units)):
        return word
    return fold(front) if front and known(fold(front), lexicon) else word


def known(word: str, lexicon: Lexicon) -> bool:
    """Whether anybody knows a word, so that it is no slip."""
    tables = (lexicon.phrases, lexicon.words, lexicon.units, lexicon.common, _READ_HERE)
    return any(word in table for table in tables) or bool(lexicon.letter(word))


_DRAWN_OUT = re.compile(r"(.)\1\1+")


def slip_of(word: str, lexicon: Lexicon) -> str | None:
    """The word that an unknown one is a slip of; None where it is known, or like none."""
    if word in lexicon.slips:
        return lexicon.slips[word]
    if not word.isalpha() or known(word, lexicon):
        return None
    for once in (r"\1\1", r"\1"):  # drawn out: "sooo", "aaand"
        said = _DRAWN_OUT.sub(once, word)
        if said != word and known(said, lexicon):
            return said
    return repair(word, _targets(lexicon))


@lru_cache(maxsize=2)
def _targets(lexicon: Lexicon) -> frozenset[str]:
    """The words a slip may be taken for. None is a number in words: it would make an amount nobody said."""
    days_said = {day for day in (*days.WEEKDAYS, *PART_WORDS, "tomorrow", "today") if len(day) > _SHORT_DAY}
    return frozenset((lexicon.words | days_said) - _NUMBERS)
