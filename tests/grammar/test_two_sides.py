"""Whatever is said first, what is called for or lacking goes out and what is at hand comes in, at the weight said."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.talk.lexicon import lexicon
from grammar.context import Context
from grammar.reader import read
from grammar.requests import frames
from grammar.requests.swap import SwapRequest
from knowledge import load

LEXICON = lexicon(load())
LACKS = ("out of {}", "{} I didn't find", "the recipe wants {}", "{} is called for", "we ran out of {}", "no {} left")
HAS = ("I have {}", "only got {}", "{} I have", "there's a jar of {}", "I will put {}", "all I have is {}")
THINGS = {
    "butter": "butter_unsalted", "margarine": "margarine", "honey": "honey", "molasses": "molasses", "kefir": "kefir",
    "buttermilk": "buttermilk", "olive oil": "olive_oil",
}  # fmt: skip


@settings(max_examples=60)
@given(
    st.sampled_from(LACKS),
    st.sampled_from(HAS),
    st.lists(st.sampled_from(sorted(THINGS)), min_size=2, max_size=2, unique=True),
    st.booleans(),
    st.integers(20, 400),
)
def test_sides_and_weight_stay_whatever_the_order(
    lacks: str, has: str, things: list[str], lack_first: bool, grams: int
) -> None:
    out, into = things
    told = [lacks.format(out), has.format(into)]
    line = ", ".join(told if lack_first else reversed(told)) + f". It needs {grams} g"
    best = read(line, LEXICON, frames(), Context()).best
    assert best is not None
    request = best.request
    assert isinstance(request, SwapRequest), line
    assert request.out[:1] == (THINGS[out],), line
    assert request.into[:1] == (THINGS[into],), line
    assert request.out_g == grams, line
