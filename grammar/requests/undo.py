"""A change taken back, or made again."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound, Frame, Line, Own
from grammar.requests.talk import bare
from grammar.spoken import matched, spoken


@dataclass(frozen=True, slots=True)
class UndoRequest:
    """undo
    undo that
    undo the seeds

    about: what is to be taken back, as typed; "": the last change, whatever it was.
    """

    about: str = ""


@dataclass(frozen=True, slots=True)
class RedoRequest:
    """redo"""


_NAMED = r"(?:(?:<hand:polite>) )*(?:<hand:undo>) (?:<hand:the> )*(?P<about>.+?)(?: change| bit| thing)?(?: again)?"


def reads(line: Line) -> Own | None:
    """A change named to be taken back: "undo the seeds"."""
    said = spoken(line.text, line.lexicon)
    hit = matched(_NAMED, said, line.lexicon)
    if hit is None:
        return None
    about = said.group(hit, "about")
    last = r"(?:(?:<hand:the>) )*(?:<hand:last_change>)(?: (?:<hand:polite>))*"
    if matched(last, spoken(about, line.lexicon), line.lexicon):
        return Own(UndoRequest(), 100.0)
    if all(line.lexicon.phrases.get(word, (("", ""),))[0][0] == "filler" for word in about.lower().split()):
        return Own(UndoRequest(), 100.0)  # "undo thx"
    plain = about.lower().split()
    if len(plain) > 5 or not said.folded.split()[0].startswith(("undo", "revert", "reverse", "unwind", "roll")):
        return None  # "take back" and "put back" are said of much else
    return Own(UndoRequest(about), 100.0)


def _never(bound: Bound) -> None:
    return None


FRAMES = (
    Frame(UndoRequest, "undo", _never, reads=reads, first=True, needs=("slot:none",)),
    Frame(UndoRequest, "undo", bare(UndoRequest), cues={"act:undo": 3.0}, needs=("act:undo",)),
    Frame(RedoRequest, "undo", bare(RedoRequest), cues={"act:redo": 3.0}, needs=("act:redo",)),
)
