"""Requests out of a stream, one a line, and the bounds a request has to keep."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import BinaryIO

LINE_CHARACTERS = 10_000
RECIPE_BYTES = 200_000
DIGITS = 12

LEAVING = frozenset({"bye", "goodbye", "exit", "quit"})
"""Lines that end a conversation on a terminal."""

_OPEN, _CLOSE = "<<<", ">>>"
_LONG_NUMBER = re.compile(rf"(?<![\d.,])(?:\d{{{DIGITS + 1},}}|\d{{1,3}}(?:[,.' ]\d{{3}}){{{DIGITS // 3},}})(?!\d)")


def requests_in(stream: BinaryIO) -> Iterator[str]:
    """Each request of a UTF-8 stream as it arrives.

    Blank lines and lines that begin with # are skipped. The lines between <<< and >>> are one request in which nothing
    is skipped; a stream that ends without >>> ends the recipe too. Bytes that are no UTF-8 come as the replacement
    character. A line or recipe beyond all bounds is cut just past its bound, so that memory stays bounded as well.
    """
    lines = _lines(stream)
    for line in lines:
        said = line.strip()
        if said == _OPEN:
            recipe = _recipe(lines)
            if recipe.strip():
                yield recipe
        elif said and not said.startswith("#"):
            yield line


def beyond_bounds(request: str) -> str | None:
    """Why a request is too big to be read, in one sentence; None where it is not."""
    if "\n" in request:
        size = len(request.encode("utf-8", "replace"))
        if size > RECIPE_BYTES:
            most = f"{RECIPE_BYTES // 1000} kB"
            return f"That text is over {most}, the most a pasted recipe may have. Paste the recipe alone."
        return None
    if len(request) > LINE_CHARACTERS:
        return f"That line is over {LINE_CHARACTERS:,} characters, the most a request may have. Say it in fewer words."
    if _LONG_NUMBER.search(request):
        return f"A number in that line has more than {DIGITS} digits. No bench weighs that: say a smaller one."
    return None


def unwrapped(request: str) -> str:
    """A request given whole, without the <<< and >>> lines a pasted recipe may stand between."""
    lines = request.split("\n")
    if lines[0].strip() == _OPEN:
        lines = lines[1:]
        if lines and lines[-1].strip() == _CLOSE:
            lines.pop()
        return "\n".join(lines)
    return request


def _recipe(lines: Iterator[str]) -> str:
    kept: list[str] = []
    size = 0
    for line in lines:
        if line.strip() == _CLOSE:
            break
        if size <= RECIPE_BYTES:
            kept.append(line)
        size += len(line) + 1
    return "\n".join(kept)


def _lines(stream: BinaryIO) -> Iterator[str]:
    first = True
    while chunk := stream.readline(RECIPE_BYTES + 1):
        line = chunk
        while not chunk.endswith(b"\n") and (chunk := stream.readline(RECIPE_BYTES + 1)):
            pass  # the rest of a line beyond all bounds
        text = line.decode("utf-8", "replace").removesuffix("\n").removesuffix("\r")
        yield text.removeprefix("\ufeff") if first else text
        first = False
