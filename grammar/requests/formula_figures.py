"""What the figures of a line are where their words alone do not say it: order, places, pairs, tins, points."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from grammar.frames import Bound, Hit, amount_base, fits
from grammar.phrases import Phrase
from grammar.requests.formula_counts import most_of
from grammar.requests.formula_ferments import STARTER
from grammar.requests.formula_parts import number
from grammar.requests.formula_slots import SALT, SLOTS


def clash_of(bound: Bound) -> tuple[str, ...]:
    """What was said twice with two figures: "66 % hydration" and "70 % water"."""
    for first, again, name in (
        ("hydration_pct", "hydration_again_pct", "hydration"),
        ("hydration_pct", "dough_pct", "hydration"),
        ("salt_pct", "salt_again_pct", "salt"),
        ("starter_pct", "starter_share_pct", "starter"),
    ):
        one, two = bound.base(first), bound.base(again)
        if one is not None and two is not None and one != two:
            return (f"{one:g} % {name}", f"{two:g} % {name}")
    for slot, words, name in (("salt_pct", SALT, "salt"), ("starter_pct", STARTER, "starter")):
        barred = any(hit.label is not None and fits(hit.label, words) for hit in bound.of("without"))
        given = bound.base(slot)
        if given and barred:
            return (f"{given:g} % {name}", f"no {name}")
    return ()


def counts_starter(bound: Bound) -> bool | None:
    """Whether the flour that was said is meant to hold the starter's flour too; None where nothing is said of it."""
    for phrase in bound.phrases:
        if fits(phrase, ("cue:starter_counted",)):
            return not phrase.negated
    return None


def batches_of(bound: Bound) -> tuple[str, ...]:
    """Two batches named in one line, each in its own words: "12 rolls of 80 g and 24 rings of 60 g".

    A count and, within the next few phrases, a mass, twice over.
    """
    out: list[str] = []
    phrases = bound.phrases
    for n, count in enumerate(phrases[:-1]):
        noun = phrases[n + 1]
        counts = count.kind == "amount" and count.dim == "num" and noun.kind == "label"
        if not counts or not fits(noun, ("piece:*", "bread:*")):
            continue
        behind = phrases[n + 2 : n + 5]
        mass = next((one for one in behind if one.kind == "amount"), None)
        if mass is not None and mass.dim == "mass":
            out.append(bound.text[count.tokens[0].start : mass.tokens[-1].end])
    return tuple(out) if len(set(out)) > 1 else ()


def said_twice(bound: Bound) -> tuple[str, ...]:
    """The same preferment with two shares."""
    said: dict[str, float] = {}
    for hit in bound.of("preferment_pct"):
        kind, value = hit.ids("preferment")[0], number(hit) or 0.0
        if said.setdefault(kind, value) != value:
            return (f"{said[kind]:g} % {kind.replace('_', ' ')}", f"{value:g} %")
    return ()


def in_usual_order(bound: Bound) -> Bound | None:
    """Figures without a word as they are always said: hydration, salt, starter. None where they stand otherwise."""
    salt, starter = bound.first("then_salt_pct"), bound.first("then_starter_pct")
    if salt is None:
        return bound if starter is None else None
    figures = [phrase for phrase in bound.phrases if phrase.kind != "sep"]
    at = next(n for n, phrase in enumerate(figures) if phrase is salt.amount)
    if starter is not None and figures[at + 1 : at + 2] != [starter.amount]:
        return None
    wet = next((hit for hit in bound.hits if at and hit.amount is figures[at - 1]), None)
    if wet is None or wet.slot == "hydration_pct":
        return bound if wet is not None else None
    other = bound.first("hydration_pct")
    labelled = wet.label is not None or (other is not None and other.label is not None)
    if labelled or wet.slot not in ("pieces", "piece_g"):
        return None
    if other is not None and wet.slot == "pieces":
        return None
    slots = {id(wet): "hydration_pct", **({id(other): "piece_g"} if other is not None else {})}
    return replace(bound, hits=tuple(replace(hit, slot=slots.get(id(hit), hit.slot)) for hit in bound.hits))


def wet_not_many(bound: Bound) -> Bound:
    """A number that counts no pieces is the hydration: with a mass to go by and no word for pieces ("2 kg flour, 70"),
    and behind "to" where it is many times the pieces there are ("boules to 72" of three)."""
    many = bound.first("pieces")
    if many is None or many.amount is None or many.amount.role is not None:
        return bound
    value = amount_base(many.amount) or 0.0
    if bound.first("hydration_pct") is not None or bound.first("piece_g") is not None or not 50 <= value <= 90:
        return bound
    there = bound.context.known.pieces
    leap = there is not None and value > _LEAP * there and _behind_to(many.amount, bound)
    massed = any(bound.first(slot) for slot in ("part_g", "all_flour_g", "dough_g")) and many.label is None
    if not leap and (not massed or bound.said("piece:*", "bread:*", "ask:how_many")):
        return bound
    return replace(bound, hits=tuple(replace(hit, slot="hydration_pct") if hit is many else hit for hit in bound.hits))


_LEAP = 3.5
"""No baker takes more than so many times the pieces that there are, at once and with no more said than "to"."""


def _behind_to(amount: Phrase, bound: Bound) -> bool:
    at = next((n for n, phrase in enumerate(bound.phrases) if phrase is amount), 0)
    return at > 0 and "to" in bound.phrases[at - 1].ids("link")


def without_pronoun(bound: Bound) -> Bound:
    """The line without a "one" that stands for a piece and counts nothing: "how heavy is one", "one for the coach"."""
    asks = bound.asks() or bound.said("ask:*", "into:*")
    amounts = sum(phrase.kind == "amount" for phrase in bound.phrases)
    if not asks and amounts < 2:
        return bound
    hits = tuple(
        hit for hit in bound.hits
        if hit.amount is None or hit.amount.text.lower() != "one" or not _is_pronoun(hit, bound)
    )  # fmt: skip
    return replace(bound, hits=hits) if len(hits) < len(bound.hits) else bound


def _is_pronoun(hit: Hit, bound: Bound) -> bool:
    """Whether a "one" counts no thing of its own, or stands right behind what it is one of: "a rye one"."""
    at = next((n for n, phrase in enumerate(bound.phrases) if phrase is hit.amount), 0)
    if hit.label is None:
        return hit.slot == "pieces" and not any(fits(one, _NAMED) for one in bound.phrases[at + 1 : at + 2])
    return at > 0 and bound.phrases[at - 1] is hit.label


_NAMED = ("piece:*", "bread:*")


def is_its_day(hit: Hit, bound: Bound) -> bool:
    """Whether a day only says what a dough is for: of one told in shares ("for sunday 30 buns at 62 %"), or without a
    word that wants it by then ("fete on saturday, 40 rolls"). With an hour it is a plan's."""
    moment = hit.amount.moment if hit.amount is not None else None
    told = any(bound.first(share) is not None for share in ("hydration_pct", "salt_pct", "starter_pct", "part_pct"))
    return moment is not None and moment.day is not None and not (moment.has_hour or moment.part) and (
        told or (moment.lead not in _WANTED_BY and any(bound.first(size) is not None for size in _SIZES))
    )


_SIZES = ("pieces", "piece_g", "heads", "portions", "flour_g", "dough_g")
_WANTED_BY = frozenset({"by", "for", "before", "not_before", "from", "until"})


def choices_of(bound: Bound) -> tuple[str, ...]:
    out = []
    if bound.first("then_salt_pct") is not None:
        said = {"hydration": "hydration_pct", "salt": "then_salt_pct", "starter": "then_starter_pct"}
        figures = (f"{name} {number(bound.first(slot)):g} %" for name, slot in said.items() if bound.first(slot))
        out.append("taken in the usual order: " + ", ".join(figures))
    out += [f"{hit.amount.text} is the day it is for; an hour makes a plan" for hit in bound.of("day") if hit.amount]
    for hit in bound.hits:
        if hit.amount is None or hit.amount.high is None or hit.amount.quantity is None:
            continue
        taken = most_of(hit) if hit.slot == "pieces" else amount_base(hit.amount)
        unit = {"pct": " %", "mass": " g"}.get(hit.amount.dim, "")
        low, high = hit.amount.quantity.base, hit.amount.high.base
        out.append(f"{taken:g}{unit} of the {low:g} to {high:g}{unit} said")
    return tuple(out)


def points_of(bound: Bound) -> tuple[str, float] | None:
    """ "2 % more water", "3 points wetter": of what ("hydration", an item) in the dough in hand, and how much."""
    hit = bound.first("points") or bound.first("bare_points")
    if hit is None or hit.amount is None or not (bound.context.has_bake or bound.said("cue:usual")):
        return None
    if hit.amount.dim != "pct" and not bound.said("cue:points"):
        return None
    amounts = [phrase for phrase in bound.phrases if phrase.kind == "amount"]
    wetter = next((phrase for phrase in bound.phrases if fits(phrase, ("cue:wetter",))), None)
    less = bound.said("cue:fewer") or (wetter is not None and wetter.text.split()[-1].startswith(("dri", "stiff")))
    more = bound.said("cue:fewer", "cue:greater", "cue:raised_by", "act:more")
    if (len(amounts) > 1 and not bound.said("cue:usual")) or not (wetter is not None or more):
        return None
    value = (amount_base(hit.amount) or 0.0) * (-1 if less else 1)
    of_it = any(phrase.ids("ingredient") or fits(phrase, _SHARED) for phrase in bound.phrases)
    if hit.amount.dim == "pct" and not of_it:
        return "", value  # "10 % more": of all of it
    row = next((row for phrase in _nearest(bound.phrases, hit.amount) if (row := _row(phrase)) is not None), None)
    return (row, value) if row is not None else None


def _nearest(phrases: Sequence[Phrase], amount: Phrase) -> Iterator[Phrase]:
    """The words of a line in the order in which a step is of them: of its own clause first, those behind it first."""
    at = phrases.index(amount)
    ends = [n for n, phrase in enumerate(phrases) if phrase.kind == "sep"]
    start, stop = max((n for n in ends if n < at), default=-1), min((n for n in ends if n > at), default=len(phrases))
    own = (phrases[at:stop], phrases[start + 1 : at])
    led = at > 0 and phrases[at - 1].text.lower().endswith(" by")  # "the water down by 2 % for the oil's sake"
    yield from (phrase for part in (own[::-1] if led else own) for phrase in part)
    yield from (*phrases[: start + 1], *phrases[stop:])


def _row(phrase: Phrase) -> str | None:
    """The row a step is of: salt, starter, hydration or an ingredient."""
    rows = ((SALT, "salt"), (STARTER, "starter"), (_WATER, "hydration"))
    return next((row for words, row in rows if fits(phrase, words)), next(iter(phrase.ids("ingredient")), None))


_WATER = ("ingredient:water", "cue:water", "cue:hydration", "cue:wetter")


_SHARED = ("cue:salt", "cue:starter", "cue:water", "cue:hydration", "cue:wetter", "cue:points")


_WET_PCT = 80.0
"""Of a bare number from here on nobody means hydration while the weight of the pieces is open."""


def bare_pair(bound: Bound, piece_g: float | None, hydration: float | None) -> tuple[float | None, float | None]:
    """Piece mass and hydration where they were bare numbers: "9 rolls at 110, 62", "20 pieces at 85"."""
    wet = bound.first("hydration_pct")
    if bound.first("pieces") is None or hydration is None or wet is None or wet.label is not None:
        return piece_g, hydration
    if wet.amount is None or wet.amount.dim != "num" or hydration < _WET_PCT:
        return piece_g, hydration
    heavy = bound.first("piece_g")
    if heavy is None and bound.first("dough_g") is None:
        return hydration, None
    if heavy is not None and heavy.amount is not None and heavy.amount.dim == "num" and heavy.label is None:
        return hydration, piece_g
    return piece_g, hydration


def unless_mass(hit: Hit | None, plain: bool) -> float | None:
    """A share; in a list of weights a bare number is a weight and was counted as one."""
    if hit is None or hit.amount is None or (not plain and hit.amount.dim == "num"):
        return None
    return number(hit)


def dough_warmth(bound: Bound) -> float | None:
    """How warm the dough is to be, °C; degrees of no scale are Fahrenheit only where that makes a dough's warmth."""
    said, slot = bound.first("dough_c") or bound.first("dough_bare_c"), SLOTS["dough_c"]
    if said is None or slot.low is None or slot.high is None:
        return None
    as_fahrenheit = amount_base(said.amount, slot.high)
    usual = as_fahrenheit is not None and slot.low <= as_fahrenheit <= slot.high
    return as_fahrenheit if usual else amount_base(said.amount)
