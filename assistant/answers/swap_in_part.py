"""A part of the batch made without what somebody cannot eat, the rest as it is: two bowls, the free one first."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from assistant.engine.bowl import Bowl
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.voice.page import Line, Page
from grammar.requests.swap import SwapRequest

APART = (
    "Weigh the dough in two bowls. Mix, shape, top and bake this one first, with clean hands, boards and trays of its "
    "own, and wrap it apart: what is on hands and benches travels."
)


def for_a_part(request: SwapRequest, bowl: Bowl, reply: Callable[[SwapRequest, Bowl], Outcome]) -> Outcome:
    """The reply for so much of the dough as is meant. The dough in hand stays: it is both bowls together."""
    share, name = _share(request.part or 1.0, bowl)
    outcome = reply(replace(request, part=None, take=False), bowl.times(share))
    page = Page((Line(f"For {name} of the batch:", role="head"), *outcome.page.blocks, Line(APART, role="warn")))
    fields = {**outcome.answer, "part_pct": 100 * share}
    return replace(
        outcome, answer=fields, page=page, read_as=f"{outcome.read_as}, for {name} of the batch",
        cautions=(*outcome.cautions, APART),
    )  # fmt: skip


def _share(part: float, bowl: Bowl) -> tuple[float, str]:
    """The share of the batch, and what it is called. Refused where it is more than there is."""
    if part < 1:
        pieces = f" ({figure(bowl.pieces * part)} of {figure(bowl.pieces)})" if bowl.pieces else ""
        return part, f"{figure(100 * part)} %{pieces}"
    if not bowl.pieces:
        raise Refused("How many pieces the dough makes was not said.", "half the batch without eggs")
    if part > bowl.pieces:
        raise Refused(f"{figure(part)} of {figure(bowl.pieces)} pieces are more than there are.", "half the batch")
    return part / bowl.pieces, f"{figure(part)} of {figure(bowl.pieces)}"
