"""What the time asked back gives leads to the time again: warmth, share and rise, each from the others."""

from __future__ import annotations

from datetime import datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.notebook import Notebook
from assistant.talk.conversation import Conversation
from knowledge import load

KB = load()
NOW = datetime(2026, 3, 14, 7, 30)


def _said(line: str) -> dict[str, float]:
    reply = Conversation(KB, Notebook.in_memory(), now=lambda: NOW).reply(line).as_json()
    assert reply["kind"] == "timing", reply["text"]
    return dict(reply["answer"])


@settings(max_examples=12, deadline=None)
@given(st.integers(16, 26), st.integers(6, 12))
def test_the_share_for_a_time_takes_that_time(temp_c: int, hours: int) -> None:
    reply = Conversation(KB, Notebook.in_memory(), now=lambda: NOW).reply(
        f"how much starter for a {hours} hour bulk at {temp_c}"
    )
    if reply.kind == "refused":
        return
    share = dict(reply.as_json()["answer"])["starter_pct"]
    again = _said(f"how long is bulk at {temp_c} with {share:g} % starter")
    assert again["minutes"] == pytest.approx(60 * hours, rel=0.05)


@settings(max_examples=12, deadline=None)
@given(st.integers(10, 40), st.integers(6, 16))
def test_the_warmth_for_a_time_takes_that_time(share: int, hours: int) -> None:
    reply = Conversation(KB, Notebook.in_memory(), now=lambda: NOW).reply(
        f"what temperature for a {hours} hour bulk with {share} % starter"
    )
    if reply.kind == "refused" or dict(reply.as_json()["answer"])["temp_c"] >= 27:
        return
    temp_c = dict(reply.as_json()["answer"])["temp_c"]
    again = _said(f"how long is bulk at {temp_c:g} °C with {share} % starter")
    if temp_c > 14:  # a colder room is reckoned with the dough falling to it
        assert again["minutes"] == pytest.approx(60 * hours, rel=0.05)


@settings(max_examples=12, deadline=None)
@given(st.integers(18, 26), st.integers(10, 40), st.integers(30, 120))
def test_the_rise_at_a_time_is_reached_at_that_time(temp_c: int, share: int, rise_pct: int) -> None:
    minutes = _said(f"how long to rise {rise_pct} % at {temp_c} with {share} % starter")["minutes"]
    again = _said(f"how far will it have come after {minutes:.0f} minutes at {temp_c} with {share} % starter")
    assert again["rise_pct"] == pytest.approx(rise_pct, abs=2)
