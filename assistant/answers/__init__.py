"""Answers by kind of request, one module a topic; a new module is found by itself.

@answers(TimingRequest)
def answer(request: TimingRequest, room: Room) -> Outcome: ...
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable
from functools import cache
from typing import Any, TypeVar

from assistant.engine.possible import check_request
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from grammar.days import NoSuchDay

Answerer = Callable[[Any, Room], Outcome]
A = TypeVar("A", bound=Answerer)
_ANSWERERS: dict[type, Answerer] = {}


def answers(request: type) -> Callable[[A], A]:
    """Marks the function that answers a kind of request."""

    def noted(answerer: A) -> A:
        if request in _ANSWERERS and _ANSWERERS[request] is not answerer:
            raise ValueError(f"{request.__name__} is answered twice")
        _ANSWERERS[request] = answerer
        return answerer

    return noted


@cache
def _load() -> None:
    for info in pkgutil.iter_modules(__path__):
        importlib.import_module(f"{__name__}.{info.name}")


def namesake(kind: type) -> str | None:
    """The module named like the request's own, or like its first words (`plan_change` by `plan`); None without one."""
    words = kind.__module__.rpartition(".")[2].split("_")
    known = {info.name for info in pkgutil.iter_modules(__path__)}
    return next((name for n in range(len(words), 0, -1) if (name := "_".join(words[:n])) in known), None)


def answer(request: Any, room: Room) -> Outcome:
    """The answer to a request. Raises Refused where it is impossible or unsafe."""
    kind = type(request)
    name = None if kind in _ANSWERERS else namesake(kind)
    if name is not None:
        importlib.import_module(f"{__name__}.{name}")  # one request need not wait for every topic's engine
    if kind not in _ANSWERERS:
        _load()
    check_request(request, kind.__module__.rpartition(".")[2], room.kb)
    try:
        return _ANSWERERS[kind](request, room)
    except NoSuchDay as none:
        raise Refused(f"there is no {none.said}", f"{none.nearest.day} {none.nearest:%B}") from none


def answered_kinds() -> frozenset[type]:
    """Every kind of request that has an answer."""
    _load()
    return frozenset(_ANSWERERS)
