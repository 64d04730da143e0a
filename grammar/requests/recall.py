"""What was noted and baked before: "my notes about the starter", "what did I do last time"."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from grammar.frames import Bound, Frame
from grammar.moments import WEEKDAYS

Scope = Literal["notes", "said", "bakes", "last_time"]


@dataclass(frozen=True, slots=True)
class RecallRequest:
    """show my notes
    what did I note about the starter
    what did I do last time
    when did I last bake rings
    notes from yesterday

    scope: the notes alone; all that was said; the doughs; or the last bake with all that belongs to it. about: words
    looked for, folded. when: "today", "yesterday", "this_week", "last_week", "month" or a weekday "0" to "6".
    count: so many of the newest.
    """

    scope: Scope = "notes"
    about: tuple[str, ...] = ()
    when: str | None = None
    count: int | None = None


_ME = r"(?:i|we|you|ive|weve)"
_NOTES = r"(?:notes?|noets|ntoes|notebook|note book|log|logs|log book|logbook|diary|journal|jottings|records)"
_ABOUT = (
    r"(?:about|on|of|for|from|with|mentioning|regarding|re|to do with|concerning|since|that mention|that "
    r"say|where|in|for the|containing)"
)
_NOTED = (
    r"(?:noted?|log(?:ged)?|write|wrote|written|jot(?:ted)?|record(?:ed)?|put|say|said|tell you|told you|"
    r"ask you to remember|remember|keep|kept|remark(?:ed)?|scribbled?)\b"
)
_BAKED = (
    r"(?:baked?|made?|make|mix(?:ed)?|do|did|done|boil(?:ed)?|have|had|prepared?|try|tried|cook(?:ed)?|used?|"
    r"changed?)\b"
)
_OTHER_DEEDS = r"(?:feed|fed|refresh|note|mention|buy|bought|clean)\b"
_LAST = (
    r"(?:last time|the last time|last bake|last batch|the last bake|the time before|the previous time|"
    r"previously|last go|last round|last one)"
)
_SHOW = (
    r"(?:please |can you |could you |can i )*(?:show|list|read|see|give|open|print|find|get|tell|check|"
    r"look at|look up|look through|"
    r"search|view|display|read back|read out|pull up|bring up|any|all|what are|whats in|what is in|what "
    r"was in|where are|have i|have i got|"
    r"do i have|have i any|are there|are there any|anything in|got)(?: me| us| back)?"
)
_OWN = (
    r"(?: ?(?:all|of|my|the|our|any|those|these|some|every|past|old|earlier|previous|recent|latest|newest|"
    r"last|baking|bakes?|kept|few))*"
)

_PATTERNS: tuple[tuple[Scope, str], ...] = (
    ("notes", (
        rf"(?:remind me |tell me |show me )?what(?:s| did| have| had| was it| was)? {_ME}(?: have| had| "
        rf"did)? {_NOTED}(?: down)?(?: (?P<count>\d+) times)?(?P<about>.*)"
    )),
    ("notes", rf"(?:remind me |tell me )(?:of |about )?(?:what )?(?:{_ME} )?{_NOTES}(?P<about> .*)?"),
    ("notes", (
        rf"(?:did|have) {_ME} (?:ever )?{_NOTED}(?: down)?(?: anything| something| any notes?| a "
        rf"note)?(?P<about>(?: .*)?)"
    )),
    ("notes", rf"when did {_ME} {_NOTED}(?: down)?(?P<about> .*)"),
    ("notes", rf"what do(?:es)? (?:my|the|our) {_NOTES} say(?P<about>.*)"),
    ("notes", rf"(?:{_SHOW})(?P<about> .+?) (?:in|from) (?:my|the|our) {_NOTES}"),
    ("notes", (
        rf"(?:{_SHOW}){_OWN} ?(?:(?P<count>\d+|two|three|four|five|ten) )?(?:last )?{_NOTES}(?P<about>(?: "
        rf"{_ABOUT}\b.*)?)"
    )),
    ("notes", (
        rf"(?:{_OWN} )?(?:last |latest )?(?:(?P<count>\d+|two|three|four|five|ten) )?{_NOTES}(?P<about>(?: "
        rf"{_ABOUT}\b.*)?)"
    )),
    (
        "notes",
        rf"what (?:other |old )?{_NOTES} (?:have|did|do|are)(?: {_ME})?(?: got| keep| make| have| there)?(?P<about>.*)",
    ),
    ("notes", r"search (?:for )?(?P<about>.+)"),
    ("notes", r"(?:anything|something) (?:noted|written|logged|in my notes)(?P<about>.*)"),
    ("notes", r"what was (?:my|the|our) (?:last|latest) note(?P<about>.*)"),
    ("last_time", (
        rf"(?:remind me |tell me )?what (?:did|have) {_ME} {_BAKED} (?:it |them "
        rf")?(?P<about>.*\b(?:{_LAST})\b.*)"
    )),
    ("last_time", (
        rf"(?:remind me |tell me |show me )?what {_ME} (?:did|made|baked|used|changed|had)(?P<about> "
        rf".*\b(?:{_LAST})\b.*)"
    )),
    ("last_time", (
        rf"how (?:did|was) (?:it|that|they|the bake|the batch|the rolls|the loaf)(?: go| turn out| come "
        rf"out)?(?P<about> .*\b(?:{_LAST})\b.*)"
    )),
    ("last_time", rf"what (?:happened|was it)(?P<about> .*\b(?:{_LAST})\b.*)"),
    ("last_time", rf"(?P<about>{_LAST})"),
    ("last_time", r"(?:show me |show )?(?:my |the )?(?:last|previous) (?:bake|dough|batch)"),
    ("last_time", r"what was (?:in )?(?:my |the )?(?:last|previous) (?:bake|dough|batch|one)"),
    ("last_time", rf"what (?:did|have) {_ME} {_BAKED}(?P<about> (?:yesterday|today|on \w+day|last \w+|this \w+).*)"),
    ("bakes", rf"(?:when|what day|which day) (?:did|have) {_ME} (?:last|ever|previously) {_BAKED}(?P<about> .*)?"),
    ("said", rf"(?:when|what day|which day) (?:did|have) {_ME} last (?P<about>{_OTHER_DEEDS}.*)"),
    ("said", rf"when was the last time {_ME} (?P<about>{_OTHER_DEEDS}.*)"),
    ("bakes", rf"(?:when|what day) did {_ME} {_BAKED}(?P<about> .*?) last(?: time)?"),
    ("bakes", (
        rf"when was (?:it )?(?:the |my |our )?last (?:time )?(?:(?:that )?{_ME} )?(?:{_BAKED}|baking|bake of|"
        rf"batch of|bake|batch)(?P<about> .*)?"
    )),
    ("bakes", rf"(?:the )?last time {_ME} {_BAKED}(?P<about> .*)"),
    ("bakes", (
        rf"how long (?:is it |has it been |ago |its been )?(?:since|did) (?:the last time )?{_ME}(?: last)? "
        rf"{_BAKED}(?P<about> .*)?"
    )),
    ("bakes", (
        rf"(?:have|did) {_ME} (?:ever |already )?(?:baked?|made?|make)(?P<about> .*?)(?: before| ever| already)"
    )),
    ("bakes", (
        rf"(?:show |list |see )?(?:me )?(?:all )?(?:of )?(?:my |the |our )?(?:past |previous |old |last |"
        rf"recent |earlier )?(?:bakes|bake history|baking history|history|doughs|batches)(?: so "
        rf"far)?(?P<about>(?: {_ABOUT}\b.*)?)"
    )),
    ("bakes", (
        rf"(?:what|which)(?: breads?| doughs?)? (?:have|did) {_ME} (?:baked|made|bake|make)(?: so far| lately| "
        rf"recently| before| already)?(?P<about>.*)"
    )),
    ("notes", (
        r"(?:show |list |see )?(?:me )?(?:my |the |all )?(?P<about>(?!what|how|when|why|which)\w+(?: \w+)?) "
        r"notes"
    )),
)
_READY = tuple((scope, re.compile(pattern)) for scope, pattern in _PATTERNS)
_NUMBERS = {"two": 2, "three": 3, "four": 4, "five": 5, "ten": 10}
_SMALL = frozenset(
    re.findall(
        r"\S+",
        "a an the my our your this that these those it its them they i we you me us of on in at for from with about "
        "to do is was were be been did does have has had and or any anything something some all ever before yet again "
        "so far last time latest previous when what how note notes noted notebook log down regarding re since by bake "
        "baked batch bread dough there here please mentioning containing where concerning lately recently still old "
        "past ago then say said saying one ones make made mix mixed recall got ",
    )
)
_PAST = {"fed": "feed", "made": "make", "bought": "buy"}
_WHEN = (
    (r"\b(?:today|this morning|this afternoon|this evening|tonight)\b", "today"),
    (r"\b(?:yesterday|last night)\b", "yesterday"),
    (r"\bthis week\b", "this_week"),
    (r"\b(?:last|past) week\b|\blast (?:7|seven) days\b", "last_week"),
    (r"\b(?:last|past|this) month\b", "month"),
)
_DAY = re.compile(r"\b(?:on |last |from |this )?(" + "|".join(sorted(WEEKDAYS, key=len, reverse=True)) + r")s?\b")


def plain(text: str) -> str:
    """A line in lower case without signs: apostrophes close up, everything else becomes a space."""
    closed = re.sub(r"[’'`´]", "", text.lower())
    return " ".join(re.sub(r"[^\w\s.,%°]", " ", closed).replace(",", " ").strip(" .").split())


def folded(word: str) -> str:
    """A word without its plural: "rolls" and "roll", "batches" and "batch", "berries" and "berry" are one."""
    word = _PAST.get(word, word)
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    if len(word) > 4 and word.endswith(("ches", "shes", "xes", "sses", "oes")):
        return word[:-2]
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")) else word


def _taken(text: str) -> RecallRequest | None:
    if len(text) > 200 or "\n" in text.strip():
        return None
    line = re.sub(r"(?: (?:back|please|now|again|then|thanks|to me))+$", "", plain(text))
    for scope, pattern in _READY:
        found = pattern.fullmatch(line)
        if found is None:
            continue
        parts = found.groupdict()
        about, when = _dated(parts.get("about") or "")
        count = parts.get("count")
        words = tuple(dict.fromkeys(folded(w) for w in about.split() if w not in _SMALL and w.strip(".%")))
        asked = "said" if scope == "notes" and re.search(r"\b(?:say|said|tell you|told you)\b", line) else scope
        number = _NUMBERS.get(count) or int(count) if count else None
        if number is None and re.search(r"\b(?:last|latest|newest) note\b", line):
            number = 1
        return RecallRequest(asked, words, when, number)
    return None


def _dated(about: str) -> tuple[str, str | None]:
    """The words looked for, and the day or week that was named among them."""
    for pattern, name in _WHEN:
        if re.search(pattern, about):
            return re.sub(pattern, " ", about), name
    day = _DAY.search(about)
    if day is not None and (day[1] not in ("sat", "sun", "mon") or day[0] != day[1]):
        return about[: day.start()] + " " + about[day.end() :], str(WEEKDAYS[day[1]])
    return about, None


def _build(bound: Bound) -> RecallRequest | None:
    """Never from single words: a question about the past is taken whole or not at all."""
    return None


FRAME = Frame(RecallRequest, "recall", _build, whole=_taken, needs=("act:note",), help_topic="notes")
