"""Flours by parts: "two parts white to one of rye", "3 to 1 white to rye", "spelt and rye 2:1". Each becomes the shares
it makes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.tokens import Quantity, Token

_MOST = 20.0
"""More parts than this to one are no flours anybody blends: then the figures are something else."""
_PARTS = frozenset({"part", "parts"})
_JOINS = frozenset({"to", "and", "with"})


def is_flour(token: Token) -> bool:
    """Whether a word may mean a flour."""
    return any(id.startswith("flour") for id in token.ids("ingredient"))


def any_flour(token: Token) -> bool:
    """Whether a word means the flour as such and no one kind of it."""
    return "flour" in token.ids("cue")


def per_cent(token: Token, share: float) -> Token:
    """A token as so many per cent."""
    quantity = Quantity(share, "pct", "pct", share, spelled=True)
    return replace(token, kind="PCT", quantity=quantity, terms=(), units=(), value=None)


def flours_by_parts(tokens: list[Token]) -> list[Token]:
    """The tokens with the parts of a blend as per cent, or as its ratio."""
    for i, token in enumerate(tokens):
        _from_the_flour(tokens, i)
        if token.kind == "NUM":
            _counted(tokens, i)
            _ratio(tokens, i)
    return tokens


def _from_the_flour(out: list[Token], i: int) -> None:
    """ "a tenth from the flour": of it."""
    share = out[i].kind == "PCT" or (out[i].quantity is not None and out[i].quantity.fraction)  # type: ignore[union-attr]
    behind = [k for k in range(i + 1, min(i + 4, len(out))) if out[k].kind != "FILL"][:2] if share else []
    if len(behind) == 2 and "from" in out[behind[0]].ids("link") and any_flour(out[behind[1]]):
        out[behind[0]] = replace(out[behind[0]], terms=(("link", "of"),))


def _counted(out: list[Token], i: int) -> None:
    """ "two parts white to one part rye": from the first number at i."""
    numbers: list[int] = []
    at, parts = i, False
    while at < len(out) and out[at].kind == "NUM":
        thing = at + 1
        while thing < len(out) and (out[thing].text.lower() in _PARTS or "of" in out[thing].ids("link")):
            parts, thing = parts or out[thing].text.lower() in _PARTS, thing + 1
        if thing >= len(out) or not is_flour(out[thing]) or any_flour(out[thing]):
            break
        numbers.append(at)
        at = thing + 1
        if at < len(out) and (_joins(out[at]) or out[at].text == ","):
            at += 1
    values = [quantity.value for k in numbers if (quantity := out[k].quantity) is not None]
    if not parts or len(values) < 2 or not all(0 < value <= _MOST for value in values):
        return
    for k, value in zip(numbers, values, strict=True):
        out[k] = per_cent(out[k], 100 * value / sum(values))
    for k in range(i, at):
        if out[k].text.lower() in _PARTS or _joins(out[k]):
            out[k] = replace(out[k], kind="FILL", terms=())


def _ratio(out: list[Token], i: int) -> None:
    """ "3 to 1 white to rye", "white and rye two to one", "spelt to rye 2:1": two figures beside two flours."""
    first, end = out[i], i + 1
    both: tuple[float, ...] = first.value if isinstance(first.value, tuple) else ()
    if i + 2 < len(out) and (out[i + 1].text == ":" or "to" in out[i + 1].ids("link")) and out[i + 2].kind == "NUM":
        sizes = (first.quantity, out[i + 2].quantity)
        both, end = tuple(size.value for size in sizes if size is not None), i + 3
    if len(both) != 2 or not all(0 < part <= _MOST for part in both):
        return
    if not (_two_flours(out, end, 1) or _two_flours(out, i - 1, -1)):
        return
    shares = tuple(100 * part / sum(both) for part in both)
    said = "/".join(f"{share:.0f}" for share in shares)
    out[i] = replace(first, kind="TERM", terms=(("blend", said),), value=shares, quantity=None)
    for k in range(i + 1, end):
        out[k] = replace(out[k], kind="FILL", terms=(), quantity=None)


def _two_flours(out: Sequence[Token], at: int, step: int) -> bool:
    """Whether two flours stand from a place on, one way or the other, with a small word between."""
    found = 0
    for _ in range(5):
        if not 0 <= at < len(out):
            break
        if is_flour(out[at]) and not any_flour(out[at]):
            found += 1
        elif not (_joins(out[at]) or out[at].kind == "FILL" or "of" in out[at].ids("link")):
            break
        at += step
    return found == 2


def _joins(token: Token) -> bool:
    return bool(_JOINS & set(token.ids("link")))
