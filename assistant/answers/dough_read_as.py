"""A dough as it was understood, in plain words."""

from __future__ import annotations

from assistant.answers.dough_said import piece_name
from assistant.engine.givens import Extra, FlourShare, Givens, Preferment, Tin
from assistant.engine.naming import figure, grams, short_name
from grammar.requests.formula import FormulaRequest
from knowledge import Knowledge


def read_as(request: FormulaRequest, givens: Givens, kb: Knowledge) -> str:
    """What was understood, in plain words, every quantity with its unit."""
    said: list[str] = []
    name = piece_name(request, givens.pieces, kb)
    if givens.pieces is not None:
        each = f" of {figure(givens.piece_g)} g" if givens.piece_g is not None else ""
        said.append(f"{figure(givens.pieces)} {name}{each}")
    elif givens.piece_g is not None:
        said.append(f"{name} of {figure(givens.piece_g)} g")
    if givens.bread is not None and kb.breads[givens.bread].name.lower() not in " ".join(said):
        said.append(kb.breads[givens.bread].name.lower())
    said += [words for value, words in _masses(givens) if value is not None]
    said += _shares(givens, kb)
    said += [_flour_words(share, kb) for share in givens.flours]
    said += [_extra_words(extra, kb) for extra in givens.extras]
    said += [_preferment_words(part) for part in givens.preferments]
    said += [f"no {_name(item, kb)}" for item in givens.without]
    said += [f"{_name(item, kb)} later" for item in givens.late]
    if givens.usual:
        said.append("its usual dough")
    return ", ".join(said) if said else "a dough"


def _masses(givens: Givens) -> list[tuple[float | None, str]]:
    tin = givens.tin
    return [
        (givens.baked_g, f"{figure(givens.baked_g or 0)} g each when baked"),
        (givens.dough_g, f"{grams(givens.dough_g or 0)} g dough"),
        (givens.bowl_flour_g, f"{grams(givens.bowl_flour_g or 0)} g flour"),
        (givens.all_flour_g, f"{grams(givens.all_flour_g or 0)} g of all flour"),
        (givens.water_g, f"{grams(givens.water_g or 0)} g water"),
        (givens.starter_g, f"{grams(givens.starter_g or 0)} g starter"),
        (givens.salt_g, f"{grams(givens.salt_g or 0)} g salt"),
        (givens.old_discard_g, f"{grams(givens.old_discard_g or 0)} g old discard"),
        (givens.portions, f"enough for {figure(givens.portions or 0)}"),
        (float(tin.count) if tin is not None else None, _tin_words(tin) if tin is not None else ""),
        *((limit.g, f"at most {grams(limit.g)} g {limit.item.replace('_', ' ')}") for limit in givens.max_g),
    ]


def _tin_words(tin: Tin) -> str:
    many = f"{tin.count} {tin.shape}s" if tin.count > 1 else f"a {tin.shape}"
    if tin.ml is not None:
        return f"{many} of {grams(tin.ml)} ml"
    if tin.diameter_cm is not None:
        deep = f", {figure(tin.depth_cm)} cm deep" if tin.depth_cm is not None else ""
        return f"{many} of {figure(tin.diameter_cm)} cm{deep}"
    lengths = [tin.length_cm, tin.width_cm, tin.base_length_cm, tin.base_width_cm, tin.depth_cm]
    return f"{many} of {' x '.join(figure(x) for x in lengths if x is not None)} cm"


def _shares(givens: Givens, kb: Knowledge) -> list[str]:
    salt_pct = None if "salt" in givens.without else givens.salt_pct
    salt = short_name(kb.ingredients[givens.salt_item]) if givens.salt_item is not None else "salt"
    starter_pct = None if "starter" in givens.without else givens.starter_pct
    shares = [
        (givens.hydration_pct, "hydration"), (salt_pct, salt), (starter_pct, "starter"),
        (givens.prefermented_pct, "prefermented flour"), (givens.loss_pct, "bench loss"),
        (givens.held_water_pct, "of the water held back"),
    ]  # fmt: skip
    said = [f"{figure(value)} % {words}" for value, words in shares if value is not None]
    if givens.starter_hydration_pct is not None:
        said.append(f"starter at {figure(givens.starter_hydration_pct)} % hydration")
    if givens.starter_flour is not None:
        said.append(f"starter fed with {_name(givens.starter_flour, kb)}")
    return said


def _flour_words(share: FlourShare, kb: Knowledge) -> str:
    name = short_name(kb.ingredients[share.item])
    if share.g is not None:
        return f"{grams(share.g)} g {name}"
    return f"{figure(share.pct)} % {name}" if share.pct is not None else name


def _extra_words(extra: Extra, kb: Knowledge) -> str:
    name = short_name(kb.ingredients[extra.item])
    if extra.g is not None:
        return f"{grams(extra.g)} g {name}"
    name = f"soaked {name}" if extra.soaked else name
    return f"{figure(extra.pct)} % {name}" if extra.pct is not None else name


def _preferment_words(part: Preferment) -> str:
    at = f" at {figure(part.hydration_pct)} %" if part.hydration_pct is not None else ""
    name = part.kind.replace("_", " ") + at
    if part.flour_pct is not None:
        return f"{figure(part.flour_pct)} % of the flour in a {name}"
    if part.pct is not None:
        return f"{figure(part.pct)} % {name}"
    return f"{grams(part.g)} g {name}" if part.g is not None else name


def _name(item: str, kb: Knowledge) -> str:
    return short_name(kb.ingredients[item]) if item in kb.ingredients else item
