"""Several doughs in one plan: which words of the line belong to which, and the hour of each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from grammar.frames import Bound, Hit, amount_base, beside
from grammar.moments import Moment
from grammar.phrases import Phrase
from grammar.requests.formula import Part
from grammar.requests.plan_dough import Ferments, preferments, rows

EVERY = "doughs:every"
"""The words for all the doughs under way."""


@dataclass(frozen=True, slots=True)
class PlanDough:
    """One of several doughs of a plan, as it was said.

    text: its name as typed ("rings"); ready: its own hour, None: that of all; bake: its number on the bench, once it is
    there.
    """

    text: str
    pieces: float | None = None
    piece_g: float | None = None
    bread: str | None = None
    piece: str | None = None
    flours: tuple[Part, ...] = ()
    rows: tuple[Part, ...] = ()
    preferments: Ferments = ()
    ready: Moment | None = None
    bake: int | None = None


@dataclass(slots=True)
class _Group:
    """Where a dough begins in the line, its number of pieces and the words that name it."""

    place: int
    count: Phrase | None
    labels: list[Phrase]


def doughs_of(bound: Bound, counts: Sequence[Hit], readies: Sequence[tuple[int, Moment]]) -> tuple[PlanDough, ...]:
    """The doughs of a line that names two or more; else empty. counts: the numbers of pieces; readies: the hours bread
    is wanted at, with their places."""
    groups = [one for one in _groups(bound, counts) if one.labels]
    if len(groups) < 2:
        return ()
    ends = [*(one.place for one in groups[1:]), len(bound.phrases)]
    masses = [(bound.phrases.index(amount), amount_base(amount)) for amount in bound.amounts("piece_g")]
    out = []
    for group, end in zip(groups, ends, strict=True):
        within = range(group.place, end)
        own = next((moment for place, moment in reversed(readies) if place in within), None)
        dough = _dough(group, own, next((grams for place, grams in reversed(masses) if place in within), None))
        out.append(replace(dough, rows=rows(bound, within), preferments=preferments(bound, within)))
    return _each_its_hour(out, [moment for _, moment in readies])


def _groups(bound: Bound, counts: Sequence[Hit]) -> list[_Group]:
    """The doughs in order: each begins with its number, or with its name behind "and"."""
    at = {bound.phrases.index(hit.amount): hit.amount for hit in counts if hit.amount is not None}
    found: list[_Group] = []
    for place, phrase in enumerate(bound.phrases):
        if place in at:
            found.append(_Group(place, at[place], []))
            continue
        if phrase.kind != "label" or phrase.negated or not _names(bound.phrases, place):
            continue
        if not found or (_joined(bound.phrases, place) and place - 1 not in at):
            found.append(_Group(place, None, [phrase]))
        elif place - (found[-1].place + len(found[-1].labels)) <= 1:
            found[-1].labels.append(phrase)
    return found


def _names(phrases: Sequence[Phrase], place: int) -> bool:
    """Whether a word names what is baked; a flour does right before that, or behind another dough and "and": "12 rings
    and a rye"."""
    flour = any(one.startswith("flour") for one in phrases[place].ids("ingredient"))
    flour = flour and "flour" not in phrases[place].text
    before = beside(phrases, place, -2)
    another = _baked(before) or before.moment is not None or (before.kind == "amount" and before.dim == "mass")
    of_a_bread = _baked(beside(phrases, place, 1)) or (_joined(phrases, place) and another)
    return _baked(phrases[place]) or (flour and of_a_bread)


def _baked(phrase: Phrase) -> bool:
    return bool(phrase.ids("piece") or phrase.ids("bread"))


def _joined(phrases: Sequence[Phrase], place: int) -> bool:
    """Whether a word stands behind "and" or, naming pieces, behind a comma."""
    before = beside(phrases, place)
    parted = before.kind == "sep" or "with" in before.ids("link")
    return "and" in before.ids("link") or (_baked(phrases[place]) and parted)


def _dough(group: _Group, ready: Moment | None, grams: float | None) -> PlanDough:
    labels = group.labels
    bread = next((i for one in labels for i in one.ids("bread")), None)
    piece = next((i for one in labels for i in one.ids("piece")), None)
    flours = dict.fromkeys(i for one in labels for i in one.ids("ingredient") if i.startswith("flour"))
    flours.pop("flour_bread", None)
    count = amount_base(group.count)
    text = " ".join(one.text for one in labels)
    if count is None and not text.endswith("s"):
        count = 1.0 if bread is not None or piece in (None, "loaf") else None
    return PlanDough(
        text=text, pieces=count, piece_g=grams, bread=bread, piece=piece, ready=ready,
        flours=tuple(Part((one,), rest=True, flour=True) for one in flours),
    )  # fmt: skip


def _each_its_hour(doughs: Sequence[PlanDough], readies: Sequence[Moment]) -> tuple[PlanDough, ...]:
    """Hours of their own only where more than one was said; a day said once is the day of all."""
    if len(readies) < 2:
        return tuple(replace(one, ready=None) for one in doughs)
    days = {(moment.day, moment.weeks) for moment in readies if moment.day is not None}
    day, weeks = next(iter(days)) if len(days) == 1 else (None, 0)
    return tuple(
        one if one.ready is None or one.ready.day is not None or day is None
        else replace(one, ready=replace(one.ready, day=day, weeks=weeks))
        for one in doughs
    )  # fmt: skip


def every_dough(bound: Bound) -> bool:
    """Whether a line is about all the doughs under way: "plan both", "all three for 9"."""
    known = len(bound.context.known.doughs)
    if known < 2:
        return False
    counted = any("every" in one.ids("clock") and amount_base(two) == known for one, two in pairwise(bound.phrases))
    return bound.said(EVERY, "mistake:by_both") or counted


def of_the_bench(bound: Bound) -> bool:
    """Whether a dough under way is named: "plan the rings for 8"."""
    names = {name for names in bound.context.known.doughs for name in names}
    return any(phrase.text.lower() in names for phrase in bound.phrases if phrase.kind == "label" and _baked(phrase))


def bare_hour(bound: Bound) -> Moment | None:
    """The hour in "plan both for 9": where doughs are named otherwise a lone number cannot count pieces."""
    led = (two for one, two in pairwise(bound.phrases) if {"for", "by", "at"} & set(one.ids("link")))
    hours = (two.quantity.value for two in led if two.quantity is not None and two.dim == "num")
    hour = next((one for one in hours if one == int(one) and 1 <= one <= 23), None)
    return None if hour is None else Moment(minute=int(hour) * 60, lead="by")
