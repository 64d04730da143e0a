"""Where a bake that never goes cold can lie: one block, mix to rack."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from assistant.engine.plan.blocks import Block
from assistant.engine.plan.course import Course
from assistant.engine.plan.feeding import Feed
from assistant.engine.plan.limits import Limits, Place, Window, size_of
from assistant.engine.plan.steps import Move


def whole_places(limits: Limits, course: Course, window: Window | None) -> list[Place]:
    """Places of a bake in one block inside the window (None: as soon as it can be)."""
    places: list[Place] = []
    blocks: dict[int, Block | None] = {}

    def block_at(at: int) -> Block | None:
        key = limits.day.about(at)
        if key not in blocks:
            blocks[key] = course.whole(at)
        return blocks[key]

    for at, feed, moves, ready in _starts(limits, block_at, window):
        block = block_at(at)
        if block is None or not limits.begun(at, feed) or not limits.can(block, at):
            continue
        if limits.too_warm(block.warm_min):
            continue
        night = block.night_min(at, limits.nights) + limits.feed_night(feed, at)
        last = float(ready) if window is None else limits.start_merit(at)
        off, stale = (0.0, 0.0) if window is None else (window.off(ready), window.stale(ready))
        over, many = limits.warm_over(block.warm_min), len(moves) + stale + limits.more_feeds(feed, at)
        key = (off, over, night, many, size_of(moves), last)
        if limits.wish.soonest:
            key = (off, over, float(ready), night, many, size_of(moves))
        places.append(Place(key, at, at, ready, 0, feed, moves))
        free = not (limits.begins_then or limits.wish.soonest)
        settled = night == 0 and many == 0 and free
        if settled or (window is not None and window.wished is not None):
            break
    return places


def _starts(
    limits: Limits, block_at: Callable[[int], Block | None], window: Window | None
) -> Iterator[tuple[int, Feed | None, tuple[Move, ...], int]]:
    """Starts of a bake in one block, with their feeds and the minute it is ready."""
    if window is None:
        for at, feed, moves in limits.forward_mixes():
            block = block_at(at)
            if block is not None:
                yield at, feed, moves, at + block.minutes
        return
    for ready in window.readies:
        at = ready
        for _ in range(4):
            block = block_at(at)
            if block is None:
                return
            if at == ready - block.minutes:
                break
            at = ready - block.minutes
        fed = limits.fed(at)
        if fed is not None:
            yield at, *fed, ready
