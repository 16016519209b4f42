"""Cutting patterns: every distinct block, its sizes, and its faces in their true size."""

import math
from typing import Any, Final

from attrs import evolve

from foamwright.reader import N_
from foamwright.shape.bond import rakes
from foamwright.shape.courses import corners
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.lay import course_kind
from foamwright.sheets.lay_drawing import PAGE_MM, PatternWords, bed_page, face_pages, tile_count
from foamwright.site import Pattern

ID: Final = "patterns"
SECTION: Final = "site"
TITLE: Final = N_("Cutting patterns")

#: So many are drawn; the sizes of all stand in the table.
_DRAWN: Final = 40
#: The bar that checks the print: 100 mm, or four inches.
_BARS: Final = {"mm": 100.0, "in": 101.6}
_ROUND_STEPS: Final = 48


def _table(desk: Desk) -> Block:
    """The sizes of every pattern."""
    s, rows = desk.s, []
    for i, pattern in enumerate(desk.e.blocks.patterns):
        shape = desk.project.parts[pattern.parts[0]].shape
        names = (
            "count", "outside_low", "outside_high", "inside_low", "inside_high", "height_outside", "height_inside",
            "thickness", "fresh_mass_kg",
        )  # fmt: skip
        rows.append([
            {"text": s.whole(i + 1), "head": True},
            {"text": course_kind(desk, shape, pattern.kind)},
            *(desk.cell(f"pattern.{name}#{i}") for name in names),
        ])  # fmt: skip
    titles = (
        (N_("Pattern"), False), (N_("What"), False), (N_("Blocks"), True),
        (N_("Outside, at the bed"), True), (N_("Outside, upper edge"), True),
        (N_("Inside, at the bed"), True), (N_("Inside, upper edge"), True),
        (N_("Height outside"), True), (N_("Height inside"), True), (N_("Thickness"), True), (N_("Sawn, as wet as cast"), True),
    )  # fmt: skip
    head: list[dict[str, Any]] = [{"text": desk.say(words), "number": number} for words, number in titles]
    return {"kind": "table", "caption": s._("The sizes of every pattern, joints taken off"), "head": head, "rows": rows}


def _halves(pattern: Pattern) -> tuple[list[tuple[float, float]], list[tuple[float, float]]]:
    """The outside and the inside face right of the centre line, from the bed upwards [mm]."""
    c = pattern.course
    if pattern.kind == "plug":
        big, small = c.taper_outside_low_m * 500, c.taper_inside_low_m * 500
        angles = [math.pi * (i / _ROUND_STEPS - 0.5) for i in range(_ROUND_STEPS + 1)]
        outer, inner = (
            [(size * math.cos(a), big + size * math.sin(a)) for a in angles] for size in (big, small)
        )
        return outer, inner
    section = corners(c, 0.0)
    rise = section[1][0] or c.height_outside_m
    # The corners are those of the course; a joint is taken off at the bed.
    share = c.height_outside_m / rise if rise else 1.0
    tall = c.height_outside_m * 1000
    low, high = section[3][0] * 1000 * share, section[2][0] * 1000 * share
    outer = [(0.0, 0.0), (c.taper_outside_low_m * 500, 0.0), (c.taper_outside_high_m * 500, tall), (0.0, tall)]
    inner = [(0.0, low), (c.taper_inside_low_m * 500, low), (c.taper_inside_high_m * 500, high), (0.0, high)]
    return outer, inner


def _words(desk: Desk, index: int) -> PatternWords:
    s, pattern = desk.s, desk.e.blocks.patterns[index]
    shape = desk.project.parts[pattern.parts[0]].shape
    barred = any(desk.e.structure.barred[part] for part in pattern.parts)
    # Names of parts are long: one is enough to find it.
    part = desk.project.parts[pattern.parts[0]].id if len(desk.project.parts) > 1 else ""
    title = s._(
        "Pattern %(number)s, %(kind)s %(part)s", number=s.whole(index + 1), kind=course_kind(desk, shape, pattern.kind), part=part
    ).strip()
    return evolve(_fixed(desk, barred), title=title)


def _fixed(desk: Desk, barred: bool) -> PatternWords:
    """The words that all patterns have, without a title."""
    s = desk.s
    unit = "in" if s.reader.units != "metric" else "mm"
    return PatternWords(
        title="",
        centre=s._("dash and dot: centre line, the other half is its mirror image"),
        outside=s._("solid: outside face"),
        inside=s._("dashed: inside face"),
        bed=s._("Bed"),
        upper=s._("Upper edge"),
        scale=s._("This bar must measure %(length)s.", length=s.quantity(_BARS[unit] / 1000, "length_fine", trim=True)),
        scale_mm=_BARS[unit],
        stamp=s._("Not to be built until an engineer has sized ties, buttresses or ring.") if barred else "",
    )


def _drawings(desk: Desk, index: int) -> list[Block]:
    """The pages of one pattern."""
    s, pattern, words = desk.s, desk.e.blocks.patterns[index], _words(desk, index)
    outer, inner = _halves(pattern)
    pages = tile_count(outer)
    tiles = [s._("Page %(number)s of %(whole)s", number=s.whole(k + 1), whole=s.whole(pages)) for k in range(pages)]
    section = tuple((1000 * along, 1000 * deep) for along, deep in corners(pattern.course, desk.project.block.joint_m))
    out = [
        (s._("%(title)s: faces", title=words.title), page) for page in face_pages(f"pattern{index}", outer, inner, words, tiles)
    ]
    out.append((s._("%(title)s: bevels", title=words.title), bed_page(section, words)))
    made: list[Block] = []
    for k, (title, svg) in enumerate(out):
        told = title if not words.stamp else f"{title}. {words.stamp}"
        made.append({
            "kind": "drawing", "id": f"pattern-{index}-{k}", "title": title, "words": told, "svg": svg, "touch": False,
            "print_mm": list(PAGE_MM),
        })  # fmt: skip
    return made


def _as_cast(pattern: Pattern) -> bool:
    """Say whether whole blocks are laid as they come out of the mould: those of straight walls."""
    return pattern.course.element == "wall" and pattern.course.taper_plan_deg == 0


def _rakes(desk: Desk) -> list[Block]:
    """The slope of every gable in its true size, on a whole block of its courses."""
    s, made, out = desk.s, desk.e.blocks, []
    long = desk.project.block.length_m * 1000
    for index, part in desk.parts:
        if part.shape != "wall":
            continue
        row = next((c for c, owner in zip(made.courses, made.owners, strict=True) if owner == index and c.kind == "gable"), None)
        drawn: set[float] = set()
        for side, angle in rakes(part) if row else ():
            if row is None or round(angle, 1) in drawn:
                continue
            drawn.add(round(angle, 1))
            tall = row.height_outside_m * 1000
            back = tall / math.tan(math.radians(angle))
            face = [(0.0, 0.0), (long, 0.0)]
            face += [(long - back, tall), (0.0, tall)] if back < long else [(0.0, tall * long / back)]
            named = s._("Slope of the gable on side %(side)s", side=s.whole(side + 1))
            if len(desk.project.parts) > 1:
                named = s._("%(part)s: %(what)s", part=part.id, what=named)
            words = evolve(
                _fixed(desk, desk.e.structure.barred[index]), title=named,
                centre=s._("dash and dot: the square end of the block"), inside=s._("the inside face is the same"),
            )  # fmt: skip
            pages = tile_count(face)
            tiles = [s._("Page %(number)s of %(whole)s", number=s.whole(k + 1), whole=s.whole(pages)) for k in range(pages)]
            for k, page in enumerate(face_pages(f"rake{index}x{side}", face, face, words, tiles)):
                told = named if not words.stamp else f"{named}. {words.stamp}"
                out.append({
                    "kind": "drawing", "id": f"rake-{index}-{side}-{k}", "title": named, "words": told, "svg": page, "touch": False,
                    "print_mm": list(PAGE_MM),
                })  # fmt: skip
    return out


def blocks(desk: Desk) -> list[Block]:
    """Return the blocks of the sheet."""
    s, patterns = desk.s, desk.e.blocks.patterns
    if not patterns:
        return [{"kind": "text", "tone": "plain", "text": s.p_("masonry", "No part of this project is laid in courses.")}]
    out: list[Block] = [
        {"kind": "text", "tone": "lead", "text": s._(
            "Print at full size, without fitting to the page, and measure the bar on every page before you saw.")},
        {"kind": "points", "items": [
            s._("The patterns come onto paper with this sheet's own print button alone, since they take many pages."),
            s._("Lay the block on its inside face and mark its outside face first: it is the larger. Then mark the inside face on the same centre line, and join the edges."),
            s._("Where a face takes more than one page, lay the pages edge to edge so that their crosses meet."),
            s._("The bevels show how far bed and upper edge lean against the outside face; the dotted line is square to it."),
            s._("Faces are sawn flat. What they miss of the curve, a few millimetres, the skins even out."),
            s._("Blocks at openings are marked where they stand; they have no pattern."),
            *([s._("Whole blocks of straight walls are laid as they come out of the mould; only the slope of a gable is drawn.")]
              if any(_as_cast(pattern) for pattern in patterns) else []),
        ]},
        desk.figures("blocks.types"),
        _table(desk),
    ]  # fmt: skip
    sawn = [i for i, pattern in enumerate(patterns) if not _as_cast(pattern)]
    if len(sawn) > _DRAWN:
        out.append({"kind": "text", "tone": "small", "text": s._(
            "The first %(number)s patterns are drawn; the sizes of all stand in the table.", number=s.whole(_DRAWN))})
    for i in sawn[:_DRAWN]:
        out += _drawings(desk, i)
    return out + _rakes(desk)
