"""The few calls that the page makes: JSON text in, JSON text out, no state between calls."""

import json
from typing import Any

from foamwright import __version__

_CALLS: dict[str, Any] = {}


def call(op: str, args: str) -> str:
    """Answer one message of the page.

    Parameters
    ----------
    op : str
        Name of the call [-]
    args : str
        Its arguments as JSON [-]

    Returns
    -------
    str
        ``{"ok": true, "value": ...}`` or ``{"ok": false, "problem": {...}}`` as JSON [-]
    """
    if op == "hello":
        return json.dumps({"ok": True, "value": {"version": __version__}})
    return json.dumps({"ok": False, "problem": {"code": "unknown_call", "path": "", "params": {"op": op}}})
