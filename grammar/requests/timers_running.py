"""Timers that run: looked at, or taken off, each by what it is for where that is said."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.levels import PLAINLY
from grammar.spoken import fitting, matched, sentences, spoken
from grammar.turns import END, LEAD

RUNNING = "timer"
"""What stands on the bench while timers run."""


@dataclass(frozen=True, slots=True)
class TimersRequest:
    """timers?
    what's still ticking
    cancel the timer
    the egg timer can go

    stop: the newest timer (all: every one) is taken off the list; else they are listed. label: only those for that.
    """

    stop: bool = False
    all: bool = False
    label: str | None = None


_FOR = r"(?:(?P<label>[a-z ]+?) )"
_TIMER = (
    rf"(?P<all>(?:<hand:every>) )?(?:<hand:those> )*{_FOR}?(?P<timer>(?:<hand:timer>))"
    r"(?: for (?P<behind>[a-z ]+?))?"
)
_ONE = rf"(?:<hand:those> )*{_FOR}(?P<timer>ones?)"
_ASKS = r"(?:(?:<hand:show>|<hand:which>) )"
_ON = r"(?: (?:<hand:ticking>))"
_LISTED = (
    rf"{LEAD}{_ASKS}*{_TIMER}{_ON}*{END}",
    rf"{LEAD}{_ASKS}+(?:<hand:ticking> )*(?:on |for )?{_TIMER}{_ON}*{END}",
    rf"{LEAD}{_ASKS}+(?:<hand:ticks>){_ON}*{END}",
)
_STILL_RUNS = rf"{LEAD}(?:{_ASKS}|anything |something )+(?:i |we )?(?:<hand:runs_on>){END}"
"""What still runs, asked without a word of timers: only where one does."""
_LEFT_OF = (
    rf"{LEAD}how (?:long|much longer|much time|many minutes){_ON}* (?:on|for|of|till|until|with) "
    rf"(?:<hand:those> )*(?P<label>[a-z ]+?){END}",
    rf"{LEAD}how (?:long|much longer|much time|many minutes){_ON}* (?:<hand:those> )*(?P<label>[a-z ]+?){_ON}+{END}",
)
"""What is left, asked of what a timer is for."""
_STOPPED = (
    rf"{LEAD}(?:<hand:stops>) {_TIMER}(?: (?:off|down|please|from the list))*{END}",
    rf"{LEAD}(?:<hand:stops>) {_ONE}(?: (?:off|down|please))*{END}",
    rf"{LEAD}(?:turn|switch|shut|take|call) {_TIMER} off{END}",
    rf"{LEAD}{_TIMER} (?:<hand:can_go>){END}",
    rf"{LEAD}{_ONE} (?:<hand:can_go>){END}",
    rf"{LEAD}no {_TIMER}(?: (?:needed|any more|now|please))*{END}",
)
_ON_THEM = (
    rf"{LEAD}(?:whats|what is|what have|how (?:long|much)(?: time| longer)?(?: is| has| have)?)(?:{_ON}| left)+"
    rf" (?:on|with|for) (?:them|<hand:every>|<hand:those>|each|either)(?: <hand:every>| one| of (?:them|those))*{END}"
)
"""What is left of whatever runs: only where a timer does."""
_OFF_THE_LIST = rf"{LEAD}(?:<hand:those> )*{_FOR}(?:<hand:can_go>){END}"
"""What a timer is for, that can go: only where one runs for that."""


def looks(line: Line) -> Own | None:
    """The timers asked after; those for what is named."""
    if _sets(line):
        return None
    said = spoken(line.text, line.lexicon)
    asks = line.text.rstrip().endswith("?")
    for hit in fitting(_LISTED, said, line.lexicon):
        label = _label(hit, line)
        if label is None or asks or said.folded.startswith(_ASKING):
            return Own(TimersRequest(label=label), PLAINLY)
    if (line.context.known.timers or RUNNING in line.context.standing) and any(
        matched(one, said, line.lexicon) for one in (_STILL_RUNS, _ON_THEM)
    ):
        return Own(TimersRequest(), PLAINLY)
    for hit in fitting(_LEFT_OF, said, line.lexicon):
        if _runs(hit["label"], line):
            return Own(TimersRequest(label=hit["label"]), PLAINLY)
    return None


_ASKING = ("how", "what", "which", "when", "is", "are", "any", "do", "have", "show", "list", "check", "see")


def stops(line: Line) -> Own | None:
    """A timer taken off, in a line or a clause of one that sets none: the rest of it is why."""
    if _sets(line) or line.text.rstrip().endswith("?"):
        return None
    clauses = sentences(line.text, commas=True)
    for text in clauses:
        said = spoken(text, line.lexicon)
        for hit in fitting(_STOPPED, said, line.lexicon):
            if hit["timer"] in ("one", "ones") and RUNNING not in line.context.standing:
                continue
            return Own(_stopped(hit, line), PLAINLY)
        for hit in fitting((_OFF_THE_LIST,), said, line.lexicon):
            if _runs(hit["label"], line):
                return Own(TimersRequest(stop=True, label=hit["label"]), PLAINLY)
    return None


def _stopped(hit: re.Match[str], line: Line) -> TimersRequest:
    label, groups = _label(hit, line), hit.groupdict()
    many = groups.get("all") is not None or (hit["timer"] not in ("one", "ones") and hit["timer"].endswith("s"))
    return TimersRequest(stop=True, all=label is None and many, label=label)


_DEVICES = frozenset({"egg", "oven", "kitchen"})
"""What a timer is called after though it is not for that."""


def _label(hit: re.Match[str], line: Line) -> str | None:
    groups = hit.groupdict()
    words = (groups.get("label") or groups.get("behind") or "").split()
    label = " ".join(word for word in words if not _asking_word(word, line))
    device = label in _DEVICES and hit["timer"] not in ("one", "ones")
    return None if not label or (device and not _runs(label, line)) else label


def _asking_word(word: str, line: Line) -> bool:
    """Whether a word belongs to the question and not to what a timer is for."""
    ids = {name for kind, name in line.lexicon.asides.get(word, ()) if kind == "hand"}
    return bool(ids & {"which", "ticking", "those", "every"}) or word in line.lexicon.units


def _runs(label: str, line: Line) -> bool:
    """Whether a timer runs for what is named."""
    wanted = stems(label)
    return any(wanted & stems(one) for one in line.context.known.timers)


def stems(label: str) -> frozenset[str]:
    """The words of what a timer is for, without their plural."""
    return frozenset(word.removesuffix("s") for word in spoken(label).folded.split() if word not in ("the", "for"))


_COUNTS = re.compile(r"\b(?:2|3|4|two|three|four|both)(?: of)?(?: my| the)? (?:timers|alarms|reminders)\b")
_SETTING = re.compile(r"\b(?:set|start|put|stick|another|new|begin|run|make|add)\b")


def _sets(line: Line) -> bool:
    """Whether a line has a length or an hour, or a word of setting one: then none of those that run is meant."""
    said = spoken(line.text).folded
    times = [
        one for one in line.tokens
        if (one.quantity is not None and one.text.lower() != "one") or one.kind in ("CLOCK", "DAY")
    ]
    counted = _COUNTS.search(said) is not None and len(times) <= 1
    missed = any("missed" in one.ids("clock") or "forgot" in one.ids("mistake") for one in line.tokens)
    return missed or (bool(times) and not counted) or _SETTING.search(said) is not None


FRAMES = tuple(
    Frame(TimersRequest, "timer", never_by_slots, reads=reader, help_topic="timer", settles=True)
    for reader in (looks, stops)
)
