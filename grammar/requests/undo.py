"""A change taken back, or made again."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.levels import speaks
from grammar.requests.talk import bare
from grammar.scanner import scan
from grammar.shell import part_of
from grammar.spoken import Spoken, fitting, matched, spoken


@dataclass(frozen=True, slots=True)
class UndoRequest:
    """undo
    undo that
    undo the seeds
    undo the last two

    about: what is to be taken back, as typed; "": the last change, whatever it was; times: how many, one by one.
    """

    about: str = ""
    times: int = 1


@dataclass(frozen=True, slots=True)
class RedoRequest:
    """redo"""


_LEAD = r"(?:(?:<hand:polite>)[ ,.!]+)*"
_LAST = r"(?:(?:<hand:the>) )*(?:<hand:last_change>)"
_MOST = 20
_SEVERAL = (
    rf"{_LEAD}(?P<each>(?:undo[ ,]*(?:and )?)+)",
    rf"{_LEAD}(?:<hand:undo>) (?:{_LAST} )?(?P<times>twice|thrice|both|\d+|two|three|four|five)"
    rf"(?: (?:times|changes|things|lines|steps|of them|more))?(?: (?:<hand:polite>|<hand:again>))*",
    rf"{_LEAD}(?:<hand:undo>) (?:<hand:the> )*last (?P<times>couple|\d+|two|three|four|five)(?: (?:of )?[a-z]+)?"
    rf"(?: (?:<hand:polite>|<hand:again>))*",
)
_COUNTS = {"twice": 2, "both": 2, "couple": 2, "two": 2, "thrice": 3, "three": 3, "four": 4, "five": 5}
_NAMED = r"(?:(?:<hand:polite>) )*(?:<hand:undo>) (?:<hand:the> )*(?P<about>.+?)(?: change| bit| thing)?(?: again)?"
_ENDS = r"(?:[ ,.]+(?:<hand:polite>|<hand:again>|<hand:any_more>))*"
_DENIED = r"(?:(?:<hand:denies>|<hand:polite>)[ ,.!]+)"
_AS_IT_WAS = (
    rf"{_DENIED}*(?:<hand:put_as>) (?:<hand:as_was>){_ENDS}",
    rf"{_DENIED}+(?:<hand:as_was>){_ENDS}",
    rf"(?:(?:<hand:denies>)[ ,.!]+)+(?:{_DENIED})*(?:<hand:leave_be>){_ENDS}",
    rf"lets not(?: do that)?{_ENDS}",
)
"""The last change not wanted after all, in plain words."""
_LAST_BIT = rf"{_DENIED}*(?:<hand:drop>|<hand:forget>|<hand:calls_off>) (?:<hand:last_bit>){_ENDS}"
_UNDO_LAST = rf"{_LEAD}(?:<hand:undo>) (?:<hand:last_bit>){_ENDS}"
_THE_LAST = rf"{_LAST}(?: (?:<hand:polite>))*"
_NO_MORE = r"(?:(?:<hand:denies>|<hand:polite>)[ ,.!]*)+"


def reads(line: Line) -> Own | None:
    """A change named to be taken back: "undo the seeds"; or not wanted after all: "no, leave it how it was"."""
    if _by_a_clause(line):
        return Own(UndoRequest(), 100.0)
    if line.context.has_bake and line.context.focus == "formula":
        said = spoken(_without_reason(line), line.lexicon)
        if any(matched(one, said, line.lexicon) for one in (*_AS_IT_WAS, _LAST_BIT)):
            return Own(UndoRequest(), 100.0)
    several = _times(spoken(line.text, line.lexicon), line)
    if several > 1:
        return Own(UndoRequest(times=several), 100.0)
    said = spoken(_without_reason(line), line.lexicon)
    hit = matched(_NAMED, said, line.lexicon)
    if hit is None:
        bare = matched(rf"{_LEAD}(?:undo|revert|take that back|take it back)", said, line.lexicon)
        return Own(UndoRequest(), 100.0) if bare is not None and said.text != line.text else None
    about = said.group(hit, "about")
    if matched(_UNDO_LAST, said, line.lexicon) or matched(_THE_LAST, spoken(about, line.lexicon), line.lexicon):
        return Own(UndoRequest(), 100.0)
    if all(line.lexicon.phrases.get(word, (("", ""),))[0][0] == "filler" for word in about.lower().split()):
        return Own(UndoRequest(), 100.0)  # "undo thx"
    plain = about.lower().split()
    if len(plain) > 5 or not said.folded.split()[0].startswith(("undo", "revert", "reverse", "unwind", "roll")):
        return None  # "take back" and "put back" are said of much else
    return Own(UndoRequest(about), 100.0)


def _by_a_clause(line: Line) -> bool:
    """Whether the last clause takes the change back, and what stands before it, with no figure, is only the reason."""
    head, comma, clause = line.text.strip().rpartition(",")
    figures = any(token.quantity is not None for token in line.tokens)
    if not (comma and line.context.has_bake) or figures or any(p.ids("act") for p in part_of(line, head).phrases):
        return False
    said = spoken(clause, line.lexicon)
    if line.context.focus == "formula" and matched(_AS_IT_WAS[0], said, line.lexicon):
        return True
    tokens = [one for one in scan(clause, line.lexicon) if one.kind not in ("FILL", "MARK")]
    return bool(tokens) and all({"undo", "scrapped"} & set(one.ids("act")) for one in tokens)


def _times(said: Spoken, line: Line) -> int:
    """How many changes are to be taken back one by one."""
    for hit in fitting(_SEVERAL, said, line.lexicon):
        if "each" in hit.groupdict():
            return min(_MOST, hit["each"].split().count("undo"))
        word = hit["times"]
        return min(_MOST, _COUNTS.get(word) or int(word))
    return 1


def _without_reason(line: Line) -> str:
    """The order without the clause behind it that says why: one that has no figure and no order of its own."""
    head, _, reason = line.text.partition(",")
    if matched(_NO_MORE, spoken(head, line.lexicon), line.lexicon):  # "no, leave it how it was, ..."
        further, _, reason = reason.partition(",")
        head = f"{head},{further}"
    told = reason.strip() and not any(token.quantity is not None for token in line.tokens)
    bids = reason.strip().lower().startswith(("and ", "then ", "make", "but ", "add"))
    return head if told and not bids else line.text


FRAMES = (
    Frame(UndoRequest, "undo", never_by_slots, reads=reads, first=True, needs=("slot:none",)),
    Frame(
        UndoRequest, "undo", bare(UndoRequest), cues=speaks(telling="act:undo", heard="act:correct"),
        needs=("act:undo",),
    ),
    Frame(RedoRequest, "undo", bare(RedoRequest), cues=speaks(telling="act:redo"), needs=("act:redo",)),
)
