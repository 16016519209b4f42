"""One View: all that the page shows of a project, for one reader."""

from typing import Any, Final, Protocol

from foamwright import __version__
from foamwright.estimate import Outcome, estimate
from foamwright.project.model import Project
from foamwright.project.write import project_hash
from foamwright.reader import Message, N_, Speaker
from foamwright.sheets import batch, briefing, buy, drawings, finishes, foam, form, glance, landowner, lay, mix, patterns, permission, structure
from foamwright.sheets.desk import Block, Desk, narrow
from foamwright.sheets.fields import SECTIONS
from foamwright.sheets.problems import problem_block, without
from foamwright.sheets.stamp import stamp


class Sheet(Protocol):
    """A module that makes one sheet."""

    ID: str
    SECTION: str
    TITLE: Message

    def blocks(self, desk: Desk) -> list[Block]:
        """Return the blocks of the sheet."""


SHEETS: Final[tuple[Sheet, ...]] = (glance, structure, permission, drawings, mix, finishes, buy, landowner, batch, foam, lay, patterns, briefing)

_STRIP: Final = (
    ("blocks.count", N_("Blocks"), "glance"),
    ("batches.to_mix", N_("Batches"), "batch"),
    ("batches.cement_bags", N_("Bags"), "buy"),
    ("foam.net_aim_g", N_("Foam in the bucket"), "foam"),
    ("money.total", N_("Cost"), "buy"),
)


def sheet(desk: Desk, module: Sheet) -> Block:
    """Return one sheet under its stamp, where there is one; blocks with nothing in them are left out."""
    full = [block for block in (stamp(desk, module.ID), *module.blocks(desk)) if block.get("items", True)]
    made = [part for block in full for part in (narrow(block) if block["kind"] == "table" else [block])]
    return {"id": module.ID, "section": module.SECTION, "title": desk.say(module.TITLE), "lead": "", "blocks": made}


def strip(desk: Desk) -> list[Block]:
    """Return the answers that stay in sight."""
    return [
        {"figure": name, "label": desk.say(label), "text": desk.text(name), "sheet": to}
        for name, label, to in _STRIP
        if desk.value(name) is not None
    ]


def title(s: Speaker, project: Project) -> str:
    """Return the name of the job, or what it is where it has no name."""
    return project.name or s._("A small dome of foamed concrete")


def view(project: Project, s: Speaker, want: list[str] | None = None, outcome: Outcome | None = None) -> dict[str, Any]:
    """Return the View of a project.

    Source: the contract between page and engine in DEVELOPERS.md.

    Parameters
    ----------
    project : Project
        The project [-]
    s : Speaker
        The reader's words, numbers and units [-]
    want : list[str] | None
        Ids of the sheets that are wanted; None is all of them [-]
    outcome : Outcome | None
        The estimate where it is already made [-]

    Returns
    -------
    dict
        The View as plain data; its sheets are None where there is no estimate, and where there are problems beside them, the
        sheets are those of the other parts [-]
    """
    done = outcome or estimate(project)
    desk = Desk(project, done, s)
    made = None
    if done.estimate is not None:
        made = [sheet(desk, module) for module in SHEETS if want is None or module.ID in want]
    return {
        "project_hash": project_hash(project),
        "engine": __version__,
        "title": title(s, project),
        "subtitle": project.place.name,
        "strip": strip(desk) if done.estimate is not None else [],
        "problems": [problem_block(desk, problem) for problem in done.problems],
        "without": without(desk),
        "sections": form.sections(desk),
        "sheets": made,
    }


def section_list(s: Speaker) -> list[dict[str, str]]:
    """Return the sections in the order of the job."""
    return [{"id": name, "title": s.say(words)} for name, words in SECTIONS.items()]


def sheet_list(s: Speaker) -> list[dict[str, str]]:
    """Return the sheets in the order of the job."""
    return [{"id": m.ID, "section": m.SECTION, "title": s.say(m.TITLE)} for m in SHEETS]
