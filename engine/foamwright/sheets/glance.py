"""The answers that everyone asks for, with the drawing in front."""

from typing import Final

from foamwright.project.model import Opening, Part
from foamwright.reader import N_
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.drawing import HEADROOM_M, Labels, section
from foamwright.sheets.problems import notes_block

ID: Final = "glance"
SECTION: Final = "shape"
TITLE: Final = N_("At a glance")


def opening_words(desk: Desk, opening: Opening) -> str:
    """Return one opening in words, such as "Arched, 0.90 m wide, 2.00 m high"."""
    q = desk.s.quantity
    if opening.form == "round":
        return desk.s._("Round opening, %(diameter)s across", diameter=q(opening.diameter_m, "length"))
    words = {
        "arched": N_("Arched opening, %(width)s wide, %(height)s high"),
        "rectangular": N_("Rectangular opening, %(width)s wide, %(height)s high"),
    }[opening.form]
    return desk.say(words, width=q(opening.width_m, "length"), height=q(opening.height_m, "length"))


def drawing_words(desk: Desk, part: Part) -> str:
    """Return what the section drawing shows, for those who do not see it."""
    q = desk.s.quantity
    words = [
        desk.s._(
            "Section through the middle of a dome: %(diameter)s clear inside, %(height)s high inside, stem wall %(stem)s, "
            "shell %(thickness)s thick.",
            diameter=q(part.inside_diameter_m, "length"),
            height=q(part.stem_height_m + part.inside_diameter_m / 2, "length"),
            stem=q(part.stem_height_m, "length"),
            thickness=q(part.thickness_m, "length_small"),
        )
    ]
    for opening in part.openings:
        what, sill = opening_words(desk, opening), q(opening.sill_m, "length")
        if opening.count == 1:
            words.append(desk.s._("%(what)s; its lowest point is %(sill)s above the floor.", what=what, sill=sill))
            continue
        words.append(
            desk.s.n_(
                "%(what)s, %(number)s of this kind; its lowest point is %(sill)s above the floor.",
                "%(what)s, %(number)s of them; their lowest point is %(sill)s above the floor.",
                opening.count,
                number=desk.s.whole(opening.count),
                what=what,
                sill=sill,
            )
        )
    return " ".join(words)


def drawing(desk: Desk, index: int) -> Block:
    """Return the section drawing of one part as a block."""
    part = desk.project.parts[index]
    q = desk.s.quantity
    labels = Labels(
        title=desk.s._("Section drawing"),
        words=drawing_words(desk, part),
        diameter=q(part.inside_diameter_m, "length"),
        height=q(part.stem_height_m + part.inside_diameter_m / 2, "length"),
        stem=q(part.stem_height_m, "length"),
        thickness=q(part.thickness_m, "length_small"),
        headroom=q(HEADROOM_M, "length"),
        openings=tuple(opening_words(desk, opening) for opening in part.openings),
    )
    several = len(desk.project.parts) > 1
    title = (
        desk.s._("Section of %(part)s", part=part.id) if several else desk.s._("Section through the middle")
    )
    return {
        "kind": "drawing",
        "id": f"section-{index}",
        "title": title,
        "words": labels.words,
        "svg": section(part, f"parts[{index}]", labels),
        "touch": True,
    }


def blocks(desk: Desk) -> list[Block]:
    """Return the blocks of the sheet."""
    s = desk.s
    out: list[Block] = [drawing(desk, i) for i in range(len(desk.project.parts))]
    out.append(
        {
            "kind": "figures",
            "items": [
                desk.item("blocks.count", big=True),
                desk.item("batches.to_mix", big=True),
                desk.item("batches.cement_bags", big=True),
                desk.item(
                    "foam.net_aim_g",
                    N_("Foam in the bucket weighs"),
                    big=True,
                    note=s._(
                        "%(low)s to %(high)s, empty bucket taken off",
                        low=desk.text("foam.net_low_g"),
                        high=desk.text("foam.net_high_g"),
                    ),
                ),
            ],
        }
    )
    if desk.value("money.total") is not None:
        out.append({"kind": "figures", "items": [desk.item("money.total", big=True)]})
    out.append(
        desk.figures(
            "shape.shell_volume_m3", "shape.height_m", "shape.floor_area_m2",
            "shape.inside_area_m2", "shape.outside_area_m2",
            "blocks.to_cast", "blocks.fresh_mass_kg", "blocks.oven_dry_mass_kg",
        )
    )  # fmt: skip
    always = ("shell_not_checked", "permit_unasked", "foamed_concrete_only")
    out.append(notes_block(desk, tuple(n for n in desk.outcome.notes if n.severity != "info" or n.code in always)))
    return out
