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
    """Mark a text.

    Source: GNU gettext manual, "Special cases of translatable strings".

    Parameters
    ----------
    text : str
        A literal text [-]

    Returns
    -------
    Message
        What ``Speaker.say`` translates [-]

    Examples
    --------
    >>> N_("Bags").text
    'Bags'
    """
    return Message(text)


def NP_(context: str, text: str, /) -> Message:
    """Mark a text whose meaning depends on where it stands.

    Source: GNU gettext manual, "Special cases of translatable strings".

    Parameters
    ----------
    context : str
        What tells its meanings apart [-]
    text : str
        A literal text [-]

    Returns
    -------
    Message
        What ``Speaker.say`` translates [-]

    Examples
    --------
    >>> NP_("masonry", "Course").context
    'masonry'
    """
    return Message(text, context)


def NN_(singular: str, plural: str, /) -> Message:
    """Mark a text that changes with a number.

    Source: GNU gettext manual, "Special cases of translatable strings".

    Parameters
    ----------
    singular : str
        The literal text for one [-]
    plural : str
        The literal text for any other number [-]

    Returns
    -------
    Message
        What ``Speaker.say`` translates, with a ``count`` [-]

    Examples
    --------
    >>> NN_("%(n)s bag", "%(n)s bags").plural
    '%(n)s bags'
    """
    return Message(singular, None, plural)


def NNP_(context: str, singular: str, plural: str, /) -> Message:
    """Mark a text that changes with a number and whose meaning depends on where it stands.

    Source: GNU gettext manual, "Special cases of translatable strings".

    Parameters
    ----------
    context : str
        What tells its meanings apart [-]
    singular : str
        The literal text for one [-]
    plural : str
        The literal text for any other number [-]

    Returns
    -------
    Message
        What ``Speaker.say`` translates, with a ``count`` [-]

    Examples
    --------
    >>> NNP_("masonry", "%(n)s course", "%(n)s courses").context
    'masonry'
    """
    return Message(singular, context, plural)
