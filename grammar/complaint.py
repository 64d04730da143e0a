"""What a complaint says went wrong: symptoms and reports, what of, and what it denies.

Symptoms are put together from part and property, or stand as a turn of speech; words said of several things ("not
rising") mean what the nearest subject makes them mean.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grammar.complaint_found import cues_of, found
from grammar.complaint_looks import Composed, composed, here_and_there, in_context
from grammar.complaint_owner import owned_elsewhere
from grammar.complaint_part import parts_in
from grammar.complaint_terms import Mention, Word
from grammar.complaint_words import trade_names, words_of
from grammar.lexicon import Lexicon
from grammar.tokens import Token


@dataclass(frozen=True, slots=True)
class Heard:
    """What a line says went wrong. symptoms, absent, findings: ids in the order said.

    words: the words of the line; covered: places of those that mean something here; repairs: (as typed, as read);
    plain: whether a symptom was named outright, not by a half word or a report alone.
    """

    words: tuple[Word, ...]
    mentions: tuple[Mention, ...]
    symptoms: tuple[str, ...]
    absent: tuple[str, ...]
    findings: tuple[str, ...]
    subject: str | None
    plain: bool
    repairs: tuple[tuple[str, str], ...] = ()
    by_report: frozenset[str] = frozenset()  # symptoms that only follow from a report ("it was over-proofed")


def hear(
    text: str, lexicon: Lexicon, tokens: Sequence[Token], of: str | None = None, raw: bool = False
) -> Heard:
    """What a line says went wrong. of: what "it" is, where a complaint was talked of before; raw: the pieces in hand
    are dough still, so that "the rolls" are, too, where nothing of a baked bread is spoken of."""
    words, repairs = words_of(text, lexicon, tokens)
    raw = raw and not any(word.text in lexicon.small("baked_by_now") for word in words)
    names = trade_names(words, tokens)
    listed = tuple(
        one
        for one in found(words, lexicon, names)
        if not (_lays_on(one, words, lexicon) or in_context(one, words, lexicon) or _of_another(one, words, lexicon))
    )
    together = composed(words, lexicon, _places(_closed(listed, words, lexicon)).union(*names), of, raw)
    subjects = [(a, b, "dough" if raw and name == "bread" else name) for a, b, name in subjects_of(words, lexicon)]
    symptoms: list[tuple[int, str]] = []
    absent: list[str] = []
    findings: list[str] = []
    told: list[tuple[str, str]] = []
    shown_by: set[str] = set()
    plain = False
    of_leaven = any(name == "starter" for _, _, name in subjects)
    for mention in _strongest(listed, lexicon):
        subject = _nearest(mention, subjects, words)
        one = _symptom(mention, subject, lexicon, _holds(mention, subject, subjects))
        if one in OF_HARM and not of_leaven and any(name == "bread" for _, _, name in subjects):
            continue  # specks and colours of a bread are no foul starter; where they are a danger it is heard as one
        report = _report(mention, subject, lexicon)
        if report is not None and lexicon.about.get(report) == "starter_age" and not of_leaven:
            report = None  # "the yeast is 3 years old"
        if one is not None and report is not None:
            told.append((one, report))
        elif one is not None and mention.denied:
            absent.append(one)
        elif one is not None:
            symptoms.append((mention.first, one))
            plain = True
        elif report is not None:
            findings.append(report)
            shown = lexicon.shows.get(report)
            if shown is not None and not mention.denied:
                symptoms.append((mention.first, shown))
                shown_by.add(shown)
                plain = True
    for fault in together:
        if fault.absent:
            absent.append(fault.symptom)
            continue
        symptoms.append((fault.first, fault.symptom))
        said_of = fault.with_part or fault.last > fault.first or _of_something(fault, words, lexicon)
        plain = plain or said_of or _stressed(fault, words, lexicon)
    alone = not symptoms
    for one, report in told:  # the same words are a fault of their own and a report on another
        of_jar = lexicon.trade_of.get(one) == "starter"
        if alone or lexicon.shows.get(report) == one:
            symptoms.append((len(words), one))
            plain = True
        if not (alone and of_jar):
            findings.append(report)
    ordered = sorted(here_and_there(symptoms, words, lexicon), key=lambda pair: pair[0])
    counts = [name for _, _, name in subjects]
    return Heard(
        words,
        (*listed, *(Mention((("symptom", one.symptom),), one.first, one.last, one.absent) for one in together)),
        tuple(dict.fromkeys(one for _, one in ordered)),
        tuple(one for one in dict.fromkeys(absent) if all(one != shown for _, shown in symptoms)),
        tuple(dict.fromkeys(findings)),
        max(sorted(set(counts)), key=counts.count) if counts else None,
        plain,
        repairs,
        frozenset(shown_by),
    )


def _lays_on(one: Mention, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether a word of the trade only lays it on thick: "dead sour", "the starter was dead lively"."""
    after = words[one.last + 1] if one.last + 1 < len(words) else None
    stressed = words[one.last].text in lexicon.small("stress")
    if after is None or after.after_mark or not stressed:
        return False
    return after.text in lexicon.looks or lexicon.letter(after.text) == "j"


def _of_another(one: Mention, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether a fault heard in a few words is somebody else's: "the phone went flat"."""
    if not one.ids("symptom") or one.last - one.first > _FEW:
        return False
    parts = parts_in([word.text for word in words], lexicon)
    return owned_elsewhere(one.first, one.last, words, parts, lexicon)


_FEW = 2


def _closed(mentions: Sequence[Mention], words: Sequence[Word], lexicon: Lexicon) -> list[Mention]:
    """Turns of speech with no fault beside what they report: "sides are white" tells of a full tray, and is pale.
    Those that are denied neither: "hardly puffed up" is seen as well as reported."""
    out = []
    for one in mentions:
        names = {name for n in range(one.first, one.last + 1) for name, _ in lexicon.parts.get(words[n].text, ())}
        if one.ids("symptom") or not (names & _OPEN_PARTS or one.denied):
            out.append(one)
    return out


_OPEN_PARTS = frozenset({"side", "base", "crust", "crumb"})


def _places(mentions: Sequence[Mention]) -> frozenset[int]:
    return frozenset(n for m in mentions for n in range(m.first, m.last + 1))


def _stressed(fault: Composed, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether a half word is laid on thick: "so soft", "way too heavy", "chewy as old boots"."""
    before = words[fault.first - 1].text if fault.first else ""
    after = words[fault.last + 1] if fault.last + 1 < len(words) else None
    return before in lexicon.small("stress") or (after is not None and after.text == "as" and not after.after_mark)


def _of_something(fault: Composed, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether it is said of an "it" or "they" right before: "they stuck in there"."""
    said = (word.text for word in reversed(words[: fault.first]))
    before = next((word for word in said if word not in lexicon.small("is_so")), "")
    return before in lexicon.small("them")


OF_HARM = frozenset({"starter_mould", "starter_pink_or_orange"})
"""Faults of a starter that are a danger."""


def painted(mentions: Sequence[Mention], words: Sequence[Word], lexicon: Lexicon) -> frozenset[int]:
    """Places of words that only paint what was said: "as old boots", "like a doornail", at most three words."""
    out: set[int] = set()
    for mention in mentions:
        n = mention.last + 1
        if n < len(words) and words[n].text in lexicon.small("simile") and not words[n].after_mark:
            for k in range(n, min(n + 4, len(words))):
                if words[k].after_mark or words[k].amount >= 0:
                    break
                out.add(k)
        for n in range(mention.first - 1, max(-1, mention.first - 4), -1):  # "like a tortoise shell"
            if words[n + 1].after_mark:
                break
            if words[n].text in lexicon.small("simile"):
                out |= set(range(n, mention.first))
                break
    return frozenset(out)


def _strongest(mentions: Sequence[Mention], lexicon: Lexicon) -> tuple[Mention, ...]:
    """Mentions less weaker reports on the same thing: of two the one of more words holds, then the first."""
    reports: dict[str, Mention] = {}
    for mention in mentions:
        for finding in mention.ids("finding")[:1]:
            about = lexicon.about.get(finding, finding)
            best = reports.get(about)
            if best is None or mention.last - mention.first > best.last - best.first:
                reports[about] = mention
    out = []
    for mention in mentions:
        said = mention.ids("finding")[:1]
        if said and not mention.ids("symptom") and reports[lexicon.about.get(said[0], said[0])] is not mention:
            continue
        out.append(mention)
    return tuple(out)


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
    choices = mention.ids("symptom")
    if not choices:
        return None
    fitting = [one for one in choices if lexicon.trade_of.get(one) == subject]
    return fitting[0] if fitting and not holds else choices[0]


def _report(mention: Mention, subject: str | None, lexicon: Lexicon) -> str | None:
    """The finding a mention is; denied, the one that then holds."""
    of_jar = subject == "starter"
    ids = [one for one in mention.ids("finding") if of_jar or not lexicon.about.get(one, "").startswith("jar")]
    ids.sort(key=lambda one: lexicon.about.get(one, "").startswith("jar") != of_jar)
    if not ids:
        return None
    return lexicon.denied.get(ids[0]) if mention.denied else ids[0]
