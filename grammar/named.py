"""Names that stand on the bench or in the notebook, found in words as typed."""

from __future__ import annotations

import re
from collections.abc import Iterable

from grammar.context import Known
from grammar.lexicon import fold
from grammar.past import DAY

_SMALL = frozenset({
    "the", "my", "our", "those", "these", "that", "this", "all", "of", "dough", "batch", "lot", "a", "other",
})  # fmt: skip
_DAY = re.compile(rf"\b{DAY}\b")


def dough_named(words: str, known: Known) -> int | None:
    """The place among the doughs under way of the one these words name; None where they name none."""
    said = fold(words)
    bare = " ".join(word for word in said.split() if word not in _SMALL)
    for name in (said, said.removeprefix("the ").removeprefix("my "), bare):
        places = [place for place, labels in enumerate(known.doughs) if name and name in labels]
        if places:
            return places[-1]
    return None


def kept_named(words: str, known: Known) -> str | None:
    """The name of a kept dough that these words are, with or without an article; None where they are none."""
    said = fold(words)
    ways = (said, said.removeprefix("the "), said.removeprefix("my "), said.removeprefix("our "))
    return next((name for name in known.kept if fold(name) in ways), None)


def names_in(said: str, names: Iterable[str]) -> tuple[str, ...]:
    """The names that stand in a folded line, in its order; of two that overlap the longer."""
    found: dict[int, str] = {}
    for name in sorted(names, key=lambda one: -len(one)):
        hit = re.search(rf"\b{re.escape(fold(name))}\b", said)
        if hit is not None:
            said = said[: hit.start()] + "." * len(hit.group()) + said[hit.end() :]
            found[hit.start()] = name
    return tuple(found[at] for at in sorted(found))


def speaks_of_a_dough(words: str, known: Known) -> bool:
    """Whether words name a dough in any way: by its name, its kind, or a day gone by."""
    said = fold(words)
    return dough_named(words, known) is not None or kept_named(words, known) is not None or bool(_DAY.search(said))
