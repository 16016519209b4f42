"""The lay plan: course after course, what is laid, where the guide arm stands, and what falls on whom."""

from typing import Any, Final

from foamwright.project.model import SHELLS
from foamwright.reader import N_, NP_
from foamwright.shape.bond import LAID, rakes
from foamwright.shape.courses import Course, one_length
from foamwright.sheets.cautions import cautions
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.lay_drawing import coursed
from foamwright.sheets.problems import notes_block
from foamwright.sheets.structure import while_laid

ID: Final = "lay"
SECTION: Final = "site"
TITLE: Final = NP_("masonry", "Lay plan")

_ELEMENTS: Final = {
    "shell": NP_("masonry", "Courses of the shell"),
    "end_a": NP_("masonry", "Courses of the wall at end A"),
    "end_b": NP_("masonry", "Courses of the wall at end B"),
    "wall": NP_("masonry", "Courses of the wall"),
}
KINDS: Final = {
    "stem": N_("Stem wall"),
    "springer": NP_("masonry", "Springer"),
    "ring": NP_("masonry", "Ring"),
    "rim": NP_("masonry", "Rim of the opening"),
    "plug": N_("Crown plug"),
    "key": NP_("masonry", "Row of keys"),
    "wall": N_("End wall"),
    "row": NP_("masonry", "Row on each side"),
    "plain": NP_("masonry", "Row"),
    "gable": NP_("masonry", "Row in the gable"),
}


def course_kind(desk: Desk, shape: str, kind: str) -> str:
    """Return what a course is, in words."""
    if shape == "wall" and kind == "wall":
        kind = "plain"
    return desk.say(KINDS["row" if kind == "ring" and shape == "vault" else kind])


def _of(desk: Desk, index: int, element: str) -> list[tuple[int, Course]]:
    """The courses of one element of one part, each with its place among all."""
    made = desk.e.blocks
    return [
        (i, course)
        for i, (course, owner) in enumerate(zip(made.courses, made.owners, strict=True))
        if owner == index and course.element == element
    ]


def _ways(desk: Desk, index: int) -> list[str]:
    """How one part is laid, in points."""
    s, part = desk.s, desk.project.parts[index]
    courses = [course for _, course in _of(desk, index, "shell")]
    vault = part.shape == "vault"
    out = [s.p_("masonry", "Nobody stands below an open course.")]
    pins = [course for course in courses if course.kind != "stem" and course.pin_height_m is not None]
    if pins and pins[0].pin_height_m is not None:
        height = s.quantity(pins[0].pin_height_m, "length_set")
        if vault:
            out.append(
                s._("Stretch a line along the middle of the vault, %(height)s above the floor: the guide arm swings about it.", height=height)
            )
        else:
            out.append(
                s._("Stand a post in the middle and pin the guide arm to it %(height)s above the floor, so that it turns and rises.", height=height)
            )
        if one_length(part):
            out.append(
                s._("Above the springing the arm keeps one length: its pin is the centre of the profile.")
            )
        else:
            out.append(
                s.p_("masonry", "The arm's length changes from course to course: set it anew for each, as the table says. The centre of the profile lies elsewhere, so "
                    "the arm shows where the inside edge is and not how the bed leans: take the lean from the table.")
            )  # fmt: skip
        if part.stem_height_m > 0:
            out.append(s.p_("masonry", "In the stem wall the pin goes up with the courses and the arm stays level."))
    out += [
        s.p_("masonry", "The arm touches the lower inside edge of the blocks; their upper inside edge is that of the next course."),
        s.p_("masonry", "All courses of the shell have one height, and so have those of the stem wall: no course is cut to make up the height. Set the mould "
            "to that height with a strip."),
        s.p_("masonry", "Courses with an odd number begin with a whole block at end A; those with an even number begin with half a block.") if vault
        else s.p_("masonry", "In courses with an odd number an upright joint stands where the drawing is cut; courses with an even number are turned by half a block. "
                 "Where two upright joints come closer than a quarter of a block, turn the course a little."),
        s._("A block that an opening touches is cut and counted as one. A block that lies wholly in the opening is left out. A gap narrower than a tenth of a block is "
            "closed with mortar."),
    ]  # fmt: skip
    if any(course.kind == "springer" for course in courses):
        out.append(s._("Springers are the wedges between the level top of the stem wall and the first bed that leans."))
    if any(course.kind == "plug" for course in courses):
        out.append(s._("The plug is put in from above and is larger outside, so that it cannot fall through. It closes the last ring; until then keep all props."))
    if any(course.kind == "key" for course in courses):
        out.append(s._("The keys are put in from above. Until they are in and hard, the centring carries the vault."))
    return out


def _wall_ways(desk: Desk, index: int) -> list[str]:
    """How a wall is laid, in points."""
    s, part = desk.s, desk.project.parts[index]
    framed, ring = part.wall.build == "infill", part.plan_form == "circle"
    out = [s.p_("masonry", "Lay every course level, to a line, from its beginning: courses with an odd number begin with a whole block, those with an even "
                "number with half a block. The last block is cut to what is left.")]  # fmt: skip
    if ring and not framed:
        out = [
            s.p_("masonry", "Lay every course level, at the guide arm's length from a post in the middle. Courses with an even number are turned by half a block."),
            s._("All blocks are a little narrower inside than outside: saw both ends to the pattern, so that the joints are even."),
        ]  # fmt: skip
    elif ring:
        out.append(s._("All blocks are a little narrower inside than outside: saw both ends to the pattern, so that the joints are even."))
    if framed:
        out.append(s._("Each bay begins at a post and ends at the next. Posts and ring beams are concrete and are not in the table."))
    elif not ring:
        out.append(
            s.p_("masonry", "The length is that along the middle of the wall, so that a corner is counted once. At a corner let the courses of one side and of the "
                "other run through by turns, and cut the block that meets them.")
        )  # fmt: skip
    out.append(
        s._("A block that an opening touches is cut and counted as one. A block that lies wholly in the opening is left out. A gap narrower than a tenth of a block is "
            "closed with mortar.")
    )  # fmt: skip
    for side, angle in rakes(part):
        out.append(
            s._("Gable on side %(side)s: saw the blocks at both ends of a row to the slope, %(angle)s from level.",
                side=s.whole(side + 1), angle=s.quantity(angle, "angle"))
        )  # fmt: skip
    out.append(s._("Cut short pieces from what is left of other blocks: the table says how many of each row."))
    return out


def _wall_table(desk: Desk, index: int, patterns: dict[int, int]) -> Block:
    """The courses of a wall."""
    s, part = desk.s, desk.project.parts[index]
    rows: list[list[dict[str, Any]]] = [
        [
            {"text": s.whole(course.course), "head": True},
            {"text": course_kind(desk, part.shape, course.kind)},
            desk.cell(f"course.height_m#{i}"),
            desk.cell(f"course.length_m#{i}"),
            desk.cell(f"course.whole#{i}"),
            *(desk.cell(f"course.{name}#{i}") if getattr(course, name) else {"text": ""} for name in ("cut", "left_out", "offcuts")),
            {"text": s.whole(patterns[i] + 1)},
        ]
        for i, course in _of(desk, index, "wall")
    ]
    titles = (
        (NP_("masonry", "Course"), False), (N_("What"), False), (NP_("masonry", "Height of the bed"), True), (N_("Length"), True),
        (N_("Whole blocks"), True), (N_("Cut blocks"), True), (N_("left out"), True), (N_("Cut from what is left of another"), True),
        (N_("Pattern"), False),
    )  # fmt: skip
    head = [{"text": desk.say(words), "number": number} for words, number in titles]
    return {"kind": "table", "caption": desk.say(_ELEMENTS["wall"]), "head": head, "rows": rows}


def _wall(desk: Desk, index: int, patterns: dict[int, int]) -> list[Block]:
    """The plan of one wall."""
    place = [wall.id for wall in desk.e.structure.walls].index(desk.project.parts[index].id)
    return [
        {"kind": "points", "items": _wall_ways(desk, index)},
        desk.figures(*(f"structure.wall_{name}#{place}" for name in ("day_height", "braces", "centring"))),
        _wall_table(desk, index, patterns),
    ]


def _masses(desk: Desk) -> Block:
    """What a block weighs from the mould to the wall."""
    return {"kind": "text", "tone": "small", "text": desk.s._(
        "A block weighs %(fresh)s fresh and %(dry)s dried in the oven. How much water has left it when it comes out of the mould depends on air and "
        "cement: reckon with the fresh mass. In the wall it stays between the two.",
        fresh=desk.text("blocks.fresh_mass_kg"), dry=desk.text("blocks.oven_dry_mass_kg"))}  # fmt: skip


def _table(desk: Desk, index: int, element: str, patterns: dict[int, int]) -> Block | None:
    """The courses of one element of one part."""
    s, part = desk.s, desk.project.parts[index]
    rows: list[list[dict[str, Any]]] = []
    shell = element == "shell"
    for i, course in _of(desk, index, element):
        row: list[dict[str, Any]] = [
            {"text": s.whole(course.course), "head": True},
            {"text": course_kind(desk, part.shape, course.kind)},
            desk.cell(f"course.count#{i}"),
            desk.cell(f"course.cut#{i}") if course.cut else {"text": ""},
            desk.cell(f"course.left_out#{i}") if course.left_out else {"text": ""},
            desk.cell(f"course.height_m#{i}"),
            desk.cell(f"course.radius_m#{i}"),
        ]
        if shell:
            row += [
                desk.cell(f"course.arm_m#{i}"), desk.cell(f"course.arm_angle_deg#{i}"), desk.cell(f"course.bed_angle_deg#{i}"),
            ]  # fmt: skip
        row.append({"text": s.whole(patterns[i] + 1)})
        rows.append(row)
    if not rows:
        return None
    titles = [
        (NP_("masonry", "Course"), False), (N_("What"), False), (N_("Blocks"), True), (N_("of these cut"), True), (N_("left out"), True),
        (NP_("masonry", "Height of the bed"), True),
        (N_("From the middle") if part.shape == "vault" else N_("Radius"), True),
    ]  # fmt: skip
    if shell:
        titles += [(N_("Guide arm"), True), (N_("Arm rises"), True), (NP_("masonry", "The bed leans inward"), True)]
    titles.append((N_("Pattern"), False))
    head = [{"text": desk.say(words), "number": number} for words, number in titles]
    return {"kind": "table", "caption": desk.say(_ELEMENTS[element]), "head": head, "rows": rows}


def _drawing(desk: Desk, index: int) -> Block:
    """The section of one part with its courses."""
    s, part = desk.s, desk.project.parts[index]
    courses = tuple(course for _, course in _of(desk, index, "shell"))
    title = s.p_("masonry", "Courses of %(part)s", part=part.id) if len(desk.project.parts) > 1 else s.p_("masonry", "Courses and guide arm")
    words = s.np_(
        "masonry", "Half the section with its %(number)s course, its beds and the guide arm.",
        "Half the section with its %(number)s courses, their beds and the guide arm.",
        len(courses), number=s.whole(len(courses)),
    )  # fmt: skip
    svg = coursed(part, courses, tuple(s.whole(c.course) for c in courses), title, words, s._("Pin"))
    return {"kind": "drawing", "id": f"courses-{index}", "title": title, "words": words, "svg": svg, "touch": False}


def blocks(desk: Desk) -> list[Block]:
    """Return the blocks of the sheet."""
    s = desk.s
    out: list[Block] = [
        {"kind": "text", "tone": "lead", "text": s.p_(
            "masonry", "Course after course from the floor up. Every block is sawn to its pattern, so that all joints are even.")
            if any(part.shape in SHELLS for _, part in desk.parts)
            else s.p_("masonry", "Course after course from the floor up.")},
        desk.figures(
            "blocks.count", "blocks.cut", "blocks.left_out", "blocks.offcuts_used", "blocks.to_cast", "blocks.types",
            "blocks.days_to_cast", "blocks.joint_l", "blocks.cut_away_fraction", "blocks.by_volume"),
        notes_block(desk, desk.notes("lift_heavy_block", "piece_over_mould", "cutting_more_than_stated")),
        *([_masses(desk)] if desk.e.blocks.to_cast else []),
    ]  # fmt: skip
    sets: list[list[dict[str, Any]]] = [
        [{"text": desk.text(f"mould_set.height_m#{i}"), "figure": f"mould_set.height_m#{i}", "number": True, "head": True},
         desk.cell(f"mould_set.thickness_m#{i}"), desk.cell(f"mould_set.count#{i}"), desk.cell(f"mould_set.fresh_mass_kg#{i}")]
        for i in range(len(desk.e.blocks.mould_sets))
    ]  # fmt: skip
    if sets:
        titles = (N_("Height of the block"), N_("Thickness"), N_("Blocks to cast"), N_("One, fresh"))
        head = [{"text": desk.say(title), "number": True} for title in titles]
        out.append({"kind": "table", "caption": s._("How the moulds are set"), "head": head, "rows": sets})
    patterns = {place: k for k, pattern in enumerate(desk.e.blocks.patterns) for place in pattern.courses}
    several = len(desk.project.parts) > 1
    for i, part in desk.parts:
        if part.shape not in LAID:
            continue
        if several:
            out.append({"kind": "heading", "text": part.id})
        if part.shape == "wall":
            out += _wall(desk, i, patterns)
            continue
        out.append(_drawing(desk, i))
        out.append({"kind": "points", "items": _ways(desk, i)})
        # The first look knows domes and vaults alone.
        out += while_laid(desk, [shell.id for shell in desk.e.structure.parts].index(part.id))
        out += [table for element in _ELEMENTS if (table := _table(desk, i, element, patterns)) is not None]
    if desk.e.structure.walls:
        out.append(notes_block(desk, desk.notes("wall_topples", "wall_holds_gust", "gust_unasked", "brace_unasked")))
    out.append(cautions(desk, ("laying",)))
    return out
