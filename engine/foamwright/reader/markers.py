"""Marks for texts that are translated later than where they are written.

``pybabel`` finds the literal inside a marker; at run time ``Speaker.say`` translates what the marker
returned. Only literal strings may stand inside.
"""

from typing import NamedTuple


class Message(NamedTuple):
    """A text of the source language that waits for its Speaker."""

    text: str
    context: str | None = None
    plural: str | None = None


def N_(text: str, /) -> Message:
    """Mark a text."""
    return Message(text)


def NP_(context: str, text: str, /) -> Message:
    """Mark a text whose meaning depends on where it stands."""
    return Message(text, context)


def NN_(singular: str, plural: str, /) -> Message:
    """Mark a text that changes with a number."""
    return Message(singular, None, plural)


def NNP_(context: str, singular: str, plural: str, /) -> Message:
    """Mark a text that changes with a number and whose meaning depends on where it stands."""
    return Message(singular, context, plural)
