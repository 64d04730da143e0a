"""Which percentage is the dough's, which a starter's or preferment's share, and which that one's own hydration.

The binder weighs each figure by the word beside it. With three figures and one name ("65 %, biga (50 %) 40 %", "72 %
levain 20 % (at 80)") the clause a figure stands in says more: what is in brackets behind a name is its own, so is what
follows its share behind "at"; a figure in another clause is the dough's.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from grammar.frames import Bound, Hit, amount_base, fits
from grammar.phrases import Phrase

STARTER = ("ingredient:starter*", "cue:starter")
PREFERMENT = ("preferment:*",)
_SLOTS = frozenset({
    "hydration_pct", "hydration_again_pct", "dough_pct", "starter_pct", "starter_of_pct", "starter_at_pct",
    "starter_hydration_pct", "preferment_pct", "preferment_at_pct",
})  # fmt: skip
_WORD = ("cue:hydration", "cue:starter_hydration")
_PASSED = (*_WORD, "cue:stiff", "cue:liquid_starter", "cue:all_flour", "cue:flour", "ingredient:flour_bread")
_NO_DOUGH = 96.0
"""From here on "20 % starter at 100 %" is the starter's: few doughs are as wet, most starters are."""
_DRIEST, _WETTEST = 40.0, 600.0
"""Hydration a starter or preferment may have, in %; a scald is the wettest."""
@dataclass(frozen=True, slots=True)
class _Figure:
    """A percentage: its hit, its place in the line, whether it stands in brackets, behind "at", beside "hydration"."""

    hit: Hit
    place: int
    value: float
    inside: bool
    at: bool
    named: bool

    @property
    def own(self) -> bool:
        """Said in a way that makes it the hydration of what stands before it."""
        return (self.inside or self.at or self.named) and _DRIEST <= self.value <= _WETTEST


def settled(bound: Bound) -> Bound:
    """The same hits with each percentage of the line given to the dough, to a share or to a ferment's own hydration.

    Unchanged where the line names no starter or preferment, or where one figure cannot be taken for another.
    """
    bound = _flour_in_it(bound)
    names = [n for n, phrase in enumerate(bound.phrases) if _is_name(bound, n, phrase)]
    slots = _SLOTS if bound.said("piece:*", "bread:*", "cue:pieces") else _SLOTS | {"piece_g"}
    hits = [hit for hit in bound.hits if hit.slot in slots and hit.amount is not None and hit.amount.dim in _DIMS]
    if not names or not hits:
        return bound
    inside, clauses = _clauses(bound.phrases)
    figures = sorted((_figure(hit, bound.phrases, inside) for hit in hits), key=lambda one: one.place)
    heres = {name: _within_reach(bound.phrases, name, figures, names, clauses) for name in names}
    given: dict[int, tuple[str, Phrase | None]] = {}
    for name, here in heres.items():
        elsewhere = [one for one in figures if all(one not in theirs for theirs in heres.values())]
        wet = any(one not in here and _DRIEST <= one.value < _NO_DOUGH for one in figures)
        given |= _shared_out(bound, name, here, elsewhere, clauses, wet)
    if not given:
        return bound
    rest = [one for one in figures if one.place not in given]
    told = [one.hit.slot for one in rest] + [slot for slot, _ in given.values()]
    if "hydration_pct" not in told:
        worded = [one for one in rest if one.hit.slot in ("hydration_again_pct", "dough_pct")]
        given |= {one.place: ("hydration_pct", None) for one in (*worded, *rest)[:1]}
    changed = {id(one.hit): given[one.place] for one in figures if one.place in given}
    return replace(bound, hits=tuple(_moved(hit, changed.get(id(hit))) for hit in bound.hits))


_DIMS = ("pct", "num")


def _flour_in_it(bound: Bound) -> Bound:
    """ "half the flour in a poolish", "30 % of the flour in the starter": that share is what the ferment takes."""
    for hit in bound.hits:
        if hit.amount is None or hit.amount.dim not in ("share", "pct"):
            continue
        n = next(n for n, phrase in enumerate(bound.phrases) if phrase is hit.amount)
        behind = [phrase for phrase in bound.phrases[n + 1 : n + 5] if "of" not in phrase.ids("link")]
        if len(behind) < 3 or not fits(behind[0], ("cue:flour", "cue:all_flour")) or "in" not in behind[1].ids("link"):
            continue
        preferment = fits(behind[2], PREFERMENT)
        slot = "preferment_pct" if preferment else "prefermented_pct"
        if preferment or fits(behind[2], STARTER):
            taken = (hit.amount, behind[0], behind[2])
            rest = tuple(one for one in bound.hits if all(one.amount is not t and one.label is not t for t in taken))
            return replace(bound, hits=(*rest, Hit(slot, hit.amount, behind[2])))
    return bound


def _moved(hit: Hit, to: tuple[str, Phrase | None] | None) -> Hit:
    if to is None or hit.slot == to[0]:
        return hit if to is None or to[1] is None else replace(hit, label=to[1])
    return Hit(to[0], hit.amount, to[1])


def _is_name(bound: Bound, n: int, phrase: Phrase) -> bool:
    """A starter or preferment named, not asked about: "how much starter for 20 rolls"."""
    if phrase.kind != "label" or phrase.negated or not fits(phrase, (*STARTER, *PREFERMENT)):
        return False
    before = next((one for one in reversed(bound.phrases[:n]) if one.kind != "link"), None)
    return before is None or not before.ids("ask")


def _within_reach(
    phrases: Sequence[Phrase], name: int, figures: Sequence[_Figure], names: Sequence[int], clauses: Sequence[int]
) -> list[_Figure]:
    """The figures of a ferment's clause that no other thing parts from its name: "18 % starter 1.9 % salt 58 %"."""
    places = {one.place: one for one in figures}
    found = []
    for step in (-1, 1):
        n = name + step
        while 0 <= n < len(phrases) and clauses[n] == clauses[name] and n not in names:
            if n in places:
                found.append(places[n])
            elif phrases[n].kind == "amount" or (phrases[n].kind == "label" and not fits(phrases[n], _PASSED)):
                break
            n += step
    return sorted(found, key=lambda one: one.place)


def _clauses(phrases: Sequence[Phrase]) -> tuple[list[bool], list[int]]:
    """For each phrase whether it stands in brackets, and which clause it is of: commas and small words part clauses."""
    inside, clauses, depth, clause = [], [], 0, 0
    for n, phrase in enumerate(phrases):
        sign = phrase.text.strip() if phrase.kind == "sep" else ""
        if sign in ("(", "["):
            depth += 1
        elif sign in (")", "]"):
            depth = max(0, depth - 1)
        elif not depth and (sign in (",", ";", ".") or _parts(phrases, n)):
            clause += 1
        inside.append(depth > 0)
        clauses.append(clause)
    return inside, clauses


def _parts(phrases: Sequence[Phrase], n: int) -> bool:
    """ "and", "with": another thing begins, but not in "poolish with 30 % of the flour"."""
    joins = phrases[n].kind == "link" and bool(set(phrases[n].ids("link")) & {"and", "with"})
    return joins and not (n and fits(phrases[n - 1], (*STARTER, *PREFERMENT)))


def _figure(hit: Hit, phrases: Sequence[Phrase], inside: Sequence[bool]) -> _Figure:
    assert hit.amount is not None
    place = next(n for n, phrase in enumerate(phrases) if phrase is hit.amount)
    before = phrases[place - 1] if place else None
    behind = place + 1 < len(phrases) and fits(phrases[place + 1], _WORD)
    taken = place > 1 and phrases[place - 2].kind == "amount"  # "68 % hydration 20 %": the word is the other's
    named = behind or (before is not None and fits(before, _WORD) and not taken)
    at = before is not None and bool(set(before.ids("link")) & {"at"})
    return _Figure(hit, place, amount_base(hit.amount) or 0.0, inside[place], at, named)


def _shared_out(
    bound: Bound, name: int, here: list[_Figure], elsewhere: list[_Figure], clauses: Sequence[int], wet: bool
) -> dict[int, tuple[str, Phrase | None]]:
    """What the figures in a ferment's clause are: its share, its own hydration, or the dough's.

    wet: whether another figure of the line can be the dough's hydration: then "levain is 50 % hydration" is its own.
    """
    phrase = bound.phrases[name]
    kind = "preferment" if fits(phrase, PREFERMENT) else "starter"
    share, own = f"{kind}_pct", f"{kind}_at_pct"
    before = [one for one in here if one.place < name]
    after = [one for one in here if one.place > name]
    beside = [one for one in before[-1:] if not one.named and _touches(bound.phrases, one.place, name)]
    elsewhere = [*elsewhere, *(one for one in before if one not in beside)]
    mass = any(hit.label is phrase and hit.slot in ("part_g", "preferment_g") for hit in bound.hits)
    out: dict[int, tuple[str, Phrase | None]] = {}
    behind = bound.phrases[name + 1 : name + 2]
    called = bool(elsewhere) and any(fits(one, _WORD) for one in behind)  # "biga hydration 50"
    its = mass or called or (wet and bool(after) and after[0].named)
    marked = (one for one in after if one.own and (one.inside or one is not after[0] or beside or its))
    said_own = next(marked, None)
    if said_own is None and bound.context.has_bake and len(after) == 1 and not beside and not elsewhere:
        said_own = after[0] if after[0].named and after[0].own else None  # "starter 100 % hydration"
    left = [one for one in after if one is not said_own]
    changes = bound.context.has_bake and (fits(phrase, PREFERMENT) or not (left or beside))
    alone = not elsewhere and len(left) + len(beside) < 2 and not changes  # "biga 30 % at 45" of the dough in hand
    doughs = said_own is not None and said_own.value < _NO_DOUGH and not (said_own.inside or said_own.named)
    if alone and doughs:
        said_own, left = None, after  # "20 % starter at 68 %" and no other: the dough's
    if said_own is not None:
        out[said_own.place] = (own, phrase)
    if beside and left and not elsewhere:
        wet_first = beside[0].value >= _DRIEST and not left[0].at  # "72 % levain 20 %"; "20 % starter at 68 %"
        dough, part = (beside[0], left[0]) if wet_first else (left[0], beside[0])
        out[dough.place], out[part.place] = ("hydration_pct", None), (share, phrase)
    elif beside and not after and not elsewhere and fits(phrase, ("preferment:soaker",)) and beside[0].value >= _DRIEST:
        out[beside[0].place] = ("hydration_pct", None)  # "72 % soaker 15 % seeds"
    elif beside and left and said_own is None and beside[0].value >= _DRIEST and not left[0].at:
        out[beside[0].place], out[left[0].place] = (own, phrase), (share, phrase)  # "68 %, 60 % starter 20 %"
    elif beside and (said_own is not None or elsewhere):
        out[beside[0].place] = (share, phrase)
    elif left and not mass and (said_own is not None or len(left) > 1):
        out[left[0].place] = (share, phrase)
        if said_own is None and elsewhere and left[1].value >= _DRIEST:
            out[left[1].place] = (own, phrase)  # "68 %, levain 20 % 100 %"
    elif left and not mass and elsewhere and not (left[0].at or left[0].inside or left[0].named):
        out[left[0].place] = (share, phrase)
    if said_own is None and not any(slot == own for slot, _ in out.values()):
        for one in _right_behind(clauses, name, elsewhere):
            out[one.place] = (own, phrase)
            if not out.keys() - {one.place}:
                out |= {given.place: (share, phrase) for given in (*beside, *left[:1])}
    return out


def _right_behind(clauses: Sequence[int], name: int, elsewhere: Sequence[_Figure]) -> Iterator[_Figure]:
    """ "70 %, 30 % biga, 50 % hydration": a hydration in the clause behind the ferment's, where the dough's was said
    before it."""
    before = [one for one in elsewhere if one.place < name]
    behind = [one for one in elsewhere if clauses[one.place] == clauses[name] + 1 and one.named]
    if before and len(behind) == 1 and _DRIEST <= behind[0].value <= _WETTEST:
        yield behind[0]


def _touches(phrases: Sequence[Phrase], left: int, right: int) -> bool:
    """Whether nothing but "of" or a word for how it is made stands between."""
    made = ("cue:stiff", "cue:liquid_starter")
    return all("of" in phrase.ids("link") or fits(phrase, made) for phrase in phrases[left + 1 : right])
