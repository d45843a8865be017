"""Why the store refuses. Each text says what is wrong and what to do; the wire gives each kind a status of its own."""

from __future__ import annotations


class Refusal(Exception):
    """`title` names the kind of refusal, the text tells the case."""

    title = "Refused"

    @property
    def detail(self) -> str:
        return str(self)


class NotHere(Refusal):
    title = "Not here"


class NotYours(Refusal):
    title = "Not allowed"


class NotSignedIn(Refusal):
    title = "Not signed in"


class AlreadyHere(Refusal):
    title = "Already here"


class NotLetIn(Refusal):
    """An entry put aside that still cannot be used."""

    title = "Still put aside"


class Stale(Refusal):
    title = "Changed meanwhile"


class TooMany(Refusal):
    """`after_seconds`: when to try again, where that helps."""

    title = "Too many"

    def __init__(self, text: str, after_seconds: int | None = None) -> None:
        super().__init__(text)
        self.after_seconds = after_seconds


class BadDocument(Refusal):
    """What is wrong with a document or a value, by path."""

    title = "Not usable as it is"

    def __init__(self, errors: dict[str, list[str]], text: str = "Put right what is listed and send it again.") -> None:
        super().__init__(text)
        self.errors = errors
