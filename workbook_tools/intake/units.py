"""Units as keepers write them, converted with exact definitions; hobby measures with values the keeper can set."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any

from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields.kinds import listed

if TYPE_CHECKING:
    from collections.abc import Callable

KEPT_IN = {"l": "liter", "ml": "milliliter", "g": "gram", "cm": "centimeter", "dm2": "decimeter ** 2"}
"""The units that amounts are kept in, as the units library names them."""
DIMENSION = {"l": "volume", "ml": "volume", "g": "mass", "cm": "length", "dm2": "area", "degC": "temperature"}
SAID = {
    "l": "litres", "ml": "millilitres", "g": "grams", "cm": "centimetres", "dm2": "square decimetres",
    "degC": "degrees Celsius", "percent": "per cent", "count": "a number",
}  # fmt: skip

_UNITS = {
    "liter": "l; ltr; lt; litre; litres; liter; liters; litro; litros; dm3",
    "milliliter": "ml; mls; millilitre; millilitres; milliliter; milliliters; cc; cm3; ccm; mil",
    "centiliter": "cl; cls; centilitre; centilitres; centiliter; centiliters",
    "deciliter": "dl; dls; decilitre; decilitres; deciliter; deciliters",
    "meter ** 3": "m3",
    "quart": "qt; qts; quart; quarts; qrt",
    "dry_quart": "dry qt; dry quart; dry quarts; qt dry; quarts dry",
    "imperial_quart": "imp qt; imperial quart; imperial quarts; uk quart; uk quarts; quart uk; quarts uk; uk qt; "
    "qt uk; quart imperial; quarts imperial; qt imp",
    "gallon": "gal; gals; gallon; gallons; us gal; us gallon; us gallons",
    "imperial_gallon": "imp gal; imperial gallon; imperial gallons; uk gal; uk gallon; uk gallons; gallon uk; "
    "gallons uk; gal uk; gallon imperial; gallons imperial; gal imp",
    "imperial_pint": "imp pt; imperial pint; imperial pints; uk pint; uk pints; pint uk; pints uk; uk pt; pt uk; "
    "pint imperial; pints imperial; pt imp",
    "pint": "pt; pts; pint; pints",
    "fluid_ounce": "fl oz; floz; fl.oz; fluid ounce; fluid ounces; us fl oz; oz fl",
    "imperial_fluid_ounce": "imp fl oz; imperial fluid ounce; uk fl oz; fl oz uk; imperial fluid ounces; fl oz imp",
    "tablespoon": "tbsp; tbsps; tbs; tablespoon; tablespoons; el; essloffel; esslöffel",
    "teaspoon": "tsp; tsps; teaspoon; teaspoons; tl; teelöffel; teeloffel",
    "cubic_foot": "cu ft; cubic foot; cubic feet; ft3; cuft",
    "cubic_inch": "cu in; cubic inch; cubic inches; in3",
    "gram": "g; gr; gram; grams; gramm; gramme; grammes; gms; gm",
    "kilogram": "kg; kgs; kilo; kilos; kilogram; kilograms",
    "milligram": "mg; milligram; milligrams",
    "pound": "lb; lbs; pound; pounds",
    "ounce": "oz; ozs; ounce; ounces",
    "centimeter": "cm; cms; centimetre; centimetres; centimeter; centimeters",
    "millimeter": "mm; millimetre; millimetres; millimeter; millimeters",
    "meter": "m; metre; metres; meter; meters",
    "inch": "in; ins; inch; inches; \"; ''",
    "foot": "ft; foot; feet; '",
    "decimeter ** 2": "dm2; sq dm; qdm; sqdm",
    "centimeter ** 2": "cm2; sq cm; qcm; sqcm",
    "meter ** 2": "m2; sq m; qm; sqm",
    "inch ** 2": "in2; sq in; sqin; square inch; square inches",
    "foot ** 2": "ft2; sq ft; sqft; square foot; square feet",
    "degree_Celsius": "°c; c; deg c; degc; celsius; °; º; ºc; deg; degrees; degrees c",
    "degree_Fahrenheit": "°f; f; deg f; degf; fahrenheit; ºf; degrees f",
    "percent": "%; percent; per cent; pc; pct; % rh; %rh; rh",
    "count": "ct; count; animals; pcs; pc.; individuals; ind; adults; ad; heads; isopods; "
    "pellet; pellets; piece; pieces; wafer; wafers; stick; sticks; cube; cubes",
    "second": "s; sec; secs; second; seconds",
    "minute": "min; mins; minute; minutes",
    "hour": "h; hr; hrs; hour; hours",
    "day": "d; day; days",
    "week": "wk; wks; week; weeks",
}
_MEASURES = {
    "handful": "handful; handfuls; handfull; hf; hfs; hand; hands; handvoll; fistful; fistfuls; poignée; poignees",
    "double_handful": "double handful; double handfuls; double hand; both hands; two handed scoop",
    "pinch": "pinch; pinches; prise; pincée",
    "splash": "splash; splashes; dash; dribble; schluck",
    "soak": "good soak; soak; soaks; soaking; thorough soak",
    "slice": "slice; slices; scheibe; scheiben",
    "cup": "cup; cups; c; tasse; tassen",
    "shoebox": "shoebox; shoe box; shoeboxes; shoebox size; shoe box size",
    "spray": "spray; sprays; squirt; squirts; spritz; spritzes; pump; pumps; puff; puffs; stroke; strokes",
    "drop": "drop; drops; tropfen",
}
_BRACKETS = re.compile(r"[()\[\]]")
_BY_KIND = {"volume": "ml", "mass": "g", "length": "cm", "area": "dm2"}
_LITRES_FROM = 0.4
"""In a field of any kind a volume written in a unit of this many litres or more (L, quart, pint) is kept in litres."""
_NO_AMOUNTS = frozenset({"count", "second", "minute", "hour", "day", "week"})
_WORDS = {word: unit for unit, words in _UNITS.items() for word in listed(words)}
_MEASURE_WORDS = {word: key for key, words in _MEASURES.items() for word in listed(words)}
_SIZES = {
    word: key
    for key, words in {
        "measure.big": "big; large; generous; heaped; huge; good; heaping; full; proper",
        "measure.small": "small; tiny; little; wee; scant; mini; light",
    }.items()
    for word in listed(words)
}


@dataclass(frozen=True)
class Measures:
    """What a hobby measure holds, and which quart is meant.

    Parameters
    ----------
    overrides : mapping
        By name of the measure ("handful"), the keeper's own value in the unit of its default; under "quart" a word:
        "US dry" or "imperial", which then holds for pints too, and "imperial" for gallons and fluid ounces.
    own : mapping
        Measures of the keeper's own ("spoon"), in lower case, each as ``holds`` gives it.
    """

    overrides: Mapping[str, float | str] = field(default_factory=dict)
    own: Mapping[str, tuple[float, float, float, str, bool]] = field(default_factory=dict)

    def holds(self, key: str) -> tuple[float, float, float, str, bool]:
        """Best, low and high value of a measure, its unit, and whether it is our guess."""
        default = DEFAULTS[f"measure.{key}"]
        own = self.overrides.get(key)
        if isinstance(own, int | float):
            return float(own), float(own), float(own), default.unit, False
        if key == "cup":
            return default.value, default.value, default.value, default.unit, True
        return default.value, default.low, default.high, default.unit, True

    @property
    def system(self) -> str:
        """Which quart is meant: "liquid", "dry" or "imperial"."""
        said = str(self.overrides.get("quart", "")).casefold()
        if "dry" in said:
            return "dry"
        return "imperial" if any(word in said for word in ("imp", "uk", "brit")) else "liquid"

    @property
    def quart_note(self) -> str:
        """A sentence for the reading notes on which quart was taken."""
        name = {"liquid": "a US liquid quart", "dry": "a US dry quart", "imperial": "an imperial quart"}[self.system]
        litres = factor(_in_system("quart", self.system), "l")
        why = "as your settings say" if "quart" in self.overrides else "which the Settings sheet can change"
        return f"A quart was taken as {name} of {litres:.3f} L, {why}."


@dataclass(frozen=True, slots=True)
class UnitFound:
    """A unit or measure found in a text: times ``factor`` it gives ``unit``, one of those that amounts are kept in.

    ``low`` and ``high`` are the range of the factor. ``unit`` is the library's name for what is no amount (a time).
    """

    written: str
    unit: str
    factor: float = 1
    low: float = 1
    high: float = 1
    guessed: bool = False


def measure_named(text: str) -> str:
    """The key of the hobby measure that a word names ("hf", "handfuls"), empty when it names none."""
    return _MEASURE_WORDS.get(text.casefold().strip(), "")


_NOT_IN_HEADINGS = frozenset(("m", '"', "''", "'", "°", "º", "pc", "mil", "el", "tl"))
"""Words for a unit that mean something else at the end of a heading."""
_IN_HEADINGS = {"degree_Celsius": "degC", "degree_Fahrenheit": "degF", "percent": "percent"}
_MEASURES_IN_HEADINGS = ("handful", "double_handful", "cup")
_OF_TEMPERATURE = {"c": "degC", "f": "degF"}


@cache
def unit_of_heading(words: str) -> str:
    """The unit that words in lower case name in a heading, as a word ``find_unit`` knows; empty for none.

    Times and counts are none: "days", "adults" say what a column holds. A lone ``c`` is Celsius there, not a cup.
    """
    if words in _OF_TEMPERATURE:
        return _OF_TEMPERATURE[words]
    if (key := _MEASURE_WORDS.get(words)) in _MEASURES_IN_HEADINGS:
        return listed(_MEASURES[key])[0]
    name = _WORDS.get(words, "")
    if not name or name in _NO_AMOUNTS or words in _NOT_IN_HEADINGS:
        return ""
    return _IN_HEADINGS.get(name) or listed(_UNITS[name])[0]


@cache
def _registry() -> Any:
    from pint import UnitRegistry

    registry: Callable[..., Any] = UnitRegistry
    return registry(non_int_type=Decimal)


@cache
def factor(name: str, into: str) -> float:
    """How many ``into`` (l, ml, g, cm or dm2) one unit is, by the library's exact definition.

    Raises
    ------
    pint.DimensionalityError
        The two are not of one kind.
    """
    registry = _registry()
    return float(registry.Quantity(Decimal(1), name).to(KEPT_IN[into]).magnitude)


def celsius(fahrenheit: float) -> float:
    """Turn degrees Fahrenheit into degrees Celsius."""
    registry = _registry()
    return round(float(registry.Quantity(Decimal(repr(fahrenheit)), "degF").to("degC").magnitude), 9)


@cache
def _kind(name: str) -> str:
    """Volume, mass, length, area, temperature, or the name itself for what is none of them."""
    if name in ("percent", "count"):
        return name
    if name.startswith("degree_"):
        return "temperature"
    dimension = _registry().Unit(name).dimensionality
    kinds = {"[length] ** 3": "volume", "[mass]": "mass", "[length]": "length", "[length] ** 2": "area"}
    return kinds.get(str(dimension), name)


def _in_system(name: str, system: str) -> str:
    if system == "imperial" and name in ("quart", "pint", "gallon", "fluid_ounce"):
        return f"imperial_{name}"
    if system == "dry" and name in ("quart", "pint"):
        return f"dry_{name}"
    return name


def find_unit(text: str, usual: str, measures: Measures) -> tuple[UnitFound, str] | None:
    """Find the unit at the beginning of a text in lower case.

    Parameters
    ----------
    text : str
        What stands behind a number ("qt", "fl oz of water").
    usual : str
        The unit that the field is kept in; decides what ``oz`` and ``c`` mean. Empty for a field of any kind.
    measures : Measures
        The keeper's hobby measures.

    Returns
    -------
    tuple of UnitFound and str, or None
        The unit and the words behind it. ``oz`` is a mass for a field kept in grams, else a fluid ounce; either way a
        guess. A quart is guessed while the keeper's settings don't say which.
    """
    words = text.split()
    size = 1.0
    resized = False
    if len(words) > 1 and words[0] in _SIZES and " ".join(words[:2]) not in _MEASURE_WORDS:
        size, words, resized = DEFAULTS[_SIZES[words[0]]].value, words[1:], True
    for length in range(min(3, len(words)), 0, -1):
        word = _BRACKETS.sub("", " ".join(words[:length])).strip(".,;:!?")
        rest = " ".join(words[length:])
        rest = rest.removeprefix("of ").strip()
        if mine := measures.own.get(word) or measures.own.get(word.removesuffix("s")):
            best, low, high, unit, guessed = mine
            return UnitFound(word, unit, best * size, low * size, high * size, guessed or resized), rest
        celsius_meant = word == "c" and usual == "degC"
        if word in _MEASURE_WORDS and not celsius_meant:
            best, low, high, unit, guessed = measures.holds(_MEASURE_WORDS[word])
            return UnitFound(word, unit, best * size, low * size, high * size, guessed or resized), rest
        if word in _WORDS and not resized:
            return _unit(word, usual, measures), rest
    return None


def _unit(word: str, usual: str, measures: Measures) -> UnitFound:
    name = _WORDS[word]
    guessed = False
    if name == "ounce" and (word in ("oz", "ozs") or DIMENSION.get(usual) == "volume"):
        guessed = True
        if DIMENSION.get(usual) == "volume":
            name = "fluid_ounce"
    if name in ("quart", "pint", "gallon", "fluid_ounce"):
        guessed = guessed or "quart" not in measures.overrides
        if not word.startswith("us "):
            name = _in_system(name, measures.system)
    return _converted(word, name, usual, guessed)


@lru_cache(maxsize=1024)
def _converted(word: str, name: str, usual: str, guessed: bool) -> UnitFound:
    kind = _kind(name)
    if kind == "temperature":
        return UnitFound(word, "degF" if name == "degree_Fahrenheit" else "degC")
    into = usual if DIMENSION.get(usual) == kind else _BY_KIND.get(kind)
    if into is None:
        return UnitFound(word, name)
    if kind == "volume" and not usual and factor(name, "l") >= _LITRES_FROM:
        into = "l"
    times = factor(name, into)
    return UnitFound(word, into, times, times, times, guessed)
