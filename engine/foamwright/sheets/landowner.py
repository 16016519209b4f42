"""What the landowner reads first: what it is, what to buy, what to ready, what it costs."""

from typing import Final

from attrs import evolve

from foamwright.project.model import SHELLS
from foamwright.reader import N_
from foamwright.sheets.buy import covered
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.finishes import to_buy
from foamwright.sheets.glance import all_drawings, drawing_words
from foamwright.sheets.stamp import stamp_lines

ID: Final = "landowner"
SECTION: Final = "landowner"
TITLE: Final = N_("For the landowner")


def bags_words(desk: Desk, bags: int) -> str:
    """Return bags to buy in words, such as "94 bags of cement of 50 kg"."""
    return desk.s.n_(
        "%(number)s bag of cement of %(mass)s",
        "%(number)s bags of cement of %(mass)s",
        bags,
        number=desk.s.whole(bags),
        mass=desk.s.quantity(desk.project.market.cement_bag_kg, "mass"),
    )


def on_top(desk: Desk) -> list[str]:
    """Return the rough allowance for what is not stated of base and skins; nothing where both are."""
    s, low, high = desk.s, desk.text("money.allowance_low_bags"), desk.text("money.allowance_high_bags")
    if desk.e.money.allowance is None:
        return []
    if desk.e.finishes is None:
        return [s._("Base and skins come on top; bags, roughly: %(low)s to %(high)s (a rough allowance, not to buy by).",
                    low=low, high=high)]  # fmt: skip
    return [s._("What is not stated of base and skins comes on top; bags, roughly: %(low)s to %(high)s (a rough allowance, not to "
                "buy by).", low=low, high=high)]  # fmt: skip


def message(desk: Desk, code: str) -> str:
    """Return a text message that is ready to send, with the code at its end."""
    s, e = desk.s, desk.e
    lines = [desk.project.name or s._("A small dome of foamed concrete")]
    if desk.project.place.name:
        lines.append(desk.project.place.name)
    lines += stamp_lines(desk)
    part = desk.project.parts[0]
    vault = s._(
        "Vault, %(span)s wide and %(length)s long inside, %(height)s high, floor %(area)s.",
        span=s.quantity(part.inside_span_m, "length"), length=s.quantity(part.length_m, "length"),
        height=desk.text("shape.height_m"), area=desk.text("shape.floor_area_m2"),
    )  # fmt: skip
    lines.append(
        vault
        if len(desk.project.parts) == 1 and part.shape == "vault"
        else drawing_words(desk, evolve(part, openings=()))
        if len(desk.project.parts) == 1 and part.shape not in SHELLS
        else s._("Dome, %(diameter)s inside, %(height)s high, floor %(area)s.",
            diameter=s.quantity(desk.project.parts[0].inside_diameter_m, "length"),
            height=desk.text("shape.height_m"), area=desk.text("shape.floor_area_m2"))
        if len(desk.project.parts) == 1
        else s._("Floor %(area)s.", area=desk.text("shape.floor_area_m2"))
    )  # fmt: skip
    lines.append(
        s._("To buy for the foamed concrete only: %(bags)s, %(agent)s of foaming agent, %(water)s of water.",
            bags=bags_words(desk, e.batches.cement_bags), agent=desk.text("batches.concentrate_l"), water=desk.text("batches.water_l"))
    )  # fmt: skip
    if e.finishes is not None:
        # The remark says what one of them is: its size, and whether anyone has sized it.
        told = [
            f"{what['text']}: {many['text']}" + (f" ({remark['text']})" if remark["text"] else "")
            for what, many, remark in to_buy(desk)["rows"]
        ]
        lines.append(s._("For base and skins, as far as they are stated:"))
        lines += told
        lines.append(s._("Bags of cement for the whole job: %(bags)s.", bags=desk.text("money.cement_bags")))
    lines += on_top(desk)
    if e.money is not None and desk.value("money.total") is not None:
        lines.append(
            s._("Cost of what is priced: %(total)s, foamed concrete only.", total=desk.text("money.total"))
            if e.finishes is None
            else s._("Cost of what is priced: %(total)s. It covers: %(what)s.", total=desk.text("money.total"), what=covered(desk))
        )  # fmt: skip
    lines.append(s._("Please ask the building department first, and send a photograph of the cement bag."))
    if desk.project.note:
        lines.append(desk.project.note)
    lines.append(s._("Open the page, choose “Open a code” and paste this:"))
    lines.append(code)
    return "\n".join(lines)


def blocks(desk: Desk) -> list[Block]:
    """Return the blocks of the sheet."""
    s = desk.s
    out: list[Block] = []
    if desk.project.note:
        out.append({"kind": "text", "tone": "lead", "text": desk.project.note})
    out += [
        *all_drawings(desk, desk.parts[0][0]),
        {"kind": "figures", "items": [
            desk.item("batches.cement_bags", big=True, note=s._(
                "Bags of %(mass)s, for the foamed concrete only", mass=s.quantity(desk.project.market.cement_bag_kg, "mass"))),
            desk.item("batches.concentrate_l"), desk.item("batches.water_l"),
            *([desk.item("money.total", big=True, note=covered(desk))] if desk.value("money.total") is not None else []),
        ]},
        *([to_buy(desk), desk.figures("money.cement_bags")] if desk.e.finishes is not None else []),
        *({"kind": "text", "tone": "plain", "text": text} for text in on_top(desk)),
        {"kind": "heading", "text": s._("Before anyone buys")},
        {"kind": "points", "items": [
            s._("Ask the building department which floor area counts: clear inside %(inside)s, outside %(outside)s, with headroom %(headroom)s.",
                inside=desk.text("shape.floor_area_m2"), outside=desk.text("shape.footprint_m2"),
                headroom=desk.text("shape.headroom_area_m2")),
            s._("Photograph the cement bag: type, strength class, net mass, date of packing."),
            s._("Buy one bag and a little foaming agent first, for a trial batch."),
        ]},
        {"kind": "heading", "text": s._("What to have ready")},
        {"kind": "points", "items": [
            s._("Level, firm ground, and shade for the blocks."),
            s._("Clean water: %(water)s over the whole job, and as much again for washing.", water=desk.show("liquid", desk.e.money.lines[2].quantity or 0.0)),
            s._("Dry storage, off the ground and covered: %(bags)s.", bags=bags_words(desk, desk.e.money.cement_bags)),
            s._("Power with a residual-current device, or a generator that has one."),
            s._("Goggles, gloves and dust masks for every head, and water to rinse eyes."),
        ]},
    ]  # fmt: skip
    return out
