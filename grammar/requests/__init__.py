"""The kinds of request, one module each; a new module is found by itself."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Mapping
from functools import cache
from typing import Any

from grammar.follow import Follow
from grammar.frames import Frame


@cache
def frames() -> tuple[Frame, ...]:
    """Every frame there is: the `FRAME` or `FRAMES` of each module in this folder, by module name."""
    found: list[Frame] = []
    for info in sorted(pkgutil.iter_modules(__path__), key=lambda i: i.name):
        module = importlib.import_module(f"{__name__}.{info.name}")
        if hasattr(module, "FRAME"):
            found.append(module.FRAME)
        found.extend(getattr(module, "FRAMES", ()))
    return tuple(found)


@cache
def _follows() -> Mapping[type, Follow]:
    return {frame.request: frame.follow for frame in frames() if frame.follow is not None}


def follow_of(request: Any) -> Follow | None:
    """How a request goes on from an earlier one; None where its kind always stands alone."""
    return next((_follows()[kind] for kind in type(request).__mro__ if kind in _follows()), None)


def named_first() -> list[Frame]:
    """The frames for a reader of examples: in each topic first the one whose module has its name."""
    return sorted(frames(), key=lambda frame: not frame.request.__module__.endswith(f".{frame.topic}"))
