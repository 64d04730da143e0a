"""What upsets a plan that stands: another hour put in the place of its own, the oven taken, the fridge given up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.frames import Bound, Frame, Line, Own
from grammar.kit_items import Item, items
from grammar.moments import Moment, hour_said
from grammar.phrases import Phrase
from grammar.requests.plan_change import PlanChange
from grammar.tokens import Quantity

_SCORE = 12.0
_NEAR_MIN = 180
"""A bare number put for the plan's hour lies so near to it on the dial."""
_SAME_MIN = 60
_LATE = frozenset({
    "early", "earlier", "late", "later", "delayed", "sooner", "come", "comes", "coming", "arrive", "arrives",
    "arriving",
})  # fmt: skip
_PUTS = frozenset({"change", "correct"})
_LEADS = frozenset({"so", "at", "for", "by", "say", "until"})
_KEPT_OUT = frozenset({
    "piece", "bread", "ingredient", "cue", "stage", "mark", "symptom", "ask", "holds", "look", "risen",
})  # fmt: skip
"""Words beside which a number is of something else."""


def _upset(line: Line) -> Own | None:
    if "plan" not in line.context.standing and "told" not in line.context.standing:
        return None
    if line.text.rstrip().endswith("?") or "\n" in line.text.strip():
        return None
    row = items(line.text, line.tokens, line.lexicon)
    change = _of_the_kit(row, line.context.known.ready_min) or _another_hour(line) or _later(line)
    return None if change is None else Own(change, _SCORE)


# The kit.


def _of_the_kit(row: Sequence[Item], stood: int | None) -> PlanChange | None:
    kits = {one.id for one in row if one.what == "kit"}
    words = {one.id for one in row if one.what == "word"}
    hours = [_moment(one) for one in row if one.what in ("amount", "clock")]
    if "fridge" in kits and not hours and words & {"broken", "full"}:
        return PlanChange(cold="none")
    if "oven" in kits and len(hours) == 1 and hours[0] is not None and words & {"taken", "until"} and _until(row):
        return PlanChange(oven_from=_of_the_day(hours[0], stood))
    return None


def _of_the_day(hour: Moment, stood: int | None) -> Moment:
    """The hour in the half of the day in which the bread is to be ready, where only its place on the dial was said."""
    if stood is None or hour.minute is None or hour.sure:
        return hour
    minute = _nearest(hour.minute / 60, stood)
    return hour if minute is None else replace(hour, minute=minute, half="pm" if minute >= 720 else "am")


def _until(row: Sequence[Item]) -> bool:
    """Whether the hour is one until which something holds: the oven is free from then on."""
    place = next(i for i, one in enumerate(row) if one.what in ("amount", "clock"))
    return any(one.id == "until" for one in row[:place]) or row[place - 1].text in ("from", "before", "free at")


def _moment(item: Item) -> Moment | None:
    if item.moment is not None:
        return item.moment
    amount = item.amount
    return hour_said(amount.value) if amount is not None and amount.dim == "num" else None


# The hour.


def _later(line: Line) -> PlanChange | None:
    """ "the guests come an hour later", of a bake that was told and never planned."""
    if "plan" in line.context.standing:
        return None  # a plan hears that itself
    amounts = [p for p in line.phrases if p.kind == "amount"]
    labels = [p for p in line.phrases if p.kind == "label"]
    words = set(line.text.lower().replace(",", " ").split())
    guests = any("company" in p.ids("cue") for p in labels) or bool(words & _COMING)
    if len(amounts) != 1 or amounts[0].quantity is None or amounts[0].dim != "time" or not guests:
        return None
    if any(_KEPT_OUT & {kind for kind, _ in p.terms} - _company(p) for p in labels):
        return None
    minutes = amounts[0].quantity.base
    return PlanChange(shift_min=-minutes if words & _SOONER else minutes) if words & (_LATE - _COMING) else None


_COMING = frozenset({"come", "comes", "coming", "arrive", "arrives", "arriving", "they", "theyre", "they're", "eat"})
_SOONER = frozenset({"early", "earlier", "sooner"})


def _another_hour(line: Line) -> PlanChange | None:
    """ "make it 3, they're always early", "7 not 6": an hour by what it stands near to, and by what is said of it."""
    stood = line.context.known.ready_min
    amounts = [p for p in line.phrases if p.kind == "amount"]
    labels = [p for p in line.phrases if p.kind == "label"]
    of_else = any(_KEPT_OUT & {kind for kind, _ in p.terms} - _company(p) for p in labels)
    if stood is None or of_else or not 1 <= len(amounts) <= 2:
        return None
    old = amounts[0].old if len(amounts) == 1 else _given_up(amounts[1], line)
    new = _minute(amounts[0], stood)
    if (old is None and len(amounts) > 1) or new is None or (new - stood) % 1440 == 0:
        return None
    moved = any(p.ids("shift") for p in labels) or bool(_LATE & set(line.text.lower().replace(",", " ").split()))
    put = any(_PUTS & set(p.ids("act")) for p in labels)
    led = _before(line, amounts[0]) in _LEADS
    if old is not None:
        was = _nearest(old.value, stood)
        return _put(new) if was is not None and abs(was - stood) <= _SAME_MIN else None
    if amounts[0].moment is None and abs(new - stood) > _NEAR_MIN:
        return None
    if moved and (put or led):
        return _put(new)
    if put and line.context.focus == "plan" and amounts[0].moment is None and not _counts(amounts[0], line):
        return _put(new)
    return None


def _company(phrase: Phrase) -> set[str]:
    """The guests are no word of the dough."""
    return {"cue"} if set(phrase.ids("cue")) <= {"company", "portions", "later"} else set()


def _given_up(amount: Phrase, line: Line) -> Quantity | None:
    """The hour that is no longer meant: the second one, behind "not"."""
    return amount.quantity if _before(line, amount) in ("not", "of", "than") else None


def _before(line: Line, amount: Phrase) -> str:
    return " ".join(line.text[: amount.tokens[0].start].lower().replace(",", " ").split()[-1:])


def _counts(amount: Phrase, line: Line) -> bool:
    """Whether a bare number may well be pieces: not much more or fewer than there are."""
    pieces = line.context.known.pieces
    value = amount.quantity.value if amount.quantity is not None else 0.0
    return pieces is None or pieces / 2 <= value <= pieces * 2


def _minute(amount: Phrase, stood: int) -> int | None:
    """The minute of the day an amount says, of its two the one nearer to the hour that stood."""
    moment = amount.moment
    if moment is not None:
        if moment.minute is None or moment.day is not None:
            return None
        return moment.minute + (720 if moment.half == "pm" and moment.minute < 720 else 0) if moment.sure else (
            _nearest(moment.minute / 60, stood)
        )
    quantity = amount.quantity
    if quantity is None or amount.dim != "num" or quantity.value != int(quantity.value):
        return None
    return _nearest(quantity.value, stood)


def _nearest(hour: float, stood: int) -> int | None:
    if not 0 < hour < 24:
        return None
    ways = (round(hour * 60), round(hour * 60) + 720) if hour <= 12.99 else (round(hour * 60),)
    return min((way % 1440 for way in ways), key=lambda way: min((way - stood) % 1440, (stood - way) % 1440))


def _put(minute: int) -> PlanChange:
    return PlanChange(ready=Moment(minute=minute, half="pm" if minute >= 720 else "am", lead="by"))


def _never(bound: Bound) -> None:
    """Read as a line, not by slots."""


FRAME = Frame(PlanChange, "plan", _never, reads=_upset, settles=True)
