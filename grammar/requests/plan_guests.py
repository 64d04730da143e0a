"""The guests, or the meal, at another hour than the plan has: "breakfast is at 10 now", "they come at 9 instead"."""

from __future__ import annotations

import re

from grammar.frames import Line
from grammar.moments import Moment
from grammar.phrases import Phrase
from grammar.requests.plan_change import PlanChange
from grammar.spoken import Spoken, matched, spoken

_NEAR_MIN = 180
"""A bare number put for the plan's hour lies so near to it on the dial."""
_SAME_MIN = 60
_LATE = frozenset({
    "early", "earlier", "late", "later", "delayed", "sooner", "come", "comes", "coming", "arrive", "arrives",
    "arriving",
})  # fmt: skip
_PUTS = frozenset({"change", "correct"})
_LEADS = frozenset({"so", "at", "for", "by", "say", "until"})
_TO = frozenset({"at", "to", "by", "for", "before", "till", "until", "til", "around", "about"})
"""Small words before an hour at which somebody comes, or something begins."""
_KEPT_OUT = frozenset({
    "piece", "bread", "ingredient", "cue", "stage", "mark", "symptom", "ask", "holds", "look", "risen",
})  # fmt: skip
"""Words beside which a number is of something else."""
_OF_ME = re.compile(r"^(?:(?:and|but|so|oh|ok|now|sorry) )*(?:i|im|ill|ive|id)\b")
"""Lines that tell of the baker's own comings and goings."""


def later(line: Line) -> PlanChange | None:
    """ "the guests come an hour later", of a bake that was told and never planned."""
    if "plan" in line.context.standing:
        return None  # a plan hears that itself
    amounts = [p for p in line.phrases if p.kind == "amount"]
    labels = [p for p in line.phrases if p.kind == "label"]
    words = set(line.text.lower().replace(",", " ").split())
    guests = any("company" in p.ids("cue") for p in labels) or bool(words & _COMING)
    if len(amounts) != 1 or amounts[0].quantity is None or amounts[0].dim != "time" or not guests:
        return None
    if _of_else(line):
        return None
    minutes = amounts[0].quantity.base
    return PlanChange(shift_min=-minutes if words & _SOONER else minutes) if words & (_LATE - _COMING) else None


_COMING = frozenset({"come", "comes", "coming", "arrive", "arrives", "arriving", "they", "theyre", "they're", "eat"})
_SOONER = frozenset({"early", "earlier", "sooner"})


def shifted(line: Line) -> PlanChange | None:
    """ "they've put tea back an hour", "the race is delayed by half an hour": what it is for, moved by so much."""
    amounts = [p for p in line.phrases if p.kind == "amount"]
    if len(amounts) != 1 or amounts[0].quantity is None or amounts[0].dim != "time":
        return None
    said = spoken(line.text, line.lexicon)
    if not _says("meal", said, line):
        return None
    minutes = amounts[0].quantity.base
    if _says("put_off", said, line):
        return PlanChange(shift_min=minutes)
    return PlanChange(shift_min=-minutes) if _says("brought_on", said, line) else None


def another_hour(line: Line) -> PlanChange | None:
    """ "make it 3, they're always early", "7 not 6": an hour by what it stands near to, and by what is said of it."""
    stood = line.context.known.ready_min
    amounts = [p for p in line.phrases if p.kind == "amount"]
    if stood is None or not 1 <= len(amounts) <= 2 or _of_else(line):
        return None
    given_up = _given_up(amounts[1], line, stood) if len(amounts) > 1 else None
    if amounts[0].old is not None:
        given_up = nearest(amounts[0].old.value, stood)
    new = _minute(amounts[0], stood)
    if (given_up is None and len(amounts) > 1) or new is None or (new - stood) % 1440 == 0:
        return None
    if given_up is not None:
        return _put(new) if abs(given_up - stood) <= _SAME_MIN else None
    if amounts[0].moment is None and abs(new - stood) > _NEAR_MIN:
        return None
    return _put(new) if _is_for_them(amounts[0], line) else None


def _is_for_them(amount: Phrase, line: Line) -> bool:
    """Whether the hour is said of those who eat, or of what it is for, or as the one put for the plan's own."""
    labels = [p for p in line.phrases if p.kind == "label"]
    said, before = spoken(line.text, line.lexicon), _before(line, amount)
    words = set(line.text.lower().replace(",", " ").split())
    of_the_dough = line.context.focus == "formula" and amount.moment is None  # who comes is why there are more pieces
    moved = any(p.ids("shift") for p in labels) or bool((_LATE - _COMING if of_the_dough else _LATE) & words)
    put = any(_PUTS & set(p.ids("act")) for p in labels)
    if moved and (put or before in _LEADS):
        return True
    if _says("will_do", said, line) and (moved or _says("turn_up", said, line) or any(_company(p) for p in labels)):
        return True
    comes = _says("meal", said, line) or _says("turn_up", said, line)
    if comes and before in _TO and not _OF_ME.match(said.folded):
        return True
    return put and line.context.focus == "plan" and amount.moment is None and not _counts(amount, line)


def _says(word: str, said: Spoken, line: Line) -> bool:
    """Whether a word of that sense (kind `hand`) stands in the line."""
    return matched(rf"(?:.*\b)?(?:<hand:{word}>)\b.*", said, line.lexicon) is not None


def _of_else(line: Line) -> bool:
    """Whether a word says that a number is of something else than the hour."""
    comes = _says("turn_up", spoken(line.text, line.lexicon), line)
    kept_out = _KEPT_OUT - {"cue", "look"} if comes else _KEPT_OUT
    labels = (p for p in line.phrases if p.kind == "label")
    return any(kind in kept_out and (kind, name) not in _OF_THEM for p in labels for kind, name in p.terms)


_OF_THEM = frozenset({
    ("cue", "company"), ("cue", "portions"), ("cue", "later"), ("cue", "all_of_it"), ("cue", "limit"),
    ("cue", "altitude"), ("look", "move"),
})  # fmt: skip
"""Words of those who eat, "only", "up at", "moved to": none of the dough."""


def _company(phrase: Phrase) -> bool:
    """Whether a word is of those who eat."""
    return bool(phrase.ids("cue")) and set(phrase.ids("cue")) <= {"company", "portions", "later"}


def _given_up(amount: Phrase, line: Line, stood: int) -> int | None:
    """The hour that is no longer meant: the second one, behind "not"."""
    return _minute(amount, stood) if _before(line, amount) in ("not", "of", "than") else None


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
            nearest(moment.minute / 60, stood)
        )
    quantity = amount.quantity
    if quantity is None or amount.dim != "num" or quantity.value != int(quantity.value):
        return None
    return nearest(quantity.value, stood)


def nearest(hour: float, stood: int) -> int | None:
    """The minute of the day an hour of the dial says, of its two the one nearer to the hour that stood."""
    if not 0 < hour < 24:
        return None
    ways = (round(hour * 60), round(hour * 60) + 720) if hour <= 12.99 else (round(hour * 60),)
    return min((way % 1440 for way in ways), key=lambda way: min((way - stood) % 1440, (stood - way) % 1440))


def _put(minute: int) -> PlanChange:
    return PlanChange(ready=Moment(minute=minute, half="pm" if minute >= 720 else "am", lead="by"))
