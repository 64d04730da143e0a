"""The headings of a recipe: which section one opens, which line is a title."""

from __future__ import annotations

from grammar.lexicon import fold
from grammar.recipe.plain import plain_line
from grammar.recipe.words import RecipeWords


def section_of(row: str, known: RecipeWords) -> str | None:
    """The kind of section a heading opens; None where the line is no heading."""
    if len(row) > 80:
        return None
    plain = plain_line(row)
    text = fold(plain.text).strip(" .:*#-–")
    if not text or any(sign.isdigit() for sign in text):
        return None
    said = known.sections.get(text)
    if said is not None:
        return said  # even "Levain" alone: without an amount it is no line of a list
    if plain.heading or plain.text.rstrip(" *").endswith(":") or row.lstrip().startswith("**"):
        for form, kind in known.sections.items():
            if text.startswith(form + " ") or text.endswith(" " + form):
                return kind
        if plain.text.rstrip(" *").endswith(":") and text.startswith(("for the ", "for ")):
            return "ingredients"
    return None


def heads_a_list(row: str) -> bool:
    """Whether a row says that ingredients follow."""
    return "ingredient" in fold(row) or "you will need" in fold(row)


def title_like(text: str) -> bool:
    """Whether a row could be a title: short, with words, no sentence."""
    return len(text) <= 90 and not text.endswith(".") and any(sign.isalpha() for sign in text)
