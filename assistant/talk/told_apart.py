"""A report of several doughs in one line, cut into a report of each: "rolls mixed at 8, the rye at 9:30"."""

from __future__ import annotations

import re

from assistant.talk.bench import Bench
from assistant.talk.doughs import all_names, under_way
from assistant.talk.trying import Trial
from grammar.lexicon import Lexicon, fold
from grammar.requests.report import ReportRequest

_JOINS = re.compile(r"\s*(?:[,;]|\b(?:and|but|while)\b)\s*", re.I)
_BOTH = re.compile(r"\bboth(?: of (?:them|the doughs)| (?:the )?(?:doughs|batches|lots))?\b", re.I)
_WHERE = re.compile(r"\s+(?:in|into|on|onto|out|at)\b", re.I)
_ALSO = re.compile(r"\b(?:too|as well|also|likewise|same)\b", re.I)
_DEED_WORDS = 4


def told_apart(text: str, trial: Trial, bench: Bench) -> tuple[str, ...]:
    """The report of each dough; () where the line is no report of several."""
    there = under_way(bench, trial.now)
    if len(there) < 2 or len(text) > 400 or "\n" in text.strip() or text.rstrip().endswith("?"):
        return ()
    names = all_names(there, trial.kb)
    both = _BOTH.search(text)
    if both is not None and len(there) == 2 and all(names):
        verb = " are" if _BOTH.match(text) and _WHERE.match(text[both.end() :]) else ""  # "both in the boathouse"
        each = tuple(_BOTH.sub(f"the {words[0]}{verb}", text, count=1) for words in names)
        return each if all(_is_report(one, trial, bench) for one in each) else ()
    groups: list[tuple[int, str]] = []
    for part in (one for one in _JOINS.split(text.strip(" .!")) if one):
        named = [at for at, words in enumerate(names) if _names_one(part, words)]
        if len(named) > 1 or (not named and not groups):
            return ()
        if named and (not groups or groups[-1][0] != named[0]):
            groups.append((named[0], part))
        else:
            groups[-1] = (groups[-1][0], f"{groups[-1][1]}, {part}")
    if len(groups) < 2:
        return ()
    parts: list[str] = []
    for at, said in groups:
        benched = bench.taking(there[at].id)
        ways = (said, _with_deed(said, groups[0][1], trial.words(bench)) if parts else "")
        told = next((one for one in ways if one and _is_report(one, trial, benched)), None)
        if told is None and parts and _ALSO.search(said):
            told = said
        if told is None:
            return ()
        parts.append(told)
    return tuple(parts)


def _names_one(part: str, words: tuple[str, ...]) -> bool:
    return any(re.search(rf"\b{re.escape(word)}\b", fold(part)) for word in words)


def _is_report(said: str, trial: Trial, bench: Bench) -> bool:
    best = trial.read(said, bench).best
    return best is not None and isinstance(best.request, ReportRequest)


def _with_deed(said: str, first: str, lexicon: Lexicon) -> str:
    """What is said of another dough, with the deed that was told of the first."""
    words = first.split()
    for count in range(_DEED_WORDS, 0, -1):
        for at in range(len(words) - count + 1):
            stretch = " ".join(words[at : at + count])
            if any(kind == "did" for kind, _ in lexicon.tellings.get(fold(stretch), ())):
                return f"{stretch} the {re.sub(r'^(?:the|my|our) ', '', said, flags=re.I)}"
    return ""
