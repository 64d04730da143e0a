"""Options and requests told apart, also where a request begins with a dash."""

from datetime import datetime
from pathlib import Path

import pytest

from assistant.command.folders import NoHome, cache_folder, home_folder
from assistant.command.options import Call, Misread, read_call

REQUESTS = {
    ("18 rolls of 90 g",): "18 rolls of 90 g",
    ("18", "rolls", "of", "90", "g"): "18 rolls of 90 g",
    ("-5 rolls of 80 g",): "-5 rolls of 80 g",
    ("-5",): "-5",
    ("-.5 tsp salt",): "-.5 tsp salt",
    ("- two rolls less",): "- two rolls less",
    ("--", "-5 rolls"): "-5 rolls",
    ("--", "--json"): "--json",
    ("--", "-salt", "--fresh"): "-salt --fresh",
    ("--json", "why?"): "why?",
    ("why?", "--json"): "why?",
    ("",): "",
}


@pytest.mark.parametrize("arguments", REQUESTS)
def test_the_request_is_what_is_no_option(arguments: tuple[str, ...]) -> None:
    assert read_call(arguments).request == REQUESTS[arguments]


def test_options_are_read_in_both_spellings() -> None:
    wanted = Call(
        request="how long left?",
        json=True,
        now=datetime(2026, 3, 15, 6, 30),
        home=Path("boathouse"),
        fresh=True,
    )
    spaced = ["--json", "--now", "2026-03-15T06:30", "--home", "boathouse", "--fresh", "how long left?"]
    joined = ["how long left?", "--fresh", "--home=boathouse", "--now=2026-03-15T06:30", "--json"]
    assert read_call(spaced) == read_call(joined) == wanted
    assert read_call(["--file", "lines.txt"]) == Call(file=Path("lines.txt"))
    assert read_call([]) == Call()


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["--jsn", "why?"], "--jsn"),
        (["-salt"], 'benchside -- "-salt"'),
        (["--now"], "--now needs a value"),
        (["--now", "half six"], "2026-03-14T07:30"),
        (["--now", "0001-01-01T00:00+14:00"], "1900 to 2999"),
        (["--now", "9999-12-31T23:59-12:00"], "1900 to 2999"),
        (["--file", "lines.txt", "why?"], "not both"),
    ],
)
def test_what_makes_no_sense_is_said_in_one_line(arguments: list[str], says: str) -> None:
    with pytest.raises(Misread) as misread:
        read_call(arguments)
    assert says in str(misread.value) and "\n" not in str(misread.value)


def test_a_home_that_cannot_be_worked_out_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    def unknown() -> Path:
        raise RuntimeError("Could not determine home directory.")

    with pytest.raises(NoHome, match="~nosuchbaker"):
        home_folder(Path("~nosuchbaker/bench"))
    with pytest.raises(NoHome, match="--home"):
        home_folder(None, {"BENCHSIDE_HOME": "~nosuchbaker"})
    monkeypatch.setattr(Path, "home", unknown)
    with pytest.raises(NoHome, match="--home"):
        home_folder(None, {})
    assert cache_folder({}) is None


def test_the_home_is_as_asked_then_as_set_then_the_platforms() -> None:
    asked = Path("boathouse")
    assert home_folder(asked, {"BENCHSIDE_HOME": "shed"}) == asked
    assert home_folder(None, {"BENCHSIDE_HOME": "shed", "XDG_DATA_HOME": "/data"}) == Path("shed")
    assert home_folder(None, {}).name == "benchside" and home_folder(None, {}).is_absolute()
    assert cache_folder({}) != home_folder(None, {})
