"""Words and turns of speech of a complaint, and the small words between them."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.lexicon import Term


def word_set(words: str) -> frozenset[str]:
    """The words of a line of them."""
    return frozenset(words.split())


FILL = word_set(
    "a absolutely again all also always an and are be been being bit both came come comes coming completely did "
    "do does fairly feels felt get gets getting going gone got had has have he i im is it its itself ive just "
    "kind little look looked looking looks my now of our out pretty quite rather really seem seems she so some "
    "sort still that thats the their them there these they theyre this those totally turned very was we were "
    "weve your bloody blooming damn damned darn darned flipping blasted stupid ruddy sodding freaking utterly"
)
"""Words passed over inside a turn of speech."""
NOT = word_set(
    "aint arent cant didnt doesnt dont hadnt hasnt havent isnt neither never no nor not wasnt werent without wont"
)
"""Words that deny what follows."""
BETWEEN = word_set("a all any at especially even getting is it particularly really so that the too very was")
"""Words that may stand between a denial and what it denies."""
STRESS = word_set(
    "awful awfully bloody cruel dead desperate dreadfully extremely far fierce hella horribly horrid incredibly mad "
    "mighty powerful proper pure real right savage shocking so super terrible terribly too very way well wicked wild"
)
"""Words that make a half word a plain one: "so soft", "way too heavy"."""
SIMILE = word_set("as like than")
"""Words behind which a picture only paints what was said before it: "chewy as old boots", "dry as dust"."""
LOOSE_ENDS = word_set(
    "after before during from into long more much over same short still than that then this under went when while with"
)
"""Words too loose to be found in either order."""
APART = NOT | LOOSE_ENDS
EMPTY = word_set("a an the my is are was were be been it its they them of i has had have do did does and that this")
"""Words left out of a turn of speech where it is looked up without its small words."""


@dataclass(frozen=True, slots=True)
class Word:
    """A word of the line: folded (a slip repaired), its place, and whether a mark stands before it."""

    text: str
    start: int
    end: int
    after_mark: bool = False
    typed: str = ""
    amount: int = -1  # which amount of the line it is part of
    key: str = ""  # the word it is alike to in a turn of speech ("stinks": "smells")


@dataclass(frozen=True, slots=True)
class Mention:
    """A turn of speech found: its meanings, the words it covers (from, to), whether it is denied."""

    terms: tuple[Term, ...]
    first: int
    last: int
    denied: bool = False

    def ids(self, kind: str) -> tuple[str, ...]:
        return tuple(i for k, i in self.terms if k == kind)


CueAt = tuple[int, int, str, str]
"""(first, last word, kind, name) of a steering word."""
