"""What can hurt people at each task, as a one-page briefing.

The usual cautions of the trade; local codes and the makers' own sheets go before them. Every line carries
the context "caution", so that a translation that nobody has confirmed is shown beside its source.
"""

from typing import TYPE_CHECKING, Any, Final

from foamwright.reader import N_, NP_, Message

if TYPE_CHECKING:
    from foamwright.sheets.desk import Desk

#: task id -> (title, lines). The id also names the picture that the page draws.
TASKS: Final[dict[str, tuple[Message, tuple[Message, ...]]]] = {
    "everyone": (
        N_("Everyone, before the first bag"),
        (
            NP_("caution", "Local codes, the makers' safety sheets and licensed people go before this page."),
            NP_("caution", "Wet cement is caustic. It burns skin and can blind, often without pain at first."),
            NP_("caution", "Clean running water and an eye-wash bottle stand beside the mixer before work starts."),
            NP_("caution", "Cement in an eye: rinse with clean water at once for twenty minutes and go to a doctor."),
            NP_("caution", "Children and animals stay away from mixers, drums, blocks that cure and washing water."),
        ),
    ),
    "bags": (
        N_("Tipping bags"),
        (
            NP_("caution", "Wear a fitted dust mask (FFP2, N95 or better) and closed goggles; stand upwind; tip low and slowly."),
            NP_("caution", "Carry a heavy bag with two people, or bring it with a barrow. Split it where you can."),
            NP_("caution", "Long sleeves, waterproof gloves and closed boots. Change clothes that cement has soaked."),
        ),
    ),
    "mixing": (
        N_("Mixing and foaming"),
        (
            NP_("caution", "An electric mixer in the wet needs a residual-current device of at most 30 mA, a sound cable and dry hands."),
            NP_("caution", "Never reach into a drum while the paddle can turn. Pull the plug before you clean the mixer."),
            NP_("caution", "A foam hose is under pressure: fasten every joint, point it at nobody, let the pressure off before you open it."),
            NP_("caution", "Wear closed goggles while foam and slurry are mixed: they splash."),
            NP_("caution", "A full drum is never lifted or carried. Pour where it is mixed, tip it on a frame, or use small buckets."),
        ),
    ),
    "laying": (
        N_("Laying blocks"),
        (
            NP_("caution", "Nobody stands under or inside a course that is not closed yet. An unfinished ring can fall suddenly, all of it."),
            NP_("caution", "Fresh blocks are weak: leave them in the mould until the next day at least, and longer in the cold."),
            NP_("caution", "Work from a level platform with a rail, not from a ladder or from the shell."),
            NP_("caution", "Wear a helmet and boots with toe caps. Stop in strong wind, heavy rain or frost."),
            NP_("caution", "The first look on this page does not prove that the shell stands. A licensed engineer decides that, and the ties, buttresses or ring it needs."),
        ),
    ),
    "pouring": (
        NP_("concrete", "Thick pours and voids"),
        (
            NP_("caution", "Nobody enters a pit, a void or a form while it is filled: liquid foamed concrete carries nobody, and its foam hides a person."),
            NP_("caution", "It looks hard before it is: nobody steps on a lift before the next day, and every open pour is fenced."),
            NP_("caution", "Fresh, it presses on forms and old walls like a liquid. Whoever is licensed looks at them before the first lift."),
            NP_("caution", "A thick pour gets hot for days. Do not drill, cut or open it while it is hot: steam and hot water scald."),
            NP_("caution", "Empty pipes and tanks float up in it: tie them down or fill them with water first."),
        ),
    ),
    "digging": (
        N_("Digging the base and bending bars"),
        (
            NP_("caution", "Ask where cables, gas and water run before anyone digs."),
            NP_("caution", "A trench can fall in at once: keep soil and bags away from its edge, and nobody steps into one deeper than the hip that is not shored."),
            NP_("caution", "Cap or bend every end of a bar that stands up. Gloves and goggles to cut and bend it."),
            NP_("caution", "Bars, ties and the depth of the base are for a licensed engineer and the building department to decide."),
        ),
    ),
    "coating": (
        NP_("reinforcement", "Mesh and stucco"),
        (
            NP_("caution", "Gloves for cut mesh: its edges are sharp and its fibres itch. Goggles for stucco overhead."),
            NP_("caution", "Cutting or sanding hard concrete makes dust that scars lungs: wet it, or use an extractor and a fitted mask."),
            NP_("caution", "Rinse cement off the skin at once and do not kneel in it: burns come hours later."),
            NP_("caution", "Wash tools where the water cannot reach a stream, a well or a drain: it kills fish."),
        ),
    ),
}  # fmt: skip


def cautions(desk: "Desk", tasks: tuple[str, ...] = tuple(TASKS)) -> dict[str, Any]:
    """Return the block of cautions for some tasks, each line with its source text where it is unconfirmed."""
    items = []
    for task in tasks:
        title, lines = TASKS[task]
        said = []
        for line in lines:
            told = desk.s.caution(line)
            said.append({"text": told.text, "source_text": told.source})
        items.append({"task": desk.say(title), "picture": task, "lines": said})
    return {"kind": "cautions", "items": items}
