"""Imports run one way: terminal → conversation → answers → engine → knowledge; the grammar stands alone."""

import ast
from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path

import pytest

ROOMS = ("assistant", "grammar", "knowledge")


def folder_of(room: str) -> Path:
    spec = find_spec(room)
    assert spec is not None and spec.origin is not None
    return Path(spec.origin).parent


MODULES = {
    ".".join((room, *path.relative_to(folder_of(room)).with_suffix("").parts)).removesuffix(".__init__"): path
    for room in ROOMS
    for path in sorted(folder_of(room).rglob("*.py"))
}

# What the modules under a name may import of ours; the longest name that fits counts.
MAY_IMPORT = {
    "knowledge": ("knowledge",),
    "grammar": ("grammar",),
    "assistant.engine": ("assistant.engine", "knowledge"),
    "assistant.notebook": ("assistant.notebook",),
    "assistant.voice": (
        "assistant.voice", "assistant.talk.reply", "assistant.talk.local_time", "assistant.engine", "knowledge",
        "grammar",
    ),
    "assistant.answers": (
        "assistant.answers", "assistant.engine", "assistant.voice", "assistant.talk.bench", "assistant.talk.kitchen",
        "assistant.talk.doughs", "assistant.talk.named_doughs", "assistant.talk.lexicon", "assistant.talk.room",
        "assistant.talk.local_time",
        "assistant.talk.reply", "assistant.talk.memory", "assistant.notebook.event", "assistant.papers.recipe_file",
        "assistant.papers.recipe_words", "assistant.papers.recipes",
        "grammar", "knowledge",
    ),
    "assistant.terminal": (
        "assistant.terminal", "assistant.talk.chat", "assistant.voice.page", "assistant.voice.width",
        "assistant.command.plain", "assistant.command.lines", "assistant.command.log",
    ),
    "assistant": ("assistant", "grammar", "knowledge"),
}  # fmt: skip

# Packages that only one corner of the house may know.
ONLY_IN = {
    "prompt_toolkit": ("assistant.terminal",),
    "pint": ("knowledge.units",),
    "sqlite3": ("assistant.notebook",),
    "lark": ("grammar",),
    "yaml": ("knowledge", "grammar.roles"),  # the reader's own table, written as YAML and kept as JSON
}

OUR_WORLD = {"time", "random", "os", "sys", "pathlib", "io", "logging", "subprocess", "socket", "tempfile", "shutil"}
CALLS_OUT = {"print", "open", "input"}


def under(module: str, name: str) -> bool:
    return module == name or module.startswith(name + ".")


def imports_of(module: str) -> Iterator[tuple[str, int, bool]]:
    """Each name imported (dotted), its line, and whether it stands at module level."""
    tree = ast.parse(MODULES[module].read_text(encoding="utf-8"))
    package = module if MODULES[module].name == "__init__.py" else module.rpartition(".")[0]
    outermost = {id(node) for node in tree.body}
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            for name in node.names:
                yield name.name, node.lineno, id(node) in outermost
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            if node.level:
                above = package.split(".")[: len(package.split(".")) - node.level + 1]
                base = ".".join([*above, *filter(None, [base])])
            for name in node.names:
                yield f"{base}.{name.name}", node.lineno, id(node) in outermost


def test_every_room_is_there() -> None:
    assert {module.partition(".")[0] for module in MODULES} == set(ROOMS) and len(MODULES) > 50


@pytest.mark.parametrize("module", MODULES)
def test_no_arrow_runs_the_wrong_way(module: str) -> None:
    room = max((name for name in MAY_IMPORT if under(module, name)), key=len)
    wrong = [
        f"{MODULES[module]}:{line} imports {name}"
        for name, line, _ in imports_of(module)
        if name.partition(".")[0] in ROOMS and not any(under(name, allowed) for allowed in MAY_IMPORT[room])
    ]
    assert wrong == []


@pytest.mark.parametrize("module", MODULES)
def test_a_package_is_known_in_its_corner_alone(module: str) -> None:
    wrong = [
        f"{MODULES[module]}:{line} imports {name}"
        for name, line, _ in imports_of(module)
        for package, corners in ONLY_IN.items()
        if under(name, package) and not any(under(module, corner) for corner in corners)
    ]
    assert wrong == []


@pytest.mark.parametrize("module", [module for module in MODULES if under(module, "knowledge.units")])
def test_pint_is_imported_only_when_needed(module: str) -> None:
    assert [line for name, line, at_module_level in imports_of(module) if under(name, "pint") and at_module_level] == []


@pytest.mark.parametrize("module", [module for module in MODULES if under(module, "assistant.engine")])
def test_the_engine_reads_no_clock_prints_nothing_and_opens_nothing(module: str) -> None:
    wrong = [f"imports {name}" for name, _, _ in imports_of(module) if name.partition(".")[0] in OUR_WORLD]
    for node in ast.walk(ast.parse(MODULES[module].read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call):
            called = node.func
            if isinstance(called, ast.Name) and called.id in CALLS_OUT:
                wrong.append(f"line {node.lineno} calls {called.id}")
            if isinstance(called, ast.Attribute) and called.attr in {"now", "today", "utcnow"}:
                wrong.append(f"line {node.lineno} asks the clock")
        if isinstance(node, ast.Global):
            wrong.append(f"line {node.lineno} has a global")
    assert wrong == []


@pytest.mark.parametrize("module", [module for module in MODULES if under(module, "assistant.voice")])
def test_the_voice_takes_result_types_from_the_engine_and_no_arithmetic(module: str) -> None:
    figures = ("assistant.engine.naming", "assistant.engine.rounding")  # how figures are named and rounded
    taken = [
        name
        for name, _, _ in imports_of(module)
        if under(name, "assistant.engine") and not any(under(name, allowed) for allowed in figures)
    ]
    assert [name for name in taken if not name.rpartition(".")[2][:1].isupper()] == []
