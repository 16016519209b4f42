"""What the first sheet shows of walls, fills and blocks to order: drawings, the same in words, and figures."""

from foamwright.project.model import Part
from foamwright.shape.fill import measure_fill
from foamwright.shape.wall import corners, gabled, outline
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.drawing_wall import Labels, drawn_sides, elevation, fill_plan, plan
from foamwright.sheets.fields import CHOICES
from foamwright.sheets.problems import notes_block


def _lengths(desk: Desk, part: Part) -> tuple[str, ...]:
    if part.plan_form == "circle":
        return (desk.s.quantity(part.inside_diameter_m, "length"),)
    ring = corners(part)
    ends = ring[1:] if part.plan_form == "run" else (*ring[1:], ring[0])
    return tuple(
        desk.s.quantity(((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5, "length") for a, b in zip(ring, ends, strict=False)
    )


def _line_words(desk: Desk, part: Part) -> str:
    """The line that a wall or a fill follows, side by side."""
    s, lengths = desk.s, _lengths(desk, part)
    if part.plan_form == "circle":
        return s._("A circle, %(diameter)s clear inside.", diameter=lengths[0])
    if part.plan_form == "rectangle":
        return s._("A rectangle, %(length)s by %(width)s clear inside.", length=lengths[0], width=lengths[1])
    sides = s.list_join(lengths)
    if part.plan_form == "run":
        return s.n_("An open line of %(number)s side: %(sides)s.", "An open line of %(number)s sides: %(sides)s.",
                    len(lengths), number=s.whole(len(lengths)), sides=sides)  # fmt: skip
    return s.n_("A closed line of %(number)s side: %(sides)s.", "A closed line of %(number)s sides: %(sides)s.",
                len(lengths), number=s.whole(len(lengths)), sides=sides)  # fmt: skip


def words(desk: Desk, part: Part) -> str:
    """Return a wall, a fill or blocks to order in words, openings not in it.

    Source: the part as stated.
    """
    s, q = desk.s, desk.s.quantity
    if part.shape == "blocks":
        order = part.order
        return s.n_(
            "%(number)s block to order, %(length)s long, %(height)s high, %(thickness)s thick.",
            "%(number)s blocks to order, %(length)s long, %(height)s high, %(thickness)s thick.",
            order.count, number=s.whole(order.count), length=q(order.length_m, "length_small"),
            height=q(order.height_m, "length_small"), thickness=q(part.thickness_m, "length_small"),
        )  # fmt: skip
    if part.shape == "fill":
        made = measure_fill(part)
        if made.area_m2 is None or made.least_m is None or made.greatest_m is None:
            return s._("A void filled with %(volume)s.", volume=q(made.volume_m3, "volume"))
        if made.fall_m is None:
            told = s._("A layer, %(depth)s deep.", depth=q(made.least_m, "length_small"))
        else:
            told = s._("A fill to falls, from %(greatest)s deep down to %(least)s over %(way)s.",
                       greatest=q(made.greatest_m, "length_small"), least=q(made.least_m, "length_small"),
                       way=q(made.fall_m, "length"))  # fmt: skip
        return f"{told} {_line_words(desk, part)}"
    wall = part.wall
    out = [
        s._("Plan of a wall: %(height)s high, %(thickness)s thick.",
            height=q(wall.height_m, "length"), thickness=q(part.thickness_m, "length_small")),
        _line_words(desk, part),
    ]  # fmt: skip
    sides = [s.whole(i + 1) for i in range(len(outline(part).sides)) if gabled(part, i)]
    if sides:
        out.append(s.n_("A gable on side %(sides)s, rising %(rise)s.", "Gables on sides %(sides)s, rising %(rise)s.",
                        len(sides), sides=s.list_join(sides), rise=q(wall.gable_rise_m, "length")))  # fmt: skip
    if wall.build == "infill":
        out.append(s._("Infill between concrete posts and ring beams."))
    return " ".join(out)


def where(desk: Desk, part: Part, side: int) -> str:
    """Return in which side of a straight wall an opening stands, in words."""
    return "" if part.plan_form == "circle" else desk.s._("In side %(side)s.", side=desk.s.whole(side))


def drawings(desk: Desk, index: int, openings: tuple[str, ...], told: str) -> list[Block]:
    """Return plan and elevations of a wall, or the plan of a fill; nothing of what has no plan."""
    part, s = desk.project.parts[index], desk.s
    path, q = f"parts[{index}]", desk.s.quantity
    if part.shape == "blocks" or (part.shape == "fill" and part.fill.kind == "void"):
        return []
    several = len(desk.project.parts) > 1
    title = s._("Plan of %(part)s", part=part.id) if several else s._("Plan")
    made = measure_fill(part) if part.shape == "fill" else None
    depths = ("", "")
    if made is not None and made.least_m is not None and made.greatest_m is not None:
        depths = (q(made.least_m, "length_small"), q(made.greatest_m, "length_small"))
    lengths = _lengths(desk, part)
    labels = Labels(
        title=title,
        words=told,
        sides=lengths,
        numbers=tuple(s.whole(i + 1) for i in range(len(lengths))),
        thickness=depths[0] or q(part.thickness_m, "length_small"),
        height=depths[1] or q(part.wall.height_m, "length"),
        gable=q(part.wall.gable_rise_m, "length") if part.wall.gable_rise_m > 0 else "",
        openings=openings,
    )
    draw = fill_plan if made is not None else plan
    out: list[Block] = [_drawing(f"plan-{index}", title, told, draw(part, path, labels))]
    if made is not None or part.plan_form == "circle":
        return out
    for side in drawn_sides(part):
        name = s._("Side %(side)s from outside", side=s.whole(side + 1))
        if several:
            name = s._("%(part)s: %(what)s", part=part.id, what=name)
        said = [s._("%(length)s long.", length=lengths[side])]
        said += [text for text, opening in zip(openings, part.openings, strict=True) if opening.side == side + 1]
        told_side = f"{name}. " + " ".join(text if text.endswith(".") else f"{text}." for text in said)
        one = Labels(name, told_side, *(getattr(labels, key) for key in ("sides", "numbers", "thickness", "height", "gable", "openings")))
        out.append(_drawing(f"side-{index}-{side}", name, told_side, elevation(part, path, side, one)))
    return out


def _drawing(name: str, title: str, told: str, svg: str) -> Block:
    return {"kind": "drawing", "id": name, "title": title, "words": told, "svg": svg, "touch": True}


def details(desk: Desk) -> list[Block]:
    """Return figures and notes of walls with posts, of fills and of blocks to order; nothing where there are none."""
    s = desk.s
    out: list[Block] = []
    for i, part in desk.parts:
        if part.shape in ("fill", "blocks"):
            out.append({"kind": "heading", "text": part.id})
            out.append({"kind": "text", "tone": "plain", "text": words(desk, part)})
            out.append(desk.figures(f"part.volume#{i}", f"fill.mean#{i}", f"fill.greatest#{i}"))
    finishes = desk.e.finishes
    if finishes is not None and finishes.frame is not None:
        out.append({"kind": "heading", "text": s._("Posts and ring beams")})
        out.append(desk.figures(
            "finishes.frame.posts", "finishes.frame.posts_m3", "finishes.frame.beams_m3", "finishes.frame.concrete_m3",
            "finishes.frame.steel_kg", "finishes.frame.steel_to_buy"))  # fmt: skip
        for k, made in enumerate(finishes.frame.parts):
            if made.steel is None:
                continue
            sized = CHOICES["parts[].wall.steel_sized"][made.steel.sized]
            out.append({"kind": "text", "tone": "plain", "text": s._(
                "%(part)s: %(post)s bars of %(diameter)s in each post, %(beam)s in each beam, overlaps of %(lap)s. %(sized)s.",
                part=made.id, post=s.whole(made.steel.post_bars), beam=s.whole(made.steel.beam_bars),
                diameter=s.quantity(made.steel.diameter_m, "length_fine", trim=True), lap=desk.text(f"frame.lap_m#{k}"),
                sized=desk.say(sized))})  # fmt: skip
        out.append(notes_block(desk, desk.notes(
            "frame_not_designed", "frame_steel_unsized", "frame_steel_incomplete", "frame_steel_placeholder",
            "frame_steel_sized_by_missing", "frame_steel_typed")))  # fmt: skip
    return out
