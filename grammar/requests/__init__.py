"""The kinds of request, one module each; a new module is found by itself."""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache

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
