"""How each part of a line is meant, by the words that stand beside it."""

from __future__ import annotations

import pytest

from assistant.talk.lexicon import lexicon
from grammar.aspects import marked
from grammar.phrases import phrases
from grammar.scanner import scan
from knowledge import load

KNOWN = lexicon(load())


def meant(line: str, words: str) -> tuple[str, ...]:
    for phrase in marked(phrases(scan(line, KNOWN)), line, KNOWN):
        if words in phrase.text:
            return phrase.meant
    raise AssertionError(f"{words!r} is no part of {line!r}")


@pytest.mark.parametrize(
    ("line", "words", "aspect"),
    [
        ("the dough has 870 g flour, wanted 64 %", "870 g", "so"),
        ("the dough has 870 g flour, wanted 64 %", "64 %", "wished"),
        ("put in 28 g of salt, should have been 18", "28 g", "done"),
        ("put in 28 g of salt, should have been 18", "18", "meant"),
        ("ran out of honey but there's a jar of molasses", "honey", "lacking"),
        ("ran out of honey but there's a jar of molasses", "molasses", "at_hand"),
        ("the molasses is gone", "molasses", "lacking"),
        ("the recipe says 60 g butter, i only have oil", "butter", "meant"),
        ("the recipe says 60 g butter, i only have oil", "oil", "at_hand"),
        ("one rower is allergic to sesame", "sesame", "must_not"),
        ("one rower has a sesame allergy", "sesame", "must_not"),
        ("how long till it has grown by 70 %", "70 %", "aimed"),
        ("it has grown by 70 %", "70 %", "so"),
        ("as a rule the boathouse is 9", "9", "so"),
        ("i want 18 rings of 95 g", "18", "wished"),
    ],
)
def test_a_part_of_a_line_is_meant_as_its_words_say(line: str, words: str, aspect: str) -> None:
    assert aspect in meant(line, words)


def test_an_aspect_ends_with_its_clause() -> None:
    assert meant("out of rye, 20 rolls of 70 g", "20") == ()


def test_a_decimal_point_ends_no_clause() -> None:
    assert "wished" in meant("i want 1.4 kg of dough at 62 %", "62 %")
