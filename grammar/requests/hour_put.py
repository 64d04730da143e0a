"""An hour put in the place of the one that stands: of the guests or the meal of a plan, or of a build."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from grammar.frames import Line
from grammar.moments import Moment
from grammar.phrases import Phrase
from grammar.spoken import matched, spelled_out, spoken

_NEAR_MIN = 180
"""A bare number put for the plan's hour lies so near to it on the dial."""
_SAME_MIN = 60
_PUTS = frozenset({"change", "correct"})
_PUT_SO = frozenset({"say", "actually"})
_TO = frozenset({"at", "to", "by", "for", "before", "till", "until", "til", "around", "about", "is", "now"})
"""Small words before an hour at which somebody comes, or something begins."""
_LEADS = _TO | {"so", "say"}
_MOVED_TO = frozenset({"to", "till", "until", "til"})
"""Small words before the hour that something is put off to, whatever it is."""
_KEPT_OUT = frozenset({
    "piece", "bread", "ingredient", "cue", "stage", "mark", "symptom", "ask", "holds", "look", "risen",
})  # fmt: skip
"""Words beside which a number is of something else."""
_OF_ME = re.compile(r"^(?:(?:and|but|so|oh|ok|now|sorry) )*(?:i|im|ill|ive|id)\b")
"""Lines that tell of the baker's own comings and goings."""


def amounts(line: Line) -> list[Phrase]:
    return [p for p in line.phrases if p.kind == "amount"]


def labels(line: Line) -> list[Phrase]:
    return [p for p in line.phrases if p.kind == "label"]


def words(line: Line) -> Callable[[str], bool]:
    """Tells whether a word of a sense (kind `hand`) stands in the line."""
    said = spoken(spelled_out(line.text), line.lexicon)
    return lambda word: matched(rf"(?:.*\b)?(?:<hand:{word}>)\b.*", said, line.lexicon) is not None


def another_hour(line: Line) -> Moment | None:
    """ "make it 3, they're always early", "7 not 6": an hour by what it stands near to, and by what is said of it."""
    stood = line.context.known.ready_min
    hours = [one for one in amounts(line) if not _names_its_day(one)]
    if not 1 <= len(hours) <= 2 or of_else(line):
        return None
    if stood is None:
        plain = hours[0].moment if len(hours) == 1 else None
        return plain if plain is not None and _is_for_them(hours[0], line) else None
    if len(hours) > 1 and (other := _beside_the_one_that_stood(hours, stood)) is not None:
        return other
    given_up = _given_up(hours[1], line, stood) if len(hours) > 1 else None
    if hours[0].old is not None:
        given_up = nearest(hours[0].old.value, stood)
    new = _minute(hours[0], stood)
    if (given_up is None and len(hours) > 1) or new is None:
        return None
    if hours[0].moment is None and (new - stood) % 1440 == 0:
        return None
    if given_up is not None:
        return _put(new) if abs(given_up - stood) <= _SAME_MIN else None
    if hours[0].moment is None and abs(new - stood) > _NEAR_MIN:
        return None
    return _put(new) if _is_for_them(hours[0], line) else None


def _beside_the_one_that_stood(hours: Sequence[Phrase], stood: int) -> Moment | None:
    """Of two hours, the other one where one of them is that which stood: it is named to be given up."""
    minutes = [_minute(one, stood) for one in hours]
    others = [one for one in minutes if one is not None and one != stood]
    return _put(others[0]) if stood in minutes and len(others) == 1 else None


def _names_its_day(phrase: Phrase) -> bool:
    """Whether a phrase says of which day or meal it is, and no hour: "sunday breakfast"."""
    moment = phrase.moment
    return moment is not None and moment.minute is None and moment.in_min is None


def of_the_occasion(line: Line) -> bool:
    """Whether those who eat, or what the bread is for, are named."""
    return words(line)("meal") or any(company(p) for p in labels(line))


def _is_for_them(amount: Phrase, line: Line) -> bool:
    """Whether the hour is said of those who eat, or of what it is for, or as the one put for the plan's own."""
    told, says, before = labels(line), words(line), _before(line, amount)
    of_the_dough = line.context.focus == "formula" and amount.moment is None  # who comes is why there are more pieces
    moved = any(p.ids("shift") for p in told) or says("off_its_hour") or (says("comes") and not of_the_dough)
    put = before in _PUT_SO or any(_PUTS & set(p.ids("act")) for p in told)
    put_there = any(p.ids("look") for p in told) or says("put_off") or says("brought_on")
    put_to = put_there and before in _MOVED_TO and not any(p.ids("away") for p in told)
    comes = put_to or says("meal") or says("turn_up") or (put_there and any(company(p) for p in told))
    will_do = says("will_do") and (moved or says("turn_up") or any(company(p) for p in told))
    for_it = comes and before in _TO and not _OF_ME.match(spoken(spelled_out(line.text), line.lexicon).folded)
    bare = put and _put_alone(amount, line)
    return (moved and (put or before in _LEADS)) or will_do or for_it or bare


def _put_alone(amount: Phrase, line: Line) -> bool:
    """Whether a line that only puts a number can mean the hour: of a build, or of a plan where it counts no pieces."""
    if line.context.focus == "feed":
        return not any(p.ids(kind) for p in labels(line) for kind in _OF_A_FEED)
    return line.context.focus == "plan" and amount.moment is None and not _counts(amount, line)


_OF_A_FEED = ("feeding", "clocked", "away")
"""Kinds of word that say which of its hours is meant."""


def of_else(line: Line) -> bool:
    """Whether a word says that a number is of something else than the hour."""
    says = words(line)
    kept_out = _KEPT_OUT - ({"cue", "look"} if says("turn_up") or says("will_do") else set())
    return any(kind in kept_out and (kind, name) not in _OF_THEM for p in labels(line) for kind, name in p.terms)


_OF_THEM = frozenset({
    ("cue", "company"), ("cue", "portions"), ("cue", "later"), ("cue", "all_of_it"), ("cue", "limit"),
    ("cue", "altitude"), ("look", "move"), ("look", "so_far"), ("look", "begun"), ("ask", "what_if"),
})  # fmt: skip
"""Words of those who eat, "only", "up at", "moved to", "has been", "begins": none of the dough."""


def company(phrase: Phrase) -> bool:
    """Whether a word is of those who eat."""
    return bool(phrase.ids("cue")) and set(phrase.ids("cue")) <= {"company", "portions", "later"}


def _given_up(amount: Phrase, line: Line, stood: int) -> int | None:
    """The hour that is no longer meant: the second one, behind "not"."""
    return _minute(amount, stood) if _before(line, amount) in ("not", "of", "than") else None


def _before(line: Line, amount: Phrase) -> str:
    return " ".join(line.text[: amount.tokens[0].start].lower().replace(",", " ").split()[-1:])


def _counts(amount: Phrase, line: Line) -> bool:
    """Whether a bare number may well be pieces: more or fewer than there are, but not by much."""
    pieces = line.context.known.pieces
    value = amount.quantity.value if amount.quantity is not None else 0.0
    return pieces is None or (pieces / 2 <= value <= pieces * 2 and value != pieces)


def _minute(amount: Phrase, stood: int) -> int | None:
    """The minute of the day an amount says, of its two the one nearer to the hour that stood."""
    moment, quantity = amount.moment, amount.quantity
    if moment is not None and moment.sure and moment.minute is not None and moment.day is None:
        return moment.minute + (720 if moment.half == "pm" and moment.minute < 720 else 0)
    if moment is not None:
        return None if moment.minute is None or moment.day is not None else nearest(moment.minute / 60, stood)
    plain = quantity is not None and amount.dim == "num" and quantity.value == int(quantity.value)
    return nearest(quantity.value, stood) if plain and quantity is not None else None


def nearest(hour: float, stood: int) -> int | None:
    """The minute of the day an hour of the dial says, of its two the one nearer to the hour that stood."""
    if not 0 < hour < 24:
        return None
    ways = (round(hour * 60), round(hour * 60) + 720) if hour <= 12.99 else (round(hour * 60),)
    return min((way % 1440 for way in ways), key=lambda way: min((way - stood) % 1440, (stood - way) % 1440))


def _put(minute: int) -> Moment:
    return Moment(minute=minute, half="pm" if minute >= 720 else "am", lead="by")
