"""A line of text to lexemes: digits, words, signs, and what looks like a clock or a date; slips repaired."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar import days, number_words, numbers
from grammar.known_words import slip_of, uncontracted, whole_ing
from grammar.lexicon import Lexicon, fold
from grammar.slips import is_name

_SAME = str.maketrans(
    {
        "’": "'",
        "‘": "'",
        "`": "'",
        "´": "'",
        "“": '"',
        "”": '"',
        "×": "x",
        "✕": "x",
        "–": "-",
        "—": "-",
        "−": "-",
        "‒": "-",
        "‐": "-",
        "‑": "-",
        "\u00a0": " ",
        "\u2009": " ",
        "\u202f": " ",
        "\u2007": " ",
        "\t": " ",
        "\n": " ",
        "\r": " ",
        "º": "°",
        "˚": "°",
        "％": "%",
        "⁄": "/",
        "∕": "/",
        "，": ",",
        "\u200b": " ",
    }
)
_LEXEME = re.compile(
    r"(?P<date>\d{4}-\d{2}-\d{2}(?:[T ](?P<dh>\d{1,2}):(?P<dm>\d{2})(?::\d{2}(?!\d))?)?)"
    r"|(?P<leader>(?:[.…] ?){2,}|…)"
    r"|(?P<ratio>(?<![\d.,:/-])\d{1,3}(?:\.\d)?(?P<by>\s?:\s?|(?<=\b1)-)\d{1,3}(?:\.\d)?(?P=by)\d{1,3}(?:\.\d)?(?![\d:/%-]|\.\d))"
    r"|(?P<pair>(?<![\d.,:/-])1\s?:\s?[2-9](?![\d:/%-]|\.\d))"
    r"|(?P<clock>(?<![\d.,])(?P<h>[01]?\d|2[0-4])(?P<sep>[:.h])(?P<m>[0-5]\d)(?!\d|[.,]\d|\s?%)(?:\s?(?P<half>am|pm|a\.m\.?|p\.m\.?)\b)?)"
    r"|(?P<hour>(?<![\d.,/])(?P<hh>0?\d|1[0-2])\s?(?P<half2>am|pm|a\.m\.?|p\.m\.?)(?![a-z]))"
    r"|(?P<power>(?<![\d.,])\d+(?:[.,]\d+)?e[+-]?\d+(?![^\W_]))"
    rf"|(?P<number>{numbers.NUMBER.pattern})"
    r"|(?P<word>w/o?(?![a-z])|[^\W\d_]+(?:'[^\W\d_]+)*)"
    r"|(?P<space>\s+|(?<=\d)'s(?![^\W_]))"
    r"|(?P<mark>(?P<same>[^\w\s])(?P=same){2,}|.)",
    re.IGNORECASE,
)
ORDINAL = ("st", "nd", "rd", "th")
"""What a number becomes the place in a row by."""

MOST_LEXEMES, MOST_FIGURES = 200, 40
"""No line a baker means is longer, or has more figures: what comes after them is one piece that is not read, so that
the work is bound however long a line is."""
_SAID = frozenset({*number_words.ONES, *number_words.TENS, *number_words.PARTS, *days.WEEKDAYS})
"""Words that count as figures."""
_LONGEST_FIGURE = 15
"""A row of more digits than this is no amount of anything, nor a number a machine keeps whole. Neither is "1e308"."""


@dataclass(frozen=True, slots=True)
class Lexeme:
    """The smallest piece of a line that is read at once."""

    kind: str  # "number" "word" "mark" "clock" "hour" "date" "ratio" "pair" "leader" "unread" "beyond"
    text: str  # as typed, in plain signs
    start: int
    end: int
    glued: bool  # no space before it
    word: str = ""  # folded, slips repaired
    repaired: str | None = None
    match: re.Match[str] | None = None
    moved: bool = False  # said later in the line, in place of what was taken back here


def lexemes_of(text: str, lexicon: Lexicon) -> list[Lexeme]:
    """The lexemes of a line in order; what looks like a clock and is none comes as a number. What is beyond all bounds
    comes as a piece that is not read."""
    plain = text.translate(_SAME)
    out: list[Lexeme] = []
    glued, figures = False, 0
    for match in _LEXEME.finditer(plain):
        kind = match.lastgroup or "mark"
        for name in ("date", "leader", "ratio", "pair", "clock", "hour", "power", "number", "word", "space", "mark"):
            if match[name] is not None:
                kind = name
                break
        if kind == "space":
            glued = False
            continue
        figures += kind not in ("word", "mark", "leader") or match.group().lower() in _SAID
        if len(out) >= MOST_LEXEMES or figures > MOST_FIGURES:
            out.append(Lexeme("beyond", "", match.start(), len(plain.rstrip()), glued))
            break
        if kind == "power" or (kind == "number" and match.end() - match.start() > _LONGEST_FIGURE):
            out.append(Lexeme("unread", "", match.start(), match.end(), glued))
            glued = True
            continue
        if kind == "clock" and not _is_clock(match, plain):
            out.extend(_as_number(match, glued))
            glued = True
            continue
        word, repaired = "", None
        if kind == "word":
            word = whole_ing(uncontracted(match.group(), lexicon), lexicon)
            ordinal = glued and word in ORDINAL and out[-1].kind == "number"  # "16th" is no "16 the"
            repaired = None if ordinal or is_name(plain, match) else slip_of(word, lexicon)
            word = repaired or word
        said = match["same"] or match.group()  # a row of one sign is that sign
        out.append(Lexeme(kind, said, match.start(), match.end(), glued, word, repaired, match))
        glued = True
    return _with_halves(out, lexicon)


_COUNTS = frozenset({"pack", "piece"})
"""Kinds of words for things that are counted whole and in halves."""


def _with_halves(lexemes: list[Lexeme], lexicon: Lexicon) -> list[Lexeme]:
    """The lexemes with "a stick and a half", "2 packets and a quarter" as 1.5 sticks, 2.25 packets.

    Only what is counted; a unit of measure takes the part behind it by itself.
    """
    out = list(lexemes)
    i = 0
    while i + 3 < len(out):
        many, noun = out[i], out[i + 1]
        kinds = {kind for kind, _ in lexicon.phrases.get(noun.word, ())}
        counted = noun.kind == "word" and bool(kinds & _COUNTS) and noun.word not in lexicon.units
        value = 1.0 if many.word in ("a", "an") else float(number_words.ONES.get(many.word, 0))
        if many.kind == "number" and many.text.isdigit():
            value = float(many.text)
        behind = [x.word for x in out[i + 2 : i + 6] if x.kind == "word"]
        part = number_words.and_part(behind) if counted and value else None
        if part is not None:
            said = f"{value + part[0]:.4f}".rstrip("0")
            match = numbers.NUMBER.match(said)
            whole = Lexeme("number", said, many.start, many.end, many.glued, match=match)
            out[i : i + 2 + part[1]] = [whole, noun]
        i += 1
    return out


def _is_clock(match: re.Match[str], plain: str) -> bool:
    """A colon makes a clock time; a dot or an h only where the words around say so: 7.30 pm, "at 7.30", 22h30."""
    if match["sep"] == ":" or match["half"]:
        return True
    if match["sep"] in "hH":
        return int(match["h"]) >= 5 and int(match["m"]) in (0, 15, 30, 45)
    before = plain[: match.start()].split()[-1:]
    after = plain[match.end() :].lstrip()[:2].lower()
    unit_follows = bool(re.match(r"[a-z%°]", after)) and not re.match(r"(?:on|an|sa|su|mo|tu|we|th|fr|to|in)", after)
    return bool(before) and before[0].lower() in ("by", "until", "till") and not unit_follows


def _as_number(match: re.Match[str], glued: bool) -> list[Lexeme]:
    """The pieces of what looked like a clock and is none: "1.30" the number, "2h15" as 2 h 15."""
    if match["sep"] in ".":
        number = numbers.NUMBER.match(match.group())
        assert number is not None
        return [Lexeme("number", match.group(), match.start(), match.end(), glued, match=number)]
    at = match.start()
    pieces = [("number", match["h"]), ("word", match["sep"]), ("number", match["m"])]
    out = []
    for kind, piece in pieces:
        found = numbers.NUMBER.match(piece) if kind == "number" else None
        out.append(Lexeme(kind, piece, at, at + len(piece), glued, fold(piece) if kind == "word" else "", None, found))
        at, glued = at + len(piece), True
    return out


