"""Projects made for tests: every field, every limit, any value that the rules allow."""

import random
from collections.abc import Callable, Collection
from typing import Any

import attrs

from foamwright.project.model import Project

Pick = Callable[[str, Any], Any]


def build(cls: type[Any], pick: Pick, path: str = "", only: Collection[str] | None = None) -> Any:
    """Build a group, asking ``pick(path, attribute)`` for every value; for lists, for their length.

    Fields that are not in ``only`` keep their defaults.
    """
    values: dict[str, Any] = {}
    for attribute in attrs.fields(cls):
        if only is not None and attribute.name not in only:
            continue
        meta = attribute.metadata
        here = f"{path}.{attribute.name}"
        if meta["kind"] == "group":
            values[attribute.name] = build(meta["cls"], pick, here)
        elif meta["kind"] == "many":
            values[attribute.name] = tuple(
                build(meta["cls"], pick, f"{here}[{index}]") for index in range(pick(here, attribute))
            )
        else:
            values[attribute.name] = pick(here, attribute)
    return cls(**values)


def together(project: Project) -> Project:
    """Make the fields that must go together do so."""
    bucket = project.bucket
    low, aim, high = sorted((bucket.foam_low_kg_m3, bucket.foam_aim_kg_m3, bucket.foam_high_kg_m3))
    marks = project.batch.drum_marks
    volumes = sorted({mark.volume_l for mark in marks})
    heights = sorted({mark.height_m for mark in marks})
    ordered = tuple(
        attrs.evolve(marks[0], volume_l=volume, height_m=height)
        for volume, height in zip(volumes, heights, strict=False)
    )
    parts = tuple(
        attrs.evolve(part, id=f"{index}{part.id}"[:40]) for index, part in enumerate(project.parts)
    )
    return attrs.evolve(
        project,
        bucket=attrs.evolve(bucket, foam_low_kg_m3=low, foam_aim_kg_m3=aim, foam_high_kg_m3=high),
        batch=attrs.evolve(project.batch, drum_marks=ordered),
        parts=parts,
    )


def largest_project() -> Project:
    """Build a project with every list full, every text full of costly letters, every digit used."""
    source = random.Random(1)

    def pick(path: str, attribute: Any) -> Any:
        meta = attribute.metadata
        if meta["kind"] == "many":
            return meta["most"]
        if meta["kind"] == "text":
            if attribute.name in ("currency", "from_currency"):
                return "XTS"
            if attribute.name == "date":
                return "2026-03-31"
            return "".join(chr(source.randrange(0x1F300, 0x1F600)) for _ in range(meta["longest"]))
        if meta["kind"] == "choice":
            return max(meta["choices"], key=len)
        if meta["kind"] == "names":
            return meta["choices"]
        if meta["kind"] == "row":
            return tuple(source.uniform(meta["low"], meta["high"]) for _ in range(meta["length"]))
        if meta["kind"] == "points":
            each = [tuple(source.uniform(meta["low"], meta["high"]) for _ in range(2)) for _ in range(meta["most"])]
            return tuple(each)
        if meta["kind"] == "numbers":
            return tuple(range(1, meta["most"] + 1))
        if meta["whole"]:
            return meta["high"]
        return source.uniform(meta["low"], meta["high"])

    return together(build(Project, pick))


def paths_of(item: Any, path: str = "") -> list[tuple[str, Any]]:
    """List every field of a project by its path, lists of groups by their items."""
    found: list[tuple[str, Any]] = []
    for attribute in attrs.fields(type(item)):
        value = getattr(item, attribute.name)
        here = f"{path}.{attribute.name}" if path else attribute.name
        if attribute.metadata["kind"] == "group":
            found += paths_of(value, here)
        elif attribute.metadata["kind"] == "many":
            for index, one in enumerate(value):
                found += paths_of(one, f"{here}[{index}]")
        else:
            found.append((here, value))
    return found
