"""Step one of the reader: a line of text to typed tokens, each with its place in the line.

Lexemes (digits, words, signs) first; slips repaired; then, from left to right, the longest thing that can be read:
clock and date, vocabulary with digits in it ("00 flour"), number with its unit, vocabulary, small words. Nothing is
thrown away: what is not known stays as JUNK.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from grammar import moments, numbers
from grammar.hours import as_hours
from grammar.lexicon import Lexicon, Term, Unit, fold
from grammar.moments import Moment
from grammar.slips import repair
from grammar.tokens import Quantity, Token

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
        "…": ".",
        "\u200b": " ",
    }
)
_LEXEME = re.compile(
    r"(?P<date>\d{4}-\d{2}-\d{2}(?:[T ](?P<dh>\d{1,2}):(?P<dm>\d{2}))?)"
    r"|(?P<ratio>(?<![\d.,:/-])\d{1,3}(?:\.\d)?(?P<by>\s?:\s?|(?<=\b1)-)\d{1,3}(?:\.\d)?(?P=by)\d{1,3}(?:\.\d)?(?![\d:/%-]|\.\d))"
    r"|(?P<clock>(?<![\d.,])(?P<h>[01]?\d|2[0-4])(?P<sep>[:.h])(?P<m>[0-5]\d)(?!\d|[.,]\d|\s?%)(?:\s?(?P<half>am|pm|a\.m\.?|p\.m\.?)\b)?)"
    r"|(?P<hour>(?<![\d.,/])(?P<hh>0?\d|1[0-2])\s?(?P<half2>am|pm|a\.m\.?|p\.m\.?)(?![a-z]))"
    rf"|(?P<number>{numbers.NUMBER.pattern})"
    r"|(?P<word>w/o?(?![a-z])|[^\W\d_]+(?:'[^\W\d_]+)*)"
    r"|(?P<space>\s+)"
    r"|(?P<mark>.)",
    re.IGNORECASE,
)
_KIND = {
    "mass": "MASS",
    "volume": "VOLUME",
    "length": "LENGTH",
    "time": "TIME",
    "temperature": "TEMP",
    "each": "EACH",
    "pct": "PCT",
    "money": "MONEY",
}
_PER_CENT = {"percent", "pct", "perc", "%"}
_OWN = frozenset({"cent", "deg", "degree", "degrees", "oclock", "past", "am", "pm"})
"""Words the scanner reads itself."""
_SMALL = {"link": "LINK", "filler": "FILL", "negation": "NEG"}
_AT = {"at", "by", "until", "till", "til", "around", "before", "after", "from", "for", "about", "to"}
_TAKES_INCHES = {
    "x", "tin", "tins", "round", "pan", "square", "pie", "loaf", "tray", "deep", "wide", "across", "cake", "pizza",
    "pizzas", "base", "bases",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Lexeme:
    kind: str  # "number" "word" "mark" "clock" "hour" "date"
    text: str  # as typed, in plain signs
    start: int
    end: int
    glued: bool  # no space before it
    word: str = ""  # folded, slips repaired
    repaired: str | None = None
    match: re.Match[str] | None = None


def scan(text: str, lexicon: Lexicon, skip: frozenset[str] = frozenset()) -> tuple[Token, ...]:
    """The tokens of a line. Never raises; what is not known comes back as JUNK.

    skip: folded phrases not to be taken as such this time, so that the words in them are read one by one.
    """
    if skip:
        lexicon = _thinner(lexicon, skip)
    lexemes = _lexemes(text, lexicon)
    tokens: list[Token] = []
    i = 0
    while i < len(lexemes):
        token, used = _next(lexemes, i, lexicon, tokens)
        if token is not None:
            original = text[lexemes[i].start : lexemes[i + used - 1].end]
            fixes = [x.repaired for x in lexemes[i : i + used] if x.repaired]
            tokens.append(
                replace(
                    token,
                    text=original,
                    start=lexemes[i].start,
                    end=lexemes[i + used - 1].end,
                    repaired=" ".join(x.word for x in lexemes[i : i + used] if x.word) if fixes else None,
                    glued=lexemes[i].glued,
                )
            )
        i += used
    return tuple(as_hours(_merged(tokens)))


def _lexemes(text: str, lexicon: Lexicon) -> list[_Lexeme]:
    plain = text.translate(_SAME)
    out: list[_Lexeme] = []
    glued = False
    for match in _LEXEME.finditer(plain):
        kind = match.lastgroup or "mark"
        for name in ("date", "ratio", "clock", "hour", "number", "word", "space", "mark"):
            if match[name] is not None:
                kind = name
                break
        if kind == "space":
            glued = False
            continue
        if kind == "clock" and not _is_clock(match, plain):
            out.extend(_as_number(match, glued))
            glued = True
            continue
        word, repaired = "", None
        if kind == "word":
            word = _uncontracted(match.group(), lexicon)
            repaired = _repaired(word, lexicon)
            word = repaired or word
        out.append(_Lexeme(kind, match.group(), match.start(), match.end(), glued, word, repaired, match))
        glued = True
    return out


_SHORT_VERBS = ("'s", "'re", "'ve", "'ll", "'d")
"""Small verbs that lean on the word before them ("when's", "how long's"); alone they mean nothing to a request."""


def _uncontracted(typed: str, lexicon: Lexicon) -> str:
    """A word folded; one that is known only without the verb or the 's that leans on it, without that."""
    word = fold(typed)
    if "'" not in typed:
        return word
    front = next((typed[: -len(end)] for end in _SHORT_VERBS if typed.lower().endswith(end)), "")
    many, one = lexicon.phrases.get(word, ()), lexicon.phrases.get(fold(front), ())
    if many and set(many) <= set(one) and not {kind for kind, _ in many} & {"ask", "act", "filler", "link"}:
        return fold(front)  # "salt's": no plural
    if many or (not one and (word in lexicon.words or word in lexicon.units)):
        return word
    return fold(front) if front and _known(fold(front), lexicon) else word


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


def _as_number(match: re.Match[str], glued: bool) -> list[_Lexeme]:
    """The pieces of what looked like a clock and is none: "1.30" the number, "2h15" as 2 h 15."""
    if match["sep"] in ".":
        number = numbers.NUMBER.match(match.group())
        assert number is not None
        return [_Lexeme("number", match.group(), match.start(), match.end(), glued, match=number)]
    at = match.start()
    pieces = [("number", match["h"]), ("word", match["sep"]), ("number", match["m"])]
    out = []
    for kind, piece in pieces:
        found = numbers.NUMBER.match(piece) if kind == "number" else None
        out.append(_Lexeme(kind, piece, at, at + len(piece), glued, fold(piece) if kind == "word" else "", None, found))
        at, glued = at + len(piece), True
    return out


def _known(word: str, lexicon: Lexicon) -> bool:
    return (
        word in lexicon.phrases
        or word in lexicon.words
        or word in lexicon.units
        or word in lexicon.common
        or word in _OWN
        or word in numbers.ONES
        or word in numbers.TENS
        or word in numbers.PARTS
        or word in numbers.DOZEN
        or word in moments.WEEKDAYS
        or word in moments.MONTHS
        or word in moments.PARTS
    )


def _repaired(word: str, lexicon: Lexicon) -> str | None:
    if word in lexicon.slips:
        return lexicon.slips[word]
    if not word.isalpha() or _known(word, lexicon):
        return None
    return repair(word, _targets(lexicon))


def _targets(lexicon: Lexicon) -> frozenset[str]:
    cached = _TARGETS.get(id(lexicon.words))
    if cached is None:
        numbers_said = {*numbers.ONES, *numbers.TENS, *numbers.PARTS, *numbers.DOZEN} - {"fourty"}
        days = {day for day in (*moments.WEEKDAYS, *moments.PARTS, "tomorrow", "today", "tonight") if len(day) > 4}
        cached = frozenset(lexicon.words | numbers_said | days)
        _TARGETS.clear()
        _TARGETS[id(lexicon.words)] = cached
    return cached


class _Without(Mapping[str, tuple[Term, ...]]):
    """The phrases of a lexicon less a few, without a copy."""

    def __init__(self, phrases: Mapping[str, tuple[Term, ...]], skip: frozenset[str]) -> None:
        self._phrases, self._skip = phrases, skip

    def __getitem__(self, phrase: str) -> tuple[Term, ...]:
        if phrase in self._skip:
            raise KeyError(phrase)
        return self._phrases[phrase]

    def __iter__(self) -> Iterator[str]:
        return (phrase for phrase in self._phrases if phrase not in self._skip)

    def __len__(self) -> int:
        return sum(1 for _ in self)


def _thinner(lexicon: Lexicon, skip: frozenset[str]) -> Lexicon:
    """The lexicon without some of its phrases; slips are still repaired to the words of the whole."""
    thin = replace(lexicon, phrases=_Without(lexicon.phrases, skip))
    # the same words and lengths hold: worked out once for the whole
    thin.__dict__["longest"], thin.__dict__["words"] = lexicon.longest, lexicon.words
    return thin


_TARGETS: dict[int, frozenset[str]] = {}


def _next(lx: Sequence[_Lexeme], i: int, lexicon: Lexicon, before: Sequence[Token]) -> tuple[Token | None, int]:
    head = lx[i]
    if head.kind in ("clock", "hour", "date"):
        return _clock(head), 1
    if head.kind == "ratio":
        return _feed_parts(head), 1
    ratio = _ratio(lx, i)
    if ratio:
        return ratio
    lone = _lone_unit(lx, i, lexicon, before)
    if lone:
        return lone
    price = _money_ahead(lx, i, lexicon)
    if price:
        return price
    share = numbers.one_of_many([x.word or x.text for x in lx[i : i + 4]])
    if share is not None:
        quantity = Quantity(share.value, "num", None, share.value, fraction=True)
        return Token("NUM", "", 0, 0, quantity=quantity), share.words
    said = _part_of_moment(lx, i, before, lexicon)
    if said:
        return said
    phrase = _phrase(lx, i, lexicon)
    if head.kind == "number" or (head.kind == "mark" and head.text in "-+" and _signed(lx, i)):
        if phrase and phrase[1] > 1 and not _is_unit_only(phrase[0]):
            return phrase
        return _number(lx, i, lexicon, before)
    if head.kind == "word":
        in_words = _spelled(lx, i, lexicon, before, phrase[1] if phrase else 0)
        if in_words:
            return in_words
        if phrase:
            return phrase
        if head.word in lexicon.units and before and before[-1].kind == "LINK":
            return Token("TERM", "", 0, 0, terms=(("unit", head.word),), units=lexicon.units[head.word]), 1
        if head.word in lexicon.units and head.word not in lexicon.common:
            return Token("TERM", "", 0, 0, terms=(("unit", head.word),), units=lexicon.units[head.word]), 1
        return Token("JUNK", "", 0, 0), 1
    terms = lexicon.phrases.get(head.text)
    if terms and head.text not in "-:/":  # "@", "&", "=": small words in one sign
        return Token(_small(terms), "", 0, 0, terms=terms), 1
    return Token("MARK", "", 0, 0, value=head.text), 1


def _ratio(lx: Sequence[_Lexeme], i: int) -> tuple[Token, int] | None:
    """ "60/40", "50:50": two shares that make a hundred."""
    head = lx[i]
    found = re.fullmatch(r"(\d+)\s?/\s?(\d+)", head.text) if head.kind == "number" else None
    used = 1
    if found is None and i + 2 < len(lx) and lx[i + 1].text == ":" and lx[i + 2].kind == "number" and lx[i + 2].glued:
        found = re.fullmatch(r"(\d+):(\d+)", head.text + ":" + lx[i + 2].text)
        used = 3
    if found is None or int(found[1]) + int(found[2]) != 100:
        return None
    shares = (float(found[1]), float(found[2]))
    return Token("TERM", "", 0, 0, terms=(("blend", f"{found[1]}/{found[2]}"),), value=shares), used


def _money(word: str, lexicon: Lexicon) -> Unit | None:
    """A currency by its sign or name, or a coin of which a hundred make one, as a unit: "£", "euros", "p"."""
    for kind, id in lexicon.phrases.get(word, ()):
        if kind in ("currency", "coin"):
            return Unit(id, "money", 1.0 if kind == "currency" else 0.01)
    return None


def _money_ahead(lx: Sequence[_Lexeme], i: int, lexicon: Lexicon) -> tuple[Token, int] | None:
    """ "£1.20", "eur 3": the currency before its number."""
    unit = _money(lx[i].word or lx[i].text, lexicon)
    after = lx[i + 1] if i + 1 < len(lx) else None
    if unit is None or unit.factor < 1 or after is None or after.kind != "number":
        return None
    value = numbers.digits(after.text)
    return Token("MONEY", "", 0, 0, quantity=Quantity(value, "money", unit.id, value)), 2


def _lone_unit(
    lx: Sequence[_Lexeme], i: int, lexicon: Lexicon, before: Sequence[Token]
) -> tuple[Token, int] | None:
    """ "cup of water", "pint and a half of milk": a measure the line begins with is one of it; "250 g flour cups": one
    it ends with is what is wanted."""
    head = lx[i]
    unit = _unit(lx, i, lexicon, 1.0) if head.kind == "word" and len(head.word) > 2 else None
    tin = bool(before) and bool(before[-1].ids("shape") or {"tin", "deep"} & set(before[-1].ids("cue")))
    if unit is None or unit[0].dimension not in (("length", "volume") if tin else ("mass", "volume")):
        return None
    following = lx[i + unit[1]].word if i + unit[1] < len(lx) else ""
    if all(token.kind == "FILL" for token in before) and following in ("of", "and") and unit[0].id not in ("g", "kg"):
        return _quantity(1.0, i, 0, lx, lexicon, before)
    if not any(token.kind not in ("FILL", "MARK", "LINK") for token in before) and following in ("", "please", "then"):
        return Token("TERM", "", 0, 0, terms=(("unit", unit[0].id),), units=unit[2] or (unit[0],)), unit[1]
    after_thing = bool(before) and (tin or bool(before[-1].ids("ingredient"))) and i + unit[1] == len(lx)
    if after_thing and any(token.quantity is not None for token in before):
        return Token("TERM", "", 0, 0, terms=(("unit", unit[0].id),), units=unit[2] or (unit[0],)), unit[1]
    return None


def _is_unit_only(token: Token) -> bool:
    return bool(token.terms) and all(kind == "unit" for kind, _ in token.terms)


def _signed(lx: Sequence[_Lexeme], i: int) -> bool:
    """An attached minus before a number is a sign, unless it also touches what stands before it ("30-60")."""
    return lx[i].text == "-" and i + 1 < len(lx) and lx[i + 1].kind == "number" and lx[i + 1].glued and not lx[i].glued


def _phrase(lx: Sequence[_Lexeme], i: int, lexicon: Lexicon) -> tuple[Token, int] | None:
    """The longest vocabulary phrase that begins here; hyphens inside it are nothing."""
    words: list[str] = []
    spans: list[int] = []
    j = i
    first = lx[i].word or (lx[i].text if lx[i].kind in ("number", "mark") else "")
    most = lexicon.longest.get(first, 0)
    if lx[i].kind == "number" and i + 1 < len(lx) and lx[i + 1].text == "%":
        most = max(most, lexicon.longest.get(first + "%", 0))
    while j < len(lx) and len(words) < max(most, 1) + 1:
        lexeme = lx[j]
        if lexeme.kind == "mark" and lexeme.text == "-" and j + 1 < len(lx) and lexeme.glued and lx[j + 1].glued:
            j += 1
            continue
        if lexeme.kind == "word":
            words.append(lexeme.word)
        elif lexeme.kind == "number":
            words.append(lexeme.text)
        elif lexeme.kind == "mark" and lexeme.text == "%" and words and words[-1].isdigit():
            words[-1] += "%"
            spans[-1] = j - i + 1
            j += 1
            continue
        else:
            break
        spans.append(j - i + 1)
        j += 1
    for count in range(len(words), 0, -1):
        key = " ".join(words[:count])
        terms = lexicon.phrases.get(key)
        if terms is None and count > 1 and lx[i + 1].glued:
            terms = lexicon.phrases.get("".join(words[:count]))
        if terms is None and count == 2 and lx[i].kind == "word" and lx[i + 1].kind == "number":
            terms = lexicon.phrases.get("".join(words[:count]))
        last = i + spans[count - 1]
        if terms and count > 1 and lx[last - 1].kind == "number" and _unit(lx, last, lexicon, 1.0):
            continue  # "rye 1150 g" is a weight of rye, "rye 1150" the flour
        follows = lx[last].word if last < len(lx) else ""
        if terms and count > 1 and lx[last - 1].word in numbers.PARTS and follows in ("a", "an"):
            continue  # "in half an hour"
        if terms:
            units = lexicon.units.get(key, ())
            return Token(_small(terms), "", 0, 0, terms=terms, units=units, phrase=key), spans[count - 1]
    return None


def _small(terms: Sequence[Term]) -> str:
    kinds = {kind for kind, _ in terms}
    if len(kinds) == 1:
        return _SMALL.get(kinds.pop(), "TERM")
    if kinds == {"link", "filler"}:
        return "LINK"
    return "TERM"


def _clock(lexeme: _Lexeme) -> Token:
    match = lexeme.match
    assert match is not None
    if match["date"]:
        minute = int(match["dh"]) * 60 + int(match["dm"]) if match["dh"] else None
        return Token("DAY", "", 0, 0, value=Moment(minute=minute, half=None, day=match["date"][:10]))
    half = match["half"] or match["half2"]
    hours, minutes = (int(match["h"]), int(match["m"])) if match["clock"] else (int(match["hh"]), 0)
    half = half.replace(".", "").lower() if half else None
    if half is None and len(match["h"]) == 2 and match["h"].startswith("0") and hours:
        half = "am"  # 07:30 is written on a 24-hour clock
    return Token("CLOCK", "", 0, 0, value=Moment(minute=hours % 24 * 60 + minutes, half=half))


def _feed_parts(lexeme: _Lexeme) -> Token:
    """ "1:5:5": parts of seed, flour and water; the amount is the flour to one of seed, all three are the value."""
    parts = tuple(float(part) for part in re.findall(r"\d+(?:\.\d)?", lexeme.text))
    per_seed = parts[1] / parts[0] if parts[0] else 0.0
    return Token("NUM", "", 0, 0, quantity=Quantity(per_seed, "ratio", None, per_seed), value=parts)


def _words(lx: Sequence[_Lexeme], i: int, count: int) -> list[str]:
    out = []
    for lexeme in lx[i : i + count]:
        if lexeme.kind != "word":
            if lexeme.text == "-" and lexeme.glued:
                out.append("-")
                continue
            break
        out.append(lexeme.word)
    return out


def _part_of_moment(
    lx: Sequence[_Lexeme], i: int, before: Sequence[Token], lexicon: Lexicon
) -> tuple[Token, int] | None:
    head = lx[i]
    nxt = lx[i + 1] if i + 1 < len(lx) else None
    if head.kind == "number":
        if nxt and nxt.word == "past" and i + 2 < len(lx) and head.text.isdigit() and 0 < int(head.text) < 60:
            hour = _hour(lx[i + 2].word or lx[i + 2].text)
            if hour is not None:  # "20 past 7"
                return Token("CLOCK", "", 0, 0, value=Moment(minute=(hour % 24) * 60 + int(head.text))), 3
        if nxt and nxt.word in ("oclock", "o'clock"):
            return Token("CLOCK", "", 0, 0, value=Moment(minute=int(numbers.digits(head.text)) % 24 * 60)), 2
        if nxt and nxt.kind == "word" and nxt.word in ("st", "nd", "rd", "th") and nxt.glued:
            number = int(numbers.digits(head.text))
            return _date(lx, i, 2, number) or _day_of_month(lx, i, number, before)
        if nxt and nxt.word in moments.MONTHS and head.text.isdigit() and 1 <= int(head.text) <= 31 and not nxt.glued:
            return _date(lx, i, 1, int(head.text))
        return None
    if head.kind != "word":
        return None
    if head.word in ("half", "quarter"):
        past = _past(lx, i, before)
        if past:
            return past
    if head.word in ("five", "ten", "twenty") and nxt:
        led = bool(before) and bool(set(before[-1].ids("link")) & {"at", "by", "until", "before", "after"})
        led = led or (bool(before) and before[-1].kind in ("DAY", "PART"))
        if nxt.word == "past" or (nxt.word == "to" and led):
            return _past(lx, i, before)
    if head.word in ("today", "tomorrow", "yesterday", "tomoz", "tmrw", "tmr"):
        day = "tomorrow" if head.word in ("tomoz", "tmrw", "tmr") else head.word
        return Token("DAY", "", 0, 0, value=Moment(day=day)), 1
    if head.word == "last" and nxt and nxt.word == "night" and before and _after_clock(before):
        return Token("DAY", "", 0, 0, value=Moment(day="yesterday", part="night")), 2
    if head.word in moments.WEEKDAYS and _is_day(lx, i, before):
        weeks = 1 if before and before[-1].ids("link") and "next" in before[-1].ids("link") else 0
        return Token("DAY", "", 0, 0, value=Moment(day=str(moments.WEEKDAYS[head.word]), weeks=weeks)), 1
    plural = head.word[:-1] if head.word.endswith("s") else head.word
    if plural in moments.WEEKDAYS and len(plural) > 3:
        return Token("DAY", "", 0, 0, value=Moment(day=str(moments.WEEKDAYS[plural]))), 1
    if head.word in moments.PARTS and _is_part(lx, i, before, lexicon):
        part = head.word
        half_day = Moment(minute=moments.PARTS[part][0] * 60, half="am" if part == "midnight" else "pm", part=part)
        if part in moments.EXACT:
            return Token("CLOCK", "", 0, 0, value=half_day), 1
        return Token("PART", "", 0, 0, value=Moment(part=part, day="today" if part == "tonight" else None)), 1
    return None


def _after_clock(before: Sequence[Token]) -> bool:
    """Whether an hour stands right before, as in "at 9 last night", "9 pm last night"."""
    hour = before[-1].quantity
    led = len(before) > 1 and bool(set(before[-2].ids("link")) & _AT)
    return before[-1].kind == "CLOCK" or (before[-1].kind == "NUM" and hour is not None and hour.value <= 12 and led)


def _is_day(lx: Sequence[_Lexeme], i: int, before: Sequence[Token]) -> bool:
    """ "sat" and "sun" are days only in the company of a preposition, a clock time or a part of the day."""
    if lx[i].word not in ("sat", "sun", "wed", "mon"):
        return True
    if before and (before[-1].kind in ("CLOCK", "PART", "DAY") or before[-1].ids("link")):
        return True
    nxt = lx[i + 1] if i + 1 < len(lx) else None
    return nxt is None or nxt.kind in ("clock", "hour", "number") or nxt.word in moments.PARTS or nxt.word in _AT


def _is_part(lx: Sequence[_Lexeme], i: int, before: Sequence[Token], lexicon: Lexicon) -> bool:
    """ "breakfast rolls" are rolls; "for breakfast", "tomorrow breakfast" and "9 in the morning" are times."""
    word = lx[i].word
    if word in moments.EXACT or word == "tonight":
        return True
    if before and before[-1].kind in ("DAY", "CLOCK", "PART"):
        return True
    if before and before[-1].text.lower() in ("this", "every", "each"):
        return True
    links = before[-1].ids("link") if before else ()
    earlier = before[-2] if len(before) > 1 else None
    if before and before[-1].kind == "FILL" and earlier is not None:
        if earlier.kind in ("DAY", "CLOCK"):
            return True  # "9:10 this morning"
        links = links or earlier.ids("link")
    return bool(set(links) & {"for", "by", "in", "before", "until", "at", "this", "from", "next", "on", "every", "to"})


def _date(lx: Sequence[_Lexeme], i: int, used: int, day: int) -> tuple[Token, int] | None:
    rest = [x.word for x in lx[i + used : i + used + 2]]
    skip = 1 if rest[:1] == ["of"] else 0
    if len(rest) > skip and rest[skip] in moments.MONTHS and 1 <= day <= 31:
        month = moments.MONTHS[rest[skip]]
        return Token("DAY", "", 0, 0, value=Moment(day=f"--{month:02d}-{day:02d}")), used + skip + 1
    return None


def _day_of_month(lx: Sequence[_Lexeme], i: int, day: int, before: Sequence[Token]) -> tuple[Token, int] | None:
    """ "sat 21st 11am", "by the 3rd", and no "2nd proof": a day leads to it, and no word that it counts follows."""
    earlier = [token for token in before[-2:] if token.kind != "FILL"]
    led = bool(earlier) and (earlier[-1].kind == "DAY" or bool(set(earlier[-1].ids("link")) & (_AT | {"on"})))
    nxt = lx[i + 2] if i + 2 < len(lx) else None
    ends = nxt is None or nxt.kind in ("clock", "hour", "number", "mark") or nxt.word in {*_AT, "in", *moments.PARTS}
    if not (led and ends and 1 <= day <= 31):
        return None
    return Token("DAY", "", 0, 0, value=Moment(day=f"---{day:02d}")), 2


def _past(lx: Sequence[_Lexeme], i: int, before: Sequence[Token]) -> tuple[Token, int] | None:
    """ "half seven" (British: 7:30), "half past six", "quarter to nine", "ten past five"."""
    words = [x.word or x.text for x in lx[i : i + 3]]
    minutes = {"half": 30, "quarter": 15, "five": 5, "ten": 10, "twenty": 20}[words[0]]
    if len(words) > 2 and words[1] in ("past", "after", "to", "before"):
        hour = _hour(words[2])
        if hour is None or (words[1] in ("to", "before") and words[0] == "half"):
            return None
        total = hour * 60 + (minutes if words[1] in ("past", "after") else -minutes)
        return Token("CLOCK", "", 0, 0, value=Moment(minute=total % 1440)), 3
    if words[0] == "half" and len(words) > 1:
        hour = _hour(words[1])
        at = before and (bool(set(before[-1].ids("link")) & _AT) or before[-1].kind in ("DAY", "PART"))
        follows = lx[i + 2].word if i + 2 < len(lx) else ""
        ends = i + 2 >= len(lx) or follows in {*_AT, "on", *moments.WEEKDAYS, "tomorrow", "in"}
        if hour is not None and hour <= 12 and (at or i == 0) and (ends or lx[i + 2].kind == "mark"):
            return Token("CLOCK", "", 0, 0, value=Moment(minute=hour * 60 + 30)), 2
    return None


def _hour(word: str) -> int | None:
    if word.isdigit() and 0 <= int(word) <= 24:
        return int(word)
    value = numbers.ONES.get(word)
    return value if value is not None and 1 <= value <= 12 else None


def _number(lx: Sequence[_Lexeme], i: int, lexicon: Lexicon, before: Sequence[Token]) -> tuple[Token, int]:
    sign, used = 1.0, 0
    if lx[i].kind == "mark":
        sign, used = -1.0, 1
    value = numbers.digits(lx[i + used].text)
    fraction = _is_share(lx[i + used].text, lx, i + used + 1)
    used += 1
    more = numbers.dozens(value, _words(lx, i + used, 4))
    if more:
        return _quantity(more.value * sign, i, used + more.words, lx, lexicon, before)
    tail = numbers._and_part(_words(lx, i + used, 4))
    if tail and value == int(value):
        value, used, fraction = value + tail[0], used + tail[1], False
        after = _words(lx, i + used, 1)
        if after and after[0] in numbers.DOZEN:
            value, used = value * 12, used + 1
    return _quantity(value * sign, i, used, lx, lexicon, before, fraction=fraction)


def _is_share(text: str, lx: Sequence[_Lexeme], after: int) -> bool:
    """ "1/3 rye": a fraction below one with no unit behind it may be a share."""
    return ("/" in text or any(c in numbers.VULGAR for c in text)) and numbers.digits(text) < 1


def _spelled(
    lx: Sequence[_Lexeme], i: int, lexicon: Lexicon, before: Sequence[Token], phrase_words: int
) -> tuple[Token, int] | None:
    words = _words(lx, i, 8)
    flat: list[str] = []
    places: list[int] = []
    for k, word in enumerate(words):
        if word != "-":
            flat.append(word)
            places.append(k)
    said = numbers.spelled(flat)
    if said and said.words and places[said.words - 1] + 1 >= phrase_words:
        return _quantity(
            said.value, i, places[said.words - 1] + 1, lx, lexicon, before, spelled=True, fraction=said.fraction
        )
    if words and words[0] in ("a", "an", "one", "per") and len(words) > 1:
        unit = _unit(lx, i + 1, lexicon, 1.0)
        if unit and words[0] != "per" and unit[0].dimension != "temperature" and len(lx[i + 1].word) > 1:
            return _quantity(1.0, i, 1, lx, lexicon, before, spelled=True)
    return None


def _unit(lx: Sequence[_Lexeme], i: int, lexicon: Lexicon, value: float) -> tuple[Unit, int, tuple[Unit, ...]] | None:
    """The unit at lexeme i: (likeliest reading, lexemes used, every reading)."""
    if i >= len(lx):
        return None
    head = lx[i]
    skip = 0
    if head.kind == "mark" and head.text == "-" and head.glued and i + 1 < len(lx) and lx[i + 1].glued:
        skip, head = 1, lx[i + 1]  # "14-oz"
    if head.text == "%" or head.word in _PER_CENT:
        return Unit("pct", "pct", 1.0), skip + 1, ()
    if head.word == "per" and i + 1 < len(lx) and lx[i + 1].word == "cent":
        return Unit("pct", "pct", 1.0), 2, ()
    if head.text == "°" or head.word in ("deg", "degs", "degree", "degrees"):
        after = lx[i + skip + 1] if i + skip + 1 < len(lx) else None
        if after and after.word in ("c", "celsius", "centigrade"):
            return Unit("degC", "temperature", 1.0), skip + 2, ()
        if after and after.word in ("f", "fahrenheit"):
            return Unit("degF", "temperature", 1.0), skip + 2, ()
        if head.text == "°" or value > 0:
            return Unit("deg", "temperature", 1.0), skip + 1, ()
    if head.text in ('"', "''") and head.glued:
        inch = lexicon.units.get("inch")
        if inch:
            return inch[0], skip + 1, inch
    coin = _money(head.word or head.text, lexicon)
    if coin is not None:
        return coin, skip + 1, ()
    if head.kind != "word":
        return None
    words = [x.word for x in lx[i + skip : i + skip + 4] if x.kind in ("word",)]
    for count in range(min(len(words), 4), 0, -1):
        typed = " ".join(x.text for x in lx[i + skip : i + skip + count])
        readings = lexicon.units.get(typed) or lexicon.units.get(" ".join(words[:count]))
        if not readings:
            continue
        used = skip + count
        if head.word == "in" and not head.glued and not _inches(lx, i + used):
            return None
        return _likeliest(readings, lx, i + used, lexicon, value), used, readings
    return None


def _inches(lx: Sequence[_Lexeme], after: int) -> bool:
    nxt = lx[after] if after < len(lx) else None
    return nxt is not None and (nxt.word in _TAKES_INCHES or nxt.text in "x*")


def _likeliest(readings: tuple[Unit, ...], lx: Sequence[_Lexeme], after: int, lexicon: Lexicon, value: float) -> Unit:
    """ "18 C" is a temperature; "3 c flour" is cups: an ingredient follows and the number is small."""
    if len(readings) == 1:
        return readings[0]
    by_dim = {unit.dimension: unit for unit in readings}
    if "temperature" in by_dim:
        k = after + 1 if after < len(lx) and (lx[after].word == "of" or lx[after].text == ".") else after
        phrase = _phrase(lx, k, lexicon) if k < len(lx) and lx[k].kind in ("word", "number") else None
        follows = phrase is not None and any(kind == "ingredient" for kind, _ in phrase[0].terms)
        other = next(unit for unit in readings if unit.dimension != "temperature")
        return other if follows and value <= 12 else by_dim["temperature"]
    return readings[0]


def _quantity(
    value: float,
    i: int,
    used: int,
    lx: Sequence[_Lexeme],
    lexicon: Lexicon,
    before: Sequence[Token],
    *,
    spelled: bool = False,
    fraction: bool = False,
) -> tuple[Token, int]:
    at = i + used
    if fraction and at < len(lx) and lx[at].word in ("a", "an", "of") and at + 1 < len(lx):
        skip = 2 if lx[at].word == "of" and lx[at + 1].word in ("a", "an") and at + 2 < len(lx) else 1
        unit = _unit(lx, at + skip, lexicon, value)
        if unit and unit[0].dimension in ("time", "volume", "mass") and len(lx[at + skip].word) > 1:
            used, at = used + skip, at + skip  # "half an hour", "a third of a cup"
    unit = _unit(lx, at, lexicon, value)
    if unit is None:
        return Token("NUM", "", 0, 0, quantity=Quantity(value, "num", None, value, spelled, fraction)), used
    reading, words, readings = unit
    base = value * reading.factor
    quantity = Quantity(value, reading.dimension, reading.id, base, spelled, False)
    if reading.dimension in ("time", "volume", "mass"):
        tail = numbers._and_part(_words(lx, at + words, 4))
        if tail:  # "an hour and a half", "2 cups and a quarter"
            words += tail[1]
            quantity = replace(quantity, value=value + tail[0], base=(value + tail[0]) * reading.factor)
    return Token(_KIND[reading.dimension], "", 0, 0, quantity=quantity, units=readings), used + words


_BIGGER = {"lb": "oz", "kg": "g", "hour": "min", "min": "second", "day": "hour", "foot": "inch"}


def _merged(tokens: Sequence[Token]) -> list[Token]:
    """Quantities said in two units as one: "1 lb 4 oz", "1 h 30 min", "1 hour and 20 minutes", "2 h 20"."""
    tokens = _sized(tokens)
    out: list[Token] = []
    i = 0
    while i < len(tokens):
        token = tokens[i]
        j = i + 1
        less = _less(tokens, i)
        if less is not None:
            out.append(less)
            i += 3
            continue
        if token.quantity and token.quantity.unit in _BIGGER and token.kind in ("MASS", "TIME", "LENGTH"):
            if (
                j < len(tokens)
                and (tokens[j].ids("filler") or tokens[j].ids("link"))
                and tokens[j].text.lower() == "and"
            ):
                j += 1
            after = tokens[j] if j < len(tokens) else None
            smaller = _BIGGER[token.quantity.unit]
            bare_minutes = (
                after is not None
                and after.kind == "NUM"
                and token.quantity.unit == "hour"
                and j == i + 1
                and after.quantity is not None
                and 0 < after.quantity.value < 60
                and (after.glued or (j + 1 >= len(tokens) and after.quantity.value >= 10))
            )
            fits = after is not None and after.quantity is not None and after.quantity.unit == smaller
            if after is not None and after.quantity is not None and (fits or bare_minutes):
                base = token.quantity.base + (after.quantity.base if fits else after.quantity.value)
                factor = token.quantity.base / token.quantity.value if token.quantity.value else 1.0
                whole = replace(token.quantity, value=base / factor if factor else 0.0, base=base)
                out.append(replace(token, end=after.end, quantity=whole, text=f"{token.text} {after.text}"))
                i = j + 1
                continue
        out.append(token)
        i += 1
    return out


def _less(tokens: Sequence[Token], i: int) -> Token | None:
    """ "2 dozen less 2", "30 minus 4": a count with a few taken off."""
    if i + 2 >= len(tokens):
        return None
    first, word, second = tokens[i : i + 3]
    if first.kind != "NUM" or second.kind != "NUM" or word.text.lower() not in ("less", "minus"):
        return None
    assert first.quantity is not None and second.quantity is not None
    if not 0 < second.quantity.value < first.quantity.value:
        return None
    value = first.quantity.value - second.quantity.value
    text = f"{first.text} {word.text} {second.text}"
    return replace(first, text=text, end=second.end, quantity=replace(first.quantity, value=value, base=value))


def _sized(tokens: Sequence[Token]) -> list[Token]:
    """ "23 x 13 x 7 cm": the unit said last holds for the whole chain."""
    out = list(tokens)
    for i in range(len(out) - 1, 1, -1):
        length, mark, number = out[i], out[i - 1], out[i - 2]
        if length.kind != "LENGTH" or number.kind != "NUM" or mark.text.lower() not in ("x", "*", "by"):
            continue
        assert length.quantity is not None and number.quantity is not None
        factor = length.quantity.base / length.quantity.value if length.quantity.value else 1.0
        value = number.quantity.value
        chained = i + 2 < len(out) and out[i + 2].kind == "LENGTH" and out[i + 1].text.lower() in ("x", "*", "by")
        if not chained and mark.text.lower() != "by" and value <= _FEW and value < _SHORT_SIDE * length.quantity.value:
            continue  # "3 x 30 cm": so many of them
        quantity = replace(length.quantity, value=value, base=value * factor)
        out[i - 2] = replace(number, kind="LENGTH", quantity=quantity)
    return _bare_sizes(out)


_FEW, _SHORT_SIDE = 12.0, 0.3
"""A side is longer than this share of the other, which is said first; a smaller whole number counts the tins."""
_INCHES_BELOW = 15.0
"""A tin whose longest side is a smaller bare number than this was measured in inches: no bread tin is 9 cm long."""


def _bare_sizes(tokens: list[Token]) -> list[Token]:
    """ "23x13x7" without a unit: three bare numbers in a chain are the sides of a tin, never a batch."""
    for i in range(len(tokens) - 4):
        chain = tokens[i : i + 5]
        numbers, marks = chain[::2], chain[1::2]
        if any(n.kind != "NUM" for n in numbers) or any(m.text.lower() not in ("x", "*", "by") for m in marks):
            continue
        values = [n.quantity.value for n in numbers if n.quantity is not None]
        factor = 2.54 if max(values) < _INCHES_BELOW else 1.0
        for step, value in zip((0, 2, 4), values, strict=True):
            quantity = Quantity(value * factor, "length", "cm", value * factor)
            tokens[i + step] = replace(tokens[i + step], kind="LENGTH", quantity=quantity)
    return _bare_sides(tokens)


_SHEET_INCHES = 19.0
"""A baking sheet whose longer side is a smaller bare number than this was measured in inches."""


def _length_wanted(behind: Sequence[Token]) -> str | None:
    """The unit of length two bare numbers are to be turned into: "in cm", "to inches"."""
    whole = next((one for token in behind[:1] for one in token.ids("into") if one in ("cm", "inch")), None)
    if whole is not None or len(behind) < 2 or not set(behind[0].ids("link")) & {"in", "to", "into"}:
        return whole
    return next((unit.id for unit in behind[1].units if unit.id in ("cm", "inch")), None)


def _bare_sides(tokens: list[Token]) -> list[Token]:
    """ "9x5 loaf pan", "sheet pan 18x13": two bare numbers beside the word for a tin are its sides."""
    for i in range(len(tokens) - 2):
        first, mark, second = tokens[i : i + 3]
        if first.kind != "NUM" or second.kind != "NUM" or mark.text.lower() not in ("x", "*", "by"):
            continue
        beside = [*tokens[i + 3 : i + 4], *tokens[max(0, i - 1) : i]]
        named = next((one for one in beside if "tin" in one.ids("cue") or "tray" in one.ids("fits")), None)
        wanted = _length_wanted(tokens[i + 3 : i + 5])
        values = [token.quantity.value for token in (first, second) if token.quantity is not None]
        if (named is None and wanted is None) or min(values) < _SHORT_SIDE * max(values):
            continue
        below = _SHEET_INCHES if named is not None and "sheet" in named.ids("shape") else _INCHES_BELOW
        inches = max(values) < below if wanted is None else wanted == "cm"  # what is turned into cm is in inches
        factor = 2.54 if inches else 1.0
        for step, value in zip((0, 2), values, strict=True):
            quantity = Quantity(value * factor, "length", "cm", value * factor)
            tokens[i + step] = replace(tokens[i + step], kind="LENGTH", quantity=quantity)
    return tokens
