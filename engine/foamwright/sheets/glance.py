"""The answers that everyone asks for, with the drawing in front."""

from typing import Final

from attrs import evolve

from foamwright.project.model import SHELLS, Opening, Part
from foamwright.reader import N_
from foamwright.shape.hoods import hooded
from foamwright.shape.meridian import half_width, meridian, rise
from foamwright.shape.vault import end_thickness, spots
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.drawing import HEADROOM_M, Labels, looks_to, section
from foamwright.sheets.fields import CHOICES
from foamwright.sheets.joints import joints
from foamwright.sheets.problems import notes_block
from foamwright.sheets.stamp import STAMPED
from foamwright.sheets.walls import details, drawings, where, words as wall_words

ID: Final = "glance"
SECTION: Final = "shape"
TITLE: Final = N_("At a glance")


def opening_words(desk: Desk, opening: Opening) -> str:
    """Return one opening in words, such as "Arched, 0.90 m wide, 2.00 m high", its hood with it."""
    told, q = _opening_alone(desk, opening), desk.s.quantity
    if not hooded(opening):
        return told
    words = {
        "head": N_("%(what)s, with a hood over its head, standing out %(out)s, %(thickness)s thick"),
        "around": N_("%(what)s, with a hood all round, standing out %(out)s, %(thickness)s thick"),
    }[opening.hood]
    out, thick = (q(size, "length_small") for size in (opening.hood_projection_m, opening.hood_thickness_m))
    return desk.say(words, what=told, out=out, thickness=thick)


def _opening_alone(desk: Desk, opening: Opening) -> str:
    """One opening in words, without its hood."""
    q = desk.s.quantity
    if opening.form == "round":
        return desk.s._("Round opening, %(diameter)s across", diameter=q(opening.diameter_m, "length"))
    words = {
        "arched": N_("Arched opening, %(width)s wide, %(height)s high"),
        "pointed": N_("Pointed opening, %(width)s wide, %(height)s high"),
        "rectangular": N_("Rectangular opening, %(width)s wide, %(height)s high"),
    }[opening.form]
    return desk.say(words, width=q(opening.width_m, "length"), height=q(opening.height_m, "length"))


def has_rise(part: Part) -> bool:
    """Say whether a part's rise is its own, not that of a circle over its width."""
    return part.profile not in ("hemisphere", "semicircle")


def tapers(part: Part) -> bool:
    """Say whether a part's shell is thinner at its crown than at its foot."""
    return part.crown_thickness_m is not None and part.crown_thickness_m != part.thickness_m


def _shape_words(desk: Desk, part: Part) -> list[str]:
    """What the section shows of the shell itself, sentence by sentence."""
    s, q = desk.s, desk.s.quantity
    height, stem = q(meridian(part).inside.crown_m, "length"), q(part.stem_height_m, "length")
    thick = q(part.thickness_m, "length_small")
    if part.shape == "vault":
        words = [
            s._(
                "Cross-section of a vault: %(span)s clear inside, %(length)s long inside, %(height)s high inside, stem walls "
                "%(stem)s, shell %(thickness)s thick.",
                span=q(part.inside_span_m, "length"), length=q(part.length_m, "length"), height=height, stem=stem,
                thickness=thick,
            )
        ]  # fmt: skip
        end = q(end_thickness(part), "length_small")
        if part.ends == "both":
            words.append(s._("Walls at both ends, %(thickness)s thick.", thickness=end))
        elif part.ends == "one":
            words.append(s._("A wall at end A, %(thickness)s thick; end B is open.", thickness=end))
        else:
            words.append(s._("Both ends are open."))
        words.append(
            s._("Seen towards end A.") if looks_to(part) == "end_a" else s._("Seen towards end B.")
        )
    else:
        words = [
            s._(
                "Section through the middle of a dome: %(diameter)s clear inside, %(height)s high inside, stem wall %(stem)s, "
                "shell %(thickness)s thick.",
                diameter=q(part.inside_diameter_m, "length"), height=height, stem=stem, thickness=thick,
            )
        ]  # fmt: skip
    if has_rise(part):
        profile = desk.say(CHOICES["parts[].profile"][part.profile])
        words.append(
            s._("Profile: %(profile)s, rising %(rise)s from the springing.", profile=profile, rise=q(rise(part), "length"))
        )
    if tapers(part) and part.crown_thickness_m is not None:
        crown = q(part.crown_thickness_m, "length_small")
        words.append(s._("At the crown the shell is %(thickness)s thick.", thickness=crown))
    if part.shape == "dome" and part.crown_opening_m > 0:
        across = q(part.crown_opening_m, "length")
        glazed = part.crown_closed_by == "glazed"
        words.append(
            s._("The crown has a glazed opening, %(diameter)s across.", diameter=across)
            if glazed
            else s._("The crown is open, %(diameter)s across.", diameter=across)
        )
    return words


def _walls_words(desk: Desk, part: Part, opening: Opening) -> str:
    """Name the walls of a vault in which an opening and its repeats stand."""
    walls = sorted({spot.wall for spot in spots(part, opening)})
    return ", ".join(desk.say(CHOICES["parts[].openings[].face"][wall]) for wall in walls)


def drawing_words(desk: Desk, part: Part) -> str:
    """Return what the section drawing shows, for those who do not see it."""
    q = desk.s.quantity
    words = _shape_words(desk, part) if part.shape in SHELLS else [wall_words(desk, part)]
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
        if part.shape == "vault":
            words.append(desk.s._("In: %(walls)s.", walls=_walls_words(desk, part, opening)))
        if part.shape == "wall" and where(desk, part, opening.side):
            words.append(where(desk, part, opening.side))
    return " ".join(words)


def all_drawings(desk: Desk, index: int) -> list[Block]:
    """Return the drawings of one part: the section of a shell, plan and elevations of a wall; of some parts there are none."""
    part = desk.project.parts[index]
    if part.shape in SHELLS:
        return [drawing(desk, index)]
    named = tuple(opening_words(desk, opening) for opening in part.openings)
    told = drawing_words(desk, evolve(part, openings=part.openings if part.shape == "wall" else ()))
    return drawings(desk, index, named, told)


def drawing(desk: Desk, index: int) -> Block:
    """Return the section drawing of one dome or vault as a block."""
    part = desk.project.parts[index]
    q = desk.s.quantity
    labels = Labels(
        title=desk.s._("Section drawing"),
        words=drawing_words(desk, part),
        diameter=q(2 * half_width(part), "length"),
        height=q(meridian(part).inside.crown_m, "length"),
        stem=q(part.stem_height_m, "length"),
        thickness=q(part.thickness_m, "length_small"),
        headroom=q(HEADROOM_M, "length"),
        openings=tuple(opening_words(desk, opening) for opening in part.openings),
        rise=q(rise(part), "length") if has_rise(part) else "",
        crown_thickness=(
            q(part.crown_thickness_m, "length_small") if tapers(part) and part.crown_thickness_m else ""
        ),
        crown_opening=(
            q(part.crown_opening_m, "length") if part.shape == "dome" and part.crown_opening_m > 0 else ""
        ),
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
    out: list[Block] = [block for i, _ in desk.parts for block in all_drawings(desk, i)]
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
            "shape.shell_volume_m3", "shape.hoods_volume_m3", "shape.height_m", "shape.floor_area_m2",
            "shape.inside_area_m2", "shape.outside_area_m2",
            "blocks.to_cast", "blocks.fresh_mass_kg", "blocks.sawn_mass_kg", "blocks.oven_dry_mass_kg",
        )
    )  # fmt: skip
    out += joints(desk)
    out += details(desk)
    always = ("shell_not_checked", "permit_unasked", "foamed_concrete_only", "base_unstated", "skins_unstated")
    # What must not be built stands at the head of every sheet already.
    rest = (n for n in desk.outcome.notes if n.code not in STAMPED)
    out.append(notes_block(desk, tuple(n for n in rest if n.severity != "info" or n.code in always)))
    return out
