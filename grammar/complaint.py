"""What a complaint says went wrong: symptoms, reports and pictures, what of, and what it denies.

Pictures ("soup", "dead") and words said of several things ("not rising") mean what the nearest subject makes them mean.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grammar.complaint_words import (
    BETWEEN,
    FILL,
    SIMILE,
    STRESS,
    Mention,
    Word,
    cues_of,
    found,
    trade_names,
    words_of,
)
from grammar.lexicon import Lexicon
from grammar.tokens import Token


@dataclass(frozen=True, slots=True)
class Heard:
    """What a line says went wrong. symptoms, absent, findings: ids in the order said.

    words: the words of the line; covered: places of those that mean something here; repairs: (as typed, as read);
    plain: whether a symptom was named outright, not by a picture or a report alone; pointed: whether a picture stands
    behind what it is said of ("the loaf is heavy", not "a heavy loaf").
    """

    words: tuple[Word, ...]
    mentions: tuple[Mention, ...]
    symptoms: tuple[str, ...]
    absent: tuple[str, ...]
    findings: tuple[str, ...]
    subject: str | None
    plain: bool
    pointed: bool = False
    repairs: tuple[tuple[str, str], ...] = ()


def hear(text: str, lexicon: Lexicon, tokens: Sequence[Token]) -> Heard:
    """What a line says went wrong."""
    words, repairs = words_of(text, lexicon, tokens)
    mentions = tuple(found(words, lexicon, trade_names(words, tokens)))
    subjects = subjects_of(words, lexicon)
    symptoms: list[str] = []
    absent: list[str] = []
    findings: list[str] = []
    told: list[tuple[str, str]] = []
    plain = False
    of_leaven = any(name == "starter" for _, _, name in subjects)
    for mention in _heeded(mentions, words, lexicon, subjects):
        subject = _nearest(mention, subjects, words)
        one = _symptom(mention, subject, lexicon, _holds(mention, subject, subjects))
        report = _report(mention, subject, lexicon)
        if report is not None and lexicon.about.get(report) == "starter_age" and not of_leaven:
            report = None  # "the yeast is 3 years old"
        if one is not None and report is not None:
            told.append((one, report))
        elif one is not None:
            (absent if mention.denied else symptoms).append(one)
            plain = plain or bool(mention.ids("symptom")) or _stressed(mention, words)
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
        subject,
        plain,
        any(m.ids("picture") and any(last < m.first for _, last, _ in subjects) for m in mentions),
        repairs,
    )


def _stressed(mention: Mention, words: Sequence[Word]) -> bool:
    """Whether a picture is laid on thick: "so soft", "way too heavy", "chewy as old boots"."""
    before = words[mention.first - 1].text if mention.first else ""
    after = words[mention.last + 1] if mention.last + 1 < len(words) else None
    return before in STRESS or (after is not None and after.text == "as" and not after.after_mark)


def painted(mentions: Sequence[Mention], words: Sequence[Word]) -> frozenset[int]:
    """Places of words that only paint what was said: "as old boots", "like a doornail", at most three words."""
    out: set[int] = set()
    for mention in mentions:
        n = mention.last + 1
        if n < len(words) and words[n].text in SIMILE and not words[n].after_mark:
            for k in range(n, min(n + 4, len(words))):
                if words[k].after_mark or words[k].amount >= 0:
                    break
                out.add(k)
        for n in range(mention.first - 1, max(-1, mention.first - 4), -1):  # "like a tortoise shell"
            if words[n + 1].after_mark:
                break
            if words[n].text in SIMILE:
                out |= set(range(n, mention.first))
                break
    return frozenset(out)


def _pointed(mention: Mention, subjects: Sequence[tuple[int, int, str]], words: Sequence[Word]) -> bool:
    """Whether a picture stands right behind what it is said of: "the loaf sank", "crust is thick"."""
    for _, last, _ in subjects:
        between = range(last + 1, mention.first)
        if last < mention.first and all(words[n].text in FILL for n in between):
            return not any(words[n].after_mark for n in (*between, mention.first))
    return False


def _heeded(
    mentions: Sequence[Mention], words: Sequence[Word], lexicon: Lexicon, subjects: Sequence[tuple[int, int, str]]
) -> tuple[Mention, ...]:
    """Mentions less pictures that a plain symptom makes needless, and less weaker reports on the same thing.

    "White inside the hole" is no pale crust where tunnels are named; a picture joined to a symptom ("pale and thick")
    or right behind its subject ("the loaf sank") stays. Of two reports on one thing the one of more words holds, then
    the first.
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
        beside = any(_joined(mention, one, words) for one in plain) or _pointed(mention, subjects, words)
        beside = beside or _listed(mention, words)
        if only_picture and plain and not beside:
            continue
        ends = [one.last + 1 for one in plain if one is not mention]
        first = words[mention.first]
        if mention.first in ends and first.text == "like" and not first.after_mark and not mention.ids("finding"):
            continue  # "a skin like paper" is a skin, and not bland
        said = mention.ids("finding")[:1]
        if said and not mention.ids("symptom") and reports[lexicon.about.get(said[0], said[0])] is not mention:
            continue
        out.append(mention)
    return tuple(out)


def _listed(mention: Mention, words: Sequence[Word]) -> bool:
    """Whether a picture stands between marks by itself: "no steam, dull, no ear"."""
    before, after = mention.first, mention.last + 1
    while before and not words[before].after_mark and words[before - 1].text in FILL:
        before -= 1
    return (before == 0 or words[before].after_mark) and (after == len(words) or words[after].after_mark)


def _joined(one: Mention, other: Mention, words: Sequence[Word]) -> bool:
    """Whether nothing but small words stands between two mentions."""
    first, second = sorted((one, other), key=lambda m: m.first)
    if any(words[n].after_mark for n in range(first.last + 1, second.first + 1)):
        return False
    between = [words[n].text for n in range(first.last + 1, second.first)]
    return all(word in FILL or word in BETWEEN or word in ("and", "or", "but") for word in between)


def subjects_of(words: Sequence[Word], lexicon: Lexicon) -> tuple[tuple[int, int, str], ...]:
    """(first, last, "bread" | "dough" | "starter") of the words that say what the complaint is about."""
    return tuple((a, b, name) for a, b, kind, name in cues_of(words, lexicon) if kind == "subject")


def _nearest(mention: Mention, subjects: Sequence[tuple[int, int, str]], words: Sequence[Word]) -> str | None:
    """The subject a mention is said of: the nearest before it, else the one it holds, else one right behind it."""
    before = [(last, name) for _, last, name in subjects if last < mention.first]
    if before:
        return max(before)[1]
    inside = [name for first, last, name in subjects if first >= mention.first and last <= mention.last]
    if inside:
        return inside[0]
    after = [(first, name) for first, _, name in subjects if first > mention.last]
    near = [(first, name) for first, name in after if first <= mention.last + 2 and not words[first].after_mark]
    if near:  # "sticky dough", "flat starter"
        return min(near)[1]
    return None if mention.ids("symptom") or not after else min(after)[1]


def _holds(mention: Mention, subject: str | None, subjects: Sequence[tuple[int, int, str]]) -> bool:
    """Whether a turn of speech itself says what it is said of ("crust on the dough")."""
    before = any(last < mention.first for _, last, _ in subjects)
    return not before and any(a >= mention.first and b <= mention.last and s == subject for a, b, s in subjects)


def _symptom(mention: Mention, subject: str | None, lexicon: Lexicon, holds: bool = False) -> str | None:
    """The symptom a mention is, in the light of what it is said of."""
    named, pictured = mention.ids("symptom"), mention.ids("picture")
    for choices in (named, pictured):
        if not choices:
            continue
        if holds and choices is named:
            return choices[0]
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
        return None
    return None


def _report(mention: Mention, subject: str | None, lexicon: Lexicon) -> str | None:
    """The finding a mention is; denied, the one that then holds."""
    of_jar = subject == "starter"
    ids = [one for one in mention.ids("finding") if of_jar or not lexicon.about.get(one, "").startswith("jar")]
    ids.sort(key=lambda one: lexicon.about.get(one, "").startswith("jar") != of_jar)
    if not ids:
        return None
    return lexicon.denied.get(ids[0]) if mention.denied else ids[0]
