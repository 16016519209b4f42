"""Thick pours on the sheet of the first look: how warm, how deep a lift, how long to wait."""

from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.problems import notes_block
from foamwright.structure.pours import LIMIT_C


def _between(desk: Desk, kind: str, low: float, high: float) -> str:
    """A range in words."""
    return desk.s._("%(low)s to %(high)s", low=desk.show(kind, low), high=desk.show(kind, high))


def poured(desk: Desk) -> list[Block]:
    """Return what must be known of every pour; nothing where nothing is poured.

    Source: the pours of the estimate.
    """
    s, out = desk.s, list[Block]()
    several = len(desk.project.parts) > 1
    for i, pour in enumerate(desk.e.structure.pours):
        title = s.p_("concrete", "Pouring in place")
        out.append({"kind": "heading", "text": s._("%(part)s: %(what)s", part=pour.part, what=title) if several else title})
        if not pour.thick:
            out.append({"kind": "text", "tone": "plain", "text": s.p_(
                "concrete", "At most %(depth)s deep: it is poured at once, and left open at its top it loses most of its heat within a day or so.",
                depth=s.quantity(pour.depth_m or 0.0, "length_small"))})  # fmt: skip
            continue
        out.append(desk.figures(*(f"structure.pour_{name}#{i}" for name in (
            "rise_low", "rise", "peak_low", "peak", "cement", "lifts", "pressure"))))  # fmt: skip
        lift = _between(desk, "length_small", pour.lift_depth_low_m, pour.lift_depth_high_m)
        wait = _between(desk, "hours", pour.wait_low_h, pour.wait_high_h)
        points = [
            s.p_("concrete", "Lifts of %(range)s (common practice, no source).", range=lift),
            s.p_("concrete", "Wait %(range)s until the next one, in the cold longer: the lift below must carry it, and a person, without sinking "
                 "(common practice, no source).", range=wait),
            s.p_("concrete", "The wait is for strength. Foamed concrete insulates itself, so that the lift below is still hot: keep a thermometer in it, and stop "
                 "if it passes %(limit)s.", limit=s.quantity(LIMIT_C, "temperature")),
            s.p_("concrete", "Less cement, a cement of low heat, a cool mix, a shady day and thinner lifts keep it cooler."),
            s.p_("concrete", "A core that is much hotter than its face cracks: cover the top of the last lift."),
        ]  # fmt: skip
        if pour.lifts_low is not None and pour.lifts_high is not None:
            points[0] += " " + s.np_(
                "concrete", "That is %(fewest)s to %(number)s lift.", "That is %(fewest)s to %(number)s lifts.",
                pour.lifts_high, fewest=s.whole(pour.lifts_low), number=s.whole(pour.lifts_high))  # fmt: skip
        out.append({"kind": "points", "items": points})
    if out:
        out.append(notes_block(desk, desk.notes("pour_heat", "pour_peak", "pour_start_unasked", "pour_depth_unasked")))
        if len(desk.e.structure.pours) < len(desk.project.parts):
            out.append({"kind": "text", "tone": "small", "text": s.p_(
                "concrete", "Shells and walls are laid from blocks that are cast one by one: those cool within hours, and none of this is about them.")})  # fmt: skip
    return out
