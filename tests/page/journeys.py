"""What a person does with the page, in words that work in any of the three browsers.

Everything goes through the document: fields are typed into by events, as the browsers' own drivers differ in how
they type. The real keyboard is tried in Chromium, in the tests that are about the keyboard.
"""

import json
from pathlib import Path
from typing import Any

import browsers

_BASE = "foamwright.projects"
_PREFERENCES = "foamwright.reader"

_WIPE = f"""
    localStorage.clear();
    await new Promise((done) => {{
      const wish = indexedDB.deleteDatabase("{_BASE}");
      wish.onsuccess = wish.onerror = wish.onblocked = done;
    }});
    if (given) localStorage.setItem("{_PREFERENCES}", JSON.stringify(given));
"""

METRIC = {"language": "en", "units": "metric", "digits": "auto", "numbers": "auto"}
DIAMETER = "parts[0].inside_diameter_m"
THICKNESS = "parts[0].thickness_m"


class Visitor:
    """One person in front of one browser."""

    def __init__(self, browser: browsers.Browser, path: Path) -> None:
        self.browser = browser
        self.path = path

    # --- coming and going ---

    def arrive(self, fragment: str = "", reader: dict[str, str] | None = None, *, asked: bool = True, light: str = "auto") -> "Visitor":
        """Open the page as somebody whose browser has kept nothing of it, but for the choices given."""
        wishes: dict[str, Any] = {"light": light, "reader": reader or METRIC}
        if asked:
            wishes["asked"] = True
        if not self.browser.evaluate('return Boolean(document.getElementById("parts"))'):
            self.browser.open(self.path)
        self.browser.evaluate(_WIPE, wishes)
        self.come_back(fragment)
        return self

    def come_back(self, fragment: str = "", path: Path | None = None) -> None:
        """Open the page again, with what the browser has kept."""
        self.browser.open(path or self.path, fragment)
        self.browser.wait_for('html[data-live="1"]')

    # --- looking ---

    def look(self, script: str, given: Any = None) -> Any:
        """The value of an expression in the page."""
        return self.browser.evaluate(f"return ({script});", given)

    def until(self, condition: str, given: Any = None, seconds: float = 20) -> Any:
        """Wait until an expression holds, and return its value."""
        return self.browser.evaluate(
            f"""
            const end = performance.now() + given.seconds * 1000;
            for (;;) {{
              const value = ((given) => ({condition}))(given.given);
              if (value) return value;
              if (performance.now() > end) throw new Error("waited in vain for " + given.condition + " in: " + document.body.innerText.slice(0, 300));
              await new Promise((go) => setTimeout(go, 25));
            }}
            """,
            {"seconds": seconds, "given": given, "condition": condition},
        )

    def strip(self) -> dict[str, str]:
        """The answers that stay in sight: label -> text."""
        found = self.look('[...document.querySelectorAll(".answer")].map((one) => [...one.querySelectorAll("span")].map((part) => part.textContent))')
        return {label: text for label, text in found}

    def figure(self, name: str) -> str:
        """A figure on a sheet, by its id."""
        return str(self.look("document.querySelector(`main [data-figure=\"${given}\"]`).querySelector('.figure-text')?.textContent ?? ''", name))

    def value(self, path: str) -> str:
        """What stands in a field."""
        return str(self.look("document.getElementById('f-' + given).value", path))

    def project(self) -> str:
        """The project's text, as the page carries it; empty before the first change."""
        return str(self.look("JSON.parse(document.getElementById('carried').textContent || '{\"text\": \"\"}').text"))

    def texts(self, css: str) -> list[str]:
        return list(self.look("[...document.querySelectorAll(given)].map((node) => node.textContent.trim())", css))

    def saved(self) -> None:
        """Wait until the page says that the project is kept."""
        self.until("document.querySelector('.kept.saved')")

    # --- doing ---

    def type(self, path: str, text: str, prefix: str = "f") -> None:
        """Put a text into a field, as typing does, and stay in it."""
        self.browser.evaluate(
            """
            const field = document.getElementById(given.id);
            for (let node = field; node; node = node.parentElement) if (node.localName === "details") node.open = true;
            field.focus();
            field.value = given.text;
            field.dispatchEvent(new Event("input", {bubbles: true}));
            """,
            {"id": f"{prefix}-{path}", "text": text},
        )

    def leave(self) -> None:
        """Leave the field."""
        self.browser.evaluate("document.activeElement.blur()")

    def calm(self) -> None:
        """Wait until nothing is under way and every sheet belongs to the project as it stands."""
        self.until("document.documentElement.hasAttribute('data-calm')")

    def say(self, path: str, text: str) -> None:
        """Type into a field, leave it, and wait until every sheet has followed."""
        self.type(path, text)
        self.leave()
        self.calm()

    def choose(self, css: str, value: str) -> None:
        """Choose from a list."""
        self.browser.evaluate(
            """
            const list = document.querySelector(given.css);
            for (let node = list; node; node = node.parentElement) if (node.localName === "details") node.open = true;
            list.focus();
            list.value = given.value;
            if (list.value !== given.value) throw new Error(given.value + " is not on offer");
            list.dispatchEvent(new Event("change", {bubbles: true}));
            """,
            {"css": css, "value": value},
        )
        self.calm()

    def language(self, tag: str) -> None:
        self.choose("#language", tag)
        self.until("document.documentElement.lang === given && document.getElementById('language').value === given", tag)

    def units(self, name: str) -> None:
        self.choose("#units", name)

    def press(self, css: str) -> None:
        """Press what is found, wherever it stands on the page."""
        self.until("document.querySelector(given)", css)
        self.browser.evaluate("const node = document.querySelector(given); node.focus(); node.click();", css)

    def key(self, key: str, *, ctrl: bool = False, shift: bool = False) -> None:
        self.browser.evaluate(
            """
            document.activeElement.dispatchEvent(
              new KeyboardEvent("keydown", {key: given.key, ctrlKey: given.ctrl, shiftKey: given.shift, bubbles: true, cancelable: true}));
            """,
            {"key": key, "ctrl": ctrl, "shift": shift},
        )

    def undo(self) -> None:
        self.press('[data-do="undo"]')

    def menu(self) -> None:
        self.press('[data-drawer="menu"]')
        self.until("document.querySelector('.drawer.menu')")

    def send(self) -> dict[str, str]:
        """Open what is sent, and read the code and the message."""
        self.press('.tools [data-drawer="send"]')
        self.until("document.getElementById('send-code')?.value")
        return {
            "code": str(self.look("document.getElementById('send-code').value")),
            "message": str(self.look("document.getElementById('send-message').value")),
        }

    def give_file(self, css: str, text: str, name: str = "given.json") -> None:
        """Hand a file to a file field."""
        self.browser.evaluate(
            """
            const carrier = new DataTransfer();
            carrier.items.add(new File([given.text], given.name));
            const field = document.querySelector(given.css);
            field.files = carrier.files;
            field.dispatchEvent(new Event("change", {bubbles: true}));
            """,
            {"css": css, "text": text, "name": name},
        )

    def answer(self, act: str) -> None:
        """Press one of the choices of a notice."""
        self.press(f'.notice [data-act="{act}"]')


def engine(op: str, **args: Any) -> Any:
    """What the same engine says in CPython."""
    from foamwright.page import call

    told = json.loads(call(op, json.dumps(args)))
    assert told["ok"], told
    return told["value"]


def painful_project() -> str:
    """Data that hurts: a name of 80 characters in one word, twelve openings, and a cost of nine digits and more."""
    openings = [{"form": "round", "diameter_m": 0.3, "sill_m": 0.6, "azimuth_deg": 30 * at, "count": 1} for at in range(12)]
    prices = [
        {"item": "cement", "unit": "bag", "price": 98765.43},
        {"item": "agent", "unit": "L", "price": 1234567.89},
        {"item": "water", "unit": "m3", "price": 432109.87},
        {"item": "other", "unit": "lump", "label": "Ü" * 80, "quantity": 3, "price": 123456789.12},
    ]
    return json.dumps(
        {
            "format": 1,
            "name": "W" * 80,
            "note": "A note with no break in it: " + "m" * 200,
            "place": {"name": "Mittelunterhinterobervorderdorfbergmoosgrabensteinacker " + "ö" * 20},
            "market": {"currency": "COP", "prices": prices},
            "parts": [{"id": "main", "openings": openings}],
        }
    )
