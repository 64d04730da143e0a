"""The program on a real pseudo-terminal: typing, paste, completion, resize, control keys, restart."""

from __future__ import annotations

import signal
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from conftest import Desk, Open


def test_an_empty_bench_shows_what_can_be_said(open_desk: Open) -> None:
    desk = open_desk()
    desk.ready()
    shown = [line for line in desk.lines if line.strip() and not line.startswith(">")]
    assert shown[0] == "Say what you want to bake, or ask:"
    assert 2 <= len(shown) <= 8


def test_a_line_is_answered_and_named_below(open_desk: Open) -> None:
    desk = open_desk()
    desk.say("18 rolls of 90 g at 65 %")
    assert "flour" in desk.text
    desk.wait(lambda: "18" in desk.lines[-1], "the bake in hand on the quiet line")


def test_a_restart_shows_what_is_in_hand_and_takes_back(open_desk: Open) -> None:
    desk = open_desk()
    desk.say("18 rolls of 90 g at 65 %")
    desk.ready()
    desk.type("\x04")
    assert desk.ended() == 0
    again = open_desk()
    again.ready()
    assert "In hand: " in again.text and "18" in again.text
    again.say("undo")
    assert "No dough is in hand" in again.text


def test_control_c_drops_the_line(open_desk: Open) -> None:
    desk = open_desk()
    desk.ready()
    desk.type("never mind")
    desk.wait_for("> never mind")
    desk.type("\x03")
    desk.ready()
    desk.say("help")
    assert "a dough to weigh out" in desk.text


def test_what_was_said_can_be_called_up_after_a_restart(open_desk: Open) -> None:
    desk = open_desk()
    desk.say("set salt to 2.2 %")
    desk.type("\x04")
    desk.ended()
    again = open_desk()
    again.ready()
    again.type("\x1b[A")
    again.wait_for("> set salt to 2.2 %")
    again.type("\x03")
    again.ready()
    again.type("set s")
    again.wait_for("> set salt to 2.2 %")  # the grey rest is what was said before


def test_tab_completes_words_of_the_trade(open_desk: Open) -> None:
    desk = open_desk()
    desk.ready()
    desk.type("2 % poppy s")
    desk.wait_for("> 2 % poppy s")
    desk.type("\t")
    desk.wait_for("poppy seed")


def test_a_pasted_list_is_one_text(open_desk: Open) -> None:
    desk = open_desk()
    desk.ready()
    desk.type("\x1b[200~set salt to 2.2 %\nset piece to 80 g\x1b[201~")
    desk.wait_for("set piece to 80 g")
    assert "Kept" not in desk.text, "nothing is answered before Enter"
    desk.type("\x03")
    desk.ready()


def widest(desk: Desk) -> int:
    return max(len(line) for line in desk.lines)


def test_after_a_resize_nothing_is_wider_than_the_screen(open_desk: Open) -> None:
    desk = open_desk(columns=80)
    desk.say("help")
    desk.resize(30, 40)
    desk.say("help")
    tail = desk.text[desk.text.rindex("> help") :]
    lines = tail.splitlines()
    assert max(len(line) for line in lines) <= 30
    assert any(len(line) > 20 for line in lines)
    assert "\n  " in tail, "long lines go on below, set in"


@pytest.mark.parametrize("word", ["bye", "quit"])
def test_a_plain_word_leaves(open_desk: Open, word: str) -> None:
    desk = open_desk()
    desk.ready()
    desk.type(word + "\r")
    assert desk.ended() == 0


def test_colour_can_be_turned_off(open_desk: Open) -> None:
    desk = open_desk(NO_COLOR="1")
    desk.say("help")
    assert not any(f"\x1b[0;{code}m".encode() in desk.raw for code in (*range(30, 38), *range(90, 98)))


def test_a_dumb_terminal_gets_plain_lines(open_desk: Open) -> None:
    desk = open_desk(TERM="dumb")
    desk.wait_for(">")
    desk.type("set salt to 2.2 %\r")
    desk.wait_for("Kept: salt")
    assert b"\x1b" not in desk.raw
    desk.type("\x04")
    assert desk.ended() == 0


def test_a_terminal_without_utf8_gets_its_own_characters(open_desk: Open) -> None:
    desk = open_desk(LC_ALL="C", PYTHONUTF8="0", PYTHONCOERCECLOCALE="0")
    desk.say("set kitchen to 19 C")
    assert "kitchen 19 C" in desk.text
    desk.raw.decode("ascii")


def test_told_to_end_it_leaves_the_terminal_as_it_was(open_desk: Open) -> None:
    desk = open_desk(leads=False)
    desk.say("18 rolls of 90 g at 65 %")
    assert not desk.echoes
    desk.terminate()
    assert desk.ended() == 128 + signal.SIGTERM
    assert desk.echoes
