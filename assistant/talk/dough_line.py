"""A line about the dough in hand: the rows its general words mean, and whether it replaces the change before it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import copysign

from assistant.notebook import Entry
from assistant.talk.bench import Bench
from assistant.talk.memory import recalled
from grammar.frames import amount_base, fits
from grammar.phrases import Phrase
from grammar.reader import Reading
from grammar.requests.formula import FormulaRequest
from grammar.requests.formula_bare import told_in
from grammar.requests.formula_parts import unweighed
from knowledge import Knowledge


def rows_of(bench: Bench) -> tuple[tuple[str, ...], str | None]:
    """The ingredients told of the dough in hand, and the one the line before put in, where that was one alone."""
    said = recalled(bench.bake.said) if bench.bake is not None else None
    if not isinstance(said, FormulaRequest):
        return (), None
    newest = said.last[0].removeprefix("part ") if len(said.last) == 1 and said.last[0].startswith("part ") else None
    return tuple(part.item[0] for part in said.parts), newest


def figures_of(bench: Bench) -> tuple[float, ...]:
    """The figures the dough in hand was told in: pieces, g and shares in %."""
    said = recalled(bench.bake.said) if bench.bake is not None else None
    return told_in(said) if isinstance(said, FormulaRequest) else ()


def in_tins(bench: Bench) -> bool:
    """Whether the dough in hand was sized by the tins it is to fill."""
    said = bench.bake.said if bench.bake is not None else {}
    return bool(said.get("sizes_cm") or said.get("tin_ml"))


def of_its_rows(reading: Reading, earlier: FormulaRequest, kb: Knowledge) -> FormulaRequest:
    """The line with "oil", "butter", "seeds" for the oil, butter or seeds that are in the dough in hand; a figure is
    theirs only behind such a general word ("oil 4", not "vegetable oil 4")."""
    line: FormulaRequest = reading.request
    there = [part.item[0] for part in earlier.parts]
    general = {
        item for one in reading.bound.phrases if " " not in one.text and _ends_a_name(one.text.lower(), there, kb)
        for item in one.ids("ingredient")
    }  # fmt: skip

    def rows(name: str) -> tuple[str, ...]:
        if name in there or name not in kb.ingredients:
            return (name,)
        return tuple(item for item in there if is_kind_of(item, name, kb)) or (name,)

    without = tuple(row for name in line.without for row in rows(name))
    times = tuple((rows(name)[0], factor) for name, factor in line.times)
    more_pct = tuple((rows(name)[0], points) for name, points in line.more_pct)
    asked = tuple(rows(name)[0] for name in line.asked)
    general = set() if line.adds else general
    parts = tuple(
        replace(one, item=_only(rows(one.item[0]), one.item)) if one.item[0] in general else one for one in line.parts
    )
    return replace(line, without=without, times=times, more_pct=more_pct, asked=asked, parts=parts)


def _ends_a_name(word: str, rows: Sequence[str], kb: Knowledge) -> bool:
    """Whether a word alone is what the longer name of one of these rows ends in: "oil" of olive oil."""
    ends = (f" {word}", f" {word}s", f" {word.removesuffix('s')}")
    return any(words.endswith(ends) for row in rows if row in kb.ingredients for words in kb.ingredients[row].said_as)


def as_much_as_goes(reading: Reading, earlier: FormulaRequest, kb: Knowledge) -> FormulaRequest:
    """The line with as much of the one thing it names without an amount as there is of the row that goes for it: the
    one it leaves out, or where it takes something back the one the line before put in. Both of one group, or said
    so."""
    line: FormulaRequest = reading.request
    new = next((part for part in line.parts if unweighed(part)), None)
    if new is None or line.whole or line.asked or line.steps:
        return line
    turned = corrects(reading) or reading.bound.said("act:change")
    newest = tuple(name.removeprefix("part ") for name in earlier.last) if turned else ()
    gone = [part for part in earlier.parts if part.item[0] in (line.without or newest) and part.item[0] != new.item[0]]
    groups = {kb.ingredients[one.item[0]].group for one in (new, *gone)}
    if len(gone) != 1 or not (line.as_much or len(groups) == 1):
        return line
    as_much = replace(new, pct=gone[0].pct, g=gone[0].g, measure=gone[0].measure)
    parts = tuple(as_much if part is new else part for part in line.parts)
    return replace(line, parts=parts, without=line.without or (gone[0].item[0],), adds=False, size_lead=True)


def _only(rows: tuple[str, ...], named: tuple[str, ...]) -> tuple[str, ...]:
    """The one row a general word stands for; the word as it is where there are several."""
    return (rows[0], *named[1:]) if len(rows) == 1 else named


def is_kind_of(item: str, general: str, kb: Knowledge) -> bool:
    """Whether an ingredient is one of those that a general name stands for: olive oil of "oil"."""
    one, other = kb.ingredients.get(item), kb.ingredients[general]
    if one is None or one.group != other.group or one.group == "flour":
        return False
    plain = {f" {words}" for words in other.said_as if " " not in words}
    return any(words.endswith(tuple(plain)) for words in one.said_as)


def corrects(reading: Reading) -> bool:
    """Whether the line begins, or ends, by taking something back."""
    said = [phrase for phrase in reading.bound.phrases if phrase.kind != "sep"]
    return any(fits(phrase, _TAKES_BACK) for phrase in (*said[:1], *said[-1:]))


def meant_instead(reading: Reading, last: Entry) -> bool:
    """Whether a line that takes something back replaces the last change: one step taken from what there was by another,
    or, where it says so in words ("i meant"), whatever was changed. A figure set anew replaces itself."""
    line, change = reading.request, last.change or {}
    if not isinstance(line, FormulaRequest) or line.whole or change.get("what") != "formula" or change.get("new"):
        return False
    told = reading.bound.said("mistake:meant", "act:scrapped") and not line.without
    return told or (bool(change.get("step")) and (line.steps or _figure_alone(reading) is not None))


def step_again(reading: Reading, step: FormulaRequest | None) -> FormulaRequest:
    """The line; where it is a figure and nothing else, the step it replaces with that figure: "3 more", "no, 4"."""
    line: FormulaRequest = reading.request
    amount = _figure_alone(reading)
    if step is None or amount is None:
        return line
    value = amount_base(amount) or 0.0
    if amount.dim == "mass" and len(step.poured_g) == 1:
        return replace(step, poured_g=tuple((item, copysign(value, g)) for item, g in step.poured_g))
    if amount.dim == "mass" and step.more_flour_g is not None:
        return replace(step, more_flour_g=copysign(value, step.more_flour_g))
    if amount.dim in ("num", "pct") and len(step.more_pct) == 1:
        return replace(step, more_pct=tuple((row, copysign(value, points)) for row, points in step.more_pct))
    if amount.dim in ("num", "share") and step.scale is not None and value > 0:
        return replace(step, scale=value)
    if amount.dim == "num" and step.more_pieces is not None and value % 1 == 0:
        return replace(step, more_pieces=copysign(value, step.more_pieces))
    return line


def _figure_alone(reading: Reading) -> Phrase | None:
    """The amount of a line that is an amount and a word that takes back, and nothing else ("a third of it, sorry")."""
    said = [phrase for phrase in reading.bound.phrases if phrase.kind != "sep" and not fits(phrase, _TAKES_BACK)]
    amounts = [phrase for phrase in said if phrase.kind == "amount"]
    alone = bool(amounts) and all(phrase is amounts[0] or _points_back(phrase) for phrase in said)
    return amounts[0] if alone else None


def _points_back(phrase: Phrase) -> bool:
    """Whether a phrase only points to what the figure is of: "of it"."""
    return "of" in phrase.ids("link") or phrase.text.lower().startswith("of ")


_TAKES_BACK = ("act:correct", "mistake:meant")
