"""Imports go one way: project, rooms, estimate, reader, sheets, page; no room reaches ahead."""

import os
import subprocess
import sys
from pathlib import Path

import grimp
import pytest

import foamwright

CONTRACTS = Path(__file__).with_name("importlinter.ini")
ENGINE = Path(foamwright.__file__).parents[1]


def lint(path: Path) -> subprocess.CompletedProcess[str]:
    """Run the contracts over the package ``foamwright`` in a folder."""
    script = (
        "import sys; from importlinter.cli import lint_imports; "
        f"sys.exit(lint_imports(config_filename={str(CONTRACTS)!r}, no_cache=True))"
    )
    environment = {**os.environ, "PYTHONPATH": str(path), "PYTHONUTF8": "1"}
    return subprocess.run(
        [sys.executable, "-c", script],
        env=environment,
        cwd=path,
        capture_output=True,
        text=True,
        timeout=120,
    )


def test_the_engine_keeps_the_contracts() -> None:
    run = lint(ENGINE)
    assert run.returncode == 0, run.stdout + run.stderr


ROOMS = ("project", "shape", "material", "structure", "finishes", "site", "money", "diary", "reader", "sheets")


@pytest.mark.parametrize(
    ("module", "statement"),
    [
        ("project/read.py", "import foamwright.shape"),
        ("shape/dome.py", "from foamwright import material"),
        ("material/mix.py", "def late():\n    import foamwright.sheets"),
        ("estimate.py", "import foamwright.reader"),
        ("shape/dome.py", "import pint"),
        ("odd.py", ""),
    ],
)
def test_the_contracts_can_be_broken(tmp_path: Path, module: str, statement: str) -> None:
    package = tmp_path / "foamwright"
    for room in ROOMS:
        (package / room).mkdir(parents=True)
        (package / room / "__init__.py").touch()
    for file in ("__init__.py", "estimate.py", "page.py", "__main__.py"):
        (package / file).touch()
    kept = lint(tmp_path)
    assert kept.returncode == 0, kept.stdout + kept.stderr
    (package / module).write_text(statement + "\n", encoding="utf-8")
    broken = lint(tmp_path)
    assert broken.returncode == 1 and "BROKEN" in broken.stdout, broken.stdout + broken.stderr


def test_the_diary_reads_the_project_and_the_material_alone() -> None:
    """Hold the one room beside the road; the graph of a pretend diary shows that the rule bites."""
    graph = grimp.build_graph("foamwright", cache_dir=None)
    assert not strangers(graph)
    graph.add_module("foamwright.diary.pretend")
    graph.add_import(importer="foamwright.diary.pretend", imported="foamwright.project.model")
    assert not strangers(graph)
    graph.add_import(importer="foamwright.diary.pretend", imported="foamwright.estimate")
    assert strangers(graph) == {"foamwright.estimate"}


def strangers(graph: grimp.ImportGraph) -> set[str]:
    """Give what the diary imports and should not."""
    allowed = ("foamwright.diary", "foamwright.project", "foamwright.material", "foamwright.data")
    imported = {
        found
        for module in graph.modules
        if module.split(".")[1:2] == ["diary"]
        for found in graph.find_modules_directly_imported_by(module)
    }
    return {found for found in imported if not found.startswith(allowed)}
