"""The kinds of field that documents are made of, strict and in plain words, and the record that holds them.

Each kind also says what it allows as JSON Schema, so that the published schema cannot differ from what is checked.
"""

from __future__ import annotations

import dataclasses
import math
import re
from collections.abc import Callable, Mapping
from enum import StrEnum
from typing import Any, ClassVar

from marshmallow import RAISE, Schema, ValidationError, fields, post_load

from .strict_json import WHOLE, joined, unsound_text

SLUG = r"[a-z0-9][a-z0-9-]{0,63}"
Described = dict[str, Any]
WORDS = {"required": "This field is missing.", "null": "This must not be null."}


def number_text(value: float) -> str:
    """Without an exponent, which nobody types."""
    return f"{value:.15g}" if abs(value) < 1e15 else f"{value:.0f}"


def plain_number(value: float) -> int | float:
    """The number as documents write it: 1200 rather than 1200.0, and never -0."""
    return int(value) if value == int(value) else value


class Kind(fields.Field):
    """A field that is checked by `taken` and written by `given`."""

    default_error_messages = WORDS

    def taken(self, value: Any) -> Any:
        raise NotImplementedError

    def given(self, value: Any) -> Any:
        return value

    def described(self) -> Described:
        raise NotImplementedError

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        return self.taken(value)

    def _serialize(self, value: Any, attr: str | None, obj: Any, **kwargs: Any) -> Any:
        return None if value is None else self.given(value)


class Number(Kind):
    """A finite number from `least` to `greatest`, limits included. Quoted numbers and true or false are refused."""

    def __init__(self, least: float, greatest: float, unit: str = "mm", *, whole: bool = False, **more: Any) -> None:
        super().__init__(**more)
        self.least, self.greatest, self.unit, self.whole = least, greatest, unit, whole

    def taken(self, value: Any) -> float | int:
        unit = f" {self.unit}" if self.unit else ""
        allowed = f"{number_text(self.least)} to {number_text(self.greatest)}{unit}"
        kind = "a whole number" if self.whole else "a number"
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise ValidationError(f"This must be {kind} without quotes; allowed: {allowed}.")
        if isinstance(value, float) and not math.isfinite(value):
            raise ValidationError(f"This must be {kind}, and finite; allowed: {allowed}.")
        if not self.least <= value <= self.greatest:
            shown = number_text(value) if abs(value) < 1e12 else "This"
            raise ValidationError(f"{shown} is out of range; allowed: {allowed}.")
        if self.whole:
            if value != int(value):
                raise ValidationError(f"{number_text(value)} is not a whole number; allowed: {allowed}.")
            return int(value)
        return float(value) + 0.0

    def given(self, value: Any) -> int | float:
        return plain_number(value)

    def described(self) -> Described:
        kind = "integer" if self.whole else "number"
        unit = {"description": self.unit} if self.unit else {}
        return {"type": kind, "minimum": self.least, "maximum": self.greatest, **unit}


class YesNo(Kind):
    def taken(self, value: Any) -> bool:
        if not isinstance(value, bool):
            raise ValidationError("This must be true or false, without quotes.")
        return value

    def described(self) -> Described:
        return {"type": "boolean"}


class Text(Kind):
    """One line of text. `lines` allows line breaks too."""

    def __init__(self, least: int = 1, greatest: int = 200, *, lines: bool = False, **more: Any) -> None:
        super().__init__(**more)
        self.least, self.greatest, self.lines = least, greatest, lines

    def taken(self, value: Any) -> str:
        if not isinstance(value, str):
            raise ValidationError("This must be text in quotes.")
        if why := unsound_text(value):
            raise ValidationError(why)
        if re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f]" if self.lines else r"[\x00-\x1f\x7f-\x9f\u2028\u2029]", value):
            raise ValidationError("There is a control character in it (a tab or line break, say); take it out.")
        if not self.least <= len(value) <= self.greatest or (self.least and not value.strip()):
            raise ValidationError(
                f"This text has {len(value)} characters; allowed: {self.least} to {self.greatest}, not all blank."
            )
        return value

    def described(self) -> Described:
        return {"type": "string", "minLength": self.least, "maxLength": self.greatest}


class Slug(Kind):
    """An id: small letters, digits and hyphens, 1 to 64 of them, not beginning with a hyphen."""

    def taken(self, value: Any) -> str:
        if not isinstance(value, str) or not re.fullmatch(SLUG, value):
            raise ValidationError(
                "This is not an id; allowed: 1 to 64 small letters a to z, digits and hyphens, a letter or digit first."
            )
        return value

    def described(self) -> Described:
        return {"type": "string", "pattern": f"^{SLUG}$"}


class Choice(Kind):
    """One of a few words; of an enumeration, its member."""

    def __init__(self, words: type[StrEnum] | tuple[str, ...], **more: Any) -> None:
        super().__init__(**more)
        self.members: dict[str, str] = {str(word): word for word in words}

    def taken(self, value: Any) -> str:
        if not isinstance(value, str) or value not in self.members:
            raise ValidationError(f"This is not one of the words allowed here: {', '.join(self.members)}.")
        return self.members[value]

    def given(self, value: Any) -> str:
        return str(value)

    def described(self) -> Described:
        return {"type": "string", "enum": list(self.members)}


class Known(Kind):
    """A name out of a table that may grow, such as time zones: `names` is asked when it is needed."""

    def __init__(self, what: str, example: str, names: Callable[[], frozenset[str]], **more: Any) -> None:
        super().__init__(**more)
        self.what, self.example, self.names = what, example, names

    def taken(self, value: Any) -> str:
        if not isinstance(value, str) or value not in self.names():
            known = sorted(self.names())
            allowed = f"allowed: {', '.join(known)}" if len(known) <= 20 else f"one is {self.example}"
            raise ValidationError(f"This is not the name of {self.what}; {allowed}.")
        return value

    def described(self) -> Described:
        return {"type": "string", "description": f"the name of {self.what}", "examples": [self.example]}


class Listing(fields.List):
    """A list, in order, kept as a tuple."""

    default_error_messages: ClassVar[dict[str, str]] = {**WORDS, "invalid": "This must be a list in square brackets."}

    def __init__(self, inner: fields.Field, least: int = 0, greatest: int = 1000, **more: Any) -> None:
        super().__init__(inner, **more)
        self.least, self.greatest = least, greatest

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        if not isinstance(value, list):
            raise self.make_error("invalid")
        if not self.least <= len(value) <= self.greatest:
            raise ValidationError(f"This list has {len(value)} entries; allowed: {self.least} to {self.greatest}.")
        return tuple(super()._deserialize(value, attr, data, **kwargs))

    def described(self) -> Described:
        limits = {"minItems": self.least, "maxItems": self.greatest}
        return {"type": "array", "items": described(self.inner), **limits}


class Inside(fields.Nested):
    """An object within an object."""

    default_error_messages = WORDS


class Part(Inside):
    """A record within a record."""

    def described(self) -> Described:
        return {"$ref": f"#/$defs/{self.nested.makes.__name__}"}


class OneOf(Kind):
    """A record of one of several kinds, told apart by the word in its field `told_by`."""

    def __init__(self, told_by: str, kinds: Mapping[str, type[Record]], **more: Any) -> None:
        super().__init__(**more)
        self.told_by, self.kinds = told_by, kinds
        self.made = {word: kind() for word, kind in kinds.items()}

    def taken(self, value: Any) -> Any:
        if not isinstance(value, dict):
            raise ValidationError("This must be an object in curly brackets.")
        word = value.get(self.told_by)
        if not isinstance(word, str) or word not in self.made:
            missing = (
                "This field is missing" if self.told_by not in value else "This is not one of the words allowed here"
            )
            raise ValidationError({self.told_by: [f"{missing}; allowed: {', '.join(self.made)}."]})
        return self.made[word].load(value)

    def given(self, value: Any) -> Any:
        return self.made[getattr(value, self.told_by)].dump(value)

    def described(self) -> Described:
        return {"oneOf": [{"$ref": f"#/$defs/{kind.makes.__name__}"} for kind in self.kinds.values()]}


class Strict(Schema):
    """An object with these fields and no others; none may be missing. Read as a dictionary."""

    class Meta:
        unknown = RAISE

    error_messages: ClassVar[dict[str, str]] = {"type": "This must be an object in curly brackets."}

    def on_bind_field(self, field_name: str, field_obj: fields.Field) -> None:
        field_obj.required = True

    def handle_error(self, error: ValidationError, data: Any, **kwargs: Any) -> None:
        if isinstance(data, Mapping) and isinstance(error.messages, dict):
            allowed = ", ".join(self.fields) or "none"
            for name in set(data) - set(self.fields):
                error.messages[name] = [f"There is no such field here; allowed: {allowed}."]


class Record(Strict):
    """Field for field a frozen dataclass. What has a default there may be left out of a document; nothing else may."""

    makes: ClassVar[type]

    def on_bind_field(self, field_name: str, field_obj: fields.Field) -> None:
        field_obj.required = field_name not in with_defaults(self.makes)

    @post_load
    def _made(self, data: dict[str, Any], **kwargs: Any) -> Any:
        made = self.makes(**data)
        if errors := self.clashes(made):
            raise ValidationError({name: [text] for name, text in errors.items()})
        return made

    def clashes(self, made: Any) -> dict[str, str]:
        """What is wrong between fields that are each right, by field."""
        return {}


def with_defaults(made: type) -> set[str]:
    return {each.name for each in dataclasses.fields(made) if each.default is not dataclasses.MISSING}


def described(field: fields.Field) -> Described:
    """What a field allows, as JSON Schema."""
    found: Described = field.described()  # type: ignore[attr-defined]
    return {"anyOf": [found, {"type": "null"}]} if field.allow_none else found


def by_path(messages: Any, path: str = "") -> dict[str, list[str]]:
    """marshmallow's nested messages as texts by dotted path."""
    if isinstance(messages, dict):
        found: dict[str, list[str]] = {}
        for step, inner in messages.items():
            below = by_path(inner, path if step == "_schema" else joined(path, step))
            for place, texts in below.items():
                found.setdefault(place, []).extend(texts)
        return found
    return {path or WHOLE: [str(text) for text in (messages if isinstance(messages, list) else [messages])]}


def reversed_limits(made: Any, *pairs: tuple[str, str]) -> dict[str, str]:
    """Pairs of least and greatest that are the wrong way round."""
    found = {}
    for least, greatest in pairs:
        low, high = getattr(made, least), getattr(made, greatest)
        if low is not None and high is not None and low > high:
            found[least] = (
                f"{number_text(low)} is more than {greatest}, {number_text(high)}; the range is the wrong way round."
            )
    return found
