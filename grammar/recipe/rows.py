"""Which rows of a recipe are ingredients, and which are method, remark or heading."""

from __future__ import annotations

import re

from grammar.lexicon import fold
from grammar.recipe.line import IngredientLine, read_lines
from grammar.recipe.plain import PlainLine
from grammar.recipe.words import RecipeWords

_LISTS = frozenset({"ingredients", "build", "outside"})
_STEP = re.compile(r"^\s*(?:step\s*)?\d{1,2}\s*[.):]\s+(?=[A-Za-z])", re.I)
_LEAST_BARE = 10.0
_LONGEST_NUMBERED = 60
"""A numbered row longer than this is a step, no ingredient."""
MOST_LISTED_WORDS, MOST_PROSE_WORDS = 40, 25
"""A row under a heading has no more words than the first; one outside, without a bullet, no more than the second."""
MOST_ROW_WORDS = 6
"""A row of a list that ends in its weight has no more words than this."""


def measures_something(line: IngredientLine) -> bool:
    """Whether a line measures something: a bare "two" in a title counts nothing."""
    if any(not part.bare for measure in line.measures for part in measure.parts):
        return True
    if not line.measures or line.item is None:
        return False
    count = line.measures[0]
    weighed = line.text[-1:].isdigit() and len(line.text.split()) <= 4 and count.parts[0].low >= _LEAST_BARE
    return count.start == 0 or weighed  # "flour 1000" heads a list of bare weights


def ingredients_of(
    row: str, line: PlainLine, section: str, headed: bool, known: RecipeWords
) -> tuple[IngredientLine, ...] | None:
    """The ingredients on a row, or None where it is method, remark or heading.

    section: the one it stands in. headed: the recipe has a heading of ingredients, so none stand before one.
    """
    if not _may_list(line, section, headed):
        return None
    words = line.text.split()
    found = read_lines(row, known)
    measured = any(one.measures for one in found)
    first = fold(words[0]).strip(".,:;")
    if first in known.verbs and len(words) > 3 and not (measured and found[0].measures[0].start < 2):
        return None
    if line.text.endswith(":") and not measured:
        return None
    if section in _LISTS:
        return found if len(words) <= MOST_LISTED_WORDS else None
    lists = _lists_measured(found, line, len(words)) if measured else _lists_named(found, line, len(words))
    return found if lists else None


def _may_list(line: PlainLine, section: str, headed: bool) -> bool:
    """Whether a row can be of a list, by where it stands and how it begins."""
    if section in ("method", "other") or (line.heading and section not in _LISTS):
        return False
    if headed and section == "unsaid":
        return False
    names = any(sign.isalpha() for sign in line.text)  # figures alone name nothing
    return names and not (_STEP.match(line.text) and len(line.text) > _LONGEST_NUMBERED)


def _lists_measured(found: tuple[IngredientLine, ...], line: PlainLine, words: int) -> bool:
    """Whether a measured row outside any list is one of a list all the same."""
    first = found[0]
    if first.item is None and not any(one.dimension in ("mass", "volume") for one in first.measures):
        return False
    if words <= MOST_ROW_WORDS and _ends_weighed(found[-1], line.text):
        return True  # a row of a list in words nobody knows here: shown as not read, never passed over
    if first.item is not None or first.measures[0].start < 4:
        prose = words > MOST_PROSE_WORDS and not line.bullet
        return first.measures[0].start <= 60 and not prose
    return False


def _lists_named(found: tuple[IngredientLine, ...], line: PlainLine, words: int) -> bool:
    """Whether a row without an amount, outside any list, names an ingredient and nothing else."""
    if not found or found[0].item is None or words > 8:
        return False
    return line.bullet or found[0].to_taste or words <= 4


def _ends_weighed(line: IngredientLine, text: str) -> bool:
    """Whether a line ends in a weight or a volume: "farine 1 kg"."""
    last = line.measures[-1] if line.measures else None
    return last is not None and last.dimension in ("mass", "volume") and len(text) - last.end <= 1
