"""What is said of one thing by another: "a quarter as much starter as flour", "twice as much white as rye", "from
1 litre to 1.5". Each becomes the share or the rise that it is, so that no topic has to know the turn of speech.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.flour_parts import any_flour, flours_by_parts, is_flour, per_cent
from grammar.tokens import Token

_TIMES = {"double": 2.0, "halve": 0.5, "half_again": 1.5, "triple": 3.0}
"""Words that multiply, by the id they have as an act."""
_NEAR = 4
"""So many words may stand between a multiple and what it multiplies."""
_PARTS = frozenset({"water", "starter", "salt", "flour"})
_SIZES = frozenset({"size", "volume", "height", "big"})
_RISING = frozenset({"dough", "starter", "bulk"})
_WARMER = frozenset({"warmer", "hotter"})


def compared(tokens: Sequence[Token]) -> list[Token]:
    """The tokens with each comparison of two things turned into the shares it makes, and each growth into a rise."""
    out = list(tokens)
    for i in range(len(out)):
        _than_usual(out, i)
        if "as" in out[i].ids("link") or out[i].kind == "VOLUME" or out[i].kind == "LENGTH":
            _share(out, i)
            _rise(out, i)
        elif "scale" in out[i].ids("act"):
            _times_the_size(out, i)
        elif out[i].text.lower() in _WARMER and i:
            _warmer_by_mixing(out, i - 1, i)
        elif out[i].text == "+" and i + 1 < len(out):
            _warmer_by_mixing(out, i + 1, i)
    return flours_by_parts(_wet_doughs(out))


def _wet_doughs(out: list[Token]) -> list[Token]:
    """ "72 % wet" is said of the dough where no starter stands right before it."""
    for i, token in enumerate(out[1:], start=1):
        before = _back(out, i - 2) if i > 1 else None
        of_it = before is not None and "starter" in out[before].ids("cue")
        if token.text.lower() in ("wet", "hydrated") and out[i - 1].kind == "PCT" and not of_it:
            out[i] = replace(token, kind="TERM", terms=(("cue", "hydration"),))
    return out


def _than_usual(out: list[Token], i: int) -> None:
    """ "less salt than usual, 1.7": the figure behind says how much, so what it is measured against says no more."""
    ahead = [token for token in out[i + 1 : i + 5] if token.kind not in ("MARK", "FILL")]
    if len(ahead) < 2 or "than" not in out[i].ids("link") or "usual" not in ahead[0].ids("cue"):
        return
    behind = out[out.index(ahead[1]) + 1 : out.index(ahead[1]) + 2]
    thing = _back(out, i - 1)
    alone = not behind or behind[0].kind == "MARK"
    clause = max((k + 1 for k in range(i) if out[k].kind == "MARK"), default=0)
    measured = any(token.quantity is not None for token in out[max(clause, i - _NEAR) : i])
    if ahead[1].kind in ("NUM", "PCT") and alone and not measured and thing is not None and _is_thing(out[thing]):
        for k in (i, out.index(ahead[0])):
            out[k] = replace(out[k], kind="FILL", terms=())


def _share(out: list[Token], i: int) -> None:
    """ "a quarter as much starter as flour": the second "as" stands at i, what is compared on either side of it."""
    after = _next(out, i + 1)
    before = _back(out, i - 1)
    if after is None or before is None or not (_is_thing(out[after]) and _is_thing(out[before])):
        return
    found = _multiple(out, before)
    if found is None:
        return
    at, times = found
    mine, theirs = out[before], out[after]
    if is_flour(theirs) and is_flour(mine):
        if any_flour(theirs) or any_flour(mine):
            return
        share, rest = 100 * times / (1 + times), 100 / (1 + times)
        out[i] = per_cent(out[i], rest)
    elif any_flour(theirs):
        share = 100 * times
        for k in range(i, after + 1):
            out[k] = replace(out[k], kind="FILL", terms=())
    else:
        return
    out[at] = per_cent(out[at], share)
    for k in range(at + 1, before):
        out[k] = replace(out[k], kind="FILL", terms=(), quantity=None)


def _multiple(out: Sequence[Token], thing: int) -> tuple[int, float] | None:
    """How many times as much is said before a thing, and where: "half as much", "three times as much", "as much"."""
    words = [token.text.lower() for token in out[max(0, thing - _NEAR) : thing]]
    said = " ".join(words)
    if "as much" not in said and "as many" not in said and "same" not in words:
        return None
    for k in range(max(0, thing - _NEAR), thing):
        token = out[k]
        act = next((_TIMES[id] for id in token.ids("act") if id in _TIMES), None)
        if act is None:
            act = next((_TIMES[id] for id in token.ids("cue") if id in _TIMES), None)
        if act is not None:
            return k, act
        if token.kind == "NUM" and token.quantity is not None and token.quantity.value > 0:
            scaled = k + 1 < thing and "scale" in out[k + 1].ids("act")
            return (k, token.quantity.value) if token.quantity.fraction or scaled else None
    alike = (k for k in range(max(0, thing - _NEAR), thing) if {"as", "same"} & set(out[k].text.lower().split()))
    first = next(alike, None)
    return (first, 1.0) if first is not None else None


def _rise(out: list[Token], i: int) -> None:
    """ "from 1 litre to 1.5": what stands at i is the size at first, where a dough or a starter is said to grow."""
    first = out[i]
    to = _next(out, i + 1)
    last = _next(out, to + 1) if to is not None else None
    start = _back(out, i - 1)
    if first.quantity is None or to is None or last is None or "to" not in out[to].ids("link"):
        return
    size = out[last].quantity
    if size is None or start is None or "from" not in out[start].ids("link"):
        return
    if out[last].kind not in ("NUM", first.kind):
        return
    now = size.base if out[last].kind == first.kind else size.value * first.quantity.base / first.quantity.value
    if first.quantity.base <= 0 or not 1 < now / first.quantity.base <= 10 or not _grows(out):
        return
    out[start] = replace(out[start], kind="TERM", terms=(("cue", "risen"), ("look", "risen")))
    said = " ".join(token.text for token in out[i : last + 1])
    out[i] = per_cent(replace(first, end=out[last].end, text=said), 100 * (now / first.quantity.base - 1))
    for k in range(i + 1, last + 1):
        out[k] = replace(out[k], kind="FILL", terms=(), quantity=None)


def _times_the_size(out: list[Token], i: int) -> None:
    """ "risen to one and a half times", "1.5 times its size": the word "times" stands at i."""
    number, risen = out[i - 1] if i else None, _back(out, i - 2)
    after = out[i + 1 : i + 4]
    size = next((k for k, token in enumerate(after) if token.text.lower() in _SIZES), None)
    to = risen if risen is not None and "to" in out[risen].ids("link") else None
    risen = _back(out, to - 1) if to is not None else risen
    grown = risen is not None and "risen" in (*out[risen].ids("look"), *out[risen].ids("cue"))
    quantity = number.quantity if number is not None else None
    if number is None or number.kind != "NUM" or quantity is None or not 1 < quantity.value <= 10:
        return
    if not grown and (size is None or not _grows(out)):
        return
    out[i - 1] = per_cent(number, 100 * (quantity.value - 1))
    out[i] = replace(out[i], kind="TERM", terms=(("cue", "risen"), ("look", "risen")))
    gone = [*range(i + 1, i + 2 + size if size is not None else i + 1), *([to] if to is not None else [])]
    for k in gone:
        out[k] = replace(out[k], kind="FILL", terms=(), quantity=None)


def _warmer_by_mixing(out: list[Token], at: int, word: int) -> None:
    """ "the machine gets it 6 degrees warmer", "machine, +6": beside what mixes, by so much mixing warms the dough.

    at: the place of the figure; word: of "warmer" or of the sign.
    """
    by = out[at]
    if by.quantity is None or by.kind not in ("TEMP", "NUM"):
        return
    if not any(_mixes(token) for token in out):
        return
    out[at] = replace(by, kind="TEMP", quantity=replace(by.quantity, dim="temperature", unit=by.quantity.unit or "deg"))
    out[word] = replace(out[word], kind="TERM", terms=(("cue", "friction"),))
    verb = _back(out, at - 1)
    if word > at and verb is not None and (out[verb].kind == "JUNK" or "pieces" in out[verb].ids("cue")):
        out[verb] = replace(out[verb], kind="FILL", terms=())  # what it gets, or is made


def _mixes(token: Token) -> bool:
    """Whether a word names what mixes: by itself, by the work, or as what something lies in ("in the mixer")."""
    inside = "in_bowl" in token.ids("mistake") and token.text.lower().endswith("mixer")
    return inside or bool(token.ids("mixing")) or "knead" in token.ids("stage")


def _grows(out: Sequence[Token]) -> bool:
    """Whether the line speaks of a dough, a starter or a rise, and turns no measure into another."""
    if any("convert" in token.ids("ask") or token.ids("into") for token in out):
        return False
    return any(token.ids("stage") or token.ids("look") or _RISING & set(token.ids("cue")) for token in out)


def _next(out: Sequence[Token], i: int) -> int | None:
    """The first place from i on that is no small word without meaning."""
    return next((k for k in range(i, min(i + _NEAR, len(out))) if out[k].kind != "FILL"), None)


def _back(out: Sequence[Token], i: int) -> int | None:
    return next((k for k in range(i, max(-1, i - _NEAR), -1) if out[k].kind != "FILL"), None)


def _is_thing(token: Token) -> bool:
    return token.kind == "TERM" and bool(token.ids("ingredient") or _PARTS & set(token.ids("cue")))
