"""Turns of speech in a complaint: which symptoms, reports and pictures a line holds, what of, and what it denies.

The words of the line are matched against the complaints of the lexicon, longest first, passing over words that only fill
("the crust is really thick" is "crust thick"). A slip of the finger is repaired to a word of a complaint. Pictures
("soup", "dead") and words said of several things ("not rising") mean what the nearest subject makes them mean.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from grammar.lexicon import Lexicon, Term, fold
from grammar.slips import repair
from grammar.tokens import Token

_WORD = re.compile(r"\d+(?::\d+)+|[^\W_]+(?:['’][^\W_]+)*|[;.!?,:()]|%", re.UNICODE)
_BREAKS = frozenset(";.!?,:()")
_FILL = frozenset(
    [
        "a",
        "an",
        "the",
        "my",
        "our",
        "your",
        "is",
        "are",
        "was",
        "were",
        "be",
        "been",
        "being",
        "it",
        "its",
        "itself",
        "they",
        "them",
        "their",
        "this",
        "that",
        "these",
        "those",
        "very",
        "really",
        "so",
        "just",
        "quite",
        "all",
        "some",
        "rather",
        "bit",
        "little",
        "of",
        "i",
        "ive",
        "we",
        "weve",
        "have",
        "has",
        "had",
        "do",
        "did",
        "does",
        "still",
        "always",
        "totally",
        "completely",
        "absolutely",
        "pretty",
        "fairly",
        "kind",
        "sort",
        "and",
        "he",
        "she",
        "theyre",
        "im",
        "thats",
        "came",
        "comes",
        "come",
        "gone",
        "got",
        "get",
        "gets",
        "going",
        "looks",
        "look",
        "looked",
        "seems",
        "seem",
        "feels",
        "felt",
        "turned",
        "out",
        "looking",
        "coming",
        "getting",
        "both",
        "also",
        "again",
        "now",
        "there",
    ]
)
_NOT = frozenset(
    [
        "not",
        "no",
        "never",
        "without",
        "isnt",
        "wasnt",
        "arent",
        "werent",
        "dont",
        "didnt",
        "doesnt",
        "nor",
        "neither",
        "cant",
        "wont",
        "hasnt",
        "havent",
        "hadnt",
        "aint",
    ]
)
_ASKING = frozenset(
    ["isnt", "wont", "doesnt", "didnt", "hasnt", "arent", "dont", "wasnt", "havent", "werent", "cant", "wouldnt"]
)
_NOUNS = frozenset(
    [
        "dough",
        "starter",
        "levain",
        "bread",
        "loaf",
        "loaves",
        "rolls",
        "rings",
        "crust",
        "crumb",
        "cuts",
        "cut",
        "score",
        "slashes",
        "pitas",
        "pita",
        "rounds",
        "buns",
        "it",
        "they",
        "dent",
        "culture",
        "jar",
        "brioche",
        "baguettes",
        "baguette",
        "boule",
        "focaccia",
        "ear",
        "pockets",
        "flatbreads",
        "pretzels",
    ]
)
_LOOSE_ENDS = frozenset(
    "after before when while during with from into over under still then went more than this that long short much".split()
)
_BETWEEN = frozenset(
    [
        "too",
        "that",
        "at",
        "all",
        "any",
        "so",
        "very",
        "really",
        "especially",
        "particularly",
        "even",
        "a",
        "the",
        "it",
        "is",
        "was",
        "getting",
    ]
)
LONGEST = 9

CueAt = tuple[int, int, str, str]
"""(first, last word, kind, name) of a steering word."""


@dataclass(frozen=True, slots=True)
class Word:
    """A word of the line: folded (a slip repaired), its place, and whether a mark stands before it."""

    text: str
    start: int
    end: int
    after_mark: bool = False
    typed: str = ""
    amount: int = -1  # which amount of the line it is part of


@dataclass(frozen=True, slots=True)
class Mention:
    """A turn of speech found: its meanings, the words it covers (from, to), whether it is denied."""

    terms: tuple[Term, ...]
    first: int
    last: int
    denied: bool = False

    def ids(self, kind: str) -> tuple[str, ...]:
        return tuple(i for k, i in self.terms if k == kind)


@dataclass(frozen=True, slots=True)
class Heard:
    """What a line says went wrong. symptoms, absent, findings, dangers: ids in the order said.

    words: the words of the line; covered: places of those that mean something here; repairs: (as typed, as read);
    plain: whether a symptom was named outright, not by a picture or a report alone.
    """

    words: tuple[Word, ...]
    mentions: tuple[Mention, ...]
    symptoms: tuple[str, ...]
    absent: tuple[str, ...]
    findings: tuple[str, ...]
    dangers: tuple[str, ...]
    subject: str | None
    plain: bool
    repairs: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class _Index:
    exact: Mapping[str, tuple[Term, ...]]
    loose: Mapping[str, tuple[Term, ...]]
    words: frozenset[str]
    pairs: Mapping[frozenset[str], tuple[Term, ...]]


_INDEX: dict[int, _Index] = {}


def _index(lexicon: Lexicon) -> _Index:
    found = _INDEX.get(id(lexicon))
    if found is None:
        loose: dict[str, tuple[Term, ...]] = {}
        for phrase, terms in lexicon.complaints.items():
            bare = " ".join(word for word in phrase.split(" ") if word not in _FILL)
            if " " in bare and bare not in lexicon.complaints:
                loose[bare] = tuple(dict.fromkeys((*loose.get(bare, ()), *terms)))
        words = frozenset(w for phrase in lexicon.complaints for w in phrase.split(" ") if w.isalpha())
        pairs: dict[frozenset[str], tuple[Term, ...]] = {}
        for phrase, terms in (*loose.items(), *lexicon.complaints.items()):
            two = [word for word in phrase.split(" ") if word not in _FILL]
            if len(two) == 2 and min(map(len, two)) >= 4 and not (_NOT | _LOOSE_ENDS) & set(two):
                pairs.setdefault(frozenset(two), terms)
        found = _Index(lexicon.complaints, loose, words, pairs)
        _INDEX.clear()
        _INDEX[id(lexicon)] = found
    return found


def words_of(
    text: str, lexicon: Lexicon, tokens: Sequence[Token]
) -> tuple[tuple[Word, ...], tuple[tuple[str, str], ...]]:
    """The words of a line, slips repaired, and the repairs made."""
    index = _index(lexicon)
    amounts = [(t.start, t.end) for t in tokens if t.quantity is not None]
    mended = {(t.start, t.end): t.repaired for t in tokens if t.repaired}
    out: list[Word] = []
    repairs: list[tuple[str, str]] = []
    mark = False
    for match in _WORD.finditer(text):
        typed = match.group()
        if typed in _BREAKS:
            mark = True
            continue
        word = fold(typed)
        within = next((n for n, (start, end) in enumerate(amounts) if start <= match.start() < end), -1)
        known = (
            word in index.words
            or word in lexicon.words
            or word in lexicon.common
            or word in lexicon.units
            or word in _FILL
            or word in _cue_words(lexicon)
        )
        if not known and within < 0 and word.isalpha():
            better = mended.get((match.start(), match.end())) or repair(word, index.words)
            if better:
                repairs.append((typed, better))
                word = better
        out.append(Word(word, match.start(), match.end(), mark, typed, within))
        mark = False
    return tuple(out), tuple(repairs)


@lru_cache(maxsize=2)
def _words_in(phrases: frozenset[str]) -> frozenset[str]:
    return frozenset(word for phrase in phrases for word in phrase.split(" "))


def _cue_words(lexicon: Lexicon) -> frozenset[str]:
    return _words_in(frozenset(lexicon.cues))


def hear(text: str, lexicon: Lexicon, tokens: Sequence[Token]) -> Heard:
    """What a line says went wrong."""
    words, repairs = words_of(text, lexicon, tokens)
    mentions = tuple(_found(words, lexicon, _trade_names(words, tokens)))
    subjects = subjects_of(words, lexicon)
    symptoms: list[str] = []
    absent: list[str] = []
    findings: list[str] = []
    dangers: list[str] = []
    told: list[tuple[str, str]] = []
    plain = False
    for mention in _heeded(mentions, words, lexicon):
        dangers += [d for d in mention.ids("danger") if not mention.denied]
        subject = _nearest(mention, subjects, words)
        one = _symptom(mention, subject, lexicon)
        report = _report(mention, subject, lexicon)
        if one is not None and report is not None:
            told.append((one, report))
        elif one is not None:
            (absent if mention.denied else symptoms).append(one)
            plain = plain or bool(mention.ids("symptom"))
        elif report is not None:
            findings.append(report)
            shown = lexicon.shows.get(report)
            if shown is not None and not mention.denied:
                symptoms.append(shown)
                plain = True
    alone = not symptoms
    for one, report in told:  # the same words are a fault of their own and a report on another
        of_jar = lexicon.trade_of.get(one) == "starter"
        if alone or lexicon.shows.get(report) == one:
            symptoms.append(one)
            plain = True
        if not (alone and of_jar):
            findings.append(report)
    counts = [name for _, _, name in subjects]
    subject = max(sorted(set(counts)), key=counts.count) if counts else None
    return Heard(
        words,
        mentions,
        tuple(dict.fromkeys(symptoms)),
        tuple(dict.fromkeys(absent)),
        tuple(dict.fromkeys(findings)),
        tuple(dict.fromkeys(dangers)),
        subject,
        plain,
        repairs,
    )


def _heeded(mentions: Sequence[Mention], words: Sequence[Word], lexicon: Lexicon) -> tuple[Mention, ...]:
    """Mentions less pictures that a plain symptom makes needless, and less weaker reports on the same thing.

    "White inside the hole" is no pale crust where tunnels are named; a picture joined to a symptom ("pale and thick")
    stays. Of two reports on one thing the one of more words holds, then the first.
    """
    plain = [m for m in mentions if m.ids("symptom")]
    reports: dict[str, Mention] = {}
    for mention in mentions:
        for finding in mention.ids("finding")[:1]:
            about = lexicon.about.get(finding, finding)
            best = reports.get(about)
            if best is None or mention.last - mention.first > best.last - best.first:
                reports[about] = mention
    out = []
    for mention in mentions:
        only_picture = mention.ids("picture") and not mention.ids("symptom")
        if only_picture and plain and not any(_joined(mention, one, words) for one in plain):
            continue
        finding = mention.ids("finding")[:1]
        if finding and not mention.ids("symptom") and reports[lexicon.about.get(finding[0], finding[0])] is not mention:
            continue
        out.append(mention)
    return tuple(out)


def _joined(one: Mention, other: Mention, words: Sequence[Word]) -> bool:
    """Whether nothing but small words stands between two mentions."""
    first, second = sorted((one, other), key=lambda m: m.first)
    between = [words[n].text for n in range(first.last + 1, second.first)]
    return all(word in _FILL or word in _BETWEEN or word in ("and", "or", "but") for word in between)


def _trade_names(words: Sequence[Word], tokens: Sequence[Token]) -> frozenset[int]:
    """Places of words inside the name of a bread or an ingredient of several words ("sticky buns", "dry yeast")."""
    spans = [
        (t.start, t.end)
        for t in tokens
        if t.kind == "TERM" and " " in t.text.strip() and any(kind in ("bread", "ingredient") for kind, _ in t.terms)
    ]
    return frozenset(n for n, w in enumerate(words) if any(start <= w.start < end for start, end in spans))


def _found(words: Sequence[Word], lexicon: Lexicon, names: frozenset[int]) -> Iterator[Mention]:
    """Turns of speech that do not overlap: the ones of most words first, a symptom before a report, then by place."""
    index = _index(lexicon)
    wanted: list[tuple[tuple[int, int, int, int], tuple[Term, ...], int, int]] = []
    for i in range(len(words)):
        for terms, last, size, exact in _all_at(words, i, index):
            covered = range(i, last + 1)
            if all(n in names for n in covered):
                terms = tuple(t for t in terms if t[0] not in ("symptom", "picture"))
            if not terms or _cuts_an_amount(words, i, last):
                continue
            kind = 0 if any(t[0] in ("symptom", "danger") for t in terms) else 1 if terms[0][0] == "finding" else 2
            wanted.append(((-size, 0 if exact else 1, kind, i), terms, i, last))
    taken: set[int] = set()
    chosen: list[tuple[int, int, tuple[Term, ...]]] = []
    for _, terms, first, last in sorted(wanted, key=lambda w: w[0]):
        if not taken & set(range(first, last + 1)):
            taken |= set(range(first, last + 1))
            chosen.append((first, last, terms))
    for first, last, terms in sorted(chosen):
        yield Mention(terms, first, last, _denied(words, first))


def _cuts_an_amount(words: Sequence[Word], first: int, last: int) -> bool:
    """Whether only a part of an amount lies inside: "5 days in the fridge" is five days, not "days in the fridge"."""
    inside = {words[n].amount for n in range(first, last + 1)} - {-1}
    return any(w.amount in inside and not first <= n <= last for n, w in enumerate(words))


def _all_at(words: Sequence[Word], i: int, index: _Index) -> Iterator[tuple[tuple[Term, ...], int, int, bool]]:
    """(meanings, last word, words that carry meaning, whether word for word) of every phrase that begins here."""
    run = [i]
    for j in range(i + 1, min(len(words), i + 2 * LONGEST)):
        if words[j].after_mark:
            break
        run.append(j)
    for count in range(min(len(run), LONGEST), 0, -1):
        terms = index.exact.get(" ".join(words[n].text for n in run[:count]))
        if terms:
            size = sum(words[n].text not in _FILL for n in run[:count])
            yield terms, run[count - 1], max(size, 1), True
    if words[i].text in _FILL:
        return
    content = [n for n in run if words[n].text not in _FILL]
    if words[i].text in _ASKING and len(content) > 2 and words[content[1]].text in _NOUNS:
        del content[1]  # "why isn't my dough rising"
    for count in range(min(len(content), LONGEST), 1, -1):
        said = " ".join(words[n].text for n in content[:count])
        terms = index.loose.get(said) or index.exact.get(said)
        last = content[count - 1]
        if terms and last - i < 2 * count + 2:
            yield terms, last, count, False
    for n in content[1:4]:  # "vertical razor" for "razor vertical", with at most two words between
        pair = index.pairs.get(frozenset((words[i].text, words[n].text)))
        if pair and not any(words[k].text in _NOT for k in range(i, n)):
            yield pair, n, 2, False


def _denied(words: Sequence[Word], first: int) -> bool:
    """Whether a "not", "no" or "isn't" stands before it, with at most small words between."""
    for n in range(first - 1, max(-1, first - 4), -1):
        if words[n].text in _NOT:
            return True
        if words[n].text not in _BETWEEN or words[n + 1].after_mark:
            return False
    return False


def subjects_of(words: Sequence[Word], lexicon: Lexicon) -> tuple[tuple[int, int, str], ...]:
    """(first, last, "bread" | "dough" | "starter") of the words that say what the complaint is about."""
    return tuple((a, b, name) for a, b, kind, name in cues_of(words, lexicon) if kind == "subject")


def cues_of(words: Sequence[Word], lexicon: Lexicon) -> tuple[CueAt, ...]:
    """(first, last, kind, name) of every steering word; of one kind the longest wins."""
    out: list[CueAt] = []
    for i in range(len(words)):
        seen: set[tuple[str, str]] = set()
        for count in range(min(5, len(words) - i), 0, -1):
            if any(words[n].after_mark for n in range(i + 1, i + count)):
                continue
            for kind, name in lexicon.cues.get(" ".join(w.text for w in words[i : i + count]), ()):
                inside = any(k == kind and a <= i and i + count - 1 <= b and b - a > count - 1 for a, b, k, _ in out)
                if (kind, name) not in seen and not inside:
                    seen.add((kind, name))
                    out.append((i, i + count - 1, kind, name))
    return tuple(out)


def _nearest(mention: Mention, subjects: Sequence[tuple[int, int, str]], words: Sequence[Word]) -> str | None:
    """The subject a mention is said of: the one it holds, else the nearest before it, else the nearest after."""
    inside = [name for first, last, name in subjects if first >= mention.first and last <= mention.last]
    if inside:
        return inside[0]
    before = [(last, name) for _, last, name in subjects if last < mention.first]
    if before:
        return max(before)[1]
    after = [(first, name) for first, _, name in subjects if first > mention.last]
    near = [(first, name) for first, name in after if first <= mention.last + 2 and not words[first].after_mark]
    if near:  # "sticky dough", "flat starter"
        return min(near)[1]
    return None if mention.ids("symptom") or not after else min(after)[1]


def _symptom(mention: Mention, subject: str | None, lexicon: Lexicon) -> str | None:
    """The symptom a mention is, in the light of what it is said of."""
    named, pictured = mention.ids("symptom"), mention.ids("picture")
    for choices in (named, pictured):
        if not choices:
            continue
        fitting = [one for one in choices if lexicon.trade_of.get(one) == subject]
        if fitting:
            return fitting[0]
        if choices is named:
            return choices[0]
        if subject is None and choices is pictured:
            return choices[0]
        if choices is pictured and subject != "starter":
            of_food = [one for one in choices if lexicon.trade_of.get(one) != "starter"]
            return of_food[0] if of_food else None
        return choices[0] if choices is pictured else None
    return None


def _report(mention: Mention, subject: str | None, lexicon: Lexicon) -> str | None:
    """The finding a mention is; denied, the one that then holds."""
    ids = mention.ids("finding")
    if not ids:
        return None
    return lexicon.denied.get(ids[0]) if mention.denied else ids[0]


def without(heard: Heard, findings: frozenset[str]) -> Heard:
    """The same without some findings."""
    return replace(heard, findings=tuple(f for f in heard.findings if f not in findings))
