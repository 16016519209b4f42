"""The foam card: one weight to aim at, and how to weigh it."""

from typing import Final

from foamwright.reader import N_
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.problems import notes_block

ID: Final = "foam"
SECTION: Final = "site"
TITLE: Final = N_("Foam card")
#: Windows that are published or practised [kg/m3 = g/L]; they disagree, and all are shown.
_WINDOWS: Final = (
    (32.0, 64.0, N_("commonly attributed to ASTM C796 (from memory)")),
    (20.0, 90.0, N_("British practice (from memory, not sure)")),
    (90.0, 100.0, N_("builders of small shells (common practice, no source)")),
)
_END: Final = 120.0


def blocks(desk: Desk) -> list[Block]:
    """Return the blocks of the sheet."""
    s, bucket = desk.s, desk.project.bucket
    q = s.quantity
    end = max(_END, bucket.foam_high_kg_m3 * 1.1)
    return [
        {"kind": "figures", "items": [
            desk.item("foam.net_aim_g", big=True, note=s._("Empty bucket taken off")),
            desk.item("foam.net_low_g"), desk.item("foam.net_high_g"),
        ]},
        {"kind": "steps", "items": [
            s._("Weigh the empty, dry bucket and write it down, or set the weighing device to zero with it."),
            s._("Let the generator run until the foam comes evenly, then fill the bucket and strike it off level."),
            s._("Weigh and take the empty bucket off: %(low)s to %(high)s is right, %(aim)s is best.", low=desk.text("foam.net_low_g"),
                high=desk.text("foam.net_high_g"), aim=desk.text("foam.net_aim_g")),
            s.p_("weight", "Too light: less air or more liquid. Too heavy: more air or less liquid. Then weigh again."),
            s._("Weigh before the first batch, after every stop, and whenever foam looks different. Off its weight: do not pour."),
        ]},
        {"kind": "band", "figure": "foam.net_aim_g",
         "title": s._("Foam: %(low)s to %(high)s", low=q(bucket.foam_low_kg_m3, "foam_density"),
                      high=q(bucket.foam_high_kg_m3, "foam_density")),
         "words": s._("Your bucket's window, and where you aim."),
         "low": bucket.foam_low_kg_m3 / end, "high": bucket.foam_high_kg_m3 / end, "chosen": bucket.foam_aim_kg_m3 / end,
         "marks": [], "ends": [s.p_("foam", "lighter"), s.p_("foam", "heavier")]},
        {"kind": "table", "caption": s._("Published windows disagree"),
         "head": [{"text": s._("Foam"), "number": True}, {"text": s._("Who says so"), "number": False}],
         "rows": [[{"text": s._("%(low)s to %(high)s", low=q(low, "foam_density"), high=q(high, "foam_density")), "head": True},
                   {"text": desk.say(who)}] for low, high, who in _WINDOWS]},
        {"kind": "text", "tone": "small", "text": s._(
            "Weight alone does not show a bad agent or hard water: let a litre of foam stand for some minutes and see whether it keeps its height.")},
        notes_block(desk, desk.notes("foam_window_excludes_mix")),
    ]  # fmt: skip
