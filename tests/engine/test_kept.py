"""What is kept from one call to the next changes no answer: it follows from what it is asked with alone."""

import json
import random
import sys
from itertools import combinations
from typing import Any

from attrs import evolve
from foamwright import page
from foamwright.estimate import as_json, estimate
from foamwright.project import Project
from foamwright.project.model import Base, Block, Fill, Market, Opening, Part, Skin, Skins, Wall
from foamwright.project.read import read_project
from foamwright.project.write import write_project
from foamwright.reader import Reader, speaker
from foamwright.shape.plan import near, plan_of, shared_depth
from foamwright.sheets import form
from foamwright.sheets.desk import Desk
from foamwright.sheets.fields import LAYOUT

READER = {"language": "es", "units": "us"}
MIXED = Project(
    parts=(
        Part(id="dome", openings=(Opening(), Opening(form="round", sill_m=1.2, azimuth_deg=90.0))),
        Part(id="vault", shape="vault", at_m=(12.0, 0.0), openings=(Opening(face="end_a"),)),
        Part(id="wall", shape="wall", at_m=(24.0, 0.0), wall=Wall(build="infill"), openings=(Opening(side=2),)),
        Part(id="roof", shape="fill", fill=Fill(kind="falls")),
        Part(id="order", shape="blocks"),
        Part(id="low", profile="pointed", rise_m=1.0, at_m=(40.0, 0.0)),
    ),
    base=Base(kind="footing"),
    skins=Skins(Skin(kind="thin_mesh"), Skin(kind="lath")),
)
EDITS = (
    ("parts[0].thickness_m", "9"), ("parts[2].openings[0].width_m", "3"), ("parts[5].rise_m", "11"), ("parts[1].id", "barrel"),
    ("block.height_m", "10"), ("base.kind", "ring_beam"), ("parts[3].fill.kind", "layer"), ("market.currency", "EUR"),
    ("parts[5].rise_m", "3"), ("parts[0].shape", "vault"),
)  # fmt: skip


def _forget() -> None:
    rooms = ("shape", "site", "structure", "finishes", "material", "sheets", "project")
    for name, module in list(sys.modules.items()):
        if name.startswith(tuple(f"foamwright.{room}" for room in rooms)):
            for value in list(vars(module).values()):
                if hasattr(value, "cache_clear"):
                    value.cache_clear()


def _call(op: str, **args: Any) -> Any:
    return json.loads(page.call(op, json.dumps({"reader": READER, "want": None} | args)))["value"]


def test_edit_after_edit_gives_what_a_fresh_start_gives() -> None:
    """The answer to every edit, all sheets and the form in it, is that of an engine that remembers nothing."""
    source = write_project(MIXED)
    for path, text in EDITS:
        answer = _call("edit", project=source, path=path, text=text)
        assert answer["outcome"] == "taken"
        _forget()
        assert _call("edit", project=source, path=path, text=text) == answer
        source = answer["project"]
    assert read_project(source).project != MIXED


def test_the_fields_of_a_part_follow_from_what_they_are_kept_by() -> None:
    """Worded within the whole project they are the same."""
    layout: Any = next(part[1] for part in LAYOUT["shape"] if part[0] == "parts")
    bare = evolve(MIXED, base=Base(), skins=Skins(), block=Block(joint_m=0.01), market=Market(currency="MXN"))
    for project in (MIXED, bare, evolve(MIXED, parts=MIXED.parts[:1])):
        desk = Desk(project, estimate(project), speaker(Reader(language="ar", units="us")))
        for i, entries in enumerate(form._of_parts(desk)):
            assert entries == form._entries(desk, layout, f"parts[{i}]")


def test_only_plans_far_apart_are_passed_over() -> None:
    """Every pair that shares ground is among those that are looked at; circles, vaults and walls at any place and turn."""
    source = random.Random(1)
    for _ in range(20):
        parts = [
            Part(
                shape=source.choice(("dome", "vault", "wall")),
                at_m=(source.uniform(-20, 20), source.uniform(-20, 20)),
                bearing_deg=source.uniform(0, 359),
            )
            for _ in range(20)
        ]
        plans = tuple(plan_of(part) for part in parts)
        sharing = {(i, j) for i, j in combinations(range(len(plans)), 2) if shared_depth(plans[i], plans[j]) > 1e-9}
        found = near(plans)
        assert sharing and sharing <= set(found) and list(found) == sorted(set(found))
        assert len(found) < len(plans) * (len(plans) - 1) / 2


def test_a_hundred_parts_add_up() -> None:
    """A hundred domes are a hundred times one, and every part has its place."""
    one = Part(id="0", at_m=(0.0, 0.0))
    many = Project(parts=tuple(evolve(one, id=str(i), at_m=(10.0 * (i % 10), 10.0 * (i // 10))) for i in range(100)))
    alone, made = (as_json(estimate(project))["estimate"] for project in (Project(parts=(one,)), many))
    assert made["shape"]["places"] == list(range(100))
    assert abs(made["shape"]["shell_volume_m3"] / alone["shape"]["shell_volume_m3"] - 100) < 1e-9
    assert made["blocks"]["count"] == 100 * alone["blocks"]["count"]
    assert "parts_overlap" not in {note.code for note in estimate(many).notes}
