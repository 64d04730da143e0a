"""A mistake in the bowl put right for the dough in hand, or for the weights that were said."""

from __future__ import annotations

from collections.abc import Callable

from assistant.answers import answers
from assistant.answers.mend_amounts import by_weight, felt, one_for_the_other, other_hydration
from assistant.answers.mend_case import Case
from assistant.answers.mend_dough import case_of
from assistant.answers.mend_kept import as_before
from assistant.answers.mend_pieces import short
from assistant.answers.mend_steps import step_left_out
from assistant.answers.wrong_thing import water_too_hot, wrong_flour, wrong_starter, wrong_thing
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from grammar.requests.mend_request import MendRequest

_GROUND = ("flour", "semolina", "corn")
"""How the ids of what a dough is made of begin."""


@answers(MendRequest)
def answer(request: MendRequest, room: Room) -> Outcome:
    """What to add, what the dough then is, and what still helps where nothing can be added."""
    if request.mistake == "same":
        raise Refused("What went wrong was not said.", "Say it: forgot the salt; 50 g too much water.")
    room = as_before(room) if request.again else room
    if request.mistake == "step":
        return step_left_out(request, room)
    case = case_of(request, room)
    return _WAYS.get(request.mistake, _of_an_amount)(case)


def _wrong(case: Case) -> Outcome:
    """The wrong thing in the bowl: another starter, another flour, or anything else."""
    if case.request.starter_pct is not None:
        return wrong_starter(case, case.request.starter_pct)
    ground = any(item.startswith(_GROUND) for item in case.request.used)
    return (wrong_flour if ground else wrong_thing)(case)


def _of_an_amount(case: Case) -> Outcome:
    return (other_hydration if case.request.item[:1] == ("hydration",) else by_weight)(case)


_WAYS: dict[str, Callable[[Case], Outcome]] = {
    "hot_water": water_too_hot, "wet": felt, "dry": felt, "short": short, "wrong": _wrong,
    "exchanged": one_for_the_other,
}  # fmt: skip
"""How each mistake is put right; the others are of an amount."""
