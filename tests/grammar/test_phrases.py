"""The phrases: what belongs together stays together."""

from grammar.lexicon import Lexicon
from grammar.phrases import phrases
from grammar.scanner import scan


def test_a_batch_is_a_count_and_a_mass(words: Lexicon) -> None:
    count, each = phrases(scan("24 x 80g", words))
    assert (count.role, each.role) == ("count", "each")


def test_a_range_keeps_both_ends(words: Lexicon) -> None:
    (span,) = phrases(scan("2-3 tbsp", words))
    assert span.quantity is not None and span.high is not None
    assert (span.quantity.value, span.high.value) == (2, 3)
    assert span.quantity.unit == "tbsp"


def test_sizes(words: Lexicon) -> None:
    (tin,) = phrases(scan("23 x 13 x 7 cm", words))
    assert tin.sizes == (23, 13, 7)


def test_instead(words: Lexicon) -> None:
    (new,) = phrases(scan("30 instead of 24", words))
    assert new.quantity is not None and new.old is not None
    assert (new.quantity.value, new.old.value) == (30, 24)


def test_no_salt_is_a_negated_word(words: Lexicon) -> None:
    found = [p for p in phrases(scan("no malt", words)) if p.negated]
    assert len(found) == 1
