"""What the command line asks for: the few options, and everything else is the request.

A request may begin with a dash ("-5 rolls of 80 g"), which the usual parsers of options take for an option.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

HELP = """\
benchside                    opens the conversation
benchside "REQUEST"          answers one request
… | benchside                answers one request a line; a pasted recipe stands between a line <<< and a line >>>

  --file PATH    take the lines from a file (-: from standard input)
  --json         one JSON object for each request
  --now TIME     the clock, as 2026-03-14T07:30
  --home DIR     where the notebook lives (also: BENCHSIDE_HOME)
  --fresh        start with no bake in hand; settings still hold
  --version      the versions of the program, the contract, the notebook and the knowledge
  --help         this page

A request may begin with a dash: benchside -- "-5 rolls of 80 g"
"help" as a request shows what can be asked: benchside help
"""

_SWITCHES = {"--json", "--fresh", "--version", "--help", "-h"}
_VALUED = {"--file", "--now", "--home"}
_YEARS = range(1900, 3000)
"""What a clock may show: some days before and after must still be days of the calendar."""


class Misread(Exception):
    """The options make no sense; the message is one line for the baker."""


@dataclass(frozen=True, slots=True)
class Call:
    """One call of the command. `request` is None where lines come from a file, a pipe or the terminal."""

    request: str | None = None
    file: Path | None = None
    json: bool = False
    now: datetime | None = None
    home: Path | None = None
    fresh: bool = False
    version: bool = False
    help: bool = False


def read_call(arguments: Sequence[str]) -> Call:
    """The call that these arguments (the command's name left out) ask for. Raises: Misread."""
    switches: set[str] = set()
    values: dict[str, str] = {}
    words: list[str] = []
    rest = iter(arguments)
    for word in rest:
        name, equals, value = word.partition("=")
        if word == "--":
            words.extend(rest)
        elif word in _SWITCHES:
            switches.add(word)
        elif name in _VALUED:
            values[name] = value if equals else _value_after(name, rest)
        elif _is_said(word):
            words.append(word)
        else:
            raise Misread(f'There is no option {word} (benchside --help lists them). A request: benchside -- "{word}"')
    if words and "--file" in values:
        raise Misread("Give either a request or --file, not both.")
    return Call(
        request=" ".join(words) if words else None,
        file=Path(values["--file"]) if "--file" in values else None,
        json="--json" in switches,
        now=_moment(values["--now"]) if "--now" in values else None,
        home=Path(values["--home"]) if values.get("--home") else None,
        fresh="--fresh" in switches,
        version="--version" in switches,
        help=bool(switches & {"--help", "-h"}),
    )


def _is_said(word: str) -> bool:
    """Whether an argument is (part of) a request: "-5", "- 5 rolls" and "-half the salt" are, "--jsn" is not."""
    return not word.startswith("-") or word == "-" or any(character.isspace() for character in word) or _counts(word)


def _counts(word: str) -> bool:
    return word.lstrip("-.")[:1].isdigit()


def _value_after(name: str, rest: Iterator[str]) -> str:
    value = next(rest, None)
    if value is None:
        raise Misread(f"{name} needs a value after it.")
    return value


def _moment(text: str) -> datetime:
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        raise Misread(f"--now {text}: a time is written like 2026-03-14T07:30.") from None
    if moment.year not in _YEARS:
        raise Misread(f"--now {text}: the years known are {_YEARS[0]} to {_YEARS[-1]}.")
    return moment if moment.tzinfo is None else moment.astimezone().replace(tzinfo=None)
