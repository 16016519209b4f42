"""The form: fields, groups and lists as plain data, each in the reader's words and units."""

import re
from collections.abc import Callable
from functools import cache, lru_cache
from typing import Any, Final

import attrs
from attrs import evolve

from foamwright.estimate import Outcome
from foamwright.finishes import PUBLISHED, has_mesh
from foamwright.project.model import SHELLS, Opening, Part, Project
from foamwright.reader import N_, Speaker
from foamwright.shape.joined import JOINED
from foamwright.sheets.desk import Desk, pattern
from foamwright.sheets.fields import CHOICES, FIELDS, LAYOUT, LISTS, FieldText

Entry = dict[str, Any]

#: Fields that stand only where another field makes them mean something: pattern -> (sibling, values).
_ONLY_IF: Final[dict[str, tuple[str, tuple[str, ...]]]] = {
    "parts[].openings[].width_m": ("form", ("rectangular", "arched", "pointed")),
    "parts[].openings[].height_m": ("form", ("rectangular", "arched", "pointed")),
    "parts[].openings[].diameter_m": ("form", ("round",)),
    "parts[].openings[].hood_projection_m": ("hood", ("head", "around")),
    "parts[].openings[].hood_thickness_m": ("hood", ("head", "around")),
    "batch.drum_diameter_m": ("drum_form", ("straight",)),
    "batch.drum_bottom_diameter_m": ("drum_form", ("tapered",)),
    "batch.drum_top_diameter_m": ("drum_form", ("tapered",)),
    "batch.drum_depth_m": ("drum_form", ("tapered",)),
    "batch.drum_marks": ("drum_form", ("calibrated",)),
    "market.prices[].label": ("item", ("other",)),
    "market.prices[].quantity": ("item", ("other",)),
}
#: Fields of a part that mean something only for some shapes, and of its openings likewise.
_PART_HAS: Final[dict[str, Callable[[Part], bool]]] = {
    "profile": lambda part: part.shape in SHELLS,
    "stem_height_m": lambda part: part.shape in SHELLS,
    "crown_thickness_m": lambda part: part.shape in SHELLS,
    "plan_form": lambda part: _planned(part),
    "plan": lambda part: _planned(part) and part.plan_form in ("polygon", "run"),
    "inside_diameter_m": lambda part: part.shape == "dome" or (_planned(part) and part.plan_form == "circle"),
    "inside_span_m": lambda part: part.shape == "vault" or (_planned(part) and part.plan_form == "rectangle"),
    "length_m": lambda part: part.shape == "vault" or (_planned(part) and part.plan_form == "rectangle"),
    "thickness_m": lambda part: part.shape != "fill",
    "ends": lambda part: part.shape == "vault",
    "end_thickness_m": lambda part: part.shape == "vault" and part.ends != "open",
    "rise_m": lambda part: part.shape in SHELLS and part.profile not in ("hemisphere", "semicircle"),
    "crown_opening_m": lambda part: part.shape == "dome",
    "crown_closed_by": lambda part: part.shape == "dome" and part.crown_opening_m > 0,
    "openings": lambda part: part.shape in (*SHELLS, "wall"),
    "wall.gable_rise_m": lambda part: part.plan_form != "circle",
    "wall.gable_sides": lambda part: part.plan_form != "circle" and part.wall.gable_rise_m > 0,
    "wall.post_width_m": lambda part: part.wall.build == "infill",
    "wall.post_spacing_m": lambda part: part.wall.build == "infill",
    "wall.ring_beams": lambda part: part.wall.build == "infill",
    "wall.ring_beam_height_m": lambda part: part.wall.build == "infill" and part.wall.ring_beams > 0,
    "wall.steel_sized": lambda part: part.wall.build == "infill",
    "wall.steel_sized_by": lambda part: _barred_wall(part) and part.wall.steel_sized == "typed",
    "wall.bar_diameter_m": lambda part: _barred_wall(part),
    "wall.post_bars": lambda part: _barred_wall(part),
    "wall.beam_bars": lambda part: _barred_wall(part) and part.wall.ring_beams > 0,
    "wall.brace_kn": lambda part: part.wall.gust_m_s is not None,
    "fill.depth_m": lambda part: part.fill.kind != "void",
    "fill.slope_fraction": lambda part: part.fill.kind == "falls",
    "fill.fall_deg": lambda part: part.fill.kind == "falls" and part.plan_form != "circle",
    "fill.volume_m3": lambda part: part.fill.kind == "void",
    "fill.void_depth_m": lambda part: part.fill.kind == "void",
}
_OPENING_HAS: Final[dict[str, Callable[[Part, Opening], bool]]] = {
    "face": lambda part, _: part.shape == "vault",
    "side": lambda part, _: _straight(part),
    "along_m": lambda part, opening: _straight(part) or (part.shape == "vault" and opening.face != "around"),
    "azimuth_deg": lambda part, opening: not _straight(part) and (part.shape != "vault" or opening.face == "around"),
    "spacing_deg": lambda part, opening: not _straight(part) and (part.shape != "vault" or opening.face == "around"),
}
#: Fields of a part that mean something only beside other parts.
_BESIDE_OTHERS: Final = ("at_m", "at_m[0]", "at_m[1]", "bearing_deg")
#: Groups of a part that mean something for one shape alone.
_OF_SHAPE: Final = {"wall": "wall", "fill": "fill", "order": "blocks"}


def _planned(part: Part) -> bool:
    """Whether a part follows a plan of its own."""
    return part.shape == "wall" or (part.shape == "fill" and part.fill.kind != "void")


def _straight(part: Part) -> bool:
    return part.shape == "wall" and part.plan_form != "circle"


def _barred_wall(part: Part) -> bool:
    return part.wall.build == "infill" and part.wall.steel_sized != "unsized"


def _framed(project: Project) -> bool:
    """Whether posts and beams of some wall take concrete."""
    return any(part.shape == "wall" and part.wall.build == "infill" for part in project.parts)


_BUILT: Final = ("footing", "ring_beam")


def _coated(project: Project) -> bool:
    return any(skin.kind in PUBLISHED for skin in (project.skins.outside, project.skins.inside))


def _built(project: Project) -> bool:
    return project.base.kind in _BUILT


def _meshed(project: Project) -> bool:
    return has_mesh(project.skins.outside) or has_mesh(project.skins.inside)


def _barred(project: Project) -> bool:
    return (_built(project) and project.base.steel_sized != "unsized") or any(
        part.shape == "wall" and _barred_wall(part) for part in project.parts
    )


def _slab(project: Project) -> bool:
    return _built(project) and project.base.floor == "slab"


def _mixed(project: Project) -> bool:
    return (_built(project) or _framed(project)) and project.base.concrete == "site"


#: Fields of base and skins that mean something only under others; by path, or by all paths of a group.
_ONLY_WHERE: Final[dict[str, Callable[[Project], bool]]] = {
    "block.joint_material": lambda p: p.block.joint_m > 0,
    "base.kind": lambda _: True,
    "base.steel_sized_by": lambda p: _built(p) and p.base.steel_sized == "typed",
    "base.bar_diameter_m": lambda p: _built(p) and p.base.steel_sized != "unsized",
    "base.bars": lambda p: _built(p) and p.base.steel_sized != "unsized",
    "base.bar_length_m": _barred,
    "base.lap_diameters": _barred,
    "base.damp_waste_fraction": lambda p: _built(p) and p.base.damp_course == "yes",
    "base.slab_gravel_m": _slab,
    "base.slab_insulation_m": _slab,
    "base.slab_thickness_m": _slab,
    "base.floor_finish_m": _slab,
    "base.floor_finish_sand_parts": lambda p: _slab(p) and p.base.floor_finish_m > 0,
    "base.sand_parts": _mixed,
    "base.gravel_parts": _mixed,
    "base.water_cement_ratio": lambda p: _mixed(p) or (_slab(p) and p.base.floor_finish_m > 0),
    "base.concrete": lambda p: _built(p) or _framed(p),
    "base.concrete_waste_fraction": lambda p: _built(p) or _framed(p),
    "base.": _built,
    "skins.reveals": _coated,
    "skins.mix_by": _coated,
    "skins.water_cement_ratio": _coated,
    "skins.coat_waste_fraction": _coated,
    "skins.paint_waste_fraction": lambda p: any(
        skin.paint_coats or skin.waterproofing_coats for skin in (p.skins.outside, p.skins.inside)
    ),
    "skins.outside.": lambda _: True,
    "skins.inside.": lambda _: True,
    "skins.": _meshed,
    "aggregate.sand_bulk_kg_m3": lambda p: _built(p) or _framed(p) or _coated(p),
    "aggregate.gravel_bulk_kg_m3": lambda p: _built(p) or _framed(p),
    "aggregate.lime_bulk_kg_m3": _coated,
}


def _where(project: Project, path: str) -> bool:
    """Whether a field of base or skins means something under what is chosen."""
    if path in _ONLY_WHERE:
        return _ONLY_WHERE[path](project)
    group = next((group for group in _ONLY_WHERE if group.endswith(".") and path.startswith(group)), None)
    if group is None:
        return True
    if not _ONLY_WHERE[group](project):
        return False
    return _skin_has(project, path) if group in ("skins.outside.", "skins.inside.") else True


def _skin_has(project: Project, path: str) -> bool:
    """Whether a field of one skin means something for its kind."""
    skin, name = lookup(project, path.rsplit(".", 1)[0]), path.rsplit(".", 1)[-1]
    if name == "kind":
        return True
    if name in ("waterproofing_coats", "paint_coats"):
        return bool(skin.kind != "unstated")
    if name.endswith("_coverage_m2_l"):
        return bool(skin.kind != "unstated" and getattr(skin, f"{name.split('_')[0]}_coats"))
    if skin.kind not in PUBLISHED:
        return False
    coat = name.split("_")[0]
    if name.endswith("_parts"):
        typed = getattr(skin, f"{coat}_thickness_m")
        return bool((getattr(PUBLISHED[skin.kind], f"{coat}_m") if typed is None else typed) > 0)
    return True


#: A circle has one name in a dome and another in a vault; the form offers the one that fits.
_CIRCLES: Final = {"dome": "hemisphere", "vault": "semicircle"}
_INDEX: Final = re.compile(r"\[\d*\]")
_SHARES: Final = {"1": 1.0, "3/4": 0.75, "2/3": 2 / 3, "1/2": 0.5, "1/3": 1 / 3, "1/4": 0.25}
#: More digits than anybody measures; a field that is left as it stands keeps its value to the last bit.
_SHOWN_DIGITS: Final = 6
_KINDS: Final = {"market.cement_bag_kg": "bag", "market.currency": "currency"}


def share_code(bags: float | None) -> str:
    """Return the code of a share of a bag, or the number itself where it is none of them."""
    if bags is None:
        return ""
    for code, share in _SHARES.items():
        if abs(bags - share) < 1e-9:
            return code
    return repr(bags)


def share_value(code: str) -> float | None:
    """Return bags for the code of a share; the opposite of :func:`share_code`."""
    return None if code == "" else _SHARES.get(code) or float(code)


def lookup(project: Project, path: str) -> Any:
    """Return what stands at a path of a project."""
    found: Any = project
    for step in path.replace("[", ".[").split("."):
        found = found[int(step[1:-1])] if step.startswith("[") else getattr(found, step)
    return found


@cache
def _rules(names: str) -> dict[str, Any]:
    """The rules of a field by the names that lead to it; whoever asks leaves them as they are."""
    cls: Any = Project
    meta: dict[str, Any] = {}
    for step in names.split("."):
        meta = dict(attrs.fields_dict(cls)[step].metadata)
        cls = meta.get("cls", cls)
    return meta


def metadata(path: str) -> dict[str, Any]:
    """Return the rules of a field, from the class that states it."""
    meta = _rules(_INDEX.sub("", path))
    if path.endswith("]") and meta.get("kind") in ("points", "numbers", "row"):
        return meta | {"kind": "number", "optional": False}
    return meta


def field_value(s: Speaker, text: FieldText, value: Any) -> str:
    """Return a value as text that reads back as itself."""
    if value is None:
        return ""
    if isinstance(value, str):
        return value
    if text.kind in ("", "money"):
        return s.plain(float(value))
    return s.plain(s.from_si(float(value), text.kind), significant=_SHOWN_DIGITS)


def _choices(desk: Desk, path: str, meta: dict[str, Any], value: str) -> list[dict[str, str]]:
    words = CHOICES[pattern(path)] if pattern(path) in CHOICES else {}
    codes = meta.get("choices") or tuple(words)
    if pattern(path) == "mix.given":
        codes = tuple(words)
    if pattern(path) == "parts[].profile":
        circle = _CIRCLES.get(lookup(desk.project, path.rsplit(".", 1)[0]).shape, "hemisphere")
        other = next(name for name in _CIRCLES.values() if name != circle)
        codes = tuple(code for code in codes if code != (circle if value == other else other))
        words = words | {other: words[circle]}
    if pattern(path) == "parts[].plan_form" and lookup(desk.project, path.rsplit(".", 1)[0]).shape == "fill":
        codes = tuple(code for code in codes if code != "run" or value == "run")
    out = [{"value": code, "label": desk.say(words[code]) if code in words else code} for code in codes]
    if value not in codes:
        label = desk.s._("As in the file") if pattern(path) == "mix.given" else value
        if pattern(path) == "batch.bags_each":
            label = desk.s.n_("%(number)s bag", "%(number)s bags", float(value), number=desk.s.number(float(value), significant=4, trim=True))
        out.append({"value": value, "label": label})
    return out


def _leads(desk: Desk, path: str) -> list[str]:
    """Names of the parts that an opening may lead to."""
    own = lookup(desk.project, path.split(".", 1)[0])
    return [part.id for part in desk.project.parts if part is not own and part.shape in JOINED]


def given_code(project: Project) -> str:
    """Return the quantities that the recipe states, in the order of the choices that the form offers."""
    for code in CHOICES["mix.given"]:
        if set(code.split("+")) == set(project.mix.given):
            return code
    return "+".join(project.mix.given)


def _field(desk: Desk, path: str) -> Entry:
    meta, text = metadata(path), FIELDS[pattern(path)]
    value = lookup(desk.project, path)
    kind = _KINDS.get(path) or meta["kind"]
    if kind == "text" and meta.get("lines"):
        kind = "lines"
    entry: Entry = {"kind": kind, "path": path, "label": desk.say(text.label)}
    entry["spoken"] = entry["label"]
    entry["help"] = desk.say(text.help)
    entry["optional"] = bool(meta.get("optional"))
    if path == "mix.given":
        entry |= {"kind": "choice", "value": given_code(desk.project)}
        entry["choices"] = _choices(desk, path, meta, entry["value"])
    elif path == "batch.bags_each":
        entry |= {"kind": "choice", "value": share_code(value)}
        entry["choices"] = _choices(desk, path, meta, entry["value"])
    elif pattern(path) == "parts[].openings[].to":
        names = _leads(desk, path)
        names += [value] if value and value not in names else []
        found = [{"value": "", "label": desk.s._("Out of doors")}, *({"value": name, "label": name} for name in names)]
        entry |= {"kind": "choice", "value": value or "", "choices": found}
    elif kind == "choice":
        entry |= {"value": value, "choices": _choices(desk, path, meta, value)}
    elif kind == "currency":
        entry["value"] = value
    else:
        entry["value"] = field_value(desk.s, text, value)
        if "longest" in meta:
            entry["longest"] = meta["longest"]
        if text.kind == "money":
            money = desk.s.currency(desk.project.market.currency)
            entry["unit"] = {"symbol": money.symbol, "name": money.name}
        elif text.kind and text.kind not in ("count", "ratio"):
            entry["unit"] = {"symbol": desk.s.unit_symbol(text.kind), "name": desk.s.unit_name(text.kind)}
        if entry.get("unit"):
            entry["spoken"] = desk.s._(
                "%(label)s, in %(unit)s", label=entry["label"], unit=entry["unit"]["name"]
            )
    entry.setdefault("unit", None)
    return entry


def shown(desk: Desk, path: str) -> bool:
    name = path.rsplit(".", 1)[-1]
    if pattern(path).startswith("mix.") and name in metadata("mix.given")["choices"]:
        return name in desk.project.mix.given
    if not _where(desk.project, path):
        return False
    owner = path.rsplit(".", 1)[0]
    group = owner.rsplit(".", 1)[-1]
    if pattern(owner) in ("parts[].wall", "parts[].fill", "parts[].order"):
        part = lookup(desk.project, owner.rsplit(".", 1)[0])
        rule_of = _PART_HAS.get(f"{group}.{name}")
        return bool(part.shape == _OF_SHAPE[group]) and (rule_of is None or rule_of(part))
    if pattern(owner) == "parts[]" and name in _BESIDE_OTHERS:
        return len(desk.project.parts) > 1 and lookup(desk.project, owner).shape in JOINED
    if pattern(path) == "parts[].openings[].to":
        return lookup(desk.project, path) is not None or bool(_leads(desk, path))
    if pattern(owner) == "parts[]" and name in _PART_HAS:
        return _PART_HAS[name](lookup(desk.project, owner))
    if pattern(owner) == "parts[].openings[]" and name in _OPENING_HAS:
        part = lookup(desk.project, owner.rsplit(".", 1)[0])
        return _OPENING_HAS[name](part, lookup(desk.project, owner))
    rule = _ONLY_IF.get(pattern(path))
    if rule is None:
        return True
    sibling = lookup(desk.project, f"{path.rsplit('.', 1)[0]}.{rule[0]}")
    return sibling in rule[1]


def _entries(desk: Desk, layout: tuple[Any, ...], base: str = "") -> list[Entry]:
    out: list[Entry] = []
    for part in layout:
        if isinstance(part, str):
            path = f"{base}.{part}" if base else part
            if pattern(path) == "parts[].id" and len(desk.project.parts) == 1:
                continue
            if shown(desk, path):
                out.append(_field(desk, path))
        elif part[0].startswith("#"):
            code, title, help_, folded, inner = part
            entries = _entries(desk, inner, base)
            if entries:
                out.append({"kind": "group", "id": code[1:], "title": desk.say(title), "help": desk.say(help_),
                            "folded": folded, "entries": entries})  # fmt: skip
        else:
            path = f"{base}.{part[0]}" if base else part[0]
            if shown(desk, path):
                out.append(_list(desk, path, part[1]))
    return out


def _called(desk: Desk, path: str, index: int, title: str) -> str:
    """The title of an item; of one part among several with the name that it was given."""
    parts = desk.project.parts
    if path != "parts" or len(parts) < 2:
        return title
    return desk.s._("%(part)s: %(what)s", part=title, what=desk.s.isolate(parts[index].id))


def _list(desk: Desk, path: str, layout: tuple[Any, ...]) -> Entry:
    title, item, add, remove = LISTS[pattern(path)]
    values, meta = lookup(desk.project, path), metadata(path)
    parts = _of_parts(desk) if path == "parts" else []
    items = []
    for i in range(len(values)):
        where = f"{path}[{i}]"
        items.append({
            "path": where,
            "title": _called(desk, path, i, desk.say(item, number=desk.s.whole(i + 1))),
            "entries": parts[i] if path == "parts" else _inner(desk, where, layout, meta["kind"]),
            "remove": desk.say(remove) if len(values) > meta["least"] else "",
        })  # fmt: skip
    return {"kind": "list", "path": path, "title": desk.say(title), "help": "", "items": items,
            "add": desk.say(add), "remove": desk.say(remove), "full": len(values) >= meta["most"]}  # fmt: skip


def _of_parts(desk: Desk) -> list[list[Entry]]:
    """The fields of every part: what they offer follows from the part itself, the names and shapes of all, and the rest of the project."""
    stated, rest = desk.project.parts, evolve(desk.project, name="", note="", parts=())
    names = tuple((part.id, part.shape) for part in stated)
    return [_part_entries(desk.s, rest, names, part, place) for place, part in enumerate(stated)]


@lru_cache(maxsize=512)
def _part_entries(s: Speaker, rest: Project, names: tuple[tuple[str, str], ...], part: Part, place: int) -> list[Entry]:
    """Word a part's fields once: an edit changes one part, and the others' fields stay as they are."""
    parts = tuple(part if i == place else Part(id=name, shape=shape) for i, (name, shape) in enumerate(names))
    stated: tuple[Any, ...] = LAYOUT["shape"]
    layout = next(part[1] for part in stated if part[0] == "parts")
    return _entries(Desk(evolve(rest, parts=parts), Outcome(None, (), ()), s), layout, f"parts[{place}]")


def _inner(desk: Desk, where: str, layout: tuple[Any, ...], kind: str) -> list[Entry]:
    """The fields of one item: those of a group, x and y of a point, or the one number that it is."""
    if kind == "points":
        return [_field(desk, f"{where}[0]"), _field(desk, f"{where}[1]")]
    if kind == "numbers":
        return [_field(desk, where)]
    return _entries(desk, layout, where)


def sections(desk: Desk) -> dict[str, list[Entry]]:
    """Return the form's entries by section."""
    return {section: _entries(desk, layout) for section, layout in LAYOUT.items()}


NO_ESTIMATE: Final = N_("There is no estimate until this is mended.")
