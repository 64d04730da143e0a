"""The notebook of bakes: a dough kept under a name, what is kept, two compared, one forgotten."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.lexicon import Lexicon, fold
from grammar.named import dough_named, kept_named, names_in, speaks_of_a_dough
from grammar.requests.card import FILE
from grammar.scanner import scan
from grammar.spoken import Spoken, fitting, found, matched, sentences, spoken
from grammar.turns import AS, END, LEAD, OF, THIS, bare_name, is_this

CERTAIN = 100.0
LONGEST_NAME = 60


@dataclass(frozen=True, slots=True)
class KeepRequest:
    """save this as sunday rolls
    keep it under Mia's birthday buns

    name: free text, as typed; "": by what it is. of: the dough meant, as typed; "": the one in hand.
    """

    name: str = ""
    of: str = ""


@dataclass(frozen=True, slots=True)
class KeptAsked:
    """what have I saved"""


@dataclass(frozen=True, slots=True)
class KeptForgotten:
    """A kept dough to be forgotten by its name: "forget the crew rings"."""

    name: str


@dataclass(frozen=True, slots=True)
class CompareRequest:
    """compare this with last Sunday's rings
    what's different from last time

    one, other: the doughs meant, as typed; "": the one in hand, and the one of its kind before it.
    """

    one: str = ""
    other: str = ""


_BY = r"(?:away|by|aside|on file|down|in(?:to)? (?:the|my|our) (?:note)?book|for me|for us|safe|safely)"
_KEPT = (
    rf"{LEAD}(?:<hand:keep>)(?: {OF})?(?:,? <hand:besides>)*(?:[,.;:!] ?(?:(?:<hand:polite>) )*| )"
    rf"{AS}[ :]+(?P<name>.+)",
    rf"{LEAD}(?:<hand:keep>|<hand:lay>) {OF}(?: {_BY})+,? {AS}[ :]+(?P<name>.+)",
    rf"{LEAD}(?:<hand:keep>) {OF}[:,] ?(?P<name>.+)",
    rf"{LEAD}(?P<of><hand:this>)s? (?:is |was )?(?:<hand:a_keeper>)[,.;:! ]+{AS}[ :]+(?P<name>.+)",
    rf"{LEAD}(?P<of>this|that|this one|that one|the last one|the second one)(?: one)? (?:<hand:as>)[ :]+(?P<name>.+)",
    rf"{LEAD}(?:save|store|file|keep)(?: {OF})"
    rf"(?: for (?:later|next time|another time|good)| in (?:the|my) notebook)?{END}",
)
_BOOK = r"(?:in (?:the|my|our|your) (?:note)?book)"
_THINGS = r"(?:<hand:doughs>|ones|things|names|lots)"
_LISTED = (
    rf"{LEAD}(?:what|which)(?: (?:<hand:doughs>))?(?: all)? (?:have|did|do|are)(?: i| we| you| there)?(?: have| got)? "
    rf"(?:<hand:saved>|save|keep|store){END}",
    rf"{LEAD}(?:<hand:show> )?(?:all )?(?:<hand:the> )*(?:<hand:saved>) {_THINGS}{END}",
    rf"{LEAD}(?:<hand:show> )?(?:everything|all|what|what all|(?:<hand:the> )*{_THINGS})(?: that)?"
    rf"(?: ive| i have| weve| we have| i| we| is| are|s)(?: got)? (?:<hand:saved>){END}",
    rf"{LEAD}(?:what|which)(?: (?:<hand:doughs>))?(?:s| is| are| do i have| have i got| have we got)"
    rf"(?: (?:<hand:saved>|{_BOOK}))+{END}",
)
_NAMED = (
    r"(?:(?:the )?(?:saved|kept|one called|one named|what i (?:saved|kept|called)(?: as)?|what is (?:saved|kept) as) )?"
)
_FORGOTTEN = (
    rf"{LEAD}(?:<hand:forget>|<hand:drop>) {_NAMED}(?P<name>.+?)(?: (?:<hand:lot>))?"
    rf"(?: (?:from|out of|off) (?:the|my|our|your) (?:(?:note)?book|list))?{END}"
)
_COMPARED = (
    rf"{LEAD}(?:<hand:compare>) (?P<one>.+?),? (?:<hand:against>) (?P<other>.+?)",
    rf"{LEAD}(?:whats |what is |what are |what |tell me |show me )?(?:<hand:the> )*(?:<hand:differ>)(?: there)? "
    rf"between (?P<one>.+?) and (?P<other>.+?)",
    rf"{LEAD}how (?:do|does|did) (?P<one>.+?) compare (?:<hand:against>) (?P<other>.+?)",
    rf"{LEAD}how (?:do|does|did|is|are|was|were) (?P<one>.+?) (?:<hand:differ>)(?: (?:<hand:against>))? "
    rf"(?P<other>.+?)",
    rf"{LEAD}(?:whats |what is |what was )?(?:<hand:differ>)(?: in| about)? (?P<one>.+?) (?:<hand:against>) "
    rf"(?P<other>.+?)",
    rf"{LEAD}(?:(?:<hand:compare>|<hand:show>|<hand:lay>) )?(?P<one>.+?) (?:and|with|to) (?P<other>.+?) "
    rf"(?:side by side|alongside each other|next to each other|against each other|together|in two columns)",
    rf"{LEAD}(?:<hand:compare>|<hand:lay>) (?P<one>.+?) (?:alongside|next to|beside|side by side with) (?P<other>.+?)",
    rf"{LEAD}(?P<one>.+?) (?:versus|vs|v|against|compared (?:to|with)) (?P<other>.+?)",
)
_SINCE = (
    rf"{LEAD}what (?:did|have) (?:i|we) (?:changed?|done? differently)(?: (?:since|from|against|over|compared to"
    rf"|compared with))? (?P<other>(?:<hand:last_time>))",
    rf"{LEAD}(?:whats|what is|what was) (?:<hand:differ>) (?:since|from|to|than|compared (?:to|with)) "
    rf"(?P<other>(?:<hand:last_time>))",
    rf"{LEAD}(?:<hand:compare>)(?: (?:<hand:this>))? (?:<hand:against>) (?P<other>(?:<hand:last_time>))",
)
_WITH = rf"{LEAD}(?:<hand:compare>)(?: (?:<hand:this>))? (?:with|to|against) (?P<other>.+?)"
_SETS_BESIDE = r"<hand:sets_beside>|<hand:differ>"
_BOTH = 2
_LAST_TWO = rf"{LEAD}(?:<hand:compare>|difference between) (?:<hand:the> )*last two(?: (?:<hand:doughs>|.+?))?"


_RESCUE = re.compile(r"\b(?:can|could|may|might|how (?:do|can|could)) (?:i|we) (?:still )?(?:save|rescue)\b")
"""Whether it can still be saved is asked of a dough gone wrong, never to have it kept."""


def keeps(line: Line) -> Own | None:
    """A dough kept under a name; whatever stands behind "as" is the name."""
    if not line.context.has_bake or line.text.rstrip().endswith("?") or _RESCUE.search(spoken(line.text).folded):
        return None
    alone = sentences(line.text)  # "keep this. call it …" names it in a sentence of its own
    for text in (*alone, *sentences(line.text, commas=True)[len(alone) :]):
        own = _keeps(spoken(text, line.lexicon), line)
        if own is not None:
            return own if text in alone else replace(own, unread=_ahead_of(text, line))
    return None


def _ahead_of(clause: str, line: Line) -> tuple[str, ...]:
    """The words told before the clause that has the dough kept."""
    before = (one for one in line.tokens if one.end <= line.text.rfind(clause))
    return tuple(one.text for one in before if one.kind not in ("FILL", "MARK") and not one.idle)


def _keeps(said: Spoken, line: Line) -> Own | None:
    for hit in fitting(_KEPT, said, line.lexicon):
        named = "name" in hit.groupdict()
        of, name = said.group(hit, "of"), bare_name(said.group(hit, "name"), line.lexicon) if named else ""
        this = not of or is_this(of, line.lexicon)
        meant = this or dough_named(of, line.context.known) is not None
        if named and _a_file(name, line.lexicon):
            return None  # a card is to be written
        counted = any(token.quantity is not None for token in scan(name, line.lexicon))
        if counted and not matched(rf"{LEAD}(?:<hand:keep>|<hand:lay>).*", said, line.lexicon):
            continue  # "that one as 12 rolls" is a change
        called = not named or not set(fold(name).split()) <= line.lexicon.small("is", "was", "it", "doer")
        if called and len(name) <= LONGEST_NAME and meant:
            if not of and not said.folded.split(" as ")[0].startswith(("save", "store", "keep", "file")):
                continue
            return Own(KeepRequest(name, "" if this else of), CERTAIN)
    return None


def _a_file(name: str, lexicon: Lexicon) -> bool:
    """Whether what stands as the name is a file's, or the form of one."""
    words = [token for token in scan(name, lexicon) if token.kind not in ("FILL", "MARK", "LINK")]
    forms = bool(words) and all(one.ids("card_form") or one.ids("card") for one in words)
    return FILE.fullmatch(name) is not None or (forms and any(one.ids("card_form") for one in words))


def lists(line: Line) -> Own | None:
    """What is kept, asked for."""
    said = spoken(line.text, line.lexicon)
    return Own(KeptAsked(), CERTAIN) if any(matched(one, said, line.lexicon) for one in _LISTED) else None


def forgets(line: Line) -> Own | None:
    """A kept dough forgotten, where it is one."""
    for text in sentences(line.text, commas=True):
        said = spoken(text, line.lexicon)
        hit = matched(_FORGOTTEN, said, line.lexicon)
        name = kept_named(said.group(hit, "name"), line.context.known) if hit is not None else None
        if name is not None:
            return Own(KeptForgotten(name), CERTAIN)
    return None


def compares(line: Line) -> Own | None:
    """Two doughs set side by side."""
    tried = (_compares(spoken(text, line.lexicon), line) for text in sentences(line.text))
    return next((own for own in tried if own is not None), None)


def _compares(said: Spoken, line: Line) -> Own | None:
    if any(matched(one, said, line.lexicon) for one in _SINCE):
        return Own(CompareRequest(), CERTAIN) if line.context.has_bake else None
    if matched(_LAST_TWO, said, line.lexicon):
        return Own(CompareRequest("last one", "the one before"), CERTAIN)
    hit = matched(_WITH, said, line.lexicon)
    if hit is not None and line.context.has_bake and a_dough(said.group(hit, "other"), line):
        return Own(CompareRequest("", said.group(hit, "other")), CERTAIN)
    two = names_in(said.folded, line.context.known.kept)
    if len(two) == _BOTH and found(_SETS_BESIDE, said, line.lexicon):
        return Own(CompareRequest(*two), CERTAIN)
    for hit in fitting(_COMPARED, said, line.lexicon):
        one, other = said.group(hit, "one"), said.group(hit, "other")
        if all(a_dough(words, line) for words in (one, other)):
            return Own(CompareRequest(one, other), CERTAIN)
    return None


def a_dough(words: str, line: Line) -> bool:
    """Whether words name a dough: this one, the usual one, one of the bench or the notebook."""
    this = rf"(?:{THIS}|<hand:last_time>|(?:the )?<hand:default>(?: dough| recipe| formula| one)?)"
    meant = matched(this, spoken(words, line.lexicon), line.lexicon) is not None
    return meant or speaks_of_a_dough(words, line.context.known)


FRAMES = tuple(
    Frame(request, "keeping", never_by_slots, reads=reader, first=True, needs=("slot:none",))
    for request, reader in (
        (KeptForgotten, forgets), (KeepRequest, keeps), (KeptAsked, lists), (CompareRequest, compares),
    )
)  # fmt: skip
