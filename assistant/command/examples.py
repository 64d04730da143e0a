"""Lines that can be said, as the kinds of request declare them, kept in a table: reading them takes a moment."""

from __future__ import annotations

from collections.abc import Iterable
from importlib.util import find_spec
from pathlib import Path

from knowledge.cache import TableCache, digest

_FIRST = ("formula", "diagnosis", "timing")
"""Topics whose examples stand first on a first page."""


def examples(cache: Path | None) -> tuple[str, ...]:
    """One example line of each topic first, then all the others."""
    return tuple(TableCache(cache).table("examples", digest(*_sources()), lambda: list(_made())))


def _sources() -> Iterable[bytes]:
    spec = find_spec("grammar")
    assert spec is not None and spec.origin is not None
    for path in sorted((Path(spec.origin).parent / "requests").glob("*.py")):
        yield path.name.encode()
        yield path.read_bytes()


def _made() -> Iterable[str]:
    from grammar.requests import named_first

    by_topic: dict[str, list[str]] = {topic: [] for topic in _FIRST}
    for frame in named_first():
        by_topic.setdefault(frame.topic, []).extend(frame.examples)
    lines = {said[0]: None for said in by_topic.values() if said}
    return dict.fromkeys([*lines, *(line for said in by_topic.values() for line in said)])
