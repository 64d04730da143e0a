"""The dough a question of cost, shopping or food values is about: the one in hand, in another size, or one named."""

from __future__ import annotations

from dataclasses import dataclass

from assistant.answers.bread_meant import bread_of_formula
from assistant.answers.dough_said import cup_system, defaults_of, givens_of, piece_name, solved
from assistant.answers.dough_sized import scaled
from assistant.engine.composition import Portion
from assistant.engine.contents import contents
from assistant.engine.dough import Formula
from assistant.engine.formula import solve
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.talk.room import Room
from grammar.context import Context
from grammar.frames import Bound
from grammar.requests.batch import Batch
from grammar.requests.formula import FormulaRequest
from grammar.requests.formula_merge import went_on
from knowledge.records.breads import Bread

_NOTHING = Bound((), (), Context(), "")


@dataclass(frozen=True, slots=True)
class Dough:
    """A dough solved, what it is made of, what it is called and whether it is the one in hand as it stands.

    bread: the bread it is, if known; assumed: what had to be assumed for it (nothing new for the dough in hand).
    """

    formula: Formula
    portions: tuple[Portion, ...]
    name: str
    bread: Bread | None
    in_hand: bool
    assumed: tuple[str, ...] = ()

    @property
    def supposed(self) -> tuple[str, ...]:
        """What had to be assumed, in one breath where it is a bread's usual dough."""
        return (f"the usual dough of {self.bread.name.lower()}",) if self.assumed and self.bread else self.assumed


def dough_named(room: Room, batch: Batch, wanted: str) -> Dough:
    """The dough meant by what was said of its batch. Refused without one in hand and none named; wanted: for what."""
    said = room.formula_said
    held = said if isinstance(said, FormulaRequest) else None
    resized = held is not None and _same_kind(batch, held, room)
    if held is not None and resized:
        request = _resized(held, batch, room)
    elif _named_bread(batch, room) is not None or (batch.piece not in (None, "piece") and batch.pieces is not None):
        pieces = batch.pieces if batch.pieces is not None else 1.0
        request = FormulaRequest(
            pieces=pieces, piece_g=batch.piece_g, piece=batch.piece, bread=_named_bread(batch, room), usual=True
        )
    else:
        raise Refused(f"No dough is in hand {wanted}.", "say a dough first: 24 rolls of 85 g at 66 %")
    settings = room.bench.settings
    givens = givens_of(request, room.kb, cup_system(settings))
    formula = solve(givens, defaults_of(settings), room.kb)
    fed_with = givens.starter_flour or defaults_of(settings).starter_flour or "flour_bread"
    portions = contents(formula, fed_with, givens.preferments, room.kb.ingredients)
    same = request is held
    name = (room.bake.name if room.bake is not None else None) if same else None
    return Dough(
        formula, portions, name or _name(request, formula, room), bread_of_formula(room, request), same,
        () if resized else formula.assumed,
    )  # fmt: skip


def _named_bread(batch: Batch, room: Room) -> str | None:
    word = room.kb.words.get(f"piece {batch.piece}") if batch.piece else None
    return batch.bread or (word.bread if word is not None and word.names_bread else None)


def _same_kind(batch: Batch, held: FormulaRequest, room: Room) -> bool:
    """Whether the pieces named are those of the dough in hand, or none of another kind are; "per bun" is of it too."""
    if batch.bread is None and batch.pieces is None:
        return True
    named, own = _named_bread(batch, room), bread_of_formula(room, held)
    if named is not None:
        return own is not None and own.id == named
    return batch.piece in (None, "piece", held.piece) or held.piece is None


def _resized(held: FormulaRequest, batch: Batch, room: Room) -> FormulaRequest:
    """The dough in hand in the size named; itself where that is its own."""
    if batch.times is not None:
        return scaled(held, batch.times, solved(held, room).dough_g) if batch.times != 1 else held
    pieces = None if batch.pieces == held.pieces else batch.pieces
    piece_g = None if batch.piece_g == held.piece_g else batch.piece_g
    if pieces is None and piece_g is None:
        return held
    return went_on(FormulaRequest(pieces=pieces, piece_g=piece_g, size_lead=True), held, _NOTHING)


def _name(request: FormulaRequest, formula: Formula, room: Room) -> str:
    if formula.pieces is None:
        return f"{formula.dough_g:.0f} g of dough"
    mass = f" x {figure(formula.piece_g)} g" if formula.piece_g is not None else ""
    return f"{figure(formula.pieces)} {piece_name(request, formula.pieces, room.kb)}{mass}"
