"""What is told, asked after, or said of something else leaves the dough in hand as it is; what is bidden changes it."""

from __future__ import annotations

from datetime import datetime

import pytest

from assistant.notebook import Notebook
from assistant.talk.conversation import Conversation
from knowledge import Knowledge, load

NOW = datetime(2026, 3, 14, 7, 30)
GIVEN = "18 rings 95 g 57 percent, starter 17"
TOLD = """\
they look a bit grey, normal?
oven's only got one tray today
is the usual amount of salt ok?
the crust looks normal
my mate reckons half the salt
they're a bit big
the rolls i bought were 60 g
the bowl holds 4 litres
there's 5 of us in the boat
the recipe says 70
the card says 2.2 salt
i had 60 g rolls at the cafe
they had 30 of them at the last regatta
what do you mean 1.9 salt
is 80 g big?
is 57 a bit low for these?
are 18 enough for a crew of nine?
i've a tin that's 2 litres
gran says 20 % starter is plenty
the cox thinks 110 g is better
does 95 g make a small ring?
why is it 57 and not 66
their oven fits 9
we've 12 cups and 6 plates
it was 64 in august
can i handle 70?
could we cope with 30
what's 4 oz each in grams
raisins in a third of them
oh and the flour bag split, only 1 kg left in it"""
BIDDEN = """\
make them 80 g
24 instead
they should be 80 g
starter's 20
no seeds but 2 % malt
we need 30
kids are coming so 60 g each
the crew is bigger, make it 24
it's 60 % not 57
have 30, having the neighbours round
i want 20 % starter in these"""


@pytest.fixture(scope="module")
def kb() -> Knowledge:
    return load()


def _after(line: str, kb: Knowledge) -> tuple[object, object]:
    talk = Conversation(kb, Notebook.in_memory(), now=lambda: NOW)
    talk.reply(GIVEN)
    before = talk.bench.bake.said if talk.bench.bake else None
    talk.reply(line)
    return before, talk.bench.bake.said if talk.bench.bake else None


@pytest.mark.parametrize("line", TOLD.splitlines())
def test_a_dough_stays_as_it_is(line: str, kb: Knowledge) -> None:
    before, after = _after(line, kb)
    assert before is not None
    assert after == before


@pytest.mark.parametrize("line", BIDDEN.splitlines())
def test_a_dough_is_changed(line: str, kb: Knowledge) -> None:
    before, after = _after(line, kb)
    assert after != before
