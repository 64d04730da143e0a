"""Short names for rows and sums: what a baker calls the thing, not its catalogue entry."""

from __future__ import annotations

import re

from knowledge.records.ingredients import Ingredient

PLAIN_SALT = "salt_table"


def short_name(ingredient: Ingredient) -> str:
    """A name of few words in lower case: the shortest form that carries every word of the id, else the bare name."""
    if ingredient.id == PLAIN_SALT:
        return "salt"
    bare = re.sub(r"\s*\([^)]*\)", "", ingredient.name).split(",")[0].split("/")[0].strip().lower()
    wanted = set(ingredient.id.split("_"))
    forms = (bare, *(said.lower() for said in ingredient.said_as))
    carrying = [form for form in forms if wanted <= set(re.split(r"[^a-z0-9]+", form))]
    return min(carrying, key=len) if carrying else bare


def article(name: str) -> str:
    """The name with "a" or "an" before it."""
    return f"{'an' if name[:1].lower() in 'aeiou' else 'a'} {name}"


def figure(value: float) -> str:
    """A percentage or mass as it is spoken: at most one decimal, none where it would be nought."""
    text = f"{value:.1f}" if abs(value) >= 1 else f"{value:.2f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def grams(value: float) -> str:
    """A mass in running text: whole grams, 0.1 g below 10 g."""
    return f"{value:.0f}" if abs(value) >= 9.95 else figure(value)
