"""The answer to "why?" for one figure: rule, inputs, source, evidence, range, what it leaves out."""

from typing import Any

from foamwright.estimate import part_of
from foamwright.project.model import Project
from foamwright.sheets.desk import Desk, pattern
from foamwright.sheets.fields import CHOICES, FIELDS
from foamwright.sheets.figures import VIA
from foamwright.sheets.form import given_code, lookup, share_code, shown
from foamwright.sheets.problems import left_out_lines
from foamwright.sheets.sources import BASES, SOURCES


def paths(project: Project, wanted: str) -> list[str]:
    """Return every path of a project that a pattern stands for.

    Source: the project file's own paths.

    Parameters
    ----------
    project : Project
        The project [-]
    wanted : str
        A pattern such as ``parts[].thickness_m`` [-]

    Returns
    -------
    list[str]
        The paths [-]

    Examples
    --------
    >>> paths(Project(), "parts[].thickness_m")
    ['parts[0].thickness_m']
    """
    found = [""]
    for step in wanted.split("."):
        name, many = step.removesuffix("[]"), step.endswith("[]")
        grown = []
        for base in found:
            path = f"{base}.{name}" if base else name
            grown += [f"{path}[{i}]" for i in range(len(lookup(project, path)))] if many else [path]
        found = grown
    return found


def _input(desk: Desk, path: str) -> dict[str, str] | None:
    value = lookup(desk.project, path)
    text = FIELDS.get(pattern(path))
    if text is None or not shown(desk, path):
        return None
    if path == "mix.given":
        words = CHOICES["mix.given"].get(given_code(desk.project))
        told = desk.say(words) if words else ""
    elif path == "batch.bags_each":
        words = CHOICES["batch.bags_each"].get(share_code(value))
        told = desk.say(words) if words else desk.s.number(float(value), significant=4, trim=True)
    elif value is None:
        return None
    elif path.endswith(".at_m"):
        told = desk.s.list_join([desk.s.quantity(float(number), text.kind) for number in value])
    elif isinstance(value, tuple):
        told = desk.s.list_join([desk.s.whole(number) for number in value]) if value and isinstance(value[0], int) else (
            desk.s.n_("%(number)s corner", "%(number)s corners", len(value), number=desk.s.whole(len(value))))
    elif isinstance(value, str):
        words = CHOICES.get(pattern(path), {}).get(value)
        told = desk.say(words) if words else value
    elif text.kind == "money":
        told = desk.money(float(value))
    elif text.kind in ("", "count", "ratio"):
        told = desk.s.number(float(value), significant=4, trim=True)
    else:
        told = desk.s.quantity(float(value), text.kind)
    return {"label": desk.label(path), "value": told, "path": path}


def why(desk: Desk, name: str) -> dict[str, Any]:
    """Return why a figure is what it is.

    Source: the figure's own entry.

    Parameters
    ----------
    desk : Desk
        The estimate and its reader [-]
    name : str
        The figure's id, such as ``option.yield_l#2`` [-]

    Returns
    -------
    dict
        title, value, rule, inputs, basis, source, range, leaves_out, each in words [-]

    Raises
    ------
    KeyError
        Where no figure has this id.
    """
    figure, index = desk.figure(name)
    source = SOURCES[figure.source]
    left = {i for i in range(len(desk.project.parts)) if i not in desk.e.shape.places}
    # A figure of a row keeps its row: money.line#2 goes by way of money.quantity#2.
    row = name.partition("#")[1] + name.partition("#")[2]
    between = [near + row for near in VIA.get(figure.id, ()) if desk.value(near + row) is not None]
    inputs = [{"label": desk.item(near)["label"], "value": desk.text(near), "figure": near} for near in between]
    inputs += [
        found
        for wanted in figure.inputs
        for path in paths(desk.project, wanted)
        if part_of(path) not in left and (found := _input(desk, path)) is not None
    ]
    span = figure.span(desk, index) if figure.span else None
    return {
        "title": desk.say(figure.label),
        "value": desk.text(name),
        "rule": desk.say(figure.rule),
        "inputs": inputs,
        "basis": desk.say(BASES[source.kind]),
        "source": ": ".join(part for part in (source.document, desk.say(source.says)) if part),
        "range": ""
        if span is None
        else desk.s._(
            "From %(low)s to %(high)s", low=desk.show(figure.kind, span[0]), high=desk.show(figure.kind, span[1])
        ),
        "leaves_out": " ".join(filter(None, (desk.say(figure.leaves_out), *(text for _, text in left_out_lines(desk))))),
    }
