"""The words of the page's own furniture: buttons, questions, states. The page knows them by key only."""

from typing import Final

from foamwright.reader import Message

WORDS: Final[dict[str, Message]] = {}
