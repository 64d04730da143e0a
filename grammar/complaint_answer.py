"""What a few words mean as an answer to the question asked: a finding, a yes or no, one symptom more."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from grammar.complaint import Heard
from grammar.complaint_terms import FILL, CueAt, Word, word_set

_SYMPTOM_AGAIN = frozenset({"also", "too", "and", "plus", "additionally", "as"})


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


_AFTER_A_NO = word_set(
    "a actually all and as at because but cause cos dear didnt doesnt he honestly i id idea im ive in it its just most "
    "my not nothing of on only our she sorry that thats the there they theyre this those to was we were why you your"
)
"""Words behind a bare "no" that leave it an answer: "no it was cold" answers, "no steam" says what was missing."""


def answer_to_another(words: Sequence[Word], answers: Mapping[str, Mapping[str, str]]) -> str | None:
    """What a few words mean that answer another question than the one asked ("it was still warm"); two words or more,
    and of one meaning."""
    several: dict[str, set[str]] = {}
    for forms in answers.values():
        for form, finding in forms.items():
            if " " in form and not set(form.split(" ")) <= FILL:
                several.setdefault(form, set()).add(finding)
    return short_answer(words, {form: next(iter(meant)) for form, meant in several.items() if len(meant) == 1})


def said_yes(heard: Heard, cues: Sequence[CueAt]) -> bool | None:
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
        told_of = after is not None and not after.after_mark and after.amount < 0 and after.text not in _AFTER_A_NO
        if bare and told_of:
            continue
        return name == "yes"
    return None


def adds_a_symptom(heard: Heard) -> bool:
    """Whether the line says it adds a symptom: "also pale", "and the crust is thick", "it's pale too"."""
    texts = [w.text for w in heard.words]
    return bool(texts) and (
        texts[0] in _SYMPTOM_AGAIN - {"as"} or texts[-1] == "too" or "also" in texts or "as well" in " ".join(texts)
    )
