"""The words the reader knows, handed in as plain values by whoever knows the trade."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property, lru_cache

Term = tuple[str, str]
"""(kind, id): ("ingredient", "honey"), ("bread", "ring_roll"), ("cue", "hydration"), ("ask", "how_long") ..."""


@lru_cache(maxsize=4096)
def patterns_of(terms: tuple[Term, ...]) -> frozenset[str]:
    """Every pattern that fits one of the terms, so that any number of patterns is one look into a set."""
    ends = (f"{kind}:{name[:n]}*" for kind, name in terms for n in range(len(name) + 1))
    return frozenset((*ends, *(f"{kind}:{name}" for kind, name in terms)))


@dataclass(frozen=True, slots=True)
class Unit:
    """One reading of a unit's name.

    id: "g", "cup", "hour"; dimension: "mass", "volume", "length", "time", "temperature" or "each";
    factor: to g, ml, cm, min (volume: US cups and spoons; the cup in force is applied later; temperature: 1).
    """

    id: str
    dimension: str
    factor: float


@dataclass(frozen=True, slots=True)
class Look:
    """A property as it is heard: part to symptom, the same where it is denied, the symptom with no part said, the same
    denied, and the context it needs."""

    of: Mapping[str, str]
    denied: Mapping[str, str]
    alone: str
    unsaid: str
    when: str


@dataclass(frozen=True, slots=True)
class Peril:
    """A danger as it is heard. when: rules, each the danger words that must all be said (a pair: one said of the
    other) and the most words from the first to the last; unless: danger words that make it something else; rank: the
    lowest of several stands."""

    id: str
    when: tuple[tuple[tuple[str | tuple[str, str], ...], int], ...]
    unless: tuple[str, ...]
    rank: int


@lru_cache(maxsize=2048)
def fold(text: str) -> str:
    """The form words are looked up by: lower case, no accents, apostrophes gone, hyphens and runs of space to one
    space."""
    plain = unicodedata.normalize("NFKD", text)
    plain = "".join(c for c in plain if not unicodedata.combining(c)).lower()
    plain = plain.replace("'", "").replace("’", "").replace("-", " ").replace("_", " ")
    return " ".join(plain.split())


def _no_letter(word: str) -> str:
    """No list of English at hand."""
    return ""


@dataclass(frozen=True, slots=True)
class Derived:
    """What follows from the phrases, and takes a moment to work out: see `Lexicon.longest` and `Lexicon.words`."""

    longest: Mapping[str, int]
    words: frozenset[str]


def derived_of(phrases: Iterable[str]) -> Derived:
    """What follows from these phrases."""
    longest: dict[str, int] = {}
    words: set[str] = set()
    for phrase in phrases:
        split = phrase.split(" ")
        if longest.get(split[0], 0) < len(split):
            longest[split[0]] = len(split)
        words.update(split)
    return Derived(longest, frozenset(word for word in words if word.isalpha()))


@dataclass(frozen=True, eq=False)
class Lexicon:
    """Vocabulary, units and ordinary words. It equals itself alone, so that what was read with it can be remembered.

    phrases: folded phrase -> its terms; units: folded name -> unit readings (case-sensitive names such as "T" are
    given as typed); common: further words that are never taken for slips; letter: folded word -> one letter for what
    sort of English word it is ("f" food or measure, "k" a verb of working, "n" another thing, "j" adjective, "w"
    another verb, "r" adverb, "p" person, place or time, "o" any other), "" for none; weighty: words no topic may know
    that still can change what is meant, never passed over; groups: ingredient id -> group;
    slips: folded word -> the folded word it is known to stand for ("flower" -> "flour"); complaints: folded phrase ->
    what it means where something went wrong, opened only there; cues: likewise the words that steer a complaint;
    trade_of: symptom id -> "bread", "dough" or "starter";
    denied: finding id -> the finding that holds where it is denied; shows: finding id -> the symptom it is
    by itself; about: finding id -> what it reports on, one report standing for each; answers: for each question
    asked, few words to the finding they mean there; perilous: folded phrase -> the danger words it is;
    perilous_made: (danger word, first and second it is made of, only small words between); perilous_numbers: (danger
    word, least, most); perils: the
    dangers those make; takebacks: folded phrase -> what it does where a value of the same sort follows one before it
    ("plain", "soft", "aside", "behind", "both", "judged" and what stands round it: see the words); asides: folded
    phrase -> what it means in talk of the kitchen, of the doughs on the bench or of the notebook, and nowhere else;
    speech: what small words do in a clause -> those words; tellings: folded phrase -> what it means in a report of a
    bake under way; subjects: folded name -> what can be
    asked about by it; beside: folded name -> the topics it is where one of certain words is said too;
    shapes: folded words -> the shapes of question they are of, each with whether the thing asked about follows; sense:
    folded word or turn -> its sense in a question; topics_by_sense: sense -> the topics it may mean, each with how
    surely; topics_by_pair: two senses -> the topics with both in one name; telling: sense -> how much it tells; parts:
    folded words -> (part, its whole) a fault can show on; looks: folded words -> the properties they name; look_of:
    each property; small_talk: folded phrase -> what sort of talk it is; small_talk_holds: the sorts
    that may name a bread or hold figures; derived: what follows from the phrases,
    where it is known already.
    """

    phrases: Mapping[str, tuple[Term, ...]]
    units: Mapping[str, tuple[Unit, ...]]
    common: frozenset[str] = frozenset()
    letter: Callable[[str], str] = _no_letter
    weighty: frozenset[str] = frozenset()
    groups: Mapping[str, str] = field(default_factory=dict)
    slips: Mapping[str, str] = field(default_factory=dict)
    complaints: Mapping[str, tuple[Term, ...]] = field(default_factory=dict)
    cues: Mapping[str, tuple[Term, ...]] = field(default_factory=dict)
    trade_of: Mapping[str, str] = field(default_factory=dict)
    denied: Mapping[str, str] = field(default_factory=dict)
    shows: Mapping[str, str] = field(default_factory=dict)
    about: Mapping[str, str] = field(default_factory=dict)
    answers: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    takebacks: Mapping[str, frozenset[str]] = field(default_factory=dict)
    aspects: Mapping[str, tuple[tuple[str, str], ...]] = field(default_factory=dict)
    speech: Mapping[str, frozenset[str]] = field(default_factory=dict)
    perilous: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    perilous_made: tuple[tuple[str, str, str, bool], ...] = ()
    perilous_numbers: tuple[tuple[str, float, float], ...] = ()
    perils: tuple[Peril, ...] = ()
    asides: Mapping[str, tuple[Term, ...]] = field(default_factory=dict)
    tellings: Mapping[str, tuple[Term, ...]] = field(default_factory=dict)
    small_talk: Mapping[str, str] = field(default_factory=dict)
    small_talk_holds: Mapping[str, str] = field(default_factory=dict)
    subjects: Mapping[str, tuple[Term, ...]] = field(default_factory=dict)
    beside: Mapping[str, tuple[tuple[str, frozenset[str]], ...]] = field(default_factory=dict)
    shapes: Mapping[str, tuple[tuple[str, bool], ...]] = field(default_factory=dict)
    sense: Callable[[str], str] = _no_letter
    topics_by_sense: Mapping[str, Mapping[str, float]] = field(default_factory=dict)
    topics_by_pair: Mapping[str, Sequence[str]] = field(default_factory=dict)
    telling: Mapping[str, float] = field(default_factory=dict)
    parts: Mapping[str, tuple[tuple[str, str], ...]] = field(default_factory=dict)
    looks: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    look_of: Mapping[str, Look] = field(default_factory=dict)
    derived: Derived | None = None

    @cached_property
    def longest(self) -> Mapping[str, int]:
        """First word of a phrase -> the most words any phrase beginning with it has."""
        return self.derived.longest if self.derived is not None else derived_of(self.phrases).longest

    @cached_property
    def takes_back(self) -> frozenset[str]:
        """First words of the phrases that may take something back: most lines have none of them."""
        starts = {"plain", "soft", "behind", "judged"}
        return frozenset(phrase.split(" ", 1)[0] for phrase, does in self.takebacks.items() if does & starts)

    @cached_property
    def words(self) -> frozenset[str]:
        """Every single word that occurs in a phrase: what a slip may be repaired to."""
        return self.derived.words if self.derived is not None else derived_of(self.phrases).words

    def small(self, *does: str) -> frozenset[str]:
        """The small words that do one of these in a clause ("doer", "pointing")."""
        return _small(self, does)


NO_WORDS = Lexicon({}, {})
"""What one knows who knows no word."""


@lru_cache(maxsize=256)
def _small(lexicon: Lexicon, does: tuple[str, ...]) -> frozenset[str]:
    return frozenset().union(*(lexicon.speech[one] for one in does)) if lexicon.speech else frozenset()
