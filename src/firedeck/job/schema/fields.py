"""How a field of the document is read: texts with units, choices, and maps by label."""

from dataclasses import dataclass
from typing import Annotated

from pydantic import BaseModel, ConfigDict, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from firedeck.errors import BadQuantity
from firedeck.quantity import Quantity, parse, parse_list, show
from firedeck.terms import Term, term

ABSURD = 100.0
"""A value this many times beyond the plausible range is refused; nearer ones are only asked about."""


class Part(BaseModel):
    """A section of the document: unknown keys are refused, nothing is changed after reading."""

    model_config = ConfigDict(
        extra="forbid", frozen=True, arbitrary_types_allowed=True, populate_by_name=True
    )


@dataclass(frozen=True)
class In:
    """One text with a unit, of the kind of a term."""

    term: str

    def read(self, given: object) -> Quantity:
        """Read a text; numbers without a unit are refused, whatever TOML type they come in."""
        if isinstance(given, bool) or not isinstance(given, str | int | float):
            raise refusal(f"a text with its unit, such as {_example(self.term)}")
        try:
            quantity = parse(str(given), term(self.term).kind)
        except BadQuantity as fault:
            raise refusal(fault.allowed) from fault
        _refuse_absurd(quantity, term(self.term))
        return quantity

    def __get_pydantic_core_schema__(self, _source: object, _handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(
        self, _schema: CoreSchema, _handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        about = term(self.term)
        return {"type": "string", "title": about.label, "description": about.help, "x-kind": about.kind.value}


@dataclass(frozen=True)
class ListOf:
    """A list of readings in one text, one unit at the end may serve all: "160, 128, 168 psi"."""

    term: str

    def read(self, given: object) -> tuple[Quantity, ...]:
        """Read the list; a TOML list of texts is taken as well."""
        try:
            if isinstance(given, list) and all(isinstance(item, str) for item in given):
                quantities = tuple(parse(item, term(self.term).kind) for item in given)
            elif isinstance(given, str):
                quantities = parse_list(given, term(self.term).kind)
            else:
                raise refusal(f"a text such as {_example(self.term)}, or a list of such texts")
        except BadQuantity as fault:
            raise refusal(fault.allowed) from fault
        for quantity in quantities:
            _refuse_absurd(quantity, term(self.term))
        return quantities

    def __get_pydantic_core_schema__(self, _source: object, _handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(
        self, _schema: CoreSchema, _handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        about = term(self.term)
        texts: JsonSchemaValue = {"type": "array", "items": {"type": "string"}}
        return {"anyOf": [{"type": "string"}, texts], "title": about.label, "description": about.help}


@dataclass(frozen=True)
class OrNone:
    """One text with a unit, or the word none; kept as the text it is once it has been read."""

    term: str

    def read(self, given: object) -> str:
        """Read the text; anything but a length and none is refused."""
        if isinstance(given, str) and given.strip() == "none":
            return "none"
        try:
            return In(self.term).read(given).text
        except PydanticCustomError as fault:
            raise refusal(f'{fault.message()}, or "none"') from fault

    def __get_pydantic_core_schema__(self, _source: object, _handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(
        self, _schema: CoreSchema, _handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        about = term(self.term)
        return {"type": "string", "title": about.label, "description": about.help, "x-kind": about.kind.value}


def whole(text: str) -> str:
    """Read a whole number in a text, "" where nobody knows; words round it are refused, nobody can tell what they mean."""
    bare = text.strip()
    if bare and not (bare.isascii() and bare.isdigit()):
        raise refusal('a whole number such as "2"')
    return bare


def refusal(allowed: str) -> PydanticCustomError:
    """Make the error a fault of one field is reported with; its message says what is allowed."""
    return PydanticCustomError("refused", "{allowed}", {"allowed": allowed})


def _refuse_absurd(quantity: Quantity, about: Term) -> None:
    if about.plausible is None:
        return
    low, high = about.plausible
    too_small = low >= 0 and quantity.value < low / ABSURD
    if (
        too_small
        or quantity.value > ABSURD * abs(high)
        or quantity.value < -ABSURD * max(abs(low), abs(high))
    ):
        raise refusal(f"{about.label} normally lies between {_said(low, about)} and {_said(high, about)}")


def _said(value: float, about: Term) -> str:
    return show(value, about.kind, "mm")


def _example(name: str) -> str:
    about = term(name)
    value = about.plausible[1] if about.plausible else 10.0
    return f'"{_said(value, about)}"'


Point = tuple[Annotated[Quantity, In("x")], Annotated[Quantity, In("y")]]
"""A place in the set's own axes, two texts with units."""

Labels = tuple[str, ...]
