"""A request that was understood and cannot be granted."""

from __future__ import annotations

from collections.abc import Mapping


class Refused(Exception):
    """Impossible, contradictory or unsafe: says which given, why, and the nearest thing that works.

    Args:
        why: one sentence in the baker's words, naming the given and its figure.
        nearest: the nearest thing that works, in words; None where there is none.
        nearest_answer: the same as an answer a program can read; None where there is none.
        question: what was asked, where the next line may change it ("at noon then"); None where it is over.
        read_as: what was understood, in words; empty where the reason tells it.
        kept: what stands all the same (the bench with a dough that was named beside an hour it cannot keep).
    """

    def __init__(
        self,
        why: str,
        nearest: str | None = None,
        nearest_answer: Mapping[str, object] | None = None,
        question: object | None = None,
        read_as: str = "",
        kept: object | None = None,
    ) -> None:
        super().__init__(why)
        self.why = why
        self.nearest = nearest
        self.nearest_answer = nearest_answer
        self.question = question
        self.read_as = read_as
        self.kept = kept
