"""The page lives on when it is saved from the browser: its blocks stand in it unchanged, and it starts again."""

import os
import re
import shutil
import subprocess
import time

import browsers
import pytest

BLOCK = re.compile(r'<script type="text/plain" data-part="([^"]+)">([^<]*)</script>')


def blocks(text):
    return BLOCK.findall(text)


def starts_again(browser, path):
    browser.open(path)
    browser.wait_for('html[data-live="1"]')
    assert browser.requests() == []
    booted = browser.evaluate("""
        const engine = await Foamwright.boot();
        const hello = await engine.call("hello", {languages: ["en"]});
        engine.end();
        return {why: engine.why, snapshot: engine.snapshot, version: hello.version};
    """)
    assert booted["why"] is None
    assert booted["snapshot"] is True
    assert booted["version"]


def test_the_live_document_serialised(browser, packed_page, tmp_path):
    browser.open(packed_page)
    browser.wait_for('html[data-live="1"]')
    saved = tmp_path / "saved.html"
    saved.write_text("<!DOCTYPE html>\n" + browser.evaluate("return document.documentElement.outerHTML"))
    assert blocks(saved.read_text()) == blocks(packed_page.read_text())
    starts_again(browser, saved)


def _wait(what, seconds=60):
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        found = what()
        if found:
            return found
        time.sleep(0.2)
    raise AssertionError(f"nothing came of {what.__name__} in {seconds} s")


@pytest.fixture
def keys():
    """A screen, and xdotool for its keyboard."""
    if not (shutil.which("Xvfb") and shutil.which("xdotool")):
        if browsers.in_ci():
            pytest.fail("in CI Xvfb and xdotool must be there")
        pytest.skip("needs Xvfb and xdotool")
    display = browsers.Display()
    environment = {**os.environ, "DISPLAY": display.name}

    def press(*words):
        return subprocess.run(["xdotool", *words], env=environment, capture_output=True, text=True).stdout.split()

    yield environment, press
    display.end()


def test_saved_by_the_keyboard(chromium, packed_page, tmp_path, keys):
    """Ctrl+S and the browser's own dialog, as a person does it."""
    environment, press = keys
    saved = tmp_path / "saved.html"
    shown = subprocess.Popen(
        [
            browsers.path_of("chromium"), *browsers.CHROMIUM_ARGUMENTS, f"--user-data-dir={tmp_path / 'profile'}",
            "--no-default-browser-check", "--window-size=1000,800", packed_page.as_uri(),
        ],
        env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )  # fmt: skip
    try:

        def window():
            return press("search", "--onlyvisible", "--name", "Foamwright - Chromium|Foamwright - Google Chrome")

        def dialog():
            press("windowfocus", "--sync", window()[0])
            press("key", "ctrl+s")
            time.sleep(1)
            return press("search", "--onlyvisible", "--name", "Save File")

        def file():
            # Written under another name first; whole when its end is there.
            return saved.exists() and saved.read_text().rstrip().endswith("</html>")

        _wait(window)
        # The engine writes into the document when it comes to life: save what stands there then.
        time.sleep(5)
        _wait(dialog)
        press("key", "ctrl+a")
        press("type", "--delay", "20", str(saved))
        # The Return key only accepts what the field would complete.
        time.sleep(1)
        press("key", "alt+s")
        _wait(file)
    finally:
        shown.terminate()
        shown.wait()
    assert blocks(saved.read_text()) == blocks(packed_page.read_text())
    starts_again(chromium, saved)
