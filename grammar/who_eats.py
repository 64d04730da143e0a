"""Whether a line asks if somebody may eat something, and how old that somebody is said to be.

Put together of small words (`knowledge/words/speech.yaml`): "can" with one who eats and a verb of eating ("can she get
a bit"), or what suits with whom ("are these ok for him"). It does not matter what is eaten nor why one might not.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from grammar.clause_begins import turned, words_of
from grammar.lexicon import Lexicon
from grammar.tokens import Token

_FAR = 5
"""Words there may be between "can", who eats and the verb."""
_PEOPLE = frozenset({("filler", "people"), ("cue", "company"), ("danger", "children")})
_MONTHS = 12.0
_WEEKS_A_MONTH = 52.0 / _MONTHS
_OLDEST_BARE = 12.0
"""Years that a bare number behind a person may be, where somebody is asked for: beyond it no caution is another."""


def may_eat(text: str, lexicon: Lexicon) -> bool:
    """Whether it is asked if somebody may have some of it."""
    words = words_of(text)
    return _may_have(words, lexicon) or _suits(words, text, lexicon)


def _who(word: str, lexicon: Lexicon) -> bool:
    return word in lexicon.small("one_who_eats") or _is_person(word, lexicon)


def _is_person(word: str, lexicon: Lexicon) -> bool:
    kinds = {*lexicon.phrases.get(word, ()), *lexicon.phrases.get(word.removesuffix("s"), ())}
    return not _PEOPLE.isdisjoint(kinds) or any(kind in ("person", "diet") for kind, _ in kinds)


def _may_have(words: Sequence[str], lexicon: Lexicon) -> bool:
    """ "could the wee one have", "can i give her"."""
    small = lexicon.small
    for n, word in enumerate(words):
        if word not in small("may"):
            continue
        near = words[n + 1 : n + 3 + _FAR]
        eats = next((m for m, one in enumerate(near) if one in small("eats")), None)
        given = next((m for m, one in enumerate(near) if one in small("is_given")), None)
        if eats and any(_who(one, lexicon) for one in near[:eats]):
            return True
        if given is not None and any(_who(one, lexicon) for one in near[given + 1 :]):
            return True
    return False


def _suits(words: Sequence[str], text: str, lexicon: Lexicon) -> bool:
    """ "are these ok for her", "he's 5 months old, suitable?"."""
    small = lexicon.small
    for n, word in enumerate(words):
        if word in small("suits") and not small("suits_whom").isdisjoint(words[n + 1 : n + 2]):
            if any(_who(one, lexicon) for one in words[n + 2 : n + 2 + _FAR]):
                return True
            if words[n + 1] == "with" and any(_who(one, lexicon) for one in words[max(0, n - 2) : n]):
                return True
    asks = bool(words) and (text.rstrip().endswith("?") or turned(text, lexicon))
    return asks and words[-1] in small("suits") and any(_is_person(one, lexicon) for one in words)


def age_months(tokens: Sequence[Token], lexicon: Lexicon) -> float | None:
    """The age said of somebody, in months: "8 months", "14 months old", "a 2 year old", "she's nearly 1"."""
    small = lexicon.small
    for token, following in pairwise((*tokens, Token("MARK", "", 0, 0))):
        quantity = token.quantity
        if quantity is None or token.kind != "NUM":
            continue
        units = words_of(following.text)
        if not small("in_months").isdisjoint(units[:1]):
            return quantity.value
        if not small("in_weeks").isdisjoint(units[:1]):
            return quantity.value / _WEEKS_A_MONTH
        if units[:1] and units[0].startswith(("year", "yr")):
            return quantity.value * _MONTHS
    return _bare_years(tokens, lexicon)


def _bare_years(tokens: Sequence[Token], lexicon: Lexicon) -> float | None:
    """A bare number said of a person right before it, in years; a month short where it is not reached yet."""
    for n, token in enumerate(tokens):
        quantity = token.quantity
        behind = tokens[n + 1 : n + 2]
        if quantity is None or token.kind != "NUM" or token.text.isalpha():
            continue
        if quantity.value <= _OLDEST_BARE and all(one.kind in ("MARK", "LINK") for one in behind):
            before = [word for one in tokens[max(0, n - 3) : n] for word in words_of(one.text.replace("'s", " s"))]
            told = [word for word in before if word not in lexicon.small("so_old")]
            if len(told) < len(before) and told and _is_person(told[-1], lexicon):
                short = not lexicon.small("not_yet_so_old").isdisjoint(before)
                return quantity.value * _MONTHS - short
    return None
