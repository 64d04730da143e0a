"""Everyday English: which words are words at all, and what sort of thing each mostly means.

`words.txt` is one sorted line a word; it is read when the first word is looked up that no vocabulary has, and searched
as it stands. `compiled.py` makes it and tells the letters; `SOURCES.txt` holds its sources and their licences.
"""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

LIST = Path(__file__).with_name("words.txt")


@lru_cache(maxsize=1)
def _words() -> bytes:
    return LIST.read_bytes()


@lru_cache(maxsize=4096)
def letter_of(word: str) -> str:
    """The letter of a folded word (see `compiled`), or "" where it is no English word of the list."""
    if not word.isascii() or not word.isalpha():
        return ""
    words, wanted = _words(), word.encode()
    low, high = 0, len(words)
    while low < high:  # the line in which the middle lies decides
        middle = (low + high) // 2
        start = words.rfind(b"\n", 0, middle) + 1
        end = words.find(b"\n", middle)
        found, _, letter = words[start:end].partition(b" ")
        if found == wanted:
            return letter.decode()
        if found < wanted:
            low = end + 1
        else:
            high = start
    return ""
