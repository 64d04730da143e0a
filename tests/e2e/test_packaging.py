"""The wheel carries everything the program needs and nothing else, and answers from any folder."""

import json
import os
import subprocess
import sys
import tomllib
import venv
import zipfile
from pathlib import Path

import pytest

from assistant import __version__

ROOT = Path(__file__).parents[2]
ROOMS = ("assistant", "grammar", "knowledge")
DATA = {".yaml", ".lark", ".json", ".txt", ".typed"}


def source_files(*suffixes: str) -> set[str]:
    found = (path for room in ROOMS for path in (ROOT / room).rglob("*") if path.suffix in suffixes)
    return {path.relative_to(ROOT).as_posix() for path in found if "__pycache__" not in path.parts}


def test_every_package_is_listed() -> None:
    listed = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["setuptools"]["packages"]
    there = {Path(name).parent.as_posix().replace("/", ".") for name in source_files(".py")}
    assert listed == sorted(there)


def test_the_top_level_holds_what_it_should() -> None:
    made_by_building = {"build", "dist", "benchside.egg-info"}
    top = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")} - made_by_building
    assert top == {"README.md", "DEVELOPERS.md", "pyproject.toml", "tests", *ROOMS}


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A wheel built from a copy of the tree, so that nothing is left behind in it."""
    copy = tmp_path_factory.mktemp("source")
    for name in (*source_files(".py", *DATA), "pyproject.toml", "README.md"):
        (copy / name).parent.mkdir(parents=True, exist_ok=True)
        (copy / name).write_bytes((ROOT / name).read_bytes())
    out = tmp_path_factory.mktemp("wheel")
    build = [sys.executable, "-m", "build", "--wheel", "--outdir", str(out), str(copy)]
    subprocess.run(build, check=True, capture_output=True, timeout=300)
    (built,) = out.glob("*.whl")
    return built


def test_the_wheel_holds_code_facts_and_grammar_and_no_tests(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        inside = {name for name in archive.namelist() if ".dist-info/" not in name}
    assert inside == source_files(".py", *DATA)


def test_the_wheel_answers_in_an_empty_environment(wheel: Path, tmp_path: Path) -> None:
    where = tmp_path / "environment"
    venv.create(where, with_pip=True)
    folder = where / ("Scripts" if os.name == "nt" else "bin")
    constraints = ROOT / ".ci" / "constraints.txt"
    pinned = ["-c", str(constraints)] if constraints.exists() else []
    install = [str(folder / "python"), "-m", "pip", "install", "--quiet", *pinned, str(wheel)]
    subprocess.run(install, check=True, capture_output=True, timeout=600)
    elsewhere = tmp_path / "boathouse"
    elsewhere.mkdir()
    private = {"HOME": str(tmp_path), "BENCHSIDE_HOME": str(tmp_path / "home"), "PATH": os.environ["PATH"]}
    for command in ([str(folder / "benchside")], [str(folder / "python"), "-m", "assistant"]):
        asked = [*command, "--json", "18 rolls of 90 g at 65 %"]
        done = subprocess.run(asked, cwd=elsewhere, env=private, capture_output=True, text=True, timeout=60)
        assert (done.returncode, done.stderr) == (0, "")
        reply = json.loads(done.stdout)
        assert reply["kind"] == "formula" and reply["answer"]["pieces"] == 18
        assert abs(sum(row["g"] for row in reply["answer"]["mix"]) - reply["answer"]["dough_g"]) < 1
    told = subprocess.run([folder / "benchside", "--version"], env=private, capture_output=True, text=True, timeout=60)
    assert told.stdout.startswith(f"benchside {__version__} (contract 1, notebook 2, knowledge ")
