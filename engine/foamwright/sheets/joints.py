"""Where parts are joined: what is counted once, how long the passages are, and which gaps get a neck."""

from typing import Final

from foamwright.finishes.base import BUILT
from foamwright.reader import N_
from foamwright.sheets.desk import Block, Desk

_COLUMNS: Final = (
    ("passage_length_m", N_("Passage, length")),
    ("passage_m3", N_("Passage, clear")),
    ("doubled_m3", N_("Doubled, counted once")),
    ("taken_m3", N_("Less in both")),
    ("neck_m3", N_("Neck")),
)


def joints(desk: Desk) -> list[Block]:
    """Return the table of joints with what it means; nothing where no parts are joined."""
    s, found = desk.s, desk.e.shape.joints
    if not found:
        return []
    rows = []
    for i, joint in enumerate(found):
        name = s._("%(part)s to %(to)s", part=joint.part, to=joint.to)
        cells = [desk.cell(f"joint.{column}#{i}") for column, _ in _COLUMNS]
        rows.append([{"text": name, "head": True}, *(cell if cell["text"] else {"text": ""} for cell in cells)])
    titles = ((N_("Joint"), False), *((words, True) for _, words in _COLUMNS))
    head = [{"text": desk.say(words), "number": number} for words, number in titles]
    points = [
        s._("What two parts have in one place is counted once, with the part that is stated first. What of one stands in the room of the other or in "
            "the passage is not built."),
        s.p_("masonry", "Blocks there are left out of the courses, by the share of each course that the joint takes at the middle of its height."),
        s._("The method keeps within %(error)s of what a joint takes out.", error=s.quantity(found[0].error_fraction, "fraction", decimals=1)),
    ]  # fmt: skip
    finishes = desk.e.finishes
    if finishes is not None and finishes.base is not None and finishes.base.kind in BUILT:
        points.append(s._("Trench, footing or ring beam and damp-proof layer are counted whole for each part, also where parts are joined: dig and pour there once."))
    for joint in found:
        if joint.neck_m3 <= 1e-6:
            continue
        words = (
            N_("From %(part)s to %(to)s a neck closes the gap of %(gap)s round the passage; it is cast in a form and not among the blocks.")
            if joint.gap_m > 1e-6
            else N_("From %(part)s to %(to)s the bodies touch below and part above: a neck closes what is open round the passage; it is cast in a form and "
                    "not among the blocks.")
        )  # fmt: skip
        points.append(desk.say(words, part=joint.part, to=joint.to, gap=s.quantity(joint.gap_m, "length")))
    return [
        {"kind": "heading", "text": s._("Joined parts")},
        desk.figures("shape.joints_volume_m3", "shape.necks_volume_m3"),
        {"kind": "table", "caption": s._("Where parts are joined"), "head": head, "rows": rows},
        {"kind": "points", "items": points},
    ]
