"""The reader with the shipped words."""

import pytest

from assistant.talk.lexicon import lexicon
from grammar.lexicon import Lexicon
from knowledge import load


@pytest.fixture(scope="session")
def words() -> Lexicon:
    return lexicon(load())
