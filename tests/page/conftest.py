"""The packed page in real browsers. Each browser is started once a session, and the page is built beforehand."""

import os
import re
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import browsers
import pytest

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "web" / "pack")]

# An engine of the test's own beside the page's: tests look inside Python with it.
PROBE = """
    if (!window.probe) window.probe = await Foamwright.boot({probe: true});
    return true;
"""


@pytest.fixture(scope="session")
def packed_page() -> Path:
    """dist/foamwright.html, made from what the checkout holds now; or the page that FOAMWRIGHT_PAGE names."""
    import build

    named = os.environ.get("FOAMWRIGHT_PAGE")
    if named:
        return Path(named)
    if not build.PAGE.exists() or not build.done_before("page", build.page_inputs()):
        pytest.fail(f"{build.PAGE.relative_to(ROOT)} is missing or older than its sources: run `python3 build.py pack` first")
    return build.PAGE


def _started(name: str) -> Iterator[browsers.Browser]:
    try:
        browser = browsers.start(name)
    except browsers.Missing as why:
        if browsers.in_ci():
            pytest.fail(f"in CI every browser must be there: {why}")
        pytest.skip(str(why))
    yield browser
    browser.quit()


@pytest.fixture(scope="session")
def chromium() -> Iterator[browsers.Browser]:
    yield from _started("chromium")


@pytest.fixture(scope="session")
def firefox() -> Iterator[browsers.Browser]:
    yield from _started("firefox")


@pytest.fixture(scope="session")
def webkit() -> Iterator[browsers.Browser]:
    yield from _started("webkit")


@pytest.fixture(scope="session", params=browsers.NAMES)
def browser(request: pytest.FixtureRequest) -> browsers.Browser:
    """Each of the three in turn."""
    found: browsers.Browser = request.getfixturevalue(request.param)
    return found


@pytest.fixture
def engine_page(browser: browsers.Browser, packed_page: Path) -> browsers.Browser:
    """The packed page open, with `window.probe`, an engine booted for looking inside. Opened anew only where needed."""
    if not browser.evaluate("return Boolean(window.probe)"):
        browser.open(packed_page)
    browser.evaluate(PROBE)
    return browser


@pytest.fixture
def run_inside(engine_page: browsers.Browser) -> Callable[[str], object]:
    """Run Python source in the page; the value of its last expression comes back."""

    def run(code: str) -> object:
        return engine_page.evaluate('return await window.probe.call("probe_python", given)', {"code": code})

    return run


@pytest.fixture
def altered(packed_page: Path, tmp_path: Path) -> Callable[[Callable[[str], str]], Path]:
    """A copy of the page with its text changed; the page's own start is left out, so that nothing else runs."""

    def alter(change: Callable[[str], str]) -> Path:
        text = packed_page.read_text()
        changed = change(text)
        assert changed != text, "the copy was to differ"
        copy = tmp_path / "altered.html"
        copy.write_text(without_app(changed))
        return copy

    return alter


def without_app(page: str) -> str:
    """The page without the script that starts the engine by itself."""
    start, end = app_script(page)
    return page[:start] + page[end:]


def app_script(page: str) -> tuple[int, int]:
    """Where the page's own script stands: the first one behind the first data blocks."""
    match = re.compile(r"<script>\n.*?</script>", re.S).search(page, page.index('data-part="worker"'))
    assert match, "the page has no script of its own"
    return match.span()


def damaged(page: str, part: str) -> str:
    """The page with one character of a part's last block changed into another that may stand there."""
    at = page.rindex(f'data-part="{part}">')
    at = page.index("</script>", at) - 40
    return page[:at] + ("A" if page[at] != "A" else "B") + page[at + 1 :]
