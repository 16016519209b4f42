"""What the page said was saved is there after the browser was killed, a hundred times over.

The browser's whole process group is sent SIGKILL within milliseconds of the word "Saved", and started anew on the
same profile. Closing a page politely would prove nothing, and is not done here.
"""

import json
import os
import signal
import time
from pathlib import Path
from typing import Any

import browsers
import pytest

CHROMIUM_KILLS = 100
FIREFOX_KILLS = 20

pytestmark = pytest.mark.skipif(os.name != "posix", reason="processes are killed by their group")

# Everything that the browser has put down, and what the page shows of it. The store is read beside the page's own code.
KEPT = """
    const until = async (found) => { for (const end = performance.now() + 60000; !found(); ) { if (performance.now() > end) throw new Error("waited in vain in " + document.body.innerText.slice(0, 400)); await new Promise((go) => setTimeout(go, 10)); } };
    await until(() => document.querySelector(".site-one textarea[data-path]"));
    document.querySelector('[data-do="site-all"]')?.click();
    const base = await new Promise((done, fail) => { const wish = indexedDB.open("foamwright.projects"); wish.onsuccess = () => done(wish.result); wish.onerror = fail; });
    const all = await new Promise((done) => { base.transaction("diary").objectStore("diary").getAll().onsuccess = (event) => done(event.target.result); });
    base.close();
    return {
      stored: all.map(({ entry }) => [entry.id, JSON.stringify(entry)]),
      shown: [...document.querySelectorAll("[data-entry]")].map((one) => [one.dataset.entry, one.querySelector(".log-text").textContent]),
    };
"""

# Type a note, press Save, and come back at the very moment that the page says "Saved".
ENTER = """
    const field = document.querySelector(".site-one textarea[data-path]");
    field.focus();
    field.value = given;
    field.dispatchEvent(new Event("input", {bubbles: true}));
    document.querySelector('[data-do="site-save"]').click();
    return await new Promise((done, fail) => {
      const look = () => { const saved = document.querySelector("[data-saved]"); if (saved) { watch.disconnect(); done(saved.dataset.saved); } };
      const watch = new MutationObserver(look);
      watch.observe(document.body, {subtree: true, childList: true, attributes: true});
      setTimeout(() => fail(new Error("not saved in " + document.body.innerText.slice(0, 400))), 30000);
      look();
    });
"""


def processes() -> dict[int, tuple[int, str]]:
    """Every process that can be seen: its parent and its command line."""
    found = {}
    for folder in Path("/proc").iterdir():
        if folder.name.isdigit():
            try:
                parent = int((folder / "stat").read_text().rpartition(")")[2].split()[1])
                found[int(folder.name)] = (parent, (folder / "cmdline").read_bytes().replace(b"\0", b" ").decode(errors="replace"))
            except OSError:
                pass  # it has ended meanwhile
    return found


def family(pid: int) -> set[int]:
    """A process and all that it started."""
    out = {pid}
    seen = processes()
    while more := {each for each, (parent, _) in seen.items() if parent in out} - out:
        out |= more
    return out


def alive(pids: set[int]) -> set[int]:
    left = set()
    for pid in pids:
        try:
            if (Path("/proc") / str(pid) / "stat").read_text().rpartition(")")[2].split()[0] != "Z":
                left.add(pid)
        except OSError:
            pass
    return left


def kill(pid: int) -> None:
    """SIGKILL to the group of a browser of ours, and to what else it started; returns once all of them are gone."""
    pids = family(pid)
    group = os.getpgid(pid)
    assert group != os.getpgid(0), "the browser must stand in a group of its own"
    os.killpg(group, signal.SIGKILL)
    for each in pids:
        try:
            os.kill(each, signal.SIGKILL)
        except ProcessLookupError:
            pass
    end = time.monotonic() + 20
    while alive(pids):
        assert time.monotonic() < end, "it outlived SIGKILL"
        time.sleep(0.01)


class Kept:
    """What was shown as saved so far, held against what is there."""

    def __init__(self) -> None:
        self.saved: dict[str, str] = {}

    def look(self, found: dict[str, Any], cycle: int) -> None:
        stored, shown = dict(found["stored"]), dict(found["shown"])
        assert len(found["stored"]) == len(stored) == len(self.saved), f"after {cycle} kills {len(stored)} entries of {len(self.saved)}"
        assert len(shown) == len(self.saved), f"after {cycle} kills the page shows {len(shown)} entries of {len(self.saved)}"
        for one, words in self.saved.items():
            assert words in json.loads(stored[one])["text"], (cycle, one)
            assert words in shown[one], (cycle, one)

    def add(self, one: str, words: str) -> None:
        assert one not in self.saved, f"{one} was given twice"
        self.saved[one] = words


def test_chromium_killed_after_saved(packed_page, tmp_path):
    from playwright.sync_api import sync_playwright

    path = _path_or_skip("chromium")
    profile = tmp_path / "profile"
    kept = Kept()
    address = packed_page.resolve().as_uri() + "#site=note"
    call = "(given) => (async () => {{ {} }})()".format
    with sync_playwright() as started:
        for cycle in range(CHROMIUM_KILLS + 1):
            context = started.chromium.launch_persistent_context(profile, executable_path=path, headless=True, args=browsers.CHROMIUM_ARGUMENTS, locale="en-US")
            pid = next(pid for pid, (_, line) in processes().items() if f"--user-data-dir={profile}" in line and "--type=" not in line)
            page = context.pages[0]
            page.goto(address)
            kept.look(page.evaluate(call(KEPT)), cycle)
            if cycle == CHROMIUM_KILLS:
                context.close()
                break
            words = f"cycle {cycle}."
            kept.add(page.evaluate(call(ENTER), words), words)
            kill(pid)
            try:
                context.close()
            except Exception:  # noqa: BLE001 - there is nothing left to close, which is what this test is about
                pass
    assert len(kept.saved) == CHROMIUM_KILLS


def test_firefox_killed_after_saved(packed_page, tmp_path):
    _path_or_skip("firefox")
    profile = tmp_path / "profile"
    profile.mkdir()
    kept = Kept()
    for cycle in range(FIREFOX_KILLS + 1):
        fox = _firefox(profile)
        try:
            fox.open(packed_page, "site=note")
            kept.look(fox.evaluate(KEPT), cycle)
            if cycle < FIREFOX_KILLS:
                words = f"cycle {cycle}."
                kept.add(fox.evaluate(ENTER, words), words)
                kill(fox.driver.service.process.pid)
        finally:
            if cycle == FIREFOX_KILLS:
                fox.quit()
            elif fox.driver.service.process.poll() is None:
                kill(fox.driver.service.process.pid)
    assert len(kept.saved) == FIREFOX_KILLS


def test_webkit_keeps_the_diary_over_a_reload(webkit, packed_page):
    kept = Kept()
    webkit.open(packed_page, "site=note")
    webkit.evaluate(
        """
        localStorage.clear();
        await new Promise((done) => { const wish = indexedDB.deleteDatabase("foamwright.projects"); wish.onsuccess = wish.onerror = wish.onblocked = done; });
        """
    )
    for cycle in range(4):
        if cycle % 2:
            webkit.driver.refresh()
        else:
            webkit.open(packed_page, "site=note")
        kept.look(webkit.evaluate(KEPT), cycle)
        kept.add(webkit.evaluate(ENTER, f"cycle {cycle}."), f"cycle {cycle}.")
    webkit.open(packed_page, "site=note")
    kept.look(webkit.evaluate(KEPT), 4)


def _path_or_skip(name: str) -> Path:
    try:
        return browsers.path_of(name)
    except browsers.Missing as why:
        if browsers.in_ci():
            pytest.fail(f"in CI every browser must be there: {why}")
        pytest.skip(str(why))


def _firefox(profile: Path) -> browsers.Firefox:
    """Firefox on a profile that is kept, in a process group of its own."""
    from selenium import webdriver
    from selenium.webdriver.firefox.service import Service

    options = webdriver.FirefoxOptions()
    options.binary_location = str(browsers.path_of("firefox"))
    options.add_argument("-headless")
    options.add_argument("-profile")
    options.add_argument(str(profile))
    options.set_preference("intl.accept_languages", "en-US")
    fox = browsers.Firefox.__new__(browsers.Firefox)
    fox.driver = webdriver.Firefox(options=options, service=Service(str(browsers._geckodriver()), log_output=os.devnull, popen_kw={"start_new_session": True}))
    fox.driver.set_script_timeout(240)
    return fox
