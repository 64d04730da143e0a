"""Every way of saying every known thing, as one plain table: the reader's vocabulary.

The reader may import nothing from here, so the table is made of text and tuples: a folded phrase gives the
`(kind, id)` pairs it can mean. A phrase that several records say has several; the record that lists it earlier among
its said forms comes first, and the reader chooses by what stands around it.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping

from knowledge.columns import columns, from_columns, pairs
from knowledge.families import families
from knowledge.loader import Knowledge

Term = tuple[str, str]

SLIP = "slip"
"""The kind of words that are slips of the finger: the id is the word meant. No vocabulary, see `slips`."""

ASPECT = "aspect"
"""The kind of words that say how something is meant. They may mean something else too, so they are no vocabulary."""

CARRIES = "carries"
"""The kind of words that carry meaning though nothing is known of them; no vocabulary either."""

TAKEBACK = "takeback"
"""The kind of words that take back what was said before them in the line. No vocabulary, see `takebacks`."""

TURN = "turn"
"""The kind of turns of speech that others are made of: "allergic to …" and a food. No vocabulary by themselves."""

PLACE = "place"
"""The kind of words for places where dough stands."""

_OF_A_PLACE: tuple[Term, ...] = (("filler", "place"), ("cue", "place"))
"""What a place is to everybody else: harmless, but for those who ask how warm it is there."""

_ALSO_PLACES = frozenset({"filler", "look", "night_way"})
"""Kinds of words that may name a place beside what else they mean."""

ASIDE = frozenset({"kit", "kit_word", PLACE, "hand", "reason", "eater"})
"""Kinds of words known only to turns of speech about the kitchen and the notebook, to reasons and to tables of eaters:
see `asides`."""

SPEECH = "speech"
"""The kind of small words of English by what they do in a clause. No vocabulary, see `speech`."""

CHOICE = "choice"
"""The kind of words that choose among readings offered; looked at only then, so they are no vocabulary."""

NO_VOCABULARY = frozenset({SLIP, ASPECT, CARRIES, CHOICE, TAKEBACK, TURN, SPEECH})

_IRREGULAR = {
    "loaf": "loaves", "half": "halves", "leaf": "leaves", "knife": "knives", "shelf": "shelves",
    "potato": "potatoes", "tomato": "tomatoes",
}  # fmt: skip


def fold(text: str) -> str:
    """The form in which phrases are looked up: lower case, no accents or apostrophes, hyphens and gaps one space."""
    plain = unicodedata.normalize("NFKD", text)
    plain = "".join(sign for sign in plain if not unicodedata.combining(sign)).lower()
    plain = plain.replace("'", "").replace("’", "").replace("-", " ").replace("_", " ")
    return " ".join(plain.split())


def plural(phrase: str) -> str | None:
    """The phrase with its last word in the plural; None where it is no word or looks plural already."""
    before, _, last = phrase.rpartition(" ")
    if not last.isalpha() or (last.endswith("s") and not last.endswith("ss")):
        return None
    if last in _IRREGULAR:
        many = _IRREGULAR[last]
    elif last.endswith("y") and last[-2:-1] not in "aeiou":
        many = last[:-1] + "ies"
    elif last.endswith(("ss", "x", "z", "ch", "sh")):
        many = last + "es"
    else:
        many = last + "s"
    return f"{before} {many}".strip()


_DOUBLED = re.compile(r"[^aeiou]*[aeiou][bdgklmnprt]")
"""Verbs whose last letter is written twice before an ending: "slop", "drip"."""


def verb_forms(verb: str) -> tuple[str, ...]:
    """A regular verb in its forms: "drip", "drips", "dripped", "dripping"."""
    many = plural(verb) or verb
    if verb.endswith("e"):
        return verb, many, verb + "d", verb[:-1] + "ing"
    if verb.endswith("y") and verb[-2:-1] not in "aeiou":
        return verb, many, verb[:-1] + "ied", verb + "ing"
    stem = verb + verb[-1] if _DOUBLED.fullmatch(verb) else verb
    return verb, many, stem + "ed", stem + "ing"


def comparative(adjective: str) -> str:
    """An adjective of one or two syllables in its second degree: "flat", "flatter"; "soggy", "soggier"."""
    if adjective.endswith("e"):
        return adjective + "r"
    if adjective.endswith("y"):
        return adjective[:-1] + "ier"
    return (adjective + adjective[-1] if _DOUBLED.fullmatch(adjective) else adjective) + "er"


def vocabulary(kb: Knowledge) -> Mapping[str, tuple[Term, ...]]:
    """Folded phrase → what it can mean, likeliest first. Kept between runs with the other tables."""
    return from_columns(kb.table("vocabulary", kb.digest(), lambda: columns(_phrases(kb))), pairs)


def asides(kb: Knowledge) -> Mapping[str, tuple[Term, ...]]:
    """Folded phrase → what it means about the kitchen, the doughs on the bench or the notebook.

    These words are looked up by whoever reads such a line and by nobody else: "takes" or "keep" mean nothing elsewhere.
    """
    return from_columns(kb.table("asides", kb.digest("words"), lambda: columns(_asides(kb))), pairs)


def _asides(kb: Knowledge) -> dict[str, list[Term]]:
    phrases: dict[str, dict[Term, None]] = {}
    for word in kb.words.values():
        if word.kind in ASIDE:
            for form in word.said_as:
                phrases.setdefault(fold(form), {})[word.kind, word.id] = None
    return {phrase: list(terms) for phrase, terms in phrases.items()}


def slips(kb: Knowledge) -> Mapping[str, str]:
    """Folded word → the folded word it is known to be a slip of ("flower" → "flour")."""
    return {fold(form): fold(word.id) for word in kb.words.values() if word.kind == SLIP for form in word.said_as}


def aspects(kb: Knowledge) -> Mapping[str, tuple[tuple[str, str], ...]]:
    """Folded words → how what stands beside them is meant, and where they look: ahead, back, or either."""
    table = kb.table("aspects", kb.digest("words"), lambda: _aspects(kb))
    return {words: tuple((aspect, looks) for aspect, looks in found) for words, found in table.items()}


def _aspects(kb: Knowledge) -> dict[str, list[tuple[str, str]]]:
    out: dict[str, list[tuple[str, str]]] = {}
    for word in kb.words.values():
        for form in word.said_as if word.kind == ASPECT else ():
            looks = "ahead" if form.endswith("…") else "back" if form.startswith("…") else "either"
            out.setdefault(fold(form.strip("…")), []).append((word.id, looks))
    return out


def choices(kb: Knowledge) -> Mapping[str, int]:
    """Folded words → the place of the reading they choose, the first being 1."""
    return {fold(form): int(word.id) for word in kb.words.values() if word.kind == CHOICE for form in word.said_as}


def carrying_words(kb: Knowledge) -> frozenset[str]:
    """Folded words that no topic knows and that still can change what a line means."""
    return frozenset(fold(form) for word in kb.words.values() if word.kind == CARRIES for form in word.said_as)


def takebacks(kb: Knowledge) -> Mapping[str, tuple[str, ...]]:
    """Folded phrase → how it takes part in taking back: the ids of the words of that kind."""

    def table() -> dict[str, list[str]]:
        out: dict[str, list[str]] = {}
        for word in kb.words.values():
            for form in word.said_as if word.kind == TAKEBACK else ():
                out.setdefault(fold(form), []).append(word.id)
        return out

    return {words: tuple(classes) for words, classes in kb.table("takebacks", kb.digest("words"), table).items()}


def speech(kb: Knowledge) -> Mapping[str, tuple[str, ...]]:
    """What small words do in a clause → those words, folded."""

    def table() -> dict[str, list[str]]:
        return {word.id: [fold(form) for form in word.said_as] for word in kb.words.values() if word.kind == SPEECH}

    return {does: tuple(words) for does, words in kb.table("speech", kb.digest("words"), table).items()}


def _said(kb: Knowledge) -> Iterator[tuple[int, str, str, str, bool]]:
    """(place among the record's forms, form, kind, id, whether it has a plural) of every said form there is."""
    for family in families():
        for record in kb.all(family.record).values():
            for kind, id in record.terms():
                if kind not in NO_VOCABULARY and kind not in ASIDE:
                    for place, form in enumerate(record.forms(kb)):
                        yield place, form, kind, id, record.counted()


def _phrases(kb: Knowledge) -> dict[str, list[Term]]:
    said = sorted(_said(kb), key=lambda row: row[0])
    phrases: dict[str, list[Term]] = {}
    for _, form, kind, id, _ in said:
        terms = phrases.setdefault(fold(form), [])
        if (kind, id) not in terms:
            terms.append((kind, id))
    written = {phrase: frozenset(terms) for phrase, terms in phrases.items()}
    for _, form, kind, id, counted in said:
        one = fold(form)
        many = plural(one) if counted else None
        # "whites" is said of eggs: a plural that was written down for something else is not stretched.
        if many is None or not written.get(many, frozenset()) <= written[one]:
            continue
        terms = phrases.setdefault(many, [])
        if (kind, id) not in terms:
            terms.append((kind, id))
    for place in (fold(form) for word in kb.words.values() if word.kind == PLACE for form in word.said_as):
        terms = phrases.setdefault(place, [])
        if {kind for kind, _ in terms} <= _ALSO_PLACES:
            terms += [term for term in _OF_A_PLACE if term not in terms]
    phrases.pop("", None)
    return phrases

