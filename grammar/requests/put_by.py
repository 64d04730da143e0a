"""Whether the dough under way may be put somewhere, and what has become of it by an hour: asked, and nothing moves."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.levels import PLAINLY
from grammar.lexicon import fold
from grammar.moments import Moment
from grammar.shell import part_of
from grammar.spoken import fitting, spoken
from grammar.turns import END, LEAD, THIS


@dataclass(frozen=True, slots=True)
class PutBy:
    """can it stay in the fridge overnight
    what if it sits in the fridge overnight

    place: where, as typed; until: when it is to be worked again, None where that was not said.
    """

    place: str
    until: Moment | None = None


_IT = rf"(?: (?:{THIS}|(?:<hand:both>)|(?:<hand:those>) [a-z]+))"
_AT = r"(?: (?:<hand:into>))"
_PLACE = r"(?: (?:<hand:those>))* (?P<place>[a-z]+(?: [a-z]+)??)"
_THEN = r"(?P<then>(?:[ ,]+.*)?)"
_PUT = (
    rf"{LEAD}(?:<hand:may_it>)(?: (?:<hand:lays>))?{_IT}?(?: (?:<hand:lays>))?{_AT}{_PLACE}{_THEN}{END}",
    rf"{LEAD}(?P<place>[a-z]+(?: [a-z]+)??) (?P<then>(?:<hand:all_night>).*){END}",
)


def _asked(line: Line) -> Own | None:
    """The place and the hour asked about; None where nothing is under way, or more is said than that."""
    if "told" not in line.context.standing or not line.context.raw:
        return None
    said = spoken(line.text, line.lexicon)
    for hit in fitting(_PUT, said, line.lexicon):
        place, then = said.group(hit, "place"), said.group(hit, "then")
        if not _is_place(place, line):
            continue
        until, unread = _rest(then, line)
        return None if unread else Own(PutBy(place, until), PLAINLY)  # degrees or a length of time: a matter of timing
    return None


def _is_place(words: str, line: Line) -> bool:
    """Whether these words are a place dough may stand in: the fridge, or one of the house."""
    if any(kind == "place" for kind, _ in line.lexicon.asides.get(fold(words), ())):
        return True
    phrases = [one for one in part_of(line, words).phrases if one.kind == "label"]
    return len(phrases) == 1 and bool({"kitchen", "fridge"} & set(phrases[0].ids("cue")))


def _rest(words: str, line: Line) -> tuple[Moment | None, tuple[str, ...]]:
    """When it is worked again, by what is said behind the place; and words that say anything else."""
    part = part_of(line, words)
    hours = [one.moment for one in part.phrases if one.moment is not None]
    by_night = bool(_NIGHT & set(fold(words).split())) or any(one.part in ("night", "tonight") for one in hours)
    clock = next((one for one in hours if one.minute is not None), None)
    vague = next((one for one in hours if one.minute is None and one.part not in ("night", "tonight")), None)
    left = tuple(one.text for one in part.phrases if one.kind == "amount" and one.moment is None)
    if clock is not None and (vague is not None or by_night):
        half = clock.half or (None if clock.sure else "am")
        return replace(clock, half=half, day=clock.day or (vague.day if vague is not None else None)), left
    return clock or vague or (Moment(part="morning", day="tomorrow") if by_night else None), left


_NIGHT = frozenset({"overnight", "night", "nights", "morning"})
"""Words after which the hour is one of the morning."""


FRAME = Frame(PutBy, "progress", never_by_slots, reads=_asked, settles=True)
