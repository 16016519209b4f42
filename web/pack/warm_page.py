"""Runs in the page's own Python when the snapshot is taken: import all of the engine and let it warm its caches."""

import gc
import importlib
import pkgutil
import random
import sys


def warm() -> int:
    """Import everything the page may call, and forget this module. Returns how many modules are loaded."""
    import foamwright

    for info in pkgutil.walk_packages(foamwright.__path__, "foamwright."):
        if not info.name.endswith("__main__"):
            importlib.import_module(info.name)
    page = sys.modules["foamwright.page"]
    if hasattr(page, "warm"):
        page.warm()
    else:
        for name in ("pint", "babel.numbers", "babel.units", "babel.lists", "attrs", "segno"):
            importlib.import_module(name)
    for name in ("warm_page", "pkgutil"):
        sys.modules.pop(name, None)
    # The same sources make the same snapshot; the worker seeds it anew.
    random.seed(0)
    sys.path_importer_cache.clear()
    importlib.invalidate_caches()
    gc.collect()
    gc.freeze()
    return len(sys.modules)
