"""A bake under way on a real pseudo-terminal by a clock that runs fast: calls, bell, resize, type-ahead, wide signs."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from conftest import Desk, Open

WIDTHS = (30, 40, 60, 100)
MINUTE_A_SECOND = 60


def widest(desk: Desk) -> int:
    return max(len(line) for line in desk.lines)


@pytest.mark.parametrize("columns", WIDTHS)
def test_a_timer_rings_above_what_is_being_typed(open_desk: Open, columns: int) -> None:
    desk = open_desk(columns=columns, quick=MINUTE_A_SECOND)
    desk.say("timer 6 min for the pot")
    desk.wait(lambda: "pot 06:3" in desk.lines[-1], "the timer on the quiet line")
    desk.type("36 rolls of")
    desk.wait_for("timer over: pot")
    desk.wait(lambda: desk.lines[-1].startswith("now pot"), "the quiet line to say so")
    assert b"\x07" in desk.raw
    assert any(line == "> 36 rolls of" for line in desk.lines)
    desk.type(" 70 g\r")
    desk.wait_for("36 rolls x 70 g")
    assert widest(desk) <= columns


def test_a_quiet_bell_does_not_ring(open_desk: Open) -> None:
    desk = open_desk(quick=MINUTE_A_SECOND)
    desk.say("bell off")
    desk.say("timer 4 min")
    desk.wait_for("timer over")
    assert b"\x07" not in desk.raw


@pytest.mark.parametrize("columns", WIDTHS)
def test_a_step_that_falls_due_is_called_out(open_desk: Open, columns: int) -> None:
    desk = open_desk(columns=columns, quick=40 * MINUTE_A_SECOND)
    desk.say("24 rolls of 80 g at 66 %, 30 % starter")
    desk.say("mixed now, dough 26")
    desk.wait(lambda: "divide" in desk.lines[-1], "the next step on the quiet line")
    desk.wait_for("divide: 24 rolls")
    assert b"\x07" in desk.raw and widest(desk) <= columns


@pytest.mark.parametrize(("before", "after"), [(100, 30), (30, 100), (60, 40)])
def test_a_resize_leaves_one_clean_prompt(open_desk: Open, before: int, after: int) -> None:
    desk = open_desk(columns=before)
    desk.say("24 rolls of 80 g at 66 %")
    desk.type("and for 40")
    desk.wait_for("> and for 40")
    desk.resize(after, 30)
    desk.type("?")
    desk.wait_for("> and for 40?")
    assert sum(line.startswith("> and for 40") for line in desk.lines) == 1
    assert widest(desk) <= after


def test_keys_typed_while_it_works_are_the_next_line(open_desk: Open) -> None:
    desk = open_desk()
    desk.ready()
    desk.type("24 rings ready by 9 on monday, overnight in the fridge\rwhen do I shape\r")
    desk.wait_for("> when do I shape")
    desk.wait_for("taut skin")
    assert desk.text.count("when do I shape") == 1


@pytest.mark.parametrize("columns", WIDTHS)
def test_wide_signs_take_their_two_columns(open_desk: Open, columns: int) -> None:
    desk = open_desk(columns=columns)
    desk.say("note: 粉粉粉粉粉粉粉粉 sent by the rowing club of 東京 and by the people next door")
    desk.say("show my notes")
    assert "東" in desk.text
    assert all(len(line) <= columns for line in desk.lines)
