"""What each hour of a plan is: ready by then, begun, in the oven, in bed, up, leaving, back, taken.

Each hour goes to the nearest word of its clause that wants one, what stands before it first; the small word before it
(`grammar/leads.py`) decides where one word wants hours of two kinds ("home until 2 and again from 6"). A day or part of
a day said apart from an hour belongs to the hour of its clause, else to the hour the bread is wanted.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import takewhile

from grammar.frames import Bound, fits
from grammar.moments import EXACT, Moment, Window, completes, joined
from grammar.phrases import Phrase
from grammar.requests.plan_taken import SaidHour, Taken, is_taken, one_of, taken_of

_OWNERS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("no_sooner", ("clocked:not_before",)),
    ("bed", ("clocked:to_bed",)),
    ("up", ("clocked:up",)),
    ("leave", ("clocked:leave",)),
    ("home", ("clocked:home",)),
    ("start", ("clocked:start", "look:begun", "step:mix", "mark:mix")),
    ("bake_at", ("step:bake", "stage:bake", "clocked:in_oven", "mark:bake")),
    ("ripe", ("clocked:ripe",)),
    ("fed", ("feeding:feed", "mark:feed_starter")),
    ("ready", ("clocked:ready",)),
    ("away", ("away:*",)),
    ("starter", ("ingredient:starter*", "cue:starter", "starter_state:*")),
    ("plan", ("ask:plan*",)),
    ("piece", ("piece:*", "bread:*", "ask:when_ready", "act:make", "act:same")),
)
"""The words that want an hour, by what the hour beside them is; the first kind a word fits counts."""
_ROLE = {"starter": "ripe", "piece": "ready", "plan": "ready"}
_WEAK = frozenset({"starter", "piece", "home", "away"})
OWNER_WORDS = tuple(pattern for _, patterns in _OWNERS for pattern in patterns)


@dataclass(frozen=True, slots=True)
class Hours:
    """The hours of a line by what they are. lost: those with no place in a plan, as typed; readies: every hour
    bread is wanted at, with its place in the line."""

    ready: Moment | None = None
    bake_at: Moment | None = None
    start: Moment | None = None
    no_sooner: bool = False
    ripe: Moment | None = None
    taken: tuple[Taken, ...] = ()
    lost: tuple[str, ...] = ()
    readies: tuple[tuple[int, Moment], ...] = ()


def hours_of(bound: Bound, several: bool = False) -> Hours:
    """Every hour, day and stretch of the line with its place in a plan. several: doughs, each with its hour."""
    said = list(_said(bound))
    _days_joined(said, bound)
    of = _by_role(said)
    taken = taken_of(bound, of, {one.place for one in said})
    start = one_of(of, "start")
    sooner = one_of(of, "no_sooner")
    if start is None and sooner is None and _asks_to_start(bound):
        sooner = one_of(of, "from")
    wanted = [one for one in of.get("ready", ()) if several and (one.moment.has_hour or one.moment.part is not None)]
    for one in wanted:
        one.used = True
    ready, bake_at, ripe = one_of(of, "ready"), one_of(of, "bake_at"), one_of(of, "ripe")
    return Hours(
        ready=ready,
        bake_at=bake_at,
        start=start or sooner,
        no_sooner=start is None and sooner is not None,
        ripe=ripe,
        taken=taken,
        readies=tuple(sorted(((one.place, one.moment) for one in wanted), key=lambda pair: pair[0])),
        lost=(*(one.phrase.text for one in said if not one.used), *_unclaimed(said, bound)),
    )


def _clauses(bound: Bound) -> list[int]:
    out, number = [], 0
    for phrase in bound.phrases:
        number += phrase.kind == "sep" and phrase.text.strip() not in ("(", ")", "-")
        out.append(number)
    return out


def _said(bound: Bound) -> Iterator[SaidHour]:
    clauses = _clauses(bound)
    earlier: str | None = None
    for place, phrase in enumerate(bound.phrases):
        moment = phrase.moment or (None if phrase.window is None else _wanted_in(phrase.window, bound, place, clauses))
        if moment is None:
            continue
        word = _owner(bound, place, clauses)
        role = _role(None if word is None else _wants(word), moment, earlier)
        earlier = role or earlier
        why = next(iter(word.ids("away")), "out") if word is not None else "out"
        yield SaidHour(place, phrase, moment, role, clauses[place], why)


def _unclaimed(said: list[SaidHour], bound: Bound) -> Iterator[str]:
    """Stretches that nothing wants and no word of being away stands by, as typed."""
    wanted = {one.place for one in said}
    for place, phrase in enumerate(bound.phrases):
        if phrase.window is not None and place not in wanted and not is_taken(bound, place):
            yield phrase.text


def _wanted_in(window: Window, bound: Bound, place: int, clauses: list[int]) -> Moment | None:
    """ "bake between 10 and 11", "ready from 9 to 10": its beginning, where the stretch is none of being away."""
    word = _owner(bound, place, clauses)
    if is_taken(bound, place) or word is None or _wants(word) not in ("bake_at", "ready"):
        return None
    return replace(window.start, lead="at", day=window.start.day or window.end.day)


def _owner(bound: Bound, place: int, clauses: list[int]) -> Phrase | None:
    """The word that wants the hour at `place`: of its own clause, before it first; else of the one before."""
    phrases = bound.phrases
    weak: list[Phrase] = []
    for n in takewhile(lambda n: not _is_hour(phrases[n]), range(place - 1, -1, -1)):
        here, kind = clauses[n] == clauses[place], _wants(phrases[n])
        if weak and not here:
            break
        if kind is not None and (here or kind not in _WEAK):
            return phrases[n]
        weak += [phrases[n]] if kind is not None else []
    behind = (phrases[n] for n in range(place + 1, len(phrases)) if clauses[n] == clauses[place])
    kinds = ((phrase, _wants(phrase)) for phrase in takewhile(lambda one: not _is_hour(one), behind))
    fallback = weak[0] if weak and _wants(weak[0]) in ("piece", "away") else None
    return next((phrase for phrase, kind in kinds if kind is not None and not (weak and kind == "starter")), fallback)


def _is_hour(phrase: Phrase) -> bool:
    return phrase.moment is not None or phrase.window is not None


def _wants(phrase: Phrase) -> str | None:
    if phrase.kind != "label":
        return None
    return next((kind for kind, patterns in _OWNERS if fits(phrase, patterns)), None)


_BY_LEAD = {("home", "until"): "gone", ("home", None): "back", ("away", "until"): "back", ("away", None): "away"}
"""What the hours of being there and being away are, by the small word before them."""
_READY_LEADS = ("by", "for", "before", "at", "on", "in", None)


def _role(owner: str | None, moment: Moment, earlier: str | None) -> str | None:
    """What an hour is, from the word that wants it and the small word before it."""
    lead = moment.lead
    if lead == "not_before" and owner not in ("up", "home"):
        return "no_sooner"
    if lead in ("from", "after") and owner in (None, "piece", "ready"):
        return "back" if earlier == "gone" else "from"
    if owner == "ready" and lead == "until" and moment.minute is None:
        return "off"  # until when work goes on, not until when the bread is ready
    if owner is None:
        return "ready" if lead in _READY_LEADS else lead
    told = _BY_LEAD.get((owner, lead if lead == "until" else None))
    return told or _ROLE.get(owner, owner)


def _days_joined(said: list[SaidHour], bound: Bound) -> None:
    """A day or a part of one that stands apart is put to what it is of, and is no hour of its own then."""
    for one in said:
        if not one.moment.has_hour and (_completes(one, said) or one.role == "off" or _only_when(one, bound)):
            one.role, one.used = None, True


def _completes(one: SaidHour, said: list[SaidHour]) -> bool:
    """Whether a day completes the hour of its clause, else the hour or the day of the bread; it is put there."""
    fitting = [other for other in said if other is not one and completes(other.moment, one.moment)]
    wanted = [other for other in fitting if other.role in ("ready", "bake_at")]
    hours = [other for other in fitting if other.clause == one.clause] + wanted
    days = [other for other in wanted if not other.moment.has_hour and one.role in ("ready", None)]
    whole = [other for other in hours if other.moment.has_hour] + days
    for other in whole[:1]:
        other.moment = joined(other.moment, one.moment)
    return bool(whole)


def _only_when(one: SaidHour, bound: Bound) -> bool:
    """ "no fridge tonight", "what's on tonight?": a part of the day that says when something else is."""
    vague = one.moment.part is not None and one.moment.part not in EXACT
    cold = vague and any(fits(p, ("cold:*", "cue:fridge", "stage:retard")) for p in bound.phrases)
    asks = bound.said("ask:what", "ask:when", "ask:to_do") and not bound.said("ask:plan*", "ask:when_ready")
    wanted = bound.said("clocked:*", "ask:plan*", "ask:when_ready", "piece:*", "bread:*", "act:same")
    return (cold or asks) and not wanted


def _by_role(said: list[SaidHour]) -> dict[str, list[SaidHour]]:
    """The hours of each role; of two for the bread, the one said to be by then goes first."""
    of: dict[str, list[SaidHour]] = {}
    for one in sorted(said, key=lambda one: one.role == "ready" and one.moment.lead not in ("by", "before")):
        of.setdefault(one.role or "", []).append(one)
    return of


def _asks_to_start(bound: Bound) -> bool:
    """Whether "from 6" can be when the work may begin: no word of being there or away claims it."""
    return not bound.said("clocked:home", "away:*")
