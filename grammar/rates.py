"""Rates by the weight of the flour: "20 g salt to the kilo", "5 g yeast per 500 g flour". Each is so many per cent."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.flour_parts import any_flour, is_flour, per_cent
from grammar.tokens import Token

_KILO_G = 1000.0
_PER = frozenset({"per", "each"})
_MOST = 1.2
"""More than this by the weight of flour is no rate anybody gives by the kilo."""


def rated(tokens: list[Token]) -> list[Token]:
    """The tokens with each rate by the weight of flour as per cent."""
    for i, token in enumerate(tokens):
        if token.kind == "MASS":
            _rate(tokens, i)
    return tokens


def _rate(out: list[Token], i: int) -> None:
    """The rate whose mass stands at i: a thing beside it, then "per kilo", with or without "of flour"."""
    mass = out[i].quantity
    at = _after(out, i + 1)
    named = _is_thing(out, i - 1)
    while at < len(out) and (_is_thing(out, at) or "of" in out[at].ids("link")):
        named, at = named or _is_thing(out, at), _after(out, at + 1)
    whole = _weight_g(out, at)
    if mass is None or whole is None:
        return
    weight_g, end = whole
    behind = _after(out, end)
    if behind < len(out) and "of" in out[behind].ids("link"):
        behind = _after(out, behind + 1)
    flour = behind < len(out) and (is_flour(out[behind]) or any_flour(out[behind]))
    if flour:
        end = behind + 1
    if not (named or _is_thing(out, _after(out, end))) or not 0 < mass.base <= _MOST * weight_g:
        return
    said = " ".join(token.text for token in out[at:end])
    out[i] = replace(per_cent(out[i], 100 * mass.base / weight_g), text=f"{out[i].text} {said}")
    for k in range(at, end):
        out[k] = replace(out[k], kind="FILL", terms=(), quantity=None)


def _weight_g(out: Sequence[Token], at: int) -> tuple[float, int] | None:
    """The weight a rate is by, in g, and where it ends: "per kilo", "to the kg", "per 500 g", "a kilo"."""
    if at >= len(out):
        return None
    if out[at].kind == "MASS" and out[at].text.lower().split()[0] in ("a", "the", "every"):
        quantity = out[at].quantity
        return (quantity.base, at + 1) if quantity is not None and quantity.base == _KILO_G else None
    if not _PER & set(out[at].ids("link")) and out[at].text.lower() not in ("to", "in"):
        return None
    per = out[at]
    at = _after(out, at + 1)
    while at < len(out) and (_PER & set(out[at].ids("link")) or out[at].kind == "FILL"):
        per, at = out[at], _after(out, at + 1)
    if at >= len(out) or not _PER & set(per.ids("link")):
        return None
    quantity = out[at].quantity
    if out[at].kind == "MASS" and quantity is not None and quantity.base >= 100:
        return quantity.base, at + 1
    return (_KILO_G, at + 1) if {"kg", "kilo"} & set(out[at].ids("unit")) else None


def _is_thing(out: Sequence[Token], at: int) -> bool:
    """Whether an ingredient other than flour stands at a place."""
    if not 0 <= at < len(out) or is_flour(out[at]) or any_flour(out[at]):
        return False
    return bool(out[at].ids("ingredient") or out[at].ids("yeast_kind"))


def _after(out: Sequence[Token], at: int) -> int:
    """The first place from `at` on that is no small word without meaning."""
    while at < len(out) and out[at].kind == "FILL":
        at += 1
    return at
