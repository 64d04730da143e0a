"""What is unusual about a dough, and what is offered for it. Nothing here changes a figure."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from assistant.engine.dough import Formula
from assistant.engine.naming import article, figure, grams, short_name
from assistant.engine.settled import Settled
from knowledge.records.thirst import Thirst

if TYPE_CHECKING:
    from knowledge import Knowledge

NAMED_FOR_WHOLEGRAIN = frozenset({"country_loaf", "wholewheat_pan", "wheat_rye", "rye_wheat", "high_rye", "crispbread",
                                  "unleavened_flat"})  # fmt: skip
"""Breads whose usual hydration already counts on wholegrain or rye."""
OFFER_FROM_POINTS = 1.0
LARGE_BATCH_G = 50_000.0

Remark = Callable[[Formula, Settled, "Knowledge"], "str | None"]


def remarks_on(formula: Formula, shares: Settled, kb: Knowledge) -> tuple[str, ...]:
    """What is unusual or must be known before weighing, most important first."""
    found = (remark(formula, shares, kb) for remark in REMARKS)
    return tuple(words for words in found if words)


def offers_on(formula: Formula, shares: Settled, kb: Knowledge) -> tuple[str, ...]:
    """What could be done otherwise, and what is good to know."""
    found = (offer(formula, shares, kb) for offer in OFFERS)
    return tuple(words for words in found if words)


def hydration(formula: Formula, shares: Settled, kb: Knowledge) -> str | None:
    """Outside the bread's range, or any dough's."""
    bread, pct = shares.bread, formula.hydration_pct
    if shares.givens.from_masses and pct == 0:
        return None  # a list without water asks for a share, not for a dough
    if bread is not None and not bread.hydration_low_pct - 0.05 <= pct <= bread.hydration_high_pct + 0.05:
        how = "wetter" if pct > bread.hydration_high_pct else "stiffer"
        return (
            f"{figure(pct)} % is {how} than usual for {article(bread.name.lower())}: "
            f"{figure(bread.hydration_low_pct)} to {figure(bread.hydration_high_pct)} %"
        )
    if bread is None and not 45 <= pct <= 90:
        return f"{figure(pct)} % hydration is unusual: most doughs have 50 to 85 %"
    return None


def salt(formula: Formula, shares: Settled, kb: Knowledge) -> str | None:
    """No salt, little, or much."""
    if not any(row.role == "salt" for row in formula.rows):
        return "no salt in it: the dough ferments faster and tastes flat"
    bread, pct = shares.bread, formula.salt_pct
    low, high = (bread.salt_low_pct, bread.salt_high_pct) if bread is not None else (1.0, 3.0)
    if low - 0.05 <= pct <= high + 0.05:
        return None
    of = f"{article(bread.name.lower())}" if bread is not None else "most doughs"
    return f"{figure(pct)} % salt is unusual for {of}: {figure(low)} to {figure(high)} %"


def hidden_salt(formula: Formula, shares: Settled, kb: Knowledge) -> str | None:
    """Salted butter, cheese or old dough bring a good deal on top."""
    more = formula.salt_total_pct - formula.salt_pct
    if more < 0.15:
        return None
    row_g = formula.flour_g * max(0.0, formula.salt_pct - more) / 100
    return (
        f"other ingredients bring {figure(more)} % salt more, {figure(formula.salt_total_pct)} % in all; "
        f"for {figure(formula.salt_pct)} % in all weigh {grams(row_g)} g"
    )


def piece(formula: Formula, shares: Settled, kb: Knowledge) -> str | None:
    """A piece the bread is not usually made in."""
    bread, g = shares.bread, formula.piece_g
    if bread is None or g is None or bread.piece_low_g * 0.9 <= g <= bread.piece_high_g * 1.1:
        return None
    usual = f"{figure(bread.piece_low_g)} to {figure(bread.piece_high_g)} g"
    return f"{grams(g)} g is unusual for {article(bread.name.lower())}: {usual}"


def loss(formula: Formula, shares: Settled, kb: Knowledge) -> str | None:
    """Much dough lost on the bench."""
    if formula.loss_pct <= 5:
        return None
    return f"{figure(formula.loss_pct)} % bench loss is a lot: 1 to 2 % stays in the bowl and on the bench"


def starter(formula: Formula, shares: Settled, kb: Knowledge) -> str | None:
    """Very little or very much starter, or one that is hard to mix."""
    detail = formula.starter
    if detail is None:
        return None
    if not 40 <= detail.hydration_pct <= 200:
        return f"a starter at {figure(detail.hydration_pct)} % hydration is unusual: 45 to 125 %"
    rye = shares.bread is not None and shares.bread.starter_usual_pct >= 40
    if formula.prefermented_pct > 40 and not rye:
        return f"{figure(formula.prefermented_pct)} % of the flour is in the starter: it ferments fast and sours"
    if formula.prefermented_pct < 1:
        return f"{figure(formula.starter_pct or 0)} % starter is very little: a slow, long rise"
    return None


def lonely_preferment(formula: Formula, shares: Settled, kb: Knowledge) -> str | None:
    """A poolish or biga with no leaven beside it."""
    names = [part.name for part in formula.preferments if part.item in ("poolish", "biga", "sponge", "old_dough")]
    raised = formula.starter is not None or any(kb.ingredients[x.item].group == "leavening" for x in shares.extras)
    if not names or raised:
        return None
    return f"the {names[0]} is the only leaven: a slow dough; add a little yeast or starter to hurry it"


def discard(formula: Formula, shares: Settled, kb: Knowledge) -> str | None:
    """Old discard is flour and water, not lift."""
    if not any(part.item == "old_discard" for part in formula.preferments):
        return None
    return "the old discard counts as flour and water, not as leaven"


def scald(formula: Formula, shares: Settled, kb: Knowledge) -> str | None:
    """Water boils off a scald."""
    part = next((part for part in formula.preferments if part.item == "scald"), None)
    if part is None:
        return None
    return f"weigh the cooled scald and make it up to {grams(part.g)} g with water: some boils off"


def thirst(formula: Formula, shares: Settled, kb: Knowledge) -> str | None:
    """The extra water that bran and rye would take, offered and not poured."""
    if (shares.bread is not None and shares.bread.id in NAMED_FOR_WHOLEGRAIN) or shares.givens.from_masses:
        return None
    wants = kb.all(Thirst)
    thirsty = [row for row in formula.rows if row.role == "flour" and row.item in wants]
    points = sum(row.pct / 10 * wants[row.item].points_per_10_pct for row in thirsty)
    if abs(points) < OFFER_FROM_POINTS:
        return None
    names = " and ".join(f"{figure(row.pct)} % {row.name}" for row in thirsty)
    at = figure(round(formula.hydration_pct + points))
    if points < 0:
        return f"for {names} you could 'make it {at}': {figure(-points)} points less water"
    return f"for {names} you could 'make it {at}': +{grams(points / 100 * formula.flour_g)} g water"


def richness(formula: Formula, shares: Settled, kb: Knowledge) -> str | None:
    """A bread that is usually rich, asked for plain."""
    bread = shares.bread
    if bread is None or shares.givens.usual or shares.givens.from_masses or bread.fat_usual_pct < 8:
        return None
    if any(kb.ingredients[extra.item].group in ("fat", "sugar", "egg", "dairy") for extra in shares.extras):
        return None
    parts = [
        f"{figure(pct)} % {name}"
        for pct, name in (
            (bread.fat_usual_pct, "fat"), (bread.sugar_usual_pct, "sugar"), (bread.egg_usual_pct, "egg"),
        )
        if pct > 0
    ]  # fmt: skip
    return f"usually with {', '.join(parts)}: say 'the usual' to have them in"


def spare(formula: Formula, shares: Settled, kb: Knowledge) -> str | None:
    """Dough over after whole pieces."""
    return f"{grams(formula.spare_g)} g of dough is left over" if formula.spare_g >= 1 else None


def batch(formula: Formula, shares: Settled, kb: Knowledge) -> str | None:
    """More than can be mixed at once."""
    if formula.dough_g < LARGE_BATCH_G:
        return None
    return f"{figure(formula.dough_g / 1000)} kg of dough is more than one mixing: make it in several"


def unknown_water(formula: Formula, shares: Settled, kb: Knowledge) -> str | None:
    """Something whose make-up nobody has measured for us."""
    names = [
        short_name(kb.ingredients[x.item]) for x in shares.extras
        if kb.ingredients[x.item].water_pct is None and kb.ingredients[x.item].group != "alkali"
    ]  # fmt: skip
    return f"what {' and '.join(names)} is made of is not known here: counted as dry" if names else None


def no_amount(formula: Formula, shares: Settled, kb: Knowledge) -> str | None:
    """Something named without an amount is not in yet."""
    names = [short_name(kb.ingredients[item]) for item in shares.open_items]
    if not names:
        return None
    return f"how much {' and '.join(names)}? None is in yet: say 'add 5 % {names[0]}'"


REMARKS: tuple[Remark, ...] = (
    no_amount, hydration, salt, piece, loss, starter, lonely_preferment, scald, batch, unknown_water,
)  # fmt: skip
OFFERS: tuple[Remark, ...] = (spare, thirst, hidden_salt, richness, discard)
