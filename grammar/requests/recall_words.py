"""Words that are looked for among notes: which are too common, and what is one word in two forms."""

from __future__ import annotations

SMALL = frozenset({
    "a", "an", "the", "my", "our", "your", "this", "that", "these", "those", "it", "its", "them", "they", "one",
    "ones", "some", "any", "anything", "something", "in", "on", "at", "of", "for", "with", "about", "to", "from",
    "and", "or", "i", "we", "me", "us", "what", "when", "how", "is", "was", "were", "be", "been", "do", "did", "have",
    "had", "where", "mention", "mentions", "mentioned", "which", "anywhere", "thing", "things",
    "bread", "batch", "dough", "bake", "loaf", "say", "breads", "doughs", "loaves", "bakes",
})  # fmt: skip
"""Words too common to be looked for."""
UNTRUE = frozenset({
    "wrong", "true", "right", "correct", "finally", "longer", "anymore", "rubbish", "after", "all", "off", "out",
    "take", "not", "no", "scrap", "forget", "bin", "drop", "erase",
})  # fmt: skip
"""Words of why a note is to go."""
_PLURALS = (
    ("ies", "y", 5), ("ches", "ch", 5), ("shes", "sh", 5), ("xes", "x", 5), ("sses", "ss", 5), ("oes", "o", 5),
    ("s", "", 4),
)  # fmt: skip
"""Endings of more than one, what one ends in, and the least letters of a word that has them."""
_PAST = {"fed": "feed", "made": "make", "bought": "buy"}


def plain(text: str) -> str:
    """A line in lower case without signs: apostrophes close up, everything else becomes a space."""
    closed = "".join(one for one in text.lower() if one not in "’'`´")
    kept = "".join(one if one.isalnum() or one in "_.%°" else " " for one in closed)
    return " ".join(kept.strip(" .").split())


def folded(word: str) -> str:
    """A word without its plural: "rolls" and "roll", "batches" and "batch", "berries" and "berry" are one."""
    word = _PAST.get(word, word)
    if word.endswith(("ss", "us", "is")):
        return word
    endings = ((end, put) for end, put, least in _PLURALS if len(word) >= least and word.endswith(end))
    end, put = next(endings, ("", ""))
    return word.removesuffix(end) + put
