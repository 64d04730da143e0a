"""What the reader may know of the conversation: what stands on the bench, what was asked and answered last."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Known:
    """Names that stand on the bench, as they may be said.

    settings: what is set of the kitchen; doughs: for each dough under way the words it answers to, the one in hand
    last; kept: the names that doughs were kept under; planned: a dough that is not in hand has a plan; pieces: how many
    the dough in hand is; ready_min: the minute of the day for which the plan or build asked for is ready; rows:
    ingredients told of the dough in hand; newest: the one the line before put in; in_tins: it was sized by tins;
    timers: what those that may still run are for; figures: what the dough in hand was told in (pieces, g, %).
    """

    settings: tuple[str, ...] = ()
    doughs: tuple[tuple[str, ...], ...] = ()
    kept: tuple[str, ...] = ()
    planned: bool = False
    pieces: float | None = None
    ready_min: int | None = None
    rows: tuple[str, ...] = ()
    newest: str | None = None
    in_tins: bool = False
    timers: tuple[str, ...] = ()
    figures: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Context:
    """What the reader may know of the conversation.

    focus: topic of the last answer; has_bake: a bake is in hand; asked: names of slots an open question asks for;
    standing: topics with an answer that still stands and can be changed (a plan), whatever was talked of since.
    known: names that stand on the bench. dangers: what the last answer warned of.
    of: what the complaint talked of is about, "bread", "dough" or "starter". raw: what was told of the dough in hand
    lies before its bake, so that its pieces are dough still. explained: topics told of in the last answer. thing: the
    ingredient just talked of, ids likeliest first. of_health: what was told last is a matter of safety.
    """

    focus: str | None = None
    has_bake: bool = False
    asked: tuple[str, ...] = ()
    standing: frozenset[str] = frozenset()
    known: Known = Known()
    dangers: tuple[str, ...] = ()
    of: str | None = None
    raw: bool = False
    explained: tuple[str, ...] = ()
    thing: tuple[str, ...] = ()
    of_health: bool = False
