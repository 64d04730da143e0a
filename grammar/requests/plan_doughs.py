"""Several doughs in one plan: which words of the line belong to which, and the hour of each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from grammar.frames import Bound, Hit, amount_base
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
    count: Hit | None = None
    labels: list[Phrase] | None = None


def doughs_of(bound: Bound, counts: Sequence[Hit], readies: Sequence[tuple[int, Moment]]) -> tuple[PlanDough, ...]:
    """The doughs of a line that names two or more; else empty. counts: the numbers of pieces; readies: the hours bread
    is wanted at, with their places."""
    groups = [one for one in _groups(bound, counts) if one.labels]
    if len(groups) < 2:
        return ()
    ends = [*(one.place for one in groups[1:]), len(bound.phrases)]
    masses = [(bound.phrases.index(hit.amount), hit) for hit in bound.of("piece_g") if hit.amount is not None]
    out = []
    for group, end in zip(groups, ends, strict=True):
        own = [moment for place, moment in readies if group.place <= place < end]
        grams = [amount_base(hit.amount) for place, hit in masses if group.place <= place < end]
        dough = _dough(group, own[-1] if own else None, grams[-1] if grams else None)
        within = range(group.place, end)
        out.append(replace(dough, rows=rows(bound, within), preferments=preferments(bound, within)))
    return _each_its_hour(out, [moment for _, moment in readies])


def _groups(bound: Bound, counts: Sequence[Hit]) -> list[_Group]:
    """The doughs in order: each begins with its number, or with its name behind "and"."""
    at = {bound.phrases.index(hit.amount): hit for hit in counts if hit.amount is not None}
    found: list[_Group] = []
    for place, phrase in enumerate(bound.phrases):
        if place in at:
            found.append(_Group(place, at[place], []))
            continue
        if phrase.kind != "label" or phrase.negated or not _names(bound.phrases, place):
            continue
        if not found or (_joined(bound.phrases, place) and place - 1 not in at):
            found.append(_Group(place, None, [phrase]))
        else:
            labels = found[-1].labels
            if labels is not None and place - (found[-1].place + len(labels)) <= 1:
                labels.append(phrase)
    return found


def _names(phrases: Sequence[Phrase], place: int) -> bool:
    """Whether a word names what is baked; a flour does right before that, or behind another dough and "and": "12 rings
    and a rye"."""
    if _baked(phrases[place]):
        return True
    if "flour" in phrases[place].text or not any(i.startswith("flour") for i in phrases[place].ids("ingredient")):
        return False
    if place + 1 < len(phrases) and _baked(phrases[place + 1]):
        return True
    before = phrases[place - 2] if place > 1 and _joined(phrases, place) else None
    return before is not None and (_baked(before) or before.moment is not None or before.dim == "mass")


def _baked(phrase: Phrase) -> bool:
    return bool(phrase.ids("piece") or phrase.ids("bread"))


def _joined(phrases: Sequence[Phrase], place: int) -> bool:
    """Whether a word stands behind "and" or, naming pieces, behind a comma."""
    before = phrases[place - 1] if place else None
    if before is None:
        return False
    if "and" in before.ids("link"):
        return True
    return _baked(phrases[place]) and (before.kind == "sep" or "with" in before.ids("link"))


def _dough(group: _Group, ready: Moment | None, grams: float | None) -> PlanDough:
    labels = group.labels or []
    bread = next((i for one in labels for i in one.ids("bread")), None)
    piece = next((i for one in labels for i in one.ids("piece")), None)
    flours = dict.fromkeys(i for one in labels for i in one.ids("ingredient") if i.startswith("flour"))
    flours.pop("flour_bread", None)
    count = amount_base(group.count.amount) if group.count is not None else None
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
    if bound.said(EVERY):
        return True
    for place, phrase in enumerate(bound.phrases[:-1]):
        after = bound.phrases[place + 1]
        if "every" in phrase.ids("clock") and after.quantity is not None and after.quantity.value == known:
            return True
    return False


def of_the_bench(bound: Bound) -> bool:
    """Whether a dough under way is named: "plan the rings for 8"."""
    names = {name for names in bound.context.known.doughs for name in names}
    return any(phrase.text.lower() in names for phrase in bound.phrases if phrase.kind == "label" and _baked(phrase))


def bare_hour(bound: Bound) -> Moment | None:
    """The hour in "plan both for 9": where doughs are named otherwise a lone number cannot count pieces."""
    for place, phrase in enumerate(bound.phrases):
        before = bound.phrases[place - 1] if place else None
        quantity = phrase.quantity
        if quantity is None or phrase.dim != "num" or before is None:
            continue
        led = {"for", "by", "at"} & set(before.ids("link"))
        if led and quantity.value == int(quantity.value) and 1 <= quantity.value <= 23:
            return Moment(minute=int(quantity.value) * 60, lead="by")
    return None
