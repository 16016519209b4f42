"""The batch card: what goes into the drum, in which order, until when."""

from typing import Any, Final

from foamwright.reader import N_, NP_
from foamwright.sheets.cautions import cautions
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.fields import CHOICES
from foamwright.sheets.form import share_code
from foamwright.sheets.problems import notes_block

ID: Final = "batch"
SECTION: Final = "site"
TITLE: Final = N_("Batch card")


def share(desk: Desk) -> str:
    """Return the cement of a batch as kilograms to weigh, or as whole bags."""
    b, s = desk.e.batches.batch, desk.s
    mass = desk.text("batch.cement_kg")
    if b.bags is None or b.bags_batches is None:
        return s._("Weigh %(mass)s for each batch", mass=mass)
    if b.bags == b.bags_batches == 1:
        return s._("One whole bag: %(mass)s", mass=mass)
    bags = s.n_("%(number)s bag makes", "%(number)s bags make", b.bags, number=s.whole(b.bags))
    made = s.n_("%(number)s batch", "%(number)s batches", b.bags_batches, number=s.whole(b.bags_batches))
    return s._("%(bags)s %(batches)s; weigh %(mass)s for each", bags=bags, batches=made, mass=mass)


def _steps(desk: Desk) -> list[str]:
    s, b = desk.s, desk.project.batch
    out = [
        s._("Check the foam first: in the bucket it must weigh %(low)s to %(high)s, empty bucket taken off.",
            low=desk.text("foam.net_low_g"), high=desk.text("foam.net_high_g")),
        s._("Put %(water)s of water into the drum.", water=desk.text("batch.water_l")),
        s._("Weigh %(cement)s of cement and add it while the paddle turns: %(minutes)s, until no lump is left.",
            cement=desk.text("batch.cement_kg"), minutes=s.quantity(b.slurry_minutes, "duration")),
    ]  # fmt: skip
    for i, portion in enumerate(desk.e.ahead.portions):
        name = desk.say(CHOICES["mix.additions[].kind"][portion.kind])
        out.append(s._("%(addition)s: weigh %(mass)s as damp as it was stated, and stir it in.", addition=name, mass=desk.text(f"portion.batched_kg#{i}")))
    if desk.value("batch.slurry_mark_m") is not None:
        out.append(s._("The slurry stands at %(mark)s.", mark=desk.text("batch.slurry_mark_m")))
    out.append(
        s._("Fold in %(foam)s of foam, %(minutes)s, gently and from below.",
            foam=desk.text("batch.foam_l"), minutes=s.quantity(b.fold_minutes, "duration"))
    )  # fmt: skip
    if desk.value("batch.final_mark_m") is not None:
        out.append(
            s._("The full batch stands at %(mark)s. Lower: foam was lost, add foam and look why. Do not pour a batch that sinks.",
                mark=desk.text("batch.final_mark_m"))
        )  # fmt: skip
    out.append(
        s._("Pour within %(minutes)s after the first foam goes into the slurry. After that, do not pour.",
            minutes=s.quantity(b.pour_within_minutes, "duration"))
    )  # fmt: skip
    return out


def _additions(desk: Desk) -> list[Block]:
    """What else is weighed for one batch."""
    s = desk.s
    rows = [
        [{"text": desk.say(CHOICES["mix.additions[].kind"][portion.kind]), "head": True}, desk.cell(f"portion.batched_kg#{i}")]
        for i, portion in enumerate(desk.e.ahead.portions)
    ]
    head = [{"text": s._("What"), "number": False}, {"text": s._("Weigh"), "number": True}]
    return [{"kind": "table", "caption": s._("What else goes into the slurry"), "head": head, "rows": rows}] if rows else []


def _options(desk: Desk) -> Block:
    s = desk.s
    rows: list[list[dict[str, Any]]] = []
    for i, option in enumerate(desk.e.batches.options):
        name = desk.say(CHOICES["batch.bags_each"][share_code(option.numerator / option.denominator)])
        rows.append([
            {"text": name, "head": True},
            desk.cell(f"option.cement_kg#{i}"), desk.cell(f"option.water_l#{i}"), desk.cell(f"option.yield_l#{i}"),
            {"text": s._("fits") if option.fits else s._("does not fit")},
        ])  # fmt: skip
    head = [
        {"text": s._("Share of a bag"), "number": False},
        {"text": s._("Cement, weighed"), "number": True},
        {"text": s._("Water"), "number": True},
        {"text": desk.say(NP_("volume of foamed concrete that a batch makes", "Makes")), "number": True},
        {"text": s._("In this drum"), "number": False},
    ]
    return {"kind": "table", "caption": s._("Which share of a bag fits this drum"), "head": head, "rows": rows}


def _emptying(desk: Desk) -> list[Block]:
    s = desk.s
    words = {
        "in_place": N_("Pour the batch where it is mixed: bring the moulds to the drum."),
        "tip": N_("Tip the drum on a frame that holds it; nobody stands where it can fall."),
        "bottom_outlet": N_("Let it out at the bottom into the moulds."),
        "buckets": N_("Carry it away in small buckets."),
    }
    out: list[Block] = [
        {"kind": "heading", "text": s._("Emptying the drum")},
        {"kind": "text", "tone": "plain", "text": desk.say(words[desk.project.batch.emptying])},
    ]
    names = {
        "cement_bag": N_("A bag of cement"),
        "pour_bucket": N_("A small bucket of foamed concrete"),
        "block_fresh": N_("A fresh block"),
    }
    rows: list[list[dict[str, Any]]] = [
        [
            {"text": desk.say(names[lift.code]), "head": True},
            desk.cell(f"lift.mass_kg#{i}"),
            {"text": s.n_("%(number)s time in the whole job", "%(number)s times in the whole job", lift.count,
                          number=s.whole(lift.count))},
        ]
        for i, lift in enumerate(desk.e.site.lifts)
    ]  # fmt: skip
    head = [
        {"text": desk.say(NP_("something raised by hand", "Lift")), "number": False},
        {"text": s._("Mass"), "number": True},
        {"text": s._("How often"), "number": False},
    ]
    if rows:
        out.append({"kind": "table", "caption": s.p_("raising by hand", "What is lifted by hand"), "head": head, "rows": rows})
        out.append({"kind": "text", "tone": "small", "text": s._(
            "NIOSH 94-110 allows one person at most %(load)s in the best posture; reach, turning and repeats lower it. The equation does "
            "not rate a sloshing drum.", load=s.quantity(23.0, "mass"))})  # fmt: skip
    return out


def blocks(desk: Desk) -> list[Block]:
    """Return the blocks of the sheet."""
    return [
        {"kind": "text", "tone": "lead", "text": share(desk)},
        desk.figures("batch.cement_kg", "batch.water_l", "batch.foam_l", "batch.foam_mass_kg", "batch.yield_l", "batch.mass_kg",
                     "batch.slurry_mark_m", "batch.final_mark_m"),
        *_additions(desk),
        notes_block(desk, desk.notes("addition_water_covers", "accelerator_chloride")),
        notes_block(desk, desk.notes(
            "batch_does_not_fit", "no_fraction_fits", "stated_batch_differs", "drum_marks_missing", "drum_marks_beyond",
            "foam_window_excludes_mix")),
        {"kind": "heading", "text": desk.s._("In this order")},
        {"kind": "steps", "items": _steps(desk)},
        {"kind": "text", "tone": "small", "text": desk.s._("Minutes are common practice, no source: put in what your mixer needs.")},
        desk.figures("batches.to_mix", "batches.last_batch_fraction"),
        *_emptying(desk),
        notes_block(desk, desk.notes("full_drum_not_lifted", "lift_heavy_bag", "lift_heavy_block")),
        _options(desk),
        cautions(desk, ("mixing", "bags")),
    ]  # fmt: skip
