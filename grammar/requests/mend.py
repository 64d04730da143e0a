"""A mistake told: too much, too little, forgotten, the wrong thing. What puts it right is asked for."""

from __future__ import annotations

from grammar.follow import Follow
from grammar.frames import Frame
from grammar.levels import LIKELY, MAYBE, UNLIKELY, speaks
from grammar.mishap_words import THING
from grammar.requests.mend_build import build
from grammar.requests.mend_follow import followed, reads
from grammar.requests.mend_request import SAME, MendRequest
from grammar.roles import take
from grammar.slots import Slot

ONWARD = Frame(
    MendRequest, "mend", build, reads=reads, settles=True
)

FRAME = Frame(
    MendRequest,
    "mend",
    build,
    follow=Follow(
        alone=lambda line, earlier, bound: line.mistake != SAME, account=followed,
    ),
    slots={
        "mass": take("told_amount", bare=MAYBE, many=True),
        "water_c": Slot(
            {"temperature": 1.4, "num": -0.2}, bare=0.2, low=1, high=212,
            cues=("mistake:hot_water", "kettle:*", "ingredient:water", "cue:water"),
        ),
        "late_min": Slot({"time": 1.0}, cues=("so_far:*", "mistake:*"), bare=0.5, low=1, high=3000),
        "made": take("made_pieces"),
        "pieces": take("pieces"),
        "piece_g": take("piece_g", cues=("piece:*", "bread:*"), weight=-LIKELY),
        "dough_g": take("dough_g", cues=("cue:dough", "cue:total", "look:loaf_of"), weight=UNLIKELY),
        "stage": Slot(term=("so_far:*",), weight=-0.4),
        "thing": Slot(term=THING, many=True),
        "absent": Slot(term=(*THING, "piece:*", "bread:*"), without=True, many=True),
        "piece": Slot(term=("piece:*", "bread:*"), many=True, weight=-0.6),
    },
    cues=speaks(
        alone="mistake:twice mistake:thrice mistake:short_pieces",
        telling="mistake:* stance:should act:double act:triple cue:double step_left:* put_in:*",
        certain="stance:called_for look:loaf_of into:oz feel:*",
        sure="cue:recipe_given so_far:* cue:limit",
        likely="stance:holds unit:* implies:* cue:dough cue:greater kettle:*",
        maybe=(
            "stance:was stance:at_hand cue:formula mark:mix state:moved cue:stiff cue:liquid_starter ask:what "
            "ask:can_i ask:how_much ask:how_to ask:is_it act:add cue:fewer act:correct ask:when"
        ),
        seldom="look:so_far cue:hydration cue:piece_mass",
        heard="span:now negation:no cue:missing link:instead_of tail:* look:risen cue:risen state:gone",
    ),
    needs=(
        "mistake:*", "feel:*", "act:double", "act:triple", "cue:double", "link:instead_of", "stance:called_for",
        "stance:should", "cue:limit", "put_in:*",
    ),
    rules_out=("cue:use_up", "feeding:less_discard", "feeding:twice", "feeding:left_over"),
    base=0.2,
)  # fmt: skip

FRAMES = (ONWARD,)
