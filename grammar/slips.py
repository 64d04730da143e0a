"""Careful repair of slips of the finger: a word nobody knows becomes the one vocabulary word near it, or stays."""

from __future__ import annotations

import re
from functools import lru_cache


def distance(a: str, b: str, limit: int) -> int:
    """Edits (insert, drop, change, swap neighbours) from a to b; more than `limit` comes back as limit + 1.

    Optimal string alignment, a restricted Damerau-Levenshtein distance.
    """
    if abs(len(a) - len(b)) > limit:
        return limit + 1
    before: list[int] = []
    row = list(range(len(b) + 1))
    for i, ca in enumerate(a, 1):
        now = [i]
        for j, cb in enumerate(b, 1):
            best = min(row[j] + 1, now[j - 1] + 1, row[j - 1] + (ca != cb))
            if i > 1 and j > 1 and ca == b[j - 2] and a[i - 2] == cb:
                best = min(best, before[j - 2] + 1)
            now.append(best)
        if min(now) > limit:
            return limit + 1
        before, row = row, now
    return row[-1]


def allowed(word: str) -> int:
    """How many edits a word may be away: none under four letters, one to six letters, two above."""
    return 0 if len(word) < 4 else 1 if len(word) < 7 else 2


@lru_cache(maxsize=2048)
def _candidates(word: str, targets: frozenset[str]) -> tuple[str, ...]:
    limit = allowed(word)
    best = limit
    found: list[str] = []
    for target in targets:
        # a slip keeps the first letter, or has swapped the first two: else "load" and "road" would be slips of each
        # other
        if len(target) < 4 or not (target[0] == word[0] or target[:2] == word[1::-1]):
            continue
        d = distance(word, target, best)
        if d < best or (d == best and not found):
            best, found = d, [target]
        elif d == best:
            found.append(target)
    return tuple(sorted(found))


def repair(word: str, targets: frozenset[str]) -> str | None:
    """The word that `word` is a slip of, or None: too short, nothing near, or several targets tie.

    Plural and singular of one word do not count as a tie; the longer one wins when the slip ends in s.
    """
    found = _candidates(word, targets) if allowed(word) else ()
    if len(found) == 1:
        return found[0]
    if len(found) == 2 and found[1] in (found[0] + "s", found[0] + "es"):
        return found[1] if word.endswith("s") else found[0]
    if len(found) > 1:  # a swap of two neighbours is the likelier slip than a wrong letter
        swapped = [t for t in found if len(t) == len(word) and sorted(t) == sorted(word)]
        if len(swapped) == 1:
            return swapped[0]
        dropped = [t for t in found if len(t) == len(word) + 1 and _within(word, t)]
        if len(dropped) == 1:
            return dropped[0]
        doubled = [t for t in found if _undouble(t) == _undouble(word)]
        if len(doubled) == 1:
            return doubled[0]
    return None


def _within(word: str, target: str) -> bool:
    """Whether `word` is `target` with letters left out."""
    letters = iter(target)
    return all(letter in letters for letter in word)


def _undouble(word: str) -> str:
    return "".join(c for i, c in enumerate(word) if i == 0 or c != word[i - 1])


_PAUSED, _GOES_ON = re.compile(r"[,;:.]\s+$"), re.compile(r"\s+[a-z]")


def is_name(line: str, word: re.Match[str]) -> bool:
    """Whether a word is somebody's name: the capital with which a clause begins in a line that begins with none."""
    said, opening = word.group(), next((c for c in line if c.isalnum()), "")
    if not (said[:1].isupper() and said[1:].islower()) or opening.isupper():
        return False
    return _PAUSED.search(line[: word.start()]) is not None and _GOES_ON.match(line, word.end()) is not None
