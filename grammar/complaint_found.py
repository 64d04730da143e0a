"""Turns of speech and steering words found in the words of a complaint."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from grammar.complaint_index import Index, index_of
from grammar.complaint_terms import CueAt, Mention, Word
from grammar.lexicon import Lexicon, Term

LONGEST = 9


def found(words: Sequence[Word], lexicon: Lexicon, names: Sequence[frozenset[int]]) -> Iterator[Mention]:
    """Turns of speech that do not overlap: the ones of most words first, a symptom before a report, then by place."""
    index = index_of(lexicon)
    wanted: list[tuple[tuple[int, int, int, int], tuple[Term, ...], int, int]] = []
    for i in range(len(words)):
        for terms, last, size, exact in _all_at(words, i, index, lexicon):
            covered = range(i, last + 1)
            if any(set(covered) < name for name in names):
                terms = tuple(t for t in terms if t[0] != "symptom")
            if not terms or _cuts_an_amount(words, i, last):
                continue
            kind = 0 if any(t[0] == "symptom" for t in terms) else 1 if terms[0][0] == "finding" else 2
            wanted.append(((-size, 0 if exact else 1, kind, i), terms, i, last))
    taken: set[int] = set()
    chosen: list[tuple[int, int, tuple[Term, ...]]] = []
    for _, terms, first, last in sorted(wanted, key=lambda w: w[0]):
        if not taken & set(range(first, last + 1)):
            taken |= set(range(first, last + 1))
            chosen.append((first, last, terms))
    for first, last, terms in sorted(chosen):
        yield Mention(terms, first, last, _denied(words, first, lexicon))


def _cuts_an_amount(words: Sequence[Word], first: int, last: int) -> bool:
    """Whether only a part of an amount lies inside: "5 days in the fridge" is five days, not "days in the fridge"."""
    inside = {words[n].amount for n in range(first, last + 1)} - {-1}
    return any(w.amount in inside and not first <= n <= last for n, w in enumerate(words))


def _all_at(
    words: Sequence[Word], i: int, index: Index, lexicon: Lexicon
) -> Iterator[tuple[tuple[Term, ...], int, int, bool]]:
    """(meanings, last word, words that carry meaning, whether word for word) of every phrase that begins here."""
    small = lexicon.small("passed_over")
    run = [i]
    for j in range(i + 1, min(len(words), i + 2 * LONGEST)):
        if words[j].after_mark:
            break
        run.append(j)
    for count in range(min(len(run), LONGEST), 0, -1):
        said = " ".join(words[n].text for n in run[:count])
        terms = index.exact.get(said) or index.exact.get(" ".join(words[n].key for n in run[:count]))
        if terms:
            size = sum(words[n].text not in small for n in run[:count])
            yield terms, run[count - 1], max(size, 1), said in index.exact
    if words[i].text in small:
        return
    content = [n for n in run if words[n].text not in small]
    inside = len(content) > 2 and words[content[1]].text in lexicon.small("noun_inside")
    if inside and words[i].text in lexicon.small("asks_not"):
        del content[1]  # "why isn't my dough rising"
    for count in range(min(len(content), LONGEST), 1, -1):
        said = " ".join(words[n].text for n in content[:count])
        alike = " ".join(words[n].key for n in content[:count])
        terms = next((t for one in (said, alike) if (t := index.loose.get(one) or index.exact.get(one))), None)
        last = content[count - 1]
        if terms and last - i < 2 * count + 2:
            yield terms, last, count, False
    for n in content[1:4]:  # "vertical razor" for "razor vertical", with at most two words between
        pair = index.pairs.get(frozenset((words[i].text, words[n].text)))
        if pair and not any(words[k].text in lexicon.small("denies", "parts_pair") for k in range(i, n)):
            yield pair, n, 1, False


def _denied(words: Sequence[Word], first: int, lexicon: Lexicon) -> bool:
    """Whether a "not", "no" or "isn't" stands before it, with at most small words between."""
    for n in range(first - 1, max(-1, first - 4), -1):
        if words[n].text in lexicon.small("hardly"):
            return True
        if words[n].text in lexicon.small("denies"):
            return not (words[n].text in ("no", "never") and words[n + 1].text in lexicon.small("answered_with"))
        if words[n].text not in lexicon.small("denied_across") or words[n + 1].after_mark:
            return False
    return False


def _begun_within(cues: Sequence[CueAt], place: int) -> Iterator[CueAt]:
    """Those that begin at a place or behind it, from the end: what begins before reaches no further."""
    for cue in reversed(cues):
        if cue[0] < place:
            return
        yield cue


def cues_of(words: Sequence[Word], lexicon: Lexicon) -> tuple[CueAt, ...]:
    """(first, last, kind, name) of every steering word; of one kind the longest wins."""
    out: list[CueAt] = []
    for i in range(len(words)):
        seen: set[tuple[str, str]] = set()
        for count in range(min(5, len(words) - i), 0, -1):
            if any(words[n].after_mark for n in range(i + 1, i + count)):
                continue
            for kind, name in lexicon.cues.get(" ".join(w.text for w in words[i : i + count]), ()):
                near = _begun_within(out, i - 4)
                inside = any(k == kind and i + count - 1 <= b and b - a > count - 1 for a, b, k, _ in near)
                if (kind, name) not in seen and not inside:
                    seen.add((kind, name))
                    out.append((i, i + count - 1, kind, name))
    return tuple(out)
