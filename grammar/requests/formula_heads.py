"""How many eat, and how many pieces each: said of the dough in hand, kept as two factors."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil
from typing import TYPE_CHECKING

from grammar.frames import Bound, amount_base, fits
from grammar.heads import Table
from grammar.phrases import Phrase

if TYPE_CHECKING:
    from grammar.requests.formula_request import FormulaRequest

_EATERS = ("cue:portions", "cue:pairs", "serving:each")
_MOST = 400


@dataclass(frozen=True, slots=True)
class Heads:
    """to: so many eat; by: so many more (less than nothing: fewer); per_head: pieces each; sort: of which sort."""

    to: float | None = None
    by: float | None = None
    per_head: float | None = None
    sort: str | None = None


def counted_amounts(phrases: Sequence[Phrase]) -> list[Phrase]:
    """The amounts of a line without a "one" that stands for a thing beside another number."""
    amounts = [phrase for phrase in phrases if phrase.kind == "amount"]
    return [one for one in amounts if len(amounts) == 1 or one.text.lower() != "one"]


def heads_changed(bound: Bound) -> Heads | None:
    """ "2 more guests", "now 12 people", "3 each", "two dropped out"; None where the line is of something else.

    Needs a dough in hand, one count, and no word but of people, their coming and going, and pieces.
    """
    amounts = counted_amounts(bound.phrases)
    if not bound.context.has_bake or len(amounts) != 1 or amounts[0].dim != "num" or amounts[0].old is not None:
        return None
    labels = [phrase for phrase in bound.phrases if phrase.kind == "label"]
    if any(not fits(phrase, _ALLOWED) and not _each(phrase) for phrase in labels):
        return None
    count = amount_base(amounts[0]) or 0.0
    if not 0 < count <= _MOST:
        return None
    at = bound.phrases.index(amounts[0])
    sort = next((sort for phrase in labels for sort in phrase.ids("eater")), None)
    if _is_rate(bound.phrases, at):
        return Heads(per_head=count, sort=sort)
    people = any(fits(phrase, _EATERS) for phrase in labels)
    moved = any(fits(phrase, ("cue:arriving", "cue:leaving")) for phrase in labels)
    if bound.said("cue:limit", "cue:all_of_it") and not people:
        return None  # "the lads are away, so only 10"
    if count % 1 or not (people or moved) or bound.said("piece:*", "bread:*"):
        return None
    heads = count * (2 if bound.said("cue:pairs") else 1)
    if bound.said("cue:leaving", "cue:fewer") or any(phrase.negated for phrase in labels):
        return Heads(by=-heads, sort=sort)
    if bound.said("cue:greater", "act:more", "cue:arriving"):
        return Heads(by=heads, sort=sort)
    return Heads(to=heads, sort=sort) if people and not bound.said("ask:*") else None


def _is_rate(phrases: Sequence[Phrase], at: int) -> bool:
    """Whether the count is of pieces for one head: "3 each", "2 rolls a head"."""
    behind = [phrase for phrase in phrases[at + 1 : at + 4] if not fits(phrase, ("piece:*", "bread:*", "cue:pieces"))]
    if not behind:
        return False
    return _each(behind[0]) or (fits(behind[0], ("serving:each",)) and not fits(behind[0], ("cue:portions",)))


def _each(phrase: Phrase) -> bool:
    return bool(set(phrase.ids("link")) & {"each", "per"})


_ALLOWED = (
    *_EATERS, "cue:arriving", "cue:leaving", "cue:fewer", "cue:greater", "act:more", "act:change", "act:make",
    "piece:*", "bread:*", "cue:pieces", "cue:all_of_it", "cue:limit", "ask:what_if", "tail:*", "eating:give",
    "filler:*", "span:now", "mistake:forgot", "cue:company", "person:*", "feeding:away", "feeding:feed", "act:correct",
)  # fmt: skip


def for_heads(line: FormulaRequest, earlier: FormulaRequest) -> FormulaRequest:
    """The line with as many pieces as the heads then want; as it is where it says nothing of heads.

    Where nobody said how many each one gets, a dough that is enough for so many is enough for so many more.
    """
    told = line.heads_changed
    if told is None:
        return line
    if earlier.tables:
        return _of_a_table(line, earlier.tables, told)
    heads = earlier.heads if earlier.heads is not None else earlier.portions
    if told.per_head is not None:
        if heads is None:
            return replace(line, pieces=told.per_head if told.per_head % 1 == 0 else None, heads_changed=None)
        return _shared_out(line, heads, told.per_head)
    now = told.to if told.to is not None else (heads or 0.0) + (told.by or 0.0)
    if earlier.per_head is not None and heads is not None:
        return _shared_out(line, now, earlier.per_head)
    if heads is not None or told.to is not None:
        return replace(line, portions=now, heads_changed=None)
    return line


def _of_a_table(line: FormulaRequest, tables: Sequence[Table], told: Heads) -> FormulaRequest:
    """The line with the pieces of all tables, one of them changed: that of the sort named, else the first."""
    at = next((n for n, table in enumerate(tables) if table.sort == told.sort), 0)
    heads = told.to if told.to is not None else tables[at].heads + (told.by or 0.0)
    each = told.per_head if told.per_head is not None else tables[at].each
    now = tuple(replace(one, heads=heads, each=each) if n == at else one for n, one in enumerate(tables))
    pieces = float(ceil(sum(one.heads * one.each for one in now) - 1e-9))
    return replace(
        line, tables=now, heads=sum(one.heads for one in now), pieces=pieces, portions=None, heads_changed=None
    )  # fmt: skip


def _shared_out(line: FormulaRequest, heads: float, per_head: float) -> FormulaRequest:
    pieces = float(ceil(heads * per_head - 1e-9))
    return replace(line, heads=heads, per_head=per_head, pieces=pieces, portions=None, heads_changed=None)
