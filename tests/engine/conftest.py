"""The constants of the models, read once, and the three marks a figure is tested under."""

from collections.abc import Callable, Mapping

import pytest

from assistant.engine.growth import Kinetics, kinetics
from assistant.engine.heat import Heat, heat_constants
from assistant.engine.plan.asked import Batch, Trade
from assistant.engine.plan.batches import usual_batch
from assistant.engine.starter import Habits, habits
from knowledge import load
from knowledge.records.bench_work import BenchWork
from knowledge.records.kinetics import Kinetic
from knowledge.records.process import Process


def pytest_configure(config: pytest.Config) -> None:
    config.addinivalue_line("markers", "science: a measured figure or an exact law")
    config.addinivalue_line("markers", "trade_window: a range the trade states, wide on purpose")
    config.addinivalue_line("markers", "regression: a figure of our own model, to notice a change")


@pytest.fixture(scope="session")
def records() -> Mapping[str, Kinetic]:
    return load().all(Kinetic)


@pytest.fixture(scope="session")
def k(records: Mapping[str, Kinetic]) -> Kinetics:
    return kinetics(records)


@pytest.fixture(scope="session")
def heat(records: Mapping[str, Kinetic]) -> Heat:
    return heat_constants(records)


@pytest.fixture(scope="session")
def h(records: Mapping[str, Kinetic]) -> Habits:
    return habits(records)


@pytest.fixture(scope="session")
def trade() -> Trade:
    """The trade constants plans are computed with."""
    records = load().all(Kinetic)
    return Trade(kinetics(records), heat_constants(records), load().all(BenchWork), records)


@pytest.fixture(scope="session")
def batch() -> Callable[[str, int], Batch]:
    """Makes the usual batch of a bread."""
    kb = load()
    processes = {bread: process for process in kb.all(Process).values() for bread in process.breads}
    return lambda bread, pieces: usual_batch(kb.breads[bread], processes[bread], pieces=pieces)
