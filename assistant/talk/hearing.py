"""What a line says where it was said: which offer it takes, which dough it is about, which rows its words mean."""

from __future__ import annotations

from dataclasses import replace

from assistant.talk.aim import aimed
from assistant.talk.aim_taken import SHOWN, Aim, as_taken
from assistant.talk.bench import Bench
from assistant.talk.dough_line import as_much_as_goes, corrects, meant_instead, of_its_rows, step_again
from assistant.talk.doughs import under_way
from assistant.talk.memory import recalled
from assistant.talk.named_doughs import Scene, mentions_a_day
from assistant.talk.offers import chosen, completed, offered, put_right
from assistant.talk.trying import STEERING, Trial
from grammar.reader import CLEAR, Read, Reading
from grammar.requests.formula import FormulaRequest
from grammar.requests.formula_bare import bare_figure
from grammar.requests.report import ReportRequest
from grammar.requests.show import ShowRequest
from knowledge import Knowledge
from knowledge.vocabulary import choices

_NOT_OF_A_DOUGH = frozenset({"recall", "note", "timer", "conversion", "explanation", "help", "setting", "undo"})
"""Topics in which a dough may be named without being meant to be taken in hand."""


INSTEAD_OF = "instead_of"
"""Of a change: the number of the first one that it was said in place of."""


def heard(trial: Trial, text: str, stood: Bench, bench: Bench) -> Read:
    """What the reader makes of a line; after an offer, the reading it chooses, or the line it completes.

    stood: the bench with the offer; bench: the same without it.
    """
    alone = trial.read(text, bench)
    waiting = offered(stood)
    if waiting is None:
        return alone
    choice = chosen(text, waiting, choices(trial.kb), trial.words(bench))
    if choice is not None:
        found = trial.read(choice.line, bench)
        named = [one for one in found.readings if choice.topic in (None, one.frame.topic)]
        return replace(found, readings=tuple(named[:1]) or found.readings[:1])
    mended = put_right(alone, waiting)
    if mended is not None:
        return trial.read(mended, bench)
    whole = completed(text, waiting)
    if whole is not None and not (alone.best is not None and isinstance(alone.best.request, STEERING)):
        found = trial.read(whole, bench)
        clear = found.best is not None and found.margin >= CLEAR and not found.best.unread
        if clear and trial.offers(found.readings[:1], bench, whole):
            return found
    return alone


def of_a_dough(trial: Trial, text: str, found: Read, bench: Bench) -> tuple[Aim | None, Read]:
    """The dough the line is about, where that is not simply the one in hand, and the line as said of it."""
    if found.text != text or (found.best is not None and _of_no_dough(found.best, "\n" in text)):
        return None, found
    entries = trial.notebook.entries() if mentions_a_day(text, trial.kb) else ()
    whole = found.best is not None and getattr(found.best.request, "whole", False)
    aim = aimed(text, Scene(trial.kb, trial.now, bench, entries, trial.words(bench), whole))
    if aim is None or (aim.text == SHOWN and found.best is not None and found.best.frame.topic == "stock"):
        return _of_the_counted(trial, found, bench), found  # what there is may be asked of a dough by its name alone
    if aim.missing is not None:
        return aim, found
    named = aim.text
    aim, again = _with_or_without_name(trial, aim)
    asks_of_it = aim.text != named and again.best is not None and again.best.frame.topic == "conversion"
    if again.best is None or (again.best.frame.topic in _NOT_OF_A_DOUGH and not asks_of_it):
        return None, found
    return aim, again


def _with_or_without_name(trial: Trial, aim: Aim) -> tuple[Aim, Read]:
    """The line as said of the dough it names, and how it is read: without the name, where less is left unread so."""
    again = trial.read(aim.text, aim.bench)
    if not aim.rest or aim.rest == aim.text or (again.best is not None and not again.best.unread):
        return aim, again
    rest = trial.read(aim.rest, aim.bench)
    left = again.best.unread if again.best is not None and again.best.score > 0 else again.unknown or (aim.text,)
    clearer = rest.best is not None and rest.best.score > 0 and len(rest.best.unread) < len(left)
    return (replace(aim, text=aim.rest), rest) if clearer else (aim, again)


def _of_the_counted(trial: Trial, found: Read, bench: Bench) -> Aim | None:
    """The one dough that has so many pieces, where a report counts more than the one in hand has."""
    request = found.best.request if found.best is not None else None
    pieces = bench.bake.said.get("pieces") if bench.bake is not None else None
    if not isinstance(request, ReportRequest) or pieces is None:
        return None
    counts = [one.pieces or (one.value if one.what in ("lost", "left") else None) or 0.0 for one in request.told]
    if max(counts, default=0.0) <= pieces:
        return None
    there = under_way(bench, trial.now)
    enough = [bake for bake in there if max(counts) <= (bake.said.get("pieces") or 0.0)]
    if len(enough) != 1:
        return None
    return Aim(bench.taking(enough[0].id), found.text, as_taken(enough[0]), told=f"back to {enough[0].label}")


def _of_no_dough(best: Reading, several_lines: bool) -> bool:
    """Whether a line was read as what no dough need be chosen for; one that shows a dough may name which."""
    if isinstance(best.request, ShowRequest):
        return False
    return best.frame.first or (best.frame.whole is not None and several_lines)


def meant(trial: Trial, found: Read, bench: Bench) -> tuple[Read, Bench, int | None]:
    """The readings with general words for the rows of the dough in hand; where the line replaces the last change, the
    bench as it stood before that one, or before the first one that it stands for, and the number of that."""
    earlier = recalled(bench.bake.said) if bench.bake is not None else None
    if not isinstance(earlier, FormulaRequest) or found.best is None:
        return found, bench, None
    focus = recalled(bench.focus) if bench.focus_topic == "formula" else None
    asked = focus.asked if isinstance(focus, FormulaRequest) else ()
    readings = tuple(
        replace(one, request=_said_of(one, earlier, asked, trial.kb))
        if isinstance(one.request, FormulaRequest) else one
        for one in found.readings
    )
    best = readings[0]
    last = trial.notebook.entries(limit=1) if corrects(best) else ()
    target = trial.notebook.undo_target() if last and meant_instead(best, last[0]) else None
    first = None
    if target is not None and target.seq == last[0].seq:
        change = last[0].change or {}
        first = int(change.get(INSTEAD_OF, target.seq))
        bench = replace(bench, bakes=Bench.from_json(trial.notebook.before(first)).bakes)
        readings = (replace(best, request=step_again(best, recalled(change.get("step")))),)
    return replace(found, readings=readings), bench, first


def _said_of(one: Reading, earlier: FormulaRequest, asked: tuple[str, ...], kb: Knowledge) -> FormulaRequest:
    """A line as it is said of the dough in hand: its rows, its bare figure, what comes in for what. asked: what was
    asked after right before."""
    line = bare_figure(of_its_rows(one, earlier, kb), earlier, one.bound, asked)
    return as_much_as_goes(replace(one, request=line), earlier, kb)
