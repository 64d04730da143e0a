"""So many of one sort of eater at so much each, and so many of another: "6 adults at 3 rolls, 2 kids at one".

The whole is one count, worked out once for every topic; its token keeps the factors, so that another line may change
one of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from grammar.lexicon import Lexicon, fold
from grammar.tokens import Quantity, Token

_COUNTED = ("piece", "bread")
_EACH = frozenset({"each", "per"})
_MOST_EACH = 12
"""Nobody is given more than so many pieces; a larger number is a weight or counts something else."""


@dataclass(frozen=True, slots=True)
class Table:
    """So many eaters of one sort, and the pieces each of them gets."""

    sort: str
    heads: float
    each: float


@dataclass(slots=True)
class _Group:
    sort: str
    heads: float
    place: int
    each: float | None = None


def shared_out(tokens: Sequence[Token], lexicon: Lexicon) -> list[Token]:
    """The tokens with tables of eaters, where each has its rate, put together in one count."""
    out = [_with_sort(token, lexicon) for token in tokens]
    said = [i for i, token in enumerate(out) if token.kind != "FILL" or _sort(token, lexicon)]
    groups = _groups(out, said, lexicon)
    if len({group.sort for group in groups}) < 2:
        return out
    ends = [end for at in said if (end := _rate(out, said, at, groups, lexicon)) is not None]
    rates = [group.each for group in groups]
    if not ends or any(each is None for each in rates[1:]):
        return out
    if rates[0] is None:  # "9 adults and 5 kids, two each"
        groups[0].each = rates[-1] if len(ends) == 1 else None
    tables = tuple(Table(group.sort, group.heads, group.each) for group in groups if group.each is not None)
    return _put_together(out, groups[0].place, max(ends), tables) if len(tables) == len(groups) else out


def _groups(out: Sequence[Token], said: Sequence[int], lexicon: Lexicon) -> list[_Group]:
    """The eaters that are counted, in order: a whole number right before a word for them."""
    groups = []
    for at, behind in pairwise(said):
        count, sort = out[at].quantity, _sort(out[behind], lexicon)
        if out[at].kind == "NUM" and count is not None and sort is not None and count.value % 1 == 0:
            groups.append(_Group(sort, count.value, at))
    return groups


def _rate(
    out: Sequence[Token], said: Sequence[int], at: int, groups: Sequence[_Group], lexicon: Lexicon
) -> int | None:
    """Where the rate that begins at a place ends, once its group has it; None where none begins there."""
    each = out[at].quantity if out[at].kind == "NUM" else None
    before = [group for group in groups if group.place < at]
    if each is None or not before or any(group.place == at for group in groups) or not 0 < each.value <= _MOST_EACH:
        return None
    n = said.index(at)
    rest = list(said[n + 1 : n + 5])
    end = at
    if rest and any(out[rest[0]].ids(kind) for kind in _COUNTED):
        end = rest.pop(0)
    per = bool(rest) and bool(_EACH & set(out[rest[0]].ids("link")) or out[rest[0]].ids("serving"))
    named = _sort(out[rest[1]], lexicon) if per and len(rest) > 1 else None
    led = out[said[n - 1]].text.lower() in lexicon.small("gets") or _sort(out[said[n - 1]], lexicon) is not None
    group = next((one for one in groups if one.sort == named), before[-1]) if named else before[-1]
    if not (per or led) or group.each is not None:
        return None
    group.each = each.value
    return rest[1] if named else rest[0] if per else end


def _put_together(out: list[Token], start: int, end: int, tables: tuple[Table, ...]) -> list[Token]:
    """The line with one count in the place of the tables, before what it counts."""
    whole = sum(table.heads * table.each for table in tables)
    text = " ".join(token.text for token in out[start : end + 1])
    count = replace(out[start], text=text, quantity=Quantity(whole, "num", None, whole), value=tables)
    counted = next((one for one in out[start : end + 1] if any(one.ids(kind) for kind in _COUNTED)), None)
    elsewhere = any(one.ids(kind) for one in (*out[:start], *out[end + 1 :]) for kind in _COUNTED)
    heads = sum(table.heads for table in tables)
    for i, one in enumerate(out[:start]):
        if one.kind == "NUM" and one.quantity is not None and one.quantity.value == heads:
            out[i] = replace(one, kind="FILL", terms=(), quantity=None)  # "we are 10: 6 adults at 2, 4 kids at one"
    fallen = [replace(one, kind="FILL", terms=(), quantity=None) for one in out[start + 1 : end + 1]]
    noun = [counted] if counted is not None and not elsewhere else []
    rest = [one for one in fallen if not noun or one.start != noun[0].start]
    return [*out[:start], count, *noun, *rest, *out[end + 1 :]]


def _sort(token: Token, lexicon: Lexicon) -> str | None:
    """The sort of eater a word names."""
    return next((id for kind, id in lexicon.asides.get(fold(token.text), ()) if kind == "eater"), None)


def _with_sort(token: Token, lexicon: Lexicon) -> Token:
    """A word for those who eat, with the sort of eater it names among its meanings."""
    sort = _sort(token, lexicon) if {"portions", "company"} & set(token.ids("cue")) else None
    return replace(token, terms=(*token.terms, ("eater", sort))) if sort is not None else token
