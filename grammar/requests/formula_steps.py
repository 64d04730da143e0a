"""Lines that do one thing to the dough in hand and say nothing else of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from grammar.frames import Bound
from grammar.phrases import Phrase
from grammar.requests.formula_asked import more_or_less_of
from grammar.requests.formula_figures import points_of
from grammar.requests.formula_heads import heads_changed
from grammar.requests.formula_moves import Move
from grammar.requests.formula_request import FormulaRequest
from grammar.requests.formula_rows import put_back, raised_by, times_of
from grammar.requests.formula_sizes import piece_changed

Moves = tuple[Move, ...]
_Step = Callable[[Bound, Moves], FormulaRequest | None]


def step_of(bound: Bound, moves: Moves) -> FormulaRequest | None:
    """The one thing the line does; None where it says more, or is no change."""
    return next((found for step in _STEPS if (found := step(bound, moves)) is not None), None)


def step_beside(bound: Bound) -> tuple[FormulaRequest, Bound] | None:
    """A step in one clause of a line, and what the other clauses say: "no wholemeal, 4 points less water"."""
    clauses = _clauses(bound)
    if not bound.context.has_bake or len(clauses) < 2:
        return None
    for clause in clauses:
        inside, outside = _part(bound, clause, True), _part(bound, clause, False)
        step = next((found for one in _ONE_CLAUSE if (found := one(inside, ())) is not None), None)
        weighed = step is not None and step.piece_change is not None and outside.first("piece_g") is not None
        if step is not None and outside.hits and not weighed:
            return step, outside
    return None


def _clauses(bound: Bound) -> list[tuple[Phrase, ...]]:
    out: list[list[Phrase]] = [[]]
    for phrase in bound.phrases:
        if phrase.kind == "sep":
            out.append([])
        else:
            out[-1].append(phrase)
    return [tuple(clause) for clause in out if clause]


def _part(bound: Bound, clause: tuple[Phrase, ...], inside: bool) -> Bound:
    """What one clause of a line says, or what the others say."""
    its = {id(phrase) for phrase in clause}
    phrases = tuple(phrase for phrase in bound.phrases if (id(phrase) in its) == inside)
    hits = tuple(hit for hit in bound.hits if (bool({id(hit.amount), id(hit.label)} & its)) == inside)
    return replace(bound, phrases=phrases, hits=hits)


def _by_points(bound: Bound, moves: Moves) -> FormulaRequest | None:
    """ "2 % more water", "10 % more" of all of it."""
    points = points_of(bound)
    if points is None:
        return None
    if not points[0]:
        return FormulaRequest(scale=1 + points[1] / 100, size_lead=True)
    return FormulaRequest(more_pct=(points,), size_lead=True)


def _by_a_verb(bound: Bound, moves: Moves) -> FormulaRequest | None:
    """ "cut the salt by a third", "reduce the water by 20 g"."""
    by = raised_by(bound)
    if by is None:
        return None
    return FormulaRequest(
        times=((by.row, by.times),) if by.times is not None else (),
        more_pct=((by.row, by.points),) if by.points is not None else (),
        poured_g=(("water" if by.row == "hydration" else by.row, by.g),) if by.g is not None else (),
        moves=moves, size_lead=True,
    )  # fmt: skip


def _by_times(bound: Bound, moves: Moves) -> FormulaRequest | None:
    """ "double the salt", "a third less honey"."""
    times = times_of(bound, moves)
    alone = all(hit.amount is None or hit.amount.dim == "share" or hit.slot == "scale" for hit in bound.hits)
    return FormulaRequest(times=times, moves=moves, size_lead=True) if times and alone else None


def _by_heads(bound: Bound, moves: Moves) -> FormulaRequest | None:
    told = heads_changed(bound)
    return FormulaRequest(heads_changed=told, size_lead=True) if told is not None else None


def _by_size(bound: Bound, moves: Moves) -> FormulaRequest | None:
    resized = piece_changed(bound)
    return FormulaRequest(piece_change=resized, size_lead=True) if resized is not None else None


def _left_out(bound: Bound, moves: Moves) -> FormulaRequest | None:
    """ "leave it out": what the line before put in; "without it then", where nothing was put in: the dough as it is."""
    newest = bound.context.known.newest
    if not bound.said("act:leave_out") or any(hit.amount is not None for hit in bound.hits):
        return None
    as_it_is = any(phrase.text.lower().startswith("without ") for phrase in bound.phrases)
    return FormulaRequest(without=(newest,) if newest else (), size_lead=True) if newest or as_it_is else None


def _put_back(bound: Bound, moves: Moves) -> FormulaRequest | None:
    rows = put_back(bound)
    return FormulaRequest(put_back=rows, size_lead=True) if rows else None


def _open_end(bound: Bound, moves: Moves) -> FormulaRequest | None:
    """ "more salt": how much is asked back."""
    asked = more_or_less_of(bound)
    return FormulaRequest(asked=asked, vague=True) if asked else None


_STEPS: tuple[_Step, ...] = (
    _by_points, _by_a_verb, _by_times, _by_heads, _by_size, _left_out, _put_back, _open_end,
)  # fmt: skip
_ONE_CLAUSE: tuple[_Step, ...] = (_by_points, _by_a_verb, _by_size)
"""Steps that may stand beside other things said of the dough, in a clause of their own."""
