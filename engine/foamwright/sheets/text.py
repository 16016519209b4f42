"""The same sheets as plain text, for a terminal."""

import unicodedata
from typing import Any

from foamwright.project.model import Project
from foamwright.reader import Reader, speaker
from foamwright.sheets.view import view


def width(text: str) -> int:
    """Return how many columns a text takes in a terminal.

    Source: Unicode Standard Annex 11 (East Asian Width), combining marks and format characters counted as none.

    Parameters
    ----------
    text : str
        The text [-]

    Returns
    -------
    int
        Its width [columns]

    Examples
    --------
    >>> width("m³"), width("木")
    (2, 2)
    """
    columns = 0
    for char in text:
        if unicodedata.combining(char) or unicodedata.category(char) == "Cf":
            continue
        columns += 2 if unicodedata.east_asian_width(char) in "WF" else 1
    return columns


def _pad(text: str, columns: int, number: bool = False) -> str:
    fill = " " * max(columns - width(text), 0)
    return fill + text if number else text + fill


def _table(block: dict[str, Any]) -> list[str]:
    rows = [[cell["text"] for cell in row] for row in block["rows"] + block.get("foot", [])]
    head = [cell["text"] for cell in block["head"]]
    numbers = [cell.get("number", False) for cell in block["head"]]
    wide = [max(width(row[i]) for row in [head, *rows] if i < len(row)) for i in range(len(head))]
    lines = [block["caption"] + ":"]
    for row in [head, *rows]:
        cells = (_pad(text, wide[i], numbers[i]) for i, text in enumerate(row))
        lines.append("  " + "   ".join(cells).rstrip())
    return lines


def _block(block: dict[str, Any]) -> list[str]:
    match block["kind"]:
        case "heading":
            return ["", block["text"]]
        case "text" | "missing":
            return [block["text"]]
        case "steps":
            return [f"  {i}. {text}" for i, text in enumerate(block["items"], 1)]
        case "points":
            return [f"  - {text}" for text in block["items"]]
        case "figures":
            wide = max((width(item["label"]) for item in block["items"]), default=0)
            return [
                f"  {_pad(item['label'], wide)}   {item['text']}" + (f"   ({item['note']})" if item.get("note") else "")
                for item in block["items"]
            ]
        case "table":
            return _table(block)
        case "drawing":
            return [block["words"]]
        case "band":
            return [block["title"], f"  {block['words']}"]
        case "notes":
            return [f"  {item['word']}: {item['text']}" for item in block["items"]]
        case "cautions":
            lines = []
            for item in block["items"]:
                lines += [f"  {item['task']}"]
                for line in item["lines"]:
                    lines.append(f"    - {line['text']}")
                    if line["source_text"]:
                        lines.append(f"      [{line['source_text']}]")
            return lines
    raise AssertionError(f"no text form for a block of kind {block['kind']}")


def render(project: Project, reader: Reader) -> str:
    """Return all sheets of a project as text.

    Source: the sheets themselves.

    Parameters
    ----------
    project : Project
        The project [-]
    reader : Reader
        Language, units and digits [-]

    Returns
    -------
    str
        Text with line breaks [-]
    """
    made = view(project, speaker(reader))
    lines = [made["title"]]
    if made["subtitle"]:
        lines.append(made["subtitle"])
    for problem in made["problems"]:
        lines.append(problem["text"])
    for sheet in made["sheets"] or []:
        lines += ["", sheet["title"], "=" * width(sheet["title"])]
        for block in sheet["blocks"]:
            lines += _block(block)
    return "\n".join(lines) + "\n"
