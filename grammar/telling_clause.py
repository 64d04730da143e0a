"""Which clauses of a line only tell how something is, or ask it: such a clause changes no dough.

"They look grey", "the oven's only got one tray", "gran says half the salt" and "is 80 g big" bid nothing; "70 g", "no
malt then", "make them smaller" and "i want 30" may. Pronouns and auxiliary verbs are a closed class of English and
stand here; behind any other noun only a verb of being, having, seeming or holding makes a clause that tells.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from grammar.complaint_terms import word_set

_CLAUSE = re.compile(
    r"(?<!\d)[,;:.!?()\n]+|[,;:.!?()\n]+(?!\d)|\s[-–—]\s|\b(?:but|so|because|although|though|while|then)\b"
)
_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*")

LEADS = word_set(
    "ok okay right so well then and please now oh sure fine grand good great just um uh er hmm yes yeah no nah cheers"
)
"""Words that may stand before what a clause begins with."""
_SUBJECT = word_set(
    "i we they it he she there that this these those everyone everybody someone somebody nobody who"
)
_DOERS = word_set("i we he she they")
_POINTING = word_set("this that these those")
_CONTRACTED = word_set(
    "it's that's there's he's she's they're we're these're i'm who's theyre theres thats hes shes im"
)
_HAVING = word_set("i've we've they've ive weve theyve")
_OWNED = word_set("the my our his her their your")
_BETWEEN = word_set(
    "just only always usually really all still never now both also often already mostly normally do does did"
)
"""Words between a subject and its verb."""
_WISHES = word_set(
    "want wants wanted need needs needed would should will must shall could can may might fancy prefer hope wish gotta "
    "going gonna think thinks reckon guess mean meant said say says decided like love dont don't rather take "
    "put use make add swap replace leave"
)
"""Behind a subject: what is wished, bidden, thought or taken back, which may be a change."""
_GOING_TO = word_set(
    "making doing baking after going gonna thinking using having planning aiming wanting looking needing"
)
_IS = word_set(
    "is are was were has have had look looks looked feel feels felt seem seems seemed smell smells tastes taste holds "
    "hold held takes took fits fit came comes went weighs weighed got gets isnt isn't arent aren't wasnt wasn't hasn't"
)
_JOINS = word_set("if when where that which since till until cos cause")
_ASKING = word_set("is are was were does did has isnt isn't arent aren't wasnt wasn't doesnt doesn't why")
_TAGS = word_set("isnt arent doesnt dont wasnt werent wont didnt hasnt havent wouldnt cant")
_SAYS = word_set("says said reckons thinks claims swears insists")
_PAST = word_set(
    "had was were came did made bought used got ate took went left felt looked gave sold baked always once"
)
_MAY = word_set("can could should shall may will would")
_BIDDEN_FIRST = word_set("give make do put use lets let's set add leave drop call scale")
_NAME = 3
"""Words of the name of a subject: "the shed fridge"."""

SO, PAST, HEARSAY, ASKED = "so", "past", "hearsay", "asked"


@dataclass(frozen=True, slots=True)
class Clause:
    """A clause that bids nothing. start, end: its first character and the one behind its last.

    mood: how it is (so), how it was (past), what another says (hearsay), or a question how it is (asked).
    """

    start: int
    end: int
    mood: str


@lru_cache(maxsize=64)
def telling_clauses(text: str) -> tuple[Clause, ...]:
    """The clauses of a line that only tell or ask how something is, in order."""
    out, start, last = [], 0, 0
    ends = [*((found.start(), found.end()) for found in _CLAUSE.finditer(text.lower())), (len(text), len(text))]
    for end, following in ends:
        words = _words(text[start:end])
        mood = _mood(words)
        if len(words) == 2 and mood == SO and words[0].replace("'", "") in _TAGS:
            start = last  # "it drinks more, doesn't it"
        if mood is not None:
            out.append(Clause(start, end, mood))
        last, start = start, following
    return tuple(out)


def asks_or_bids(text: str) -> bool:
    """Whether a line begins as a question whether something may be done, or with a verb that bids: it tells nothing."""
    head = _words(text)[:2]
    if len(head) < 2:
        return False
    bids = head[0] in _BIDDEN_FIRST and head[1] not in _SUBJECT - _POINTING - {"it"}
    return bids or (head[0] in _MAY and head[1] in _SUBJECT)


def _words(text: str) -> list[str]:
    """The words of a clause in lower case, from where it begins to say something."""
    words = [found.group() for found in _WORD.finditer(text.lower().replace("’", "'"))]
    return words[next((i for i, word in enumerate(words) if word not in LEADS), len(words)) :]


def _mood(words: Sequence[str]) -> str | None:
    """The mood of a clause that tells or asks how something is; None for any other."""
    if words[-2:-1] and words[-2].replace("'", "") in _TAGS and words[-1] in _SUBJECT:
        return SO  # "it drinks more, doesn't it"
    if words[:3] == ["did", "i", "say"]:
        return None  # what was said before is being corrected
    if words[:1] and (words[0] in _ASKING or " ".join(words[:4]) == "what do you mean"):
        return ASKED
    if any(word in _SAYS and (i == 0 or words[i - 1] not in ("i", "we")) for i, word in enumerate(words)):
        return HEARSAY
    if not _tells(words):
        return None
    return PAST if any(word in _PAST for word in words) else SO


def _tells(words: Sequence[str]) -> bool:
    for i, word in enumerate(words):
        verb = next((one for one in words[i + 1 :] if one not in _BETWEEN), "")
        if word in _CONTRACTED:
            return verb not in _GOING_TO | _WISHES
        if word in _HAVING or (i == 0 and word.endswith("'s") and verb in _IS):
            return True
        if word in _SUBJECT and _is_subject(words, i) and verb.isalpha() and verb not in _WISHES:
            return True
        if word in _OWNED and any(one in _IS for one in words[i + 2 : i + 2 + _NAME]):
            return True
        if word in _WISHES:
            return False
    return False


def _is_subject(words: Sequence[str], at: int) -> bool:
    """Whether a pronoun does something: behind a verb it is asked ("can i") or has something done to it ("bump those
    up")."""
    if at == 0 or words[at - 1] in LEADS | _JOINS:
        return words[at] not in _POINTING or bool(_IS.intersection(words[at + 1 : at + 2]))
    return words[at] in _DOERS and words[at - 1] not in _IS | _WISHES | _BETWEEN
