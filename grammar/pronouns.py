"""Words that stand for a thing or an amount said before: "300 g of it", "the bag says 1 kilo, the whole bag of rye"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from grammar.tokens import Token

_OF_IT = frozenset({"of it", "of that"})
_MEASURED = frozenset({"MASS", "VOLUME"})


def with_their_things(tokens: Sequence[Token]) -> list[Token]:
    """The tokens with the thing meant in the place of "of it"; where one is named right behind, that is the thing."""
    out = _with_yeasts(_with_what_a_bag_holds(list(tokens)))
    for i, token in enumerate(out[1:], start=1):
        if token.text.lower() not in _OF_IT or out[i - 1].kind not in _MEASURED:
            continue
        behind = next((one for one in out[i + 1 :] if one.kind != "FILL"), None)
        meant = next((one for one in reversed(out[: i - 1]) if _is_thing(one)), None)
        if meant is not None and (behind is None or not _is_thing(behind)):
            out[i] = replace(meant, text=token.text, start=token.start, end=token.end, repaired=None)
    return out


def _with_what_a_bag_holds(out: list[Token]) -> list[Token]:
    """A weight said of a bag in the place of "the bag of", where all of the bag goes in: so much of what is in it."""
    bags = [i for i, token in enumerate(out) if "bag" in token.ids("money")]
    for i, later in pairwise(bags):
        thing = next((one for one in out[later + 1 :] if one.kind != "FILL"), None)
        beside = [k for k in range(max(0, i - 1), min(later, i + _NEAR)) if out[k].kind == "MASS"]
        if len(beside) != 1 or thing is None or not _is_thing(thing) or not out[later].text.lower().endswith(" of"):
            continue
        mass = out[beside[0]]
        out[later] = replace(mass, start=out[later].start, end=out[later].end)
        fallen = [i, *range(min(i, beside[0]), max(i, beside[0]) + 1)]
        fallen += [later - 1] if out[later - 1].kind == "JUNK" else []  # "the whole bag of"
        for k in fallen:
            out[k] = replace(out[k], kind="FILL", terms=(), quantity=None)
    return out


def _with_yeasts(out: list[Token]) -> list[Token]:
    """The tokens with a kind of yeast as that yeast, where the line names another and says how much of it, or none:
    "no instant, 20 g fresh"."""
    kinds = {name for token in out for name in (*token.ids("yeast_kind"), *token.ids("ingredient")) if "yeast" in name}
    for i, token in enumerate(out[1:], start=1) if len(kinds) > 1 else ():
        told = out[i - 1].quantity is not None or out[i - 1].kind == "NEG"
        if token.ids("yeast_kind") and told and not _is_thing(token) and not any(map(_is_thing, out[i + 1 : i + 2])):
            out[i] = replace(token, terms=(*token.terms, ("ingredient", token.ids("yeast_kind")[0])))
    return out


_NEAR = 4
"""So many words behind a bag may stand what it holds: "the bag says it is 1 kilo"."""


def _is_thing(token: Token) -> bool:
    return token.kind == "TERM" and bool(token.ids("ingredient"))
