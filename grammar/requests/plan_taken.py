"""The hours in which nobody is there: stretches, home until and back from, the night."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from grammar.frames import Bound
from grammar.moments import Moment, Window
from grammar.phrases import Phrase


@dataclass(frozen=True, slots=True)
class Taken:
    """Hours in which nothing can be done by hand. why: "asleep" or "out"; till: free again then, taken until; since:
    taken from then on."""

    why: str
    window: Window | None = None
    till: Moment | None = None
    since: Moment | None = None


@dataclass(slots=True)
class SaidHour:
    """One hour or day of the line. place: where it stands; role: what it is; clause: which clause it is in; why: the
    kind of being away it is beside."""

    place: int
    phrase: Phrase
    moment: Moment
    role: str | None
    clause: int
    why: str
    used: bool = field(default=False)


def is_taken(bound: Bound, place: int) -> bool:
    """Whether a word of being away stands before a stretch in the line, or right behind it."""
    near = (*bound.phrases[:place], *bound.phrases[place + 1 : place + 3])
    return any(_kind(phrase) is not None and not phrase.negated for phrase in near)


def _kind(phrase: Phrase) -> str | None:
    """The kind of being away a word tells: "out from 2 till 3" is leaving and coming back."""
    leaves = "out" if "leave" in phrase.ids("clocked") else None
    return next(iter(phrase.ids("away")), leaves)


def taken_of(bound: Bound, of: Mapping[str, list[SaidHour]], wanted: set[int]) -> tuple[Taken, ...]:
    """All that is taken, from the stretches of the line (but those at the places `wanted`) and its hours by role."""
    return (*_stretches(bound, wanted), *_nights_joined((*_here_and_away(of), *_night(of))))


def _stretches(bound: Bound, wanted: set[int]) -> tuple[Taken, ...]:
    """The stretches said, each for the last word of being away before it, else the one behind it."""
    out: list[Taken] = []
    why: str | None = None
    for place, phrase in enumerate(bound.phrases):
        why = (_kind(phrase) or why) if not phrase.negated else why
        if phrase.window is None or place in wanted or not is_taken(bound, place):
            continue
        behind = (kind for p in bound.phrases[place + 1 : place + 3] if (kind := _kind(p)) is not None)
        out.append(Taken(why or next(behind, "out"), phrase.window))
    return tuple(out)


def _here_and_away(of: Mapping[str, list[SaidHour]]) -> Iterator[Taken]:
    """ "home until 2 and then from 6", "leave at 8, back at 5", "out till 5", "out from 2"."""
    gone, back, away = one_of(of, "gone") or one_of(of, "leave"), one_of(of, "back"), of.get("away", [])
    if gone is not None:
        yield Taken("out", Window(gone, back)) if back is not None else Taken("out", since=gone)
    elif back is not None and len(away) == 1 and away[0].why == "out":
        away[0].used = True
        yield Taken("out", Window(away[0].moment, back))
        return
    elif back is not None:
        yield Taken(of["back"][0].why, till=back)
    for one in away:
        one.used = True
        yield Taken(one.why, since=one.moment)


def _night(of: Mapping[str, list[SaidHour]]) -> Iterator[Taken]:
    """ "bed at 11, up at 6", "not up before 6:30"."""
    bed, up = one_of(of, "bed"), one_of(of, "up")
    if bed is not None and up is not None:
        yield Taken("asleep", Window(bed, up))
    elif up is not None:
        yield Taken("asleep", till=up)
    elif bed is not None:
        yield Taken("asleep", since=bed)



def _nights_joined(taken: tuple[Taken, ...]) -> tuple[Taken, ...]:
    """ "asleep from 11, nothing before 7": both ends of one night said apart."""
    begins = next((one for one in taken if one.why == "asleep" and one.since is not None), None)
    ends = next((one for one in taken if one.why == "asleep" and one.till is not None), None)
    if begins is None or ends is None or begins.since is None or ends.till is None:
        return taken
    night = Taken("asleep", Window(begins.since, ends.till))
    return (*(one for one in taken if one not in (begins, ends)), night)
def one_of(of: Mapping[str, list[SaidHour]], role: str) -> Moment | None:
    """The hour of a role, which counts as used then."""
    found = of.get(role)
    if not found:
        return None
    found[0].used = True
    return found[0].moment
