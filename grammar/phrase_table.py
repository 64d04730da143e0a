"""The phrase grammar as a table of what to do next, and the small machine that follows it.

lark makes the table from `phrases.lark` (`python -m grammar.phrase_table` writes it beside the grammar); following it
takes no lark, so a single request need not wait for a parser generator to be loaded. A table that does not belong to
the grammar beside it is not used: it is made anew.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

GRAMMAR = Path(__file__).with_name("phrases.lark")
KEPT = Path(__file__).with_name("phrases.json")

_END = "$END"


@dataclass(frozen=True, slots=True)
class Leaf:
    """A terminal in the tree: its name in the grammar and the token it stands for."""

    type: str
    value: Any


class _Spread(list[Any]):
    """What a rule of lark's own making found, to be spread into the rule that uses it."""


class NoPhrase(Exception):
    """The tokens fit no rule. Cannot happen with a grammar whose top rule takes anything."""


@cache
def table() -> dict[str, Any]:
    """The table of the grammar as it is now."""
    grammar = GRAMMAR.read_text(encoding="utf-8")
    try:
        kept = json.loads(KEPT.read_text(encoding="utf-8"))
        if kept["grammar"] == _name_of(grammar):
            return dict(kept)
    except (OSError, ValueError, KeyError, TypeError):
        pass
    return made(grammar)


def made(grammar: str, strict: bool = False) -> dict[str, Any]:
    """The table of a grammar, as plain JSON values. strict: any conflict between rules is an error.

    states: terminal or rule -> next state (>= 0) or, for a rule that is complete, -1 - its number; rules: the name it
    is built by, how many parts it has, whether a single part stands for itself, and whether its parts are spread.
    """
    from lark import Lark

    # The tokens come ready made, so no lexer is built; lark's own stays unused.
    parser: Any = Lark(grammar, parser="lalr", lexer=_no_lexer(), strict=strict)
    analysed = parser.parser.parser._parse_table
    rules = sorted(parser.rules, key=lambda rule: (rule.origin.name, [part.name for part in rule.expansion]))
    numbers = {rule: number for number, rule in enumerate(rules)}
    # lark numbers states as its sets happen to fall; numbered from the start by name, a grammar has one table.
    order = [analysed.start_states["start"]]
    for state in order:
        for _, (action, then) in sorted(analysed.states[state].items()):
            if str(action) == "Shift" and then not in order:
                order.append(then)
    places = {state: place for place, state in enumerate(order)}
    return {
        "grammar": _name_of(grammar),
        "start": 0,
        "end": places[analysed.end_states["start"]],
        "states": [
            {
                symbol: places[then] if str(action) == "Shift" else -1 - numbers[then]
                for symbol, (action, then) in sorted(analysed.states[state].items())
            }
            for state in order
        ],
        "rules": [
            [
                str(rule.alias or rule.origin.name),
                str(rule.origin.name),
                len(rule.expansion),
                bool(rule.options.expand1 and not rule.alias),
                str(rule.origin.name).startswith("_"),
            ]
            for rule in rules
        ],
    }


def follow(tokens: Iterable[tuple[str, Any]], build: Any) -> Any:
    """What `build` makes of the tokens (terminal, value): one method for each rule, given the list of its parts."""
    plan = table()
    states, rules = plan["states"], plan["rules"]
    path: list[int] = [plan["start"]]
    parts: list[Any] = []
    for name, value in (*tokens, (_END, None)):
        while True:
            then = states[path[-1]].get(name)
            if then is None:
                raise NoPhrase(f"{name} fits nowhere after {len(parts)} parts")
            if then >= 0:
                path.append(then)
                parts.append(Leaf(name, value))
                break
            rule_name, origin, length, single, spread = rules[-1 - then]
            found: list[Any] = []
            if length:
                for part in parts[-length:]:
                    found.extend(part) if isinstance(part, _Spread) else found.append(part)
                del parts[-length:], path[-length:]
            if spread:
                parts.append(_Spread(found))
            else:
                parts.append(found[0] if single and len(found) == 1 else getattr(build, rule_name)(found))
            path.append(states[path[-1]][origin])
            if name == _END and path[-1] == plan["end"]:
                return parts[-1]
    raise NoPhrase("the tokens end too early")


def _name_of(grammar: str) -> str:
    return hashlib.blake2b(grammar.encode(), digest_size=16).hexdigest()


def _no_lexer() -> Any:
    from lark.lexer import Lexer

    class NoLexer(Lexer):
        def __init__(self, lexer_conf: Any) -> None:
            del lexer_conf

        def lex(self, lexer_state: Any, parser_state: Any) -> Any:
            raise NotImplementedError

    return NoLexer


if __name__ == "__main__":
    text = json.dumps(made(GRAMMAR.read_text(encoding="utf-8"), strict=True), separators=(",", ":"), sort_keys=True)
    KEPT.write_text(text + "\n", encoding="utf-8")
