"""How many: pieces, heads and what each one gets, how many times as much, how many more or fewer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from grammar.frames import Bound, Hit, amount_base, fits
from grammar.heads import Table
from grammar.neighbours import COUNTED
from grammar.phrases import Phrase
from grammar.requests.formula_parts import counted_through
from grammar.requests.mend_double import went_in

_TIMES = {"act:double": 2.0, "act:triple": 3.0, "act:half_again": 1.5, "act:halve": 0.5}


@dataclass(frozen=True, slots=True)
class Counts:
    """What a line counts. more: so many pieces more than there are; vague: more or fewer of what, was not said."""

    pieces: float | None = None
    portions: float | None = None
    heads: float | None = None
    per_head: float | None = None
    scale: float | None = None
    more: float | None = None
    vague: bool = False
    tables: tuple[Table, ...] = ()


def counts_of(bound: Bound) -> Counts:
    """The counts of a line, each number once."""
    pieces = most_of(bound.first("pieces") or counted_through(bound))
    tables = tables_of(bound)
    if tables:
        return Counts(pieces, heads=sum(table.heads for table in tables), tables=tables)
    portions = bound.base("portions") or bound.base("heads") or bound.base("heads_for")
    heads, per_head = None, None
    if portions is not None and pieces is None and counts_pieces(bound):
        pieces, portions = portions, None  # "enough for 3 sandwich loaves"
    if portions is not None and pieces is not None and each_of_them(bound):
        heads, per_head = portions, pieces
        pieces, portions = float(ceil(pieces * portions - 1e-9)), None  # "12 rowers, 2 rolls each"
    scale = _scale(bound)
    if scale is None and pieces is not None and pieces < 1 and bound.context.has_bake:
        scale, pieces = pieces, None  # "half of them"
    scale = scale if scale is not None else next((times for act, times in _TIMES.items() if bound.said(act)), None)
    if not _changed_by(bound, pieces):
        off = pieces is not None and _taken_off(bound)  # with no dough in hand there is nothing to take them off
        return Counts(-pieces if off and pieces is not None else pieces, portions, heads, per_head, scale)
    more = (pieces or 0.0) * (-1 if bound.said("cue:fewer") else 1)
    return Counts(None, None, heads, per_head, scale, more, _of_what_unsaid(bound, more))


def tables_of(bound: Bound) -> tuple[Table, ...]:
    """The eaters of each sort and what each of them gets, where the pieces were counted so."""
    hit = bound.first("pieces")
    value = hit.amount.tokens[0].value if hit is not None and hit.amount is not None else None
    return value if isinstance(value, tuple) and all(isinstance(one, Table) for one in value) else ()


def what_stays(bound: Bound) -> str | None:
    """What another number of pieces leaves as it is: "6, but keep the size", "the same flour to 30", "cut it in 12"."""
    named = next((what for what in ("size", "dough") if bound.said(f"cue:same_{what}")), None)
    cut = bound.said("cue:split") and bool({"in", "into"} & bound.links()) and bound.first("piece_g") is None
    asked = bound.context.has_bake and bound.said("ask:how_many") and bound.first("piece_g") is not None
    if asked and bound.first("pieces") is None:
        return "dough"  # "how many 60 g ones does that give"
    return named or ("dough" if cut and bound.first("pieces") is not None else None)


def _scale(bound: Bound) -> float | None:
    """How many times as much of everything a figure says: "scale by 1.5", "a third more", "to two thirds"."""
    scale = None if scales_at(bound) or went_in(bound) else scaled_by(bound)
    part = bound.first("scale_by_part")
    if scale is not None or not bound.context.has_bake:
        return scale
    if part is not None:
        return 1 + (amount_base(part.amount) or 0.0) * (-1 if bound.said("cue:fewer") else 1)
    return bound.base("scale_to_part")


def _changed_by(bound: Bound, pieces: float | None) -> bool:
    """Whether so many pieces are more or fewer than there are: "3 fewer", "plus 10"."""
    counted = bound.first("pieces")
    told = counted is not None and counted.amount is not None and counted.amount.old is not None
    steps = bound.said(*_STEP_WORDS) or is_plus(bound)
    return pieces is not None and bound.context.has_bake and steps and not told and not _moved_to(bound, pieces)


def _moved_to(bound: Bound, pieces: float) -> bool:
    """ "fewer rolls, 16", "only 16 wanted, so cut it back": how many there are to be, where that is fewer, or more,
    than there are."""
    there, counted = bound.context.known.pieces, bound.first("pieces")
    place = next((n for n, phrase in enumerate(bound.phrases) if counted and phrase is counted.amount), 0)
    before = bound.phrases[:place]
    steps = [n for n, phrase in enumerate(before) if fits(phrase, _STEP_WORDS)]
    behind = bound.phrases[place + 1 :]
    after = [n + place + 1 for n, phrase in enumerate(behind) if fits(phrase, _STEP_WORDS)]
    step = steps[-1] if steps else after[0] if after else None
    if there is None or step is None or not _parted(bound.phrases[min(step, place) + 1 : max(step, place)]):
        return False
    return pieces < there if fits(bound.phrases[step], ("cue:fewer",)) else pieces > there


def _parted(between: Sequence[Phrase]) -> bool:
    """Whether a pause or a word of its own stands between a count and what says that it is more or fewer."""
    return any(one.kind == "sep" or not (one.kind == "link" or fits(one, COUNTED)) for one in between)


_STEP_WORDS = ("cue:fewer", "cue:greater")


def _of_what_unsaid(bound: Bound, more: float) -> bool:
    """ "knock 3 off": neither pieces named nor a whole number that counts them."""
    counted = bound.first("pieces")
    label = counted.label if counted is not None else None
    named = label is not None and fits(label, ("piece:*", "bread:*", "cue:pieces"))
    whole = more % 1 == 0 and not bound.said("cue:taken_off") and not is_plus(bound)  # "two fewer"
    return not (named or whole) and not bound.said("piece:*", "bread:*")


def _taken_off(bound: Bound) -> bool:
    """Whether the word right before a count says that so many are fewer: "minus 5 rolls"."""
    counted = bound.first("pieces")
    place = next((n for n, phrase in enumerate(bound.phrases) if counted and phrase is counted.amount), 0)
    before = bound.phrases[place - 1] if place else None
    return before is not None and fits(before, ("cue:fewer",)) and fits(before, ("cue:minus",))


def is_plus(bound: Bound) -> bool:
    """ "plus 10": a bare number behind a plus, and nothing else."""
    words = [phrase for phrase in bound.phrases if phrase.kind != "sep"]
    return len(words) == 2 and words[0].text.lower() in ("plus", "+") and words[1].dim == "num"


def scales_at(bound: Bound) -> bool:
    """ "what do I scale the two at now": what each is to be weighed off at is asked; nothing is made larger."""
    return bound.said("act:scale") and bound.said("ask:what", "ask:how_much") and not bound.said("ask:what_if")


def scaled_by(bound: Bound) -> float | None:
    """ "scale by 1.5", "scale up 20 %", "scale down by a third": how many times as much."""
    hit = bound.first("scale") or bound.first("scale_pct")
    if hit is None or hit.amount is None:
        return None
    value = amount_base(hit.amount) or 0.0
    part = value / 100 if hit.amount.dim == "pct" else value
    words = hit.label.text.lower().split() if hit.label is not None else []
    if hit.amount.dim == "num":
        return 1 / value if "down" in words and value > 1 else value
    if "down" in words:
        return 1 - part
    return 1 + part if {"up", "increase", "upscale"} & set(words) else part


def counts_pieces(bound: Bound) -> bool:
    """Whether the number behind "enough for" counts what is baked: "enough for 3 loaves"."""
    hit = bound.first("portions")
    n = next((n for n, phrase in enumerate(bound.phrases) if hit is not None and phrase is hit.amount), None)
    return n is not None and any(fits(one, ("piece:*", "bread:*")) for one in bound.phrases[n + 1 : n + 2])


def heads_meant(bound: Bound) -> bool:
    """ "brioche for 12": the number stands behind the bread and "for", and counts nothing that was named."""
    hit = bound.first("pieces")
    if hit is None or hit.amount is None or hit.label is None or not hit.label.ids("bread") or bound.first("piece_g"):
        return False
    n = next(n for n, phrase in enumerate(bound.phrases) if phrase is hit.amount)
    return bool(n) and "for" in bound.phrases[n - 1].ids("link") and not any(p.ids("piece") for p in bound.phrases)


def each_of_them(bound: Bound) -> bool:
    """Whether the pieces were counted for one head: "2 rolls each", "two a head"."""
    hit = bound.first("pieces")
    if hit is None or hit.amount is None:
        return False
    n = next(n for n, phrase in enumerate(bound.phrases) if phrase is hit.amount)
    behind = [phrase for phrase in bound.phrases[n + 1 : n + 3] if phrase is not hit.label]
    return bool(behind) and (bool(set(behind[0].ids("link")) & {"each", "per"}) or fits(behind[0], ("serving:each",)))


def most_of(hit: Hit | None) -> float | None:
    """A count; of a range the larger end, so that nobody goes without."""
    if hit is None or hit.amount is None or hit.amount.quantity is None:
        return None
    return hit.amount.high.value if hit.amount.high else hit.amount.quantity.value
