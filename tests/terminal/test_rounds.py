"""The desk driven key by key, with any conversation behind it."""

import io
import re
from asyncio import get_running_loop
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from prompt_toolkit.data_structures import Size
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.input.base import PipeInput
from prompt_toolkit.output.color_depth import ColorDepth
from prompt_toolkit.output.vt100 import Vt100_Output

from assistant.terminal.bare import bare_rounds
from assistant.terminal.desk import desk_for
from assistant.terminal.looks import spelled
from assistant.terminal.rounds import rounds
from assistant.voice.page import Line, Page, rendered

PAUSE = "\N{DOUBLE VERTICAL BAR}"  # in what is typed: a moment for the menu to come up
UP, TAB, ENTER, CTRL_C, CTRL_D, END = "\x1b[A", "\t", "\r", "\x03", "\x04", "\x1b[F"


class Answer:
    def __init__(self, text: str) -> None:
        self.page = Page((Line(text),))

    def render(self, width: int | None = None, more: bool = False) -> str:
        return rendered(self.page, width, more)


class Companion:
    """Stands where the chat stands, and remembers what reached it."""

    def __init__(self, before: tuple[str, ...] = ()) -> None:
        self.heard: list[str] = []
        self.before = before
        self.warmed = 0
        self.seen_it = 0
        self.calls: list[bool] = []

    def warm(self) -> None:
        self.warmed += 1

    def reply(self, text: str) -> Any:
        self.heard.append(text)
        if text == "explode":
            raise ValueError("flour dust")
        if text == "slow":
            raise KeyboardInterrupt
        return Answer(f"heard {text}")

    def opening(self) -> Page:
        return Page((Line("Say what you want to bake, or ask:"),))

    quiet = False

    def due(self) -> Page | None:
        return Page((Line("07:50  timer over: pot"),)) if self.calls and self.calls.pop() else None

    def seen(self) -> None:
        self.seen_it += 1

    def glance(self, columns: int) -> str:
        return "24 ring rolls · proof · kitchen 19 °C"

    def said_before(self) -> Iterator[str]:
        yield from reversed(self.before)

    def completions(self, typed: str) -> list[tuple[int, str]]:
        last = typed.split(" ")[-1]
        return [(len(last), word) for word in ("poppy seed", "rye flour") if last and word.startswith(last)]


class Screen(io.StringIO):
    """A terminal that tells where its cursor is, and whose baker types the next part once the prompt has settled."""

    def __init__(self, keys: PipeInput, typed: tuple[str, ...], encoding: str) -> None:
        super().__init__()
        self._keys = keys
        self._typed = list(typed)
        self._encoding = encoding

    @property
    def encoding(self) -> str:  # type: ignore[override]
        return self._encoding

    def isatty(self) -> bool:
        return True

    def write(self, text: str) -> int:
        if "\x1b[6n" in text:
            self._keys.send_text("\x1b[5;1R")
            get_running_loop().call_later(0.03, self._type_on)
        return super().write(text)

    def _type_on(self) -> None:
        if self._typed:
            for place, keys in enumerate(self._typed.pop(0).split(PAUSE)):
                get_running_loop().call_later(0.1 * place, self._keys.send_text, keys)


Played = tuple[Companion, str]
Play = Callable[..., Played]


@pytest.fixture
def play(tmp_path: Path) -> Play:
    """Plays parts of typing, one at each prompt; Control-D is pressed at the last."""

    def played(*typed: str, columns: int = 60, before: tuple[str, ...] = (), encoding: str = "utf-8") -> Played:
        companion: Any = Companion(before)
        with create_pipe_input() as keys:
            screen = Screen(keys, (*typed, CTRL_D), encoding)
            output = Vt100_Output(
                screen,
                lambda: Size(rows=24, columns=columns),
                term="xterm",
                default_color_depth=ColorDepth.from_env(),
            )
            assert rounds(companion, tmp_path, desk_for(companion, keys, output)) == 0
        return companion, screen.getvalue()

    return played


def test_a_line_is_heard_answered_and_control_d_leaves(play: Play) -> None:
    companion, screen = play(f"18 rolls{ENTER}")
    assert companion.heard == ["18 rolls"]
    assert "Say what you want to bake" in screen and "heard 18 rolls" in screen
    assert companion.warmed >= 1


def test_control_c_drops_the_line(play: Play) -> None:
    companion, _ = play(f"never mind{CTRL_C}", f"why?{ENTER}")
    assert companion.heard == ["why?"]


def test_control_c_drops_an_answer_under_way(play: Play) -> None:
    companion, screen = play(f"slow{ENTER}", f"why?{ENTER}")
    assert companion.heard == ["slow", "why?"] and "Dropped." in screen


def test_a_pasted_list_is_one_text(play: Play) -> None:
    companion, _ = play(f"\x1b[200~2 cups flour\n1 tsp salt\r\n# for six\x1b[201~{ENTER}")
    assert companion.heard == ["2 cups flour\n1 tsp salt\n# for six"]


@pytest.mark.parametrize("word", ["bye", "Quit", " exit "])
def test_a_plain_word_leaves_too(play: Play, word: str) -> None:
    companion, _ = play(f"{word}{ENTER}")
    assert companion.heard == []


def test_blank_lines_are_passed_over(play: Play) -> None:
    companion, _ = play(ENTER, f"  {ENTER}", f"why?{ENTER}")
    assert companion.heard == ["why?"]


def test_what_was_said_in_other_runs_can_be_called_up(play: Play) -> None:
    companion, _ = play(f"{UP}{UP}{ENTER}", before=("18 rolls", "make it 24"))
    assert companion.heard == ["18 rolls"]


def test_a_line_just_said_can_be_called_up(play: Play) -> None:
    companion, _ = play(f"why?{ENTER}", f"{UP}{ENTER}")
    assert companion.heard == ["why?", "why?"]


def test_tab_completes_the_last_word(play: Play) -> None:
    companion, _ = play(f"3 % po{TAB}{PAUSE}{ENTER}")
    assert companion.heard == ["3 % poppy seed"]


def test_a_fault_of_ours_is_one_line_and_the_talk_goes_on(play: Play, tmp_path: Path) -> None:
    companion, screen = play(f"explode{ENTER}", f"why?{ENTER}", columns=300)
    assert companion.heard == ["explode", "why?"]
    assert "Traceback" not in screen and "went wrong" in screen
    assert "flour dust" in (tmp_path / "faults.log").read_text()


def test_a_line_beyond_bounds_is_told_why(play: Play) -> None:
    companion, screen = play(f"\x1b[200~{'roll ' * 2001}\x1b[201~{ENTER}", columns=300)
    assert companion.heard == [] and "10,000 characters" in screen


def test_the_quiet_line_is_there_and_cut_to_the_screen(play: Play) -> None:
    assert "24 ring rolls · proof · kitchen 19 °C" in play(f"{PAUSE * 4}{CTRL_D}")[1]
    narrow = play(f"{PAUSE * 4}{CTRL_D}", columns=20)[1]
    assert "24 ring rolls" in narrow and "..." in narrow and "kitchen" not in narrow


def test_colour_is_left_off_where_it_is_not_wanted(play: Play, monkeypatch: pytest.MonkeyPatch) -> None:
    colour = re.compile(r"\x1b\[[0-9;]*\b(?:3[0-7]|9[0-7]|38)\b[0-9;]*m")
    monkeypatch.delenv("NO_COLOR", raising=False)
    assert colour.search(play(f"xxx{ENTER}")[1])
    monkeypatch.setenv("NO_COLOR", "1")
    assert not colour.search(play(f"xxx{ENTER}")[1])


def test_signs_the_terminal_lacks_are_spelled_out(play: Play) -> None:
    screen = play(f"{PAUSE * 4}{CTRL_D}", encoding="ascii")[1]
    assert "24 ring rolls - proof - kitchen 19 C" in screen
    screen.encode("ascii")


@pytest.mark.parametrize(
    ("text", "encoding", "shown"),
    [
        ("20 °C, ½ cup", "utf-8", "20 °C, ½ cup"),
        ("20 °C, ½ cup", "ascii", "20 C, 1/2 cup"),
        ("20 °C – 24 °C", "iso-8859-1", "20 °C - 24 °C"),
        ("brød 粉", "iso-8859-1", "brød ?"),
        ("20 °C", "no such thing", "20 C"),
        ("20 °C", None, "20 °C"),
    ],
)
def test_spelling(text: str, encoding: str | None, shown: str) -> None:
    assert spelled(text, encoding) == shown


def test_a_bare_terminal_takes_one_line_after_another(tmp_path: Path) -> None:
    companion: Any = Companion()
    shown = io.StringIO()
    typed = io.StringIO("18 rolls\n\nexplode\nbye\nnever read\n")
    assert bare_rounds(companion, tmp_path, typed, shown) == 0
    assert companion.heard == ["18 rolls", "explode"]
    text = shown.getvalue()
    assert "\x1b" not in text and "heard 18 rolls" in text and "went wrong" in text
