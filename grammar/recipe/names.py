"""Which ingredient a recipe line names: the longest known name in the clause that matters, its head noun last.

Words that say how a thing is cut, kept or bought are passed over. "A or B" takes A and keeps B; where A is only half a
name ("light or dark brown sugar") it borrows B's head.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from grammar.recipe.words import Match, RecipeWords, folded_words, matches

_STOPS = frozenset(
    {
        "for", "to", "at", "in", "from", "until", "plus", "such", "like", "see", "if", "into", "with", "without",
        "per", "on", "over", "as", "divided", "than", "which", "that", "about", "or", "is", "are", "was",
        "then", "when", "because", "while",
    }
)  # fmt: skip
_SEPARATE_NAMES = frozenset({"nut", "seed", "fruit", "grain", "spice"})
"""Groups whose members are also said as the first half of another name: "almond or hazelnut flour"."""
_OR = re.compile(r"\s*(?:,\s*or\b|\bor else\b|\bor\b|\band/or\b|\band\b|&|(?<=[a-z%])\s?/\s?(?=[a-z]))\s*")
_CLAUSE = re.compile(r"[,;:|=]|\s[-–]\s|\s[-–]$|^[-–]\s")


@dataclass(frozen=True, slots=True)
class Naming:
    """The ingredient named. item: its id, None when no name is known; said: the words it was read from.

    phrase: the name itself, folded; others: ids offered with "or". passed_over: words before the head that are not
    known, so that "teff flour" read as flour can be said to be a guess.
    """

    item: str | None
    said: str
    phrase: str = ""
    others: tuple[str, ...] = ()
    passed_over: tuple[str, ...] = ()


def naming(after: str, before: str, known: RecipeWords) -> Naming:
    """The ingredient of a line.

    after, before: the line's text behind and in front of its first amount, all amounts taken out.
    """
    said = ""
    for text in (after, before):
        outside, inside = _brackets(text)
        for part in (outside, *inside):
            found = _in_part(part.lower(), known)
            if found is not None:
                return _narrowed(found, outside, inside, known)
            said = said or " ".join(part.strip(" ,;:-–.").split())
    words = tuple(word for word in folded_words(said) if word.isalpha())
    for word in words:
        if word in known.short and all(other in known.states for other in words):
            return Naming(known.short[word], said, word)
    return Naming(None, said)


def _narrowed(found: Naming, outside: str, inside: tuple[str, ...], known: RecipeWords) -> Naming:
    """A bare head made more exact by what follows it: "flour (bread)", "sugar, brown"."""
    if " " in found.phrase or found.others:
        return found
    clauses = [*_CLAUSE.split(outside.lower())[1:], *(part.lower() for part in inside)]
    same = found
    for clause in clauses:
        words = folded_words(clause)
        if not words or "or" in words or "not" in words:
            continue
        for count in (2, 1):
            phrase = " ".join((*words[:count], found.phrase))
            item = known.items.get(phrase) if len(words) >= count else None
            if item is not None and item != found.item:
                return replace(found, item=item, phrase=phrase)
            if item is not None:
                same = replace(found, phrase=phrase)
    return same


def _brackets(text: str) -> tuple[str, tuple[str, ...]]:
    """The text outside round brackets and each bracket's own; a bracket never closed is no bracket."""
    inside = tuple(match.strip() for match in re.findall(r"\(([^()]*)\)", text))
    outside = re.sub(r"\([^()]*\)", " ", text)
    return outside.replace("(", " ").replace(")", " "), tuple(part for part in inside if part)


def _in_part(part: str, known: RecipeWords) -> Naming | None:
    """The first clause that names something; a list before "or" is one clause."""
    clauses = [clause.strip() for clause in _CLAUSE.split(part) if clause.strip(" .")]
    listed = [clause for clause in clauses if clause]
    for index, clause in enumerate(listed):
        joined = clause
        if not _whole(clause, known) or _half_name(clause, known):
            rest = listed[index + 1 : index + 4]
            ends = [n for n, later in enumerate(rest) if later.startswith("or ") or " or " in later]
            if ends:
                joined = " or ".join([clause, *(later.removeprefix("or ") for later in rest[: ends[0] + 1])])
        found = _in_clause(joined, known)
        if found is not None:
            return found
    return None


def _in_clause(clause: str, known: RecipeWords) -> Naming | None:
    clause = re.sub(r"^\s*(?:(?:or|and)\b|[/&+])\s*|\s*(?:\b(?:or|and|plus)|[/&+])\s*$", "", clause)
    whole = _head(clause, known)
    if whole is not None and not _OR.search(_without(clause, whole, known)):
        phrase = " ".join(folded_words(clause)[whole.start : whole.end])
        return Naming(whole.item, clause, phrase, passed_over=_unknown_before(clause, whole, known))
    options = [option for option in _OR.split(clause) if option]
    if len(options) < 2:
        return None
    last = folded_words(options[-1])
    read = [_option(option, last, index == len(options) - 1, known) for index, option in enumerate(options)]
    named = [name for name in read if name is not None]
    if not named:
        return None
    item, phrase = named[0]
    others = tuple(dict.fromkeys(other for other, _ in named[1:] if other != item))
    return Naming(item, clause, phrase, others)


def _option(option: str, last: tuple[str, ...], is_last: bool, known: RecipeWords) -> tuple[str, str] | None:
    """(id, name) of one of several things offered; half a name borrows the last one's head."""
    alone = _head(option, known)
    own = folded_words(option)
    if not is_last and (alone is None or known.groups.get(alone.item) in _SEPARATE_NAMES):
        for size in range(len(last) - 1, 0, -1):
            head = last[-size:]
            for start in range(len(own)):
                item = known.item((*own[start:], *head))
                if item is not None:
                    return item, " ".join((*own[start:], *head))
    return (alone.item, " ".join(own[alone.start : alone.end])) if alone is not None else None


def _head(clause: str, known: RecipeWords) -> Match | None:
    """The name in a clause: the last of names that stand together, before any word that opens an explanation."""
    words = folded_words(clause)
    found = matches(words, known)
    stop = next((n for n, word in enumerate(words) if n and word in _STOPS and not _inside(n, found)), len(words))
    found = tuple(match for match in found if match.start < stop)
    if not found:
        return None
    head = found[0]
    for match in found[1:]:
        between = words[head.end : match.start]
        if all(word in known.states for word in between):
            head = match
    trailing = [word for word in words[head.end : stop] if word.isalpha() and word not in known.states]
    return None if trailing and trailing[0] not in ("of",) else head


def _inside(place: int, found: tuple[Match, ...]) -> bool:
    return any(match.start <= place < match.end for match in found)


def _whole(clause: str, known: RecipeWords) -> bool:
    return _head(clause, known) is not None


def _half_name(clause: str, known: RecipeWords) -> bool:
    """Whether a clause may be the first half of a name whose head comes later: "vegetable, canola, or coconut oil"."""
    head = _head(clause, known)
    return head is not None and known.groups.get(head.item) in _SEPARATE_NAMES and len(clause.split()) <= 2


def _without(clause: str, match: Match, known: RecipeWords) -> str:
    """The clause around a name: an "or" inside the name itself, or in the explanation behind it, offers nothing."""
    words = folded_words(clause)
    stop = next((n for n, word in enumerate(words) if n >= match.end and word in _STOPS - {"or"}), len(words))
    return " ".join((*words[: match.start], "|", *words[match.end : stop]))


def _unknown_before(clause: str, match: Match, known: RecipeWords) -> tuple[str, ...]:
    words = folded_words(clause)[: match.start]
    return tuple(word for word in words if word.isalpha() and word not in known.states and len(word) > 2)
