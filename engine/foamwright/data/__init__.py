"""Tables with their sources, read once at import."""

import json
import pkgutil
from typing import Any


def load(name: str) -> Any:
    """Read one table of this folder.

    Source: arithmetic.

    Parameters
    ----------
    name : str
        Its name without ``.json`` [-]

    Returns
    -------
    Any
        What the table holds [-]

    Raises
    ------
    FileNotFoundError
        There is no such table.

    Examples
    --------
    >>> "cem_i" in str(load("cement_types"))
    True
    """
    raw = pkgutil.get_data("foamwright", f"data/{name}.json")
    if raw is None:
        raise FileNotFoundError(name)
    return json.loads(raw)
