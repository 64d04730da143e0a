"""The vocabulary: every said form is found under what it means, and nothing a baker types plainly is missing."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

import grammar.lexicon
from knowledge import families, load
from knowledge.english import LIST, letter_of
from knowledge.vocabulary import ASIDE, NO_VOCABULARY, asides, carrying_words, fold, plural, slips, vocabulary

KB = load()
WORDS = vocabulary(KB)
ASIDES = asides(KB)
CARRYING = carrying_words(KB)


def test_every_said_form_of_every_record_is_there() -> None:
    for family in families():
        for record in KB.all(family.record).values():
            for term in record.terms():
                if term[0] not in NO_VOCABULARY:
                    table = ASIDES if term[0] in ASIDE else WORDS
                    for form in record.forms(KB):
                        assert fold(form) == "" or term in table[fold(form)], (family.folder, record.id, form)


def test_every_form_of_an_ingredient_is_told_apart_by_place() -> None:
    """Where several ingredients share a form, it is on purpose: the list is short and known."""
    shared = {
        phrase: [id for kind, id in terms if kind == "ingredient"]
        for phrase, terms in WORDS.items()
        if len([kind for kind, _ in terms if kind == "ingredient"]) > 1
    }
    by_name = {phrase for phrase in shared if not any(kind == "flour_type" for kind, _ in WORDS[phrase])}
    assert by_name <= {
        "flour",
        "flours",
        "white",
        "yeast",
        "yeasts",
        "kosher salt",
        "kosher salts",
        "barley malt",
        "barley malts",
        "malt",
        "malts",
        "malt powder",
        "malt powders",
        "maize meal",
        "maize meals",
        "wheat flour",
        "wheat flours",
    }, by_name
    assert shared["flour"][0] == "flour_bread"
    assert shared["yeast"] == ["yeast_instant", "yeast_fresh"]
    assert shared["kosher salt"] == ["salt_kosher_dense", "salt_kosher_light"]


@pytest.mark.parametrize(
    ("phrase", "id"),
    [
        ("plain", "flour_all_purpose"),
        ("ap", "flour_all_purpose"),
        ("AP flour", "flour_all_purpose"),
        ("strong white", "flour_bread"),
        ("Wholemeal", "flour_whole_wheat"),
        ("ww", "flour_whole_wheat"),
        ("whole-wheat flour", "flour_whole_wheat"),
        ("bicarb", "baking_soda"),
        ("butter", "butter_unsalted"),
        ("egg", "egg_whole"),
        ("eggs", "egg_whole"),
        ("milk", "milk_whole"),
        ("sugar", "sugar_granulated"),
        ("oil", "vegetable_oil"),
        ("salt", "salt_table"),
        ("yeast", "yeast_instant"),
        ("seeds", "seeds_mixed"),
        ("nuts", "walnuts"),
        ("cheese", "cheddar"),
        ("starter", "starter_100"),
        ("levain", "starter_100"),
        ("baker's yeast", "yeast_fresh"),
        ("Gruyère", "gruyere"),
        ("jalapeños", "jalapeno"),
        ("rye", "flour_rye_medium"),
        ("cornflour", "cornstarch"),
        ("corn flour", "flour_corn"),
        ("t65", "flour_bread"),
        ("type 550", "flour_all_purpose"),
        ("w280", "flour_bread_13"),
        ("tipo 00", "flour_00"),
        ("rye 1150", "flour_rye_medium"),
        ("malt syrup", "malt_syrup"),
    ],
)
def test_what_a_baker_types(phrase: str, id: str) -> None:
    found = [known for kind, known in WORDS[fold(phrase)] if kind == "ingredient"]
    assert found[0] == id


@pytest.mark.parametrize(
    ("phrase", "terms"),
    [
        ("rolls", {("piece", "roll")}),
        ("loaves", {("piece", "loaf")}),
        ("rings", {("piece", "ring")}),
        ("buns", {("piece", "bun"), ("bread", "soft_roll")}),
        ("bagels", {("bread", "ring_roll")}),
        ("flatbreads", {("piece", "flatbread"), ("bread", "pita")}),
        ("without", {("negation", "no")}),
        ("instead of", {("link", "instead_of")}),
        ("hydration", {("cue", "hydration")}),
    ],
)
def test_words_and_breads(phrase: str, terms: set[tuple[str, str]]) -> None:
    assert terms <= set(WORDS[phrase])


def test_a_plain_word_for_a_piece_names_no_bread() -> None:
    for word in KB.words.values():
        if word.kind == "piece" and word.bread and not word.names_bread:
            for form in word.said_as:
                assert ("bread", word.bread) not in WORDS[fold(form)], form


def test_phrases_are_in_the_form_they_are_looked_up_by() -> None:
    assert all(phrase == fold(phrase) != "" for phrase in WORDS)
    assert all(terms and len(set(terms)) == len(terms) for terms in WORDS.values())


@pytest.mark.parametrize(
    ("one", "many"),
    [
        ("tin loaf", "tin loaves"),
        ("roll", "rolls"),
        ("potato", "potatoes"),
        ("berry", "berries"),
        ("tray", "trays"),
        ("batch", "batches"),
        ("box", "boxes"),
        ("oats", None),
        ("00", None),
        ("bliss", "blisses"),
    ],
)
def test_plurals(one: str, many: str | None) -> None:
    assert plural(one) == many


@given(st.text(max_size=40))
def test_folding_twice_changes_nothing(text: str) -> None:
    assert fold(fold(text)) == fold(text)


@given(st.text(max_size=40))
def test_reader_and_vocabulary_fold_alike(text: str) -> None:
    """Neither imports the other, so each has its own: a phrase is found only if they agree."""
    assert fold(text) == grammar.lexicon.fold(text)


def test_the_list_of_english_is_whole_and_sorted() -> None:
    rows = [line.split(" ") for line in LIST.read_text(encoding="ascii").splitlines()]
    words = [word for word, _ in rows]
    assert len(words) > 50_000
    assert words == sorted(set(words))
    assert all(word.isalpha() and word == fold(word) and letter in "fknjwrpo" for word, letter in rows)
    assert all(letter_of(word) == letter for word, letter in [*rows[:40], *rows[::997], *rows[-40:]])
    assert [letter_of(word) for word in ("", "zz", "glorp", "aa b", "000", "ö")] == [""] * 6


@pytest.mark.parametrize(
    ("word", "letter"),
    [
        ("quark", "f"), ("cumin", "f"), ("handful", "f"), ("toast", "k"), ("torch", "n"), ("fluffy", "j"),
        ("wonder", "w"), ("honestly", "r"), ("plumber", "p"), ("dublin", "p"),
    ],
)  # fmt: skip
def test_each_english_word_tells_what_sort_it_is(word: str, letter: str) -> None:
    assert letter_of(word) == letter


def test_known_slips_lead_to_words_and_are_none_themselves() -> None:
    units_and_shares = {"grams", "percent"}
    said = {part for phrase in WORDS for part in phrase.split()} | units_and_shares
    for slip, meant in slips(KB).items():
        assert slip not in WORDS and slip not in CARRYING, slip
        assert meant in said or letter_of(meant), meant
