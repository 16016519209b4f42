"""Writing project files: little, in order, and to the last bit."""

import json
from pathlib import Path

import attrs
import pytest
import record
from record import current_defaults

from foamwright.project.model import FORMAT, Opening, Part, Place, Price, Project
from foamwright.project.read import MAX_BYTES, read_project
from foamwright.project.write import as_data, project_hash, write_project
from projects import largest_project

DATA = Path(__file__).parents[1] / "data"


def test_only_differences_are_written_in_the_order_of_the_fields() -> None:
    project = Project(
        parts=(Part(thickness_m=0.25, openings=(Opening(), Opening(count=2))),),
        place=Place(elevation_m=1200.0, name="قرية"),
        note="two\nlines",
    )
    assert write_project(project) == (
        '{\n  "format": 1,\n  "note": "two\\nlines",\n  "place": {\n    "name": "قرية",\n'
        '    "elevation_m": 1200\n  },\n  "parts": [\n    {\n      "thickness_m": 0.25,\n'
        '      "openings": [\n        {},\n        {\n          "count": 2\n        }\n      ]\n    }\n  ]\n}\n'
    )


@pytest.mark.parametrize("name", ["typical.json", "twelve_openings_arabic.json"])
@pytest.mark.parametrize("full", [False, True])
def test_round_trip(name: str, full: bool) -> None:
    project = read_project((DATA / name).read_bytes()).project
    assert project is not None
    again = read_project(write_project(project, full=full))
    assert again.project == project and not again.problems


def test_typical_is_the_case_that_it_is_named_after() -> None:
    project = read_project((DATA / "typical.json").read_bytes()).project
    assert project is not None
    (part,) = project.parts
    assert len(project.name) == 20
    assert sum(line.price is not None for line in project.market.prices) == 5
    assert [opening.count for opening in part.openings] == [1, 4]
    assert "Invented" in project.note


def test_the_arabic_one_has_twelve_openings() -> None:
    project = read_project((DATA / "twelve_openings_arabic.json").read_bytes()).project
    assert project is not None
    assert sum(opening.count for opening in project.parts[0].openings) == 12


def test_floats_are_written_to_the_last_bit() -> None:
    for value in (0.1 + 0.2, 1 / 3, 5e-324 + 0.5, 1.4999999999999998, 6 * 3.785411784 / 20):
        project = Project(parts=(Part(stem_height_m=value),))
        assert read_project(write_project(project)).project == project


def test_the_largest_project_can_be_saved_and_opened() -> None:
    project = largest_project()
    text = write_project(project, full=True)
    assert len(text.encode("utf-8")) <= MAX_BYTES
    again = read_project(text)
    assert again.problems == () and again.project == project


def test_hash_follows_equality() -> None:
    project = read_project((DATA / "typical.json").read_bytes()).project
    assert project is not None
    again = read_project(write_project(project, full=True)).project
    assert again is not None and again is not project
    assert project_hash(project) == project_hash(again)
    changed = attrs.evolve(project, name=project.name + ".")
    assert project_hash(project) != project_hash(changed)
    assert project_hash(Project(name="\ud800")), "even a name that no file could hold"


def test_hash_is_the_same_on_every_machine() -> None:
    # A regression value: stored sheets are found again by it.
    assert project_hash(Project()) == "3f0a99256beeb89a6b9f2793885291a6"


def test_data_shares_nothing_with_the_project() -> None:
    project = Project(market=attrs.evolve(Project().market, prices=(Price(),)))
    as_data(project, full=True)["market"]["prices"].clear()
    assert project.market.prices == (Price(),)


def test_a_changed_default_needs_a_new_format() -> None:
    """Hold the defaults of this format still; ``record.py`` adds those of new fields.

    A file and a link state only what differs from the defaults, so changing one would silently change
    every project that was sent out. To change one: raise FORMAT and add a migration step that writes
    the old default out.
    """
    stored = json.loads((DATA / f"defaults_format_{FORMAT}.json").read_text("utf-8"))
    assert stored == current_defaults()


def test_what_is_stored_is_never_overwritten(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("DEFAULTS", "NUMBERS", "CODES"):
        path = tmp_path / getattr(record, name).name
        path.write_bytes(getattr(record, name).read_bytes())
        monkeypatch.setattr(record, name, path)
    before = {path: path.read_bytes() for path in tmp_path.iterdir()}
    assert record.main() == 0
    assert before == {path: path.read_bytes() for path in tmp_path.iterdir()}, "nothing is new"
    defaults = current_defaults()
    new = {**defaults, "Part": {**defaults["Part"], "colour": "white"}}
    monkeypatch.setattr(record, "current_defaults", lambda: new)
    assert record.main() == 0
    assert json.loads(record.DEFAULTS.read_text("utf-8")) == new, "a new field is added"
    changed = {**new, "Part": {**new["Part"], "thickness_m": 0.5}}
    monkeypatch.setattr(record, "current_defaults", lambda: changed)
    assert record.main() == 1
    assert json.loads(record.DEFAULTS.read_text("utf-8")) == new, "a changed default is not stored"
