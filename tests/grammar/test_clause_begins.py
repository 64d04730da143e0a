"""How a clause begins, in words nobody wrote down for it: every word of a class does the same."""

from __future__ import annotations

import pytest

from assistant.talk.lexicon import lexicon
from grammar.clause_begins import INVERTED, asked_in_general, asks_or_bids, begins, led_in, turned, words_of
from grammar.telling_clause import ASKED, HEARSAY, SO, telling_clauses
from knowledge import load

KNOWN = lexicon(load())


@pytest.mark.parametrize("verb", sorted(KNOWN.small("may")))
@pytest.mark.parametrize("who", sorted(KNOWN.small("doer", "it")))
def test_a_verb_before_its_subject_asks(verb: str, who: str) -> None:
    assert asks_or_bids(f"ok so {verb} {who} rest a bit", KNOWN)
    assert turned(f"the shed {verb} {who} hold it", KNOWN)


@pytest.mark.parametrize("who", sorted(KNOWN.small("doer", "anyone")))
def test_a_subject_before_its_verb_tells(who: str) -> None:
    assert not asks_or_bids(f"{who} can rest a bit", KNOWN)
    assert [one.mood for one in telling_clauses(f"{who} seem happy", KNOWN)] == [SO]


@pytest.mark.parametrize("says", sorted(KNOWN.small("says")))
def test_what_another_says_is_hearsay_and_what_one_says_oneself_is_not(says: str) -> None:
    assert [one.mood for one in telling_clauses(f"the cox {says} half of it", KNOWN)] == [HEARSAY]
    assert HEARSAY not in [one.mood for one in telling_clauses(f"i {says} half of it", KNOWN)]


@pytest.mark.parametrize("lead", sorted(KNOWN.small("lead")))
def test_words_that_lead_in_change_nothing(lead: str) -> None:
    words = words_of(f"{lead}, is rye dough sticky")
    assert begins(led_in(words, KNOWN), KNOWN, *INVERTED)
    assert asked_in_general(words, KNOWN) == 2
    assert [one.mood for one in telling_clauses(f"{lead} is it late", KNOWN)] == [ASKED]


def test_a_question_of_a_thing_that_is_here_is_not_general() -> None:
    assert asked_in_general(words_of("is my dough sticky"), KNOWN) is None


def test_small_words_are_asked_for_by_classes_there_are() -> None:
    with pytest.raises(KeyError):
        KNOWN.small("no such class")
