"""What may be said of a swap."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.onward import Put
from grammar.requests.swap_weights import Row


@dataclass(frozen=True, slots=True)
class SwapRequest:
    """honey in place of 60 g sugar
    out of honey, what else
    only got salted butter
    make it vegan
    someone can't have sesame

    out, into: ingredient ids a word may mean, likeliest first. out_g: grams to replace; out_pct: percent of it;
    out_measure, into_measure: amount and unit where it was said by the cup, spoon or pack.
    rows: a dough told in the line beside who cannot eat what.
    job: what it is for, where said (wash, topping, alkali, release ...). diets: ids of who cannot eat what.
    avoid: ids of what is not to be in it beside. protein_pct: a protein to reach. overnight: the slow version.
    """

    out: tuple[str, ...] = ()
    into: tuple[str, ...] = ()
    out_g: float | None = None
    into_g: float | None = None
    out_pct: float | None = None
    out_measure: tuple[float, str] | None = None
    into_measure: tuple[float, str] | None = None
    count: float | None = None
    job: str | None = None
    diets: tuple[str, ...] = ()
    avoid: tuple[str, ...] = ()
    protein_pct: float | None = None
    overnight: bool = False
    flour_g: float | None = None  # of the dough meant, where it was said beside
    have_g: float | None = None  # so much of what goes out there still is: "ran out, only 900 g"
    have: bool = False  # the amount said of what goes out is what there still is, and the rest is asked for
    rows: tuple[Row, ...] = ()
    part: float | None = None  # only so much of the batch is meant: a share below 1, else pieces
    beside: tuple[tuple[str, ...], ...] = ()  # what is to come in with `into`: "milk with butter"
    put: Put | None = None  # the one value a line puts into the swap before it
    to: str | None = None  # the unit in which what comes in is wanted
    lacking: tuple[str, ...] = ()  # what a later line says there is none of: of what was offered, or of the dough
    goes_on: bool = False  # what goes out was told in an earlier line
    anew: bool = False  # says itself what is missing, or what there is
    take: bool = False  # the swap offered is to be made
    pick: int = 0  # which of the choices, the first is 0
