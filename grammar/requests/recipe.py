"""A whole recipe: pasted lines, a page's markup or JSON-LD, or the path of a saved page."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.frames import Frame, never_by_slots

_MARKUP = re.compile(
    r"<\s*(?:!doctype|html|head|body|script|div|p|ul|ol|li|table|section|article|span|h[1-6]|br)\b", re.I
)
_PATH = re.compile(
    r"^\s*(?:convert|read|open|load|import|use)?\s*(?:the\s+)?(?:recipe|page|file)?\s*(?:in|from|at)?\s*"
    r"(?P<quote>[\"']?)(?P<path>[^\"'\n<>|]*?[^\"'\n<>|\s]\.(?:html?|jsonld|json|txt|md))(?P=quote)\s*$",
    re.I,
)
_PLACE = re.compile(r"(?:[/~.\\]|[A-Za-z]:[\\/])|\S+$")
"""A path has a root or no spaces: "card as loaf.html" asks for a card."""
_LISTED = re.compile(
    r"(?:\d|½|⅓|⅔|¼|¾)\s*(?:cups?|tbsps?|tsps?|tablespoons?|teaspoons?|sticks?|pints?|fl\.? ?oz|packets?|sachets?|"
    r"c\.)(?![a-z])",
    re.I,
)


_WANTED = re.compile(
    r"^(?:convert|turn)\s+(?=\d|½|¼|¾)"
    r"|^(?:(?:what are (?:my|the)|give me the|work out (?:my|the)) )?(?:bakers?'?s? )?percentages?\s*(?:for|of|:)\s*"
    r"|(?<![\s,;-])[\s,;-]+(?:(?:as|in) )?(?:bakers?'?s? )?(?:percentages?|percent)(?:\s+please)?\s*$"
    r"|(?<![\s,;])[\s,;]+please\s*$",
    re.I,
)
"""Words before or behind a list that only say what is wanted of it."""


@dataclass(frozen=True, slots=True)
class RecipeRequest:
    """3 cups flour, 1 1/4 cups water, 2 tsp salt and 1/4 cup honey

    A whole recipe: the text as pasted, or the path of a saved page. system: the cups it is written in, if said. anew:
    rows of it said anew.
    """

    text: str = ""
    anew: str = ""
    path: str | None = None
    system: str | None = None


def whole_recipe(text: str) -> RecipeRequest | None:
    """The text as a recipe: several lines, a page's markup, JSON, the path of a file, or a list of cups and spoons."""
    stripped = text.strip("\ufeff \t\r\n")
    if "\n" not in stripped:
        found = _PATH.match(stripped)
        if found and (found.group("quote") or _PLACE.match(found.group("path"))):
            return RecipeRequest(path=found.group("path"))
        if _MARKUP.search(stripped[:4000]) or stripped.startswith(('{"', '[{"')):
            return RecipeRequest(stripped)
        listed = _LISTED.findall(stripped[:2000])
        separate = stripped.count(",") + stripped.count(";") + len(re.findall(r"\band\b", stripped))
        asks = re.search(r"\?|\bout of\b|\binstead\b|\bforgot|\btoo much\b", stripped, re.I)
        stripped = _WANTED.sub("", stripped)
        return RecipeRequest(stripped) if len(listed) >= 3 and separate >= 2 and not asks else None
    if _all_shares(stripped):
        return None  # a dough said in percent, one a line, is no list of weights
    return RecipeRequest(stripped)


def _all_shares(text: str) -> bool:
    """Whether every line of a list is a percentage: "100 % flour", "salt 2 %"."""
    rows = [row.strip() for row in text.splitlines() if row.strip()]
    shares = [row for row in rows if re.search(r"\d\s*%", row) and len(row.split()) <= 6]
    return len(shares) >= 2 and len(shares) == len(rows)


FRAME = Frame(request=RecipeRequest, topic="conversion", build=never_by_slots, needs=("slot:none",), whole=whole_recipe)
