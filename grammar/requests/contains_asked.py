"""Whether the dough in hand still holds a thing, or is safe for somebody to eat: asked of what is in it now."""

from __future__ import annotations

from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.levels import PLAINLY
from grammar.requests.explanation_asked import ExplanationRequest
from grammar.shell import part_of
from grammar.spoken import fitting, spelled_out, spoken
from grammar.turns import END, LEAD

_SAFE = r"(?:<hand:safe_for>) (?:<hand:someone>) (?:<hand:eats>)"
_STILL = r"(?: (?:<hand:still_so>))*"
_IN = rf"{_STILL}(?: (?:<hand:inside>)){_STILL}(?:[ ,]+(?:<hand:still_so>))*"
_HOLDS = rf"(?:<hand:holds>) (?P<what>[a-z ]+?){_IN}"
_ASKED = (
    rf"{LEAD}{_SAFE}{_STILL}[ ,.;:?!]+{LEAD}{_HOLDS}{END}",
    rf"{LEAD}{_HOLDS}[ ,.;:?!]+{LEAD}{_SAFE}{_STILL}{END}",
    rf"{LEAD}{_HOLDS}{END}",
    rf"{LEAD}{_SAFE}{_STILL}{END}",
)
_KINDS = ("ingredient", "diet")


def contains_asked(line: Line) -> Own | None:
    """What is asked of the dough in hand; without a thing named all its allergens, after a swap only."""
    if not line.context.has_bake:
        return None
    said = spoken(spelled_out(line.text), line.lexicon)
    for hit in fitting(_ASKED, said, line.lexicon):
        what = said.group(hit, "what") if "what" in hit.groupdict() else ""
        terms = _named(part_of(line, what)) if what else ("hazard:allergens",)
        if terms and (what or line.context.focus in _AFTER):
            return Own(ExplanationRequest((), (*terms, "hazard:contains")), PLAINLY)
    return None


_AFTER = ("swap", "formula", "explanation")


def _named(part: Line) -> tuple[str, ...]:
    """The one thing or diet that these words name, as terms; none where they say more."""
    words = [one for one in part.phrases if one.kind not in ("link", "sep")]
    named = [tuple(f"{kind}:{i}" for kind in _KINDS for i in one.ids(kind)[:1]) for one in words]
    return named[0] if len(named) == 1 else ()


FRAME = Frame(ExplanationRequest, "explanation", never_by_slots, reads=contains_asked, settles=True)
