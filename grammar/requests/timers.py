"""Timers: set for so many minutes or to an hour, listed, stopped."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.frames import Bound, Frame, Line, Own
from grammar.moments import Moment
from grammar.requests.recall import plain


@dataclass(frozen=True, slots=True)
class TimerRequest:
    """set a timer for 20 min
    timer 45 minutes for the bake
    remind me to fold in half an hour

    minutes: how long, or `at`: the hour it ends; label: what it is for, as typed.
    """

    minutes: float | None = None
    at: Moment | None = None
    label: str | None = None


@dataclass(frozen=True, slots=True)
class TimersRequest:
    """timers?
    cancel the timer

    stop: the newest timer (all: every one) is taken off the list; else they are listed.
    """

    stop: bool = False
    all: bool = False


CERTAIN = 14.0
"""How well such a line fits: it says "timer", so nothing else is meant."""
_TIMER = r"(?:timers?|alarms?|countdowns?|egg timer|kitchen timer|stopwatch)"
_LIST = re.compile(
    rf"(?:(?:show|list|see|check|what|which|any|are there(?: any)?|have i(?: got)?|do i have|whats on|what "
    rf"is on|hows|is there)"
    rf"(?: me)?(?: any| a| the| my| all)*(?: running)? )?(?:the |my |all |any |active |running )*{_TIMER}"
    r"(?: (?:are |is )?(?:running|on|set|going|left|status|do i have|have i(?: got)?|there|now|still|"
    r"still running|please))*"
    rf"|(?:how long|how much time|how much|what)(?: is| s| have i(?: got)?| do i have)?(?: left| "
    rf"remaining)? (?:on|for|in) "
    rf"(?:the |my )?{_TIMER}|(?:time )?left on (?:the |my )?{_TIMER}"
    rf"|when (?:does|do|will|is) (?:the |my )?{_TIMER}(?: go off| ring| end| finish| done| up| over)*"
    rf"|how long (?:until|till|before) (?:the |my )?{_TIMER}.*"
)
_STOP = re.compile(
    rf"(?:cancel|stop|kill|clear|delete|remove|drop|end|turn off|switch off|forget|silence|scrap|reset)(?: off)? "
    rf"(?P<all>(?:all|every|both)(?: of)? )?(?:the |my |that |this |last )*{_TIMER}(?: off)?|{_TIMER} "
    rf"(?:off|stop|done)"
)
_SET = re.compile(
    rf"\b{_TIMER}\b|\b(?:remind|nudge|call|wake|ping|buzz|beep|poke|tell|warn|alert|shout at) me (?:in|at|"
    rf"to|after|when|again|for|about)\b"
    r"|^time (?:me|this|it)\b|^count down\b|\b(?:remind|nudge|wake|ping|buzz|beep|poke|alert) me\b"
)
_SETTING = re.compile(
    rf"\b(?:please|can you|could you|set|start|run|put|begin|make|add|give me|need|i need|id like|want|"
    rf"another|second|new|a|an|the|my|me|up|on|of|going|and|"
    rf"in|at|to|for|after|from now|when|remind|nudge|call|wake|ping|buzz|beep|poke|tell|warn|alert|shout|"
    rf"again|about|time|this|"
    rf"count|down|it|that|{_TIMER[3:-1]})\b"
)


_MISSED = re.compile(
    rf"\b(?:forgot|missed|ignored|overslept|slept through)\b.*\b{_TIMER}\b"
    rf"|\b{_TIMER}\b (?:didnt|did not|never) |\b(?:didnt|did not) hear (?:the |my )?{_TIMER}\b"
)
"""What went wrong because of a timer: a complaint, not a timer to set."""


def _read(line: Line) -> Own | None:
    said = plain(line.text)
    if _MISSED.search(said):
        return None
    if _LIST.fullmatch(said):
        return Own(TimersRequest(), CERTAIN)
    stopped = _STOP.fullmatch(said)
    if stopped is not None:
        every = bool(stopped["all"]) or re.search(r"\b(?:timers|alarms)\b", said) is not None
        return Own(TimersRequest(stop=True, all=every), CERTAIN)
    if not _SET.search(said):
        return None
    amounts = [phrase for phrase in line.phrases if phrase.kind == "amount"]
    minutes, at, used = None, None, None
    for phrase in amounts:
        if phrase.quantity is not None and phrase.quantity.dim == "time":
            minutes, used = phrase.quantity.base, phrase
        elif phrase.moment is not None and phrase.moment.in_min is not None:
            minutes, used = phrase.moment.in_min, phrase
        elif phrase.moment is not None and phrase.moment.minute is not None:
            at, used = phrase.moment, phrase
        elif phrase.quantity is not None and phrase.quantity.dim == "num" and used is None:
            value, used = phrase.quantity.value, phrase
            before = line.text[: phrase.tokens[0].start].rstrip().lower()
            if before.endswith((" at", " by", " until", " till")) and 0 <= value <= 24 and value == int(value):
                at = Moment(minute=int(value) % 24 * 60)
            else:
                minutes = value
    if used is None:
        return Own(TimerRequest(label=None), CERTAIN) if re.search(rf"\b{_TIMER}\b", said) else None
    label = _label(line.text, used.tokens[0].start, used.tokens[-1].end)
    return Own(TimerRequest(minutes if at is None else None, at, label), CERTAIN)


def _label(text: str, start: int, end: int) -> str | None:
    """What the timer is for: the words around its length that do not set it."""
    rest = f"{text[:start]} {text[end:]}"
    words = " ".join(re.sub(r"[^\w\s'-]", " ", rest).split())
    left = " ".join(_SETTING.sub(" ", words.lower()).split())
    if not left:
        return None
    first, last = left.split()[0], left.split()[-1]
    found = re.search(rf"\b{re.escape(first)}\b.*\b{re.escape(last)}\b|\b{re.escape(first)}\b", words, re.I)
    return found[0] if found is not None else left


def _build(bound: Bound) -> TimerRequest | None:
    """Never from single words."""
    return None


def _build_list(bound: Bound) -> TimersRequest | None:
    """Never from single words."""
    return None


FRAMES = (
    Frame(TimerRequest, "timer", _build, reads=_read, always=True, help_topic="timer"),
    Frame(TimersRequest, "timer", _build_list, help_topic="timer"),
)
