"""What was answered last, or what stands, asked for as a drawing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.spoken import fitting, spoken

Drawn = Literal["last", "plan", "loads"]


@dataclass(frozen=True, slots=True)
class PictureRequest:
    """as a picture
    draw me the plan
    a chart of the loads

    of: what was answered last, the plan (or the bake as it runs), or the loads of pot and oven answered last.
    """

    of: Drawn = "last"


_LEAD = r"(?:(?:<hand:polite>)[ ,.:;!]+)*(?:(?:and|now|then|can you|could you|would you) )*"
_END = r"(?:[ ,.;:?]+(?:<hand:polite>|<hand:again>|now|instead))*"
_OF = r"(?:<hand:the> )*(?:(?P<plan><hand:plan>|<hand:drawn_day>)|(?P<loads><hand:drawn_loads>)|<hand:drawn_that>)"
_TEMPLATES = (
    rf"{_LEAD}(?:<hand:show> |<hand:draw> |make )?(?:{_OF} )?<hand:drawn_as> "
    rf"(?:<hand:the> )*<hand:drawing>{_END}",
    rf"{_LEAD}(?:<hand:show> |<hand:draw> |make |is there |have you got )?(?:<hand:the> )*(?:<hand:drawing>)"
    rf"(?: (?:of|for|from) {_OF})?{_END}",
    rf"{_LEAD}(?:<hand:draw>)(?: me| us)? {_OF}{_END}",
    rf"{_LEAD}(?:<hand:show> )?{_OF} (?:<hand:drawing>){_END}",
)


def reads(line: Line) -> Own | None:
    """A drawing asked for, of what is named or of what was answered last."""
    said = spoken(line.text, line.lexicon)
    hit = next(fitting(_TEMPLATES, said, line.lexicon), None)
    if hit is None:
        return None
    named = hit.groupdict()
    of: Drawn = "plan" if named.get("plan") else "loads" if named.get("loads") else "last"
    return Own(PictureRequest(of), 100.0)


FRAME = Frame(
    PictureRequest, "picture", never_by_slots, reads=reads, first=True, needs=("slot:none",), help_topic="talk"
)
