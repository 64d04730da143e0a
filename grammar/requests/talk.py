"""Requests about the talk itself: help, more, begin anew."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from grammar.frames import Bound, Frame
from grammar.levels import speaks


@dataclass(frozen=True, slots=True)
class HelpRequest:
    """help
    what can you do
    help cups
    """

    about: tuple[str, ...] = ()  # words as typed, to narrow the topics


@dataclass(frozen=True, slots=True)
class MoreRequest:
    """more
    tell me more
    """


@dataclass(frozen=True, slots=True)
class StartOverRequest:
    """start over"""


_HELP = re.compile(r"\s*help(?:\s+me)?(?:\s+(?:with|about|on))?(?:\s+the)?\s+(?P<about>[^\W\d_]+)\s*[?!.]*\s*", re.I)


def _help_about(text: str) -> HelpRequest | None:
    """Help about one word that some kind of request is about; what sounds like a fault is never taken for that."""
    from grammar.requests import frames

    found = _HELP.fullmatch(text)
    if found is None:
        return None
    word = found["about"].lower().removesuffix("s")
    asked = (frame for frame in frames() if frame.topic not in ("help", "diagnosis"))
    said = (line.lower() for frame in asked for line in (frame.topic, frame.help_topic or "", *frame.examples))
    return HelpRequest((found["about"],)) if any(word in line for line in said) else None


def _help(bound: Bound) -> HelpRequest:
    about = tuple(
        p.text for p in bound.phrases if p.kind in ("label", "junk") and not p.ids("act") and not p.ids("ask")
    )
    return HelpRequest(about)


def bare(request: type) -> Callable[[Bound], Any]:
    """Builder of a request that takes nothing: any amount in the line means it is something else."""

    def build(bound: Bound) -> object | None:
        return None if any(p.kind == "amount" for p in bound.phrases) else request()

    return build


FRAMES = (
    Frame(
        HelpRequest,
        "help",
        _help,
        cues=speaks(telling="act:help"),
        needs=("act:help",),
        base=0.4,
        whole=_help_about,
    ),
    Frame(
        MoreRequest, "more", bare(MoreRequest), cues=speaks(telling="act:more"), needs=("act:more",),
        rules_out=("ingredient:*", "cue:salt", "cue:starter", "cue:water", "cue:hydration", "cue:flour"),
    ),
    Frame(
        StartOverRequest, "start_over", bare(StartOverRequest), cues=speaks(telling="act:start_over"),
        needs=("act:start_over",), wholly=True,
    ),
)
