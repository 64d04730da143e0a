"""A setting told once more: by one word of its name, or by its figure alone."""

from __future__ import annotations

import re

from grammar.frames import Line, celsius
from grammar.kit import Told, told
from grammar.scanner import scan
from grammar.spoken import matched, spoken

_A_NAME = 2
"""Words of a name that may be said in short."""


def told_in_short(line: Line) -> Told | None:
    """What is told of a place by one word of its name, where such a place stands: "the shelf" over the boiler."""
    words = spoken(line.text, line.lexicon).folded.split()
    for name in line.context.known.settings:
        whole = name.removesuffix("_c").split("_")
        short = next((one for one in (whole[0], whole[-1]) if one in words), None)
        if not name.endswith("_c") or len(whole) < _A_NAME or short is None or set(whole) <= set(words):
            continue
        full = re.sub(rf"\b{short}\b", " ".join(whole), line.text, count=1, flags=re.I)
        said = told(full, scan(full, line.lexicon), line.lexicon)
        if said is not None and {one for one, _ in said.values} == {name}:
            return said
    return None


def figure_again(line: Line) -> float | None:
    """ "no, 21 degrees" after a setting: the same one again."""
    amounts = [token.quantity for token in line.tokens if token.quantity is not None]
    if line.context.focus != "setting" or len(amounts) != 1 or amounts[0].dim not in ("num", "temperature"):
        return None
    template = r"(?:(?:<hand:polite>|i mean|make (?:it|that)|its|it is|i meant|rather|wait|not that)[ ,.]+)*"
    alone = rf"{template}[\d.]+ ?(?:°|c|f|degrees|deg|pieces|rings|rolls|at once|at a time|°c|°f)?"
    if not matched(alone, spoken(line.text, line.lexicon), line.lexicon):
        return None
    return celsius(amounts[0].value, amounts[0].unit)
