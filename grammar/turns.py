"""What turns of speech about the bench share: how a line begins and ends, and how it points to a dough.

Fragments of templates (`grammar/spoken.py`): every verb on every object takes them, so that a new word of
`knowledge/words/hand.yaml` is heard beside all of them.
"""

from __future__ import annotations

import re

from grammar.lexicon import Lexicon
from grammar.spoken import matched, spoken

LEAD = r"(?:(?:<hand:polite>|<hand:eaten>)[ ,.:;!]+)*"
"""Words before a request that ask for nothing."""
END = r"(?:[ ,]+(?:<hand:polite>|<hand:again>|<hand:any_more>))*"
"""Words behind it."""
LOT = r"(?:(?:<hand:those> )+(?:<hand:lot>)(?: (?:<hand:at_hand>))?)"
"""A dough pointed to by no name: "that lot", "this batch here"."""
THIS = rf"(?:{LOT}|(?:<hand:this>))"
"""The dough in hand."""
OF = rf"(?P<of>{THIS}|(?:<hand:those>) [a-z ]+?)"
"""The dough in hand, or one said with an article."""
BEFORE = (
    r"(?:(?:<hand:those> )*(?:<hand:newest>) (?:<hand:lot> )?(?:of )?(?:<hand:those> )*(?P<kind>.+)"
    r"|(?:<hand:those> )*(?P<same>.+?) (?:<hand:last_time>))"
)
"""A dough before this one: "the last lot of these", "the baps last time"."""
AS = r"(?:<hand:as>|(?:(?:<hand:polite>) )*(?:<hand:call>) (?:<hand:this>))"
"""What stands between a dough and the name it is given."""


def is_this(words: str, lexicon: Lexicon) -> bool:
    """Whether words mean the dough in hand."""
    return matched(THIS, spoken(words, lexicon), lexicon) is not None


_NAME = r"(?P<name>.+?)(?:[ ,.!]+(?:<hand:behind_name>))*"
_QUOTED = re.compile(r"[\"“«]?([^\"“”«»]+)[\"”»]$")


def bare_name(name: str, lexicon: Lexicon) -> str:
    """A name as typed without the quotes around it and the thanks behind it."""
    said = spoken(name)
    hit = matched(_NAME, said, lexicon)
    bare = said.group(hit, "name") if hit is not None else name
    quoted = _QUOTED.match(bare)
    return quoted[1] if quoted is not None else bare
