"""Compiles the list of English words from two free sources; run when a newer edition of either is wanted.

    python -m knowledge.english.compiled american-english british-english folder-of-wordnet

The first two are the word lists of Debian's packages wamerican and wbritish (from SCOWL), the third the folder with
`data.noun`, `noun.exc`, `cntlist.rev` … of Debian's wordnet-base. SOURCES.txt beside this file holds the licences.

Each word gets one letter that says what sort of thing it mostly means, weighed by how often each sense was met:

    f   food, plant, animal, substance, measure: what could go into a bowl or say how much
    k   a verb of working, changing, making: it may say what was done to a dough
    n   any other thing
    j   an adjective
    w   any other verb
    r   an adverb
    p   a name, or a person, a place, a group, a time
    o   none of these: small words
"""

from __future__ import annotations

import sys
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

from knowledge.vocabulary import fold

TARGET = Path(__file__).with_name("words.txt")

_NOUN_FILES = {5: "f", 13: "f", 20: "f", 23: "f", 27: "f", 14: "p", 15: "p", 18: "p", 28: "p"}
_VERB_FILES = {30: "k", 34: "k", 35: "k", 36: "k"}
_SHARE = 0.2
"""Food and work are told by a smaller share of the senses than the rest: passing one over does harm."""
_ENDINGS = {
    "noun": (("ies", "y"), ("ves", "f"), ("es", ""), ("s", ""), ("men", "man")),
    "verb": (("ies", "y"), ("es", "e"), ("es", ""), ("s", ""), ("ied", "y"), ("ed", "e"), ("ed", ""), ("ing", "e"),
             ("ing", "")),
    "adj": (("ier", "y"), ("iest", "y"), ("er", ""), ("est", ""), ("er", "e"), ("est", "e")),
    "adv": (),
}  # fmt: skip
_PART = {"1": "noun", "2": "verb", "3": "adj", "4": "adv", "5": "adj"}


def _letter(part: str, file: int) -> str:
    if part == "noun":
        return _NOUN_FILES.get(file, "n")
    if part == "verb":
        return _VERB_FILES.get(file, "w")
    return {"adj": "j", "adv": "r"}[part]


def _senses(folder: Path) -> dict[str, dict[str, dict[str, float]]]:
    """Part of speech -> word -> letter -> how often met."""
    found: dict[str, dict[str, dict[str, float]]] = {
        part: defaultdict(lambda: defaultdict(float)) for part in _PART.values()
    }
    for part, senses in found.items():
        for line in (folder / f"data.{part}").read_text(encoding="latin-1").splitlines():
            if line.startswith(" "):
                continue
            cells = line.split()
            for place in range(int(cells[3], 16)):
                word = fold(cells[4 + 2 * place].partition("(")[0])
                senses[word][_letter(part, int(cells[1]))] += 0.3
    for line in (folder / "cntlist.rev").read_text(encoding="latin-1").splitlines():
        key, _, count = line.split()
        word, _, rest = key.partition("%")
        kind, file = rest.split(":")[:2]
        part = _PART[kind]
        found[part][fold(word)][_letter(part, int(file))] += float(count)
    return found


def _exceptions(folder: Path) -> dict[str, dict[str, list[str]]]:
    return {
        part: {
            cells[0]: cells[1:]
            for line in (folder / f"{part}.exc").read_text(encoding="latin-1").splitlines()
            if (cells := line.split())
        }
        for part in _ENDINGS
    }


def _stems(word: str, part: str, exceptions: dict[str, list[str]]) -> Iterator[str]:
    yield word
    yield from exceptions.get(word, ())
    for ending, instead in _ENDINGS[part]:
        if word.endswith(ending) and len(word) > len(ending) + 1:
            stem = word[: -len(ending)] + instead
            yield stem
            if part != "noun" and len(stem) > 3 and stem[-1] == stem[-2]:
                yield stem[:-1]


def letter_of(word: str, senses: dict[str, dict[str, dict[str, float]]], odd: dict[str, dict[str, list[str]]]) -> str:
    """The letter of one word; "o" where nothing is known of it."""
    weights: dict[str, float] = defaultdict(float)
    for part, known in senses.items():
        for stem in dict.fromkeys(_stems(word, part, odd[part])):
            for letter, weight in known.get(stem, {}).items():
                weights[letter] += weight
    total = sum(weights.values())
    if not total:
        return "o"
    heavy = max("fk", key=lambda letter: weights[letter])
    if weights[heavy] >= _SHARE * total:
        return heavy
    return max(weights, key=lambda letter: weights[letter])


def compiled(lists: list[Path], folder: Path) -> str:
    """The list as text: a line a word, sorted."""
    plain: set[str] = set()
    names: set[str] = set()
    for path in lists:
        for typed in path.read_text(encoding="utf-8").split():
            if typed.endswith("'s") or len(typed) < 2:
                continue
            (names if typed != typed.lower() else plain).add(fold(typed))
    senses, odd = _senses(folder), _exceptions(folder)
    rows = {word: "p" for word in names if word.isascii()}
    rows |= {word: letter_of(word, senses, odd) for word in plain if word.isascii()}
    return "".join(f"{word} {rows[word]}\n" for word in sorted(rows))


if __name__ == "__main__":
    *lists_said, folder_said = (Path(said) for said in sys.argv[1:])
    TARGET.write_text(compiled(lists_said, folder_said), encoding="ascii")
