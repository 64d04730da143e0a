"""What a few words mean as an answer to the question asked: a finding, a yes or no, one symptom more."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from grammar.complaint import Heard
from grammar.complaint_terms import CueAt, Word
from grammar.lexicon import Lexicon


def short_answer(words: Sequence[Word], answers: Mapping[str, str]) -> str | None:
    """The finding a few words mean as an answer to the question asked ("slowly", "hardly at all", "loose")."""
    if not answers or len(words) > 8:
        return None
    for count in range(min(4, len(words)), 0, -1):
        for first in range(len(words) - count + 1):
            finding = answers.get(" ".join(w.text for w in words[first : first + count]))
            if finding is not None:
                return finding
    return None


def answer_to_another(words: Sequence[Word], answers: Mapping[str, Mapping[str, str]], lexicon: Lexicon) -> str | None:
    """What a few words mean that answer another question than the one asked ("it was still warm"); two words or more,
    and of one meaning."""
    several: dict[str, set[str]] = {}
    for forms in answers.values():
        for form, finding in forms.items():
            if " " in form and not set(form.split(" ")) <= lexicon.small("passed_over"):
                several.setdefault(form, set()).add(finding)
    return short_answer(words, {form: next(iter(meant)) for form, meant in several.items() if len(meant) == 1})


def said_yes(heard: Heard, cues: Sequence[CueAt], lexicon: Lexicon) -> bool | None:
    """A yes or no that begins the line, and not a "no" that belongs to what follows it ("no steam", "none of it")."""
    words = heard.words
    told = {n for m in heard.mentions for n in range(m.first, m.last + 1) if m.last > m.first}
    for first, last, kind, name in cues:
        at_the_front = first <= 1 or (first <= 3 and words[first].after_mark)
        if kind != "ask" or name not in ("yes", "no") or not at_the_front:
            continue
        if told & set(range(first, last + 1)):
            continue
        bare = name == "no" and first == last and words[first].text in ("no", "not", "none", "never")
        after = words[last + 1] if last + 1 < len(words) else None
        told_of = after is not None and not after.after_mark and after.amount < 0
        if bare and told_of and after is not None and after.text not in lexicon.small("after_no"):
            continue
        return name == "yes"
    return None


def adds_a_symptom(heard: Heard, lexicon: Lexicon) -> bool:
    """Whether the line says it adds a symptom: "also pale", "and the crust is thick", "it's pale too"."""
    texts = [w.text for w in heard.words]
    begins = texts[:1] != ["as"] and not lexicon.small("one_more").isdisjoint(texts[:1])
    return begins or texts[-1:] == ["too"] or "also" in texts or "as well" in " ".join(texts)
