"""Whether two values of a line are of one sort, so that one may stand in the place of the other."""

from __future__ import annotations

from collections.abc import Sequence
from math import log

from grammar.lexicon import Lexicon
from grammar.tokens import Token

_BACK = 10
"""So many tokens before the pause the earlier value may stand."""
_ALIKE = 3.0
"""Two values are of one sort only if neither is more than this many times the other."""
_MEASURED_OTHERWISE = 0.5
"""How unlike a weight and a volume of one thing are."""
_STEP = 0.4
"""What each value in between costs, in the logarithm of a ratio: of two alike the nearer is meant."""
_OF_TIME = frozenset({"CLOCK", "DAY", "PART"})
_THINGS = ("ingredient", "bread", "piece", "shape")
_COUNTED = frozenset({"piece", "bread"})


def is_value(token: Token) -> bool:
    """Whether a token is an amount or a part of a moment."""
    return token.quantity is not None or token.kind in _OF_TIME


def noun_behind(tokens: Sequence[Token], k: int) -> int | None:
    """The place of the thing a value is said of, where it stands right behind it ("26 rolls", "400 g of rye")."""
    at = k + 1
    if at < len(tokens) and "of" in tokens[at].ids("link"):
        at += 1
    return at if at < len(tokens) and is_thing(tokens[at]) else None


def fitting(tokens: Sequence[Token], before: Sequence[int], later: int, lexicon: Lexicon) -> int | None:
    """Of the tokens before a pause, the one that the token behind it stands in the place of; None if none does."""
    new = tokens[later]
    if not is_value(new):
        last = before[-1] if before else None
        return last if last is not None and is_thing(new) and _same_thing(tokens[last], new, lexicon) else None
    best: tuple[float, int] | None = None
    for steps, k in enumerate(reversed([k for k in before[-_BACK:] if is_value(tokens[k])])):
        away = _away(tokens, k, later, lexicon)
        if away is not None and (best is None or away + _STEP * steps < best[0]):
            best = (away + _STEP * steps, k)
    return best[1] if best else None


def _away(tokens: Sequence[Token], k: int, later: int, lexicon: Lexicon) -> float | None:
    """How unlike two values are, 0 for alike; None where they are of different sorts."""
    old, new = tokens[k], tokens[later]
    if new.kind in _OF_TIME or old.kind in _OF_TIME:
        led = old.kind == "NUM" and new.kind == "CLOCK" and k > 0 and bool(tokens[k - 1].ids("link"))
        return 0.0 if old.kind == new.kind or led else None
    if old.quantity is None or new.quantity is None or isinstance(old.value, tuple) != isinstance(new.value, tuple):
        return None
    mine, theirs = _nouns(tokens, later, behind_only=True), _nouns(tokens, k)
    same = any(_same_thing(one, other, lexicon) for one in mine for other in theirs)
    if mine and theirs and not same:
        return None
    if {old.kind, new.kind} == {"MASS", "VOLUME"} and (same or not (mine and theirs)):
        return _MEASURED_OTHERWISE  # "two spoons, no, 30 g caraway"
    if old.kind != new.kind and "NUM" not in (old.kind, new.kind):
        return None
    parts = [one.quantity.value * 100 for one in (old, new) if one.quantity is not None and one.quantity.fraction]
    shares = [one.quantity.value for one in (old, new) if one.quantity is not None and one.kind == "PCT"]
    if len(parts) == len(shares) == 1:
        return abs(log(parts[0] / shares[0])) if parts[0] > 0 and shares[0] > 0 else None  # "a quarter" is "25 %"
    counted = any(is_counted(one) for one in (mine if new.kind == "NUM" else theirs))
    if old.kind != new.kind and counted:
        return None  # "30 rolls, sorry, 80 g": a count is no mass
    bare = old.kind != new.kind
    a, b = (old.quantity.value, new.quantity.value) if bare else (old.quantity.base, new.quantity.base)
    if a <= 0 or b <= 0:
        return None
    apart = abs(log(b / a))
    return apart if apart <= log(_ALIKE) + 1e-9 or (same and not bare) else None


def _nouns(tokens: Sequence[Token], k: int, behind_only: bool = False) -> list[Token]:
    behind = noun_behind(tokens, k)
    out = [tokens[behind]] if behind is not None else []
    if behind is not None and behind + 1 < len(tokens) and tokens[behind + 1].quantity and not is_counted(out[0]):
        out = []  # "500 flour 300 water" or "flour 500 water 300": it may be the next figure's
    if not behind_only and k > 0:
        at = k - 2 if tokens[k - 1].kind == "LINK" else k - 1
        out += [tokens[at]] if at >= 0 and is_thing(tokens[at]) else []
    return out


def is_thing(token: Token) -> bool:
    """Whether a word names what a figure may be said of."""
    return token.kind == "TERM" and (any(token.ids(kind) for kind in _THINGS) or is_counted(token))


def is_counted(token: Token) -> bool:
    """Whether a word is of what is counted, not weighed."""
    return any(token.ids(kind) for kind in _COUNTED) or "tin" in token.ids("cue")


def _same_thing(one: Token, other: Token, lexicon: Lexicon) -> bool:
    """Whether two words name the same, or things that are taken for each other: two breads, two flours."""
    if set(one.terms) & set(other.terms) or (is_counted(one) and is_counted(other)):
        return True
    groups = [{lexicon.groups.get(id, id) for id in token.ids("ingredient")} for token in (one, other)]
    return bool(groups[0] & groups[1])
