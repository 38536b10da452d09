"""Write ``docs/models/figures.md``, the tables of all numbers of golf, from their comments: ``python docs/figures.py``.

They stand in ``core/src/figures/``, whose ``mod.rs`` tells how a comment says unit, role and source.
``tests/python/test_figures.py`` holds the page to what this writes.
"""

import re
from dataclasses import dataclass
from pathlib import Path

DOCS = Path(__file__).parent
SOURCES = DOCS.parent / "core" / "src" / "figures"
PAGE = DOCS / "models" / "figures.md"

#: What a unit begins with, in the singular.
UNITS = (
    *("Yard", "Metre", "Millimetre", "Feet", "Inch", "Mile", "Kilogram", "Second", "Degree", "Radian", "Revolution"),
    *("Kelvin", "Pascal", "Stroke", "Slope Rating", "Stroke index", "Round", "Club-length"),
    *("Share", "Chance", "Factor", "Multiple", "Number"),
)
ROLE = r"(?:Published|From memory|Fitted|Computed|Exact): .+|Common practice, no source|Chosen, no source"
LAST = re.compile(rf"(?:(?P<unit>[^.]+)\. )?(?P<role>{ROLE})\.")
STRUCT = re.compile(r"^pub(?:\(crate\))? struct (\w+) \{\n(.*?)^\}", re.M | re.S)
VALUE = re.compile(r"^\s+(\w+): (.+?),$(?=\n\s*(?:\w+: |\}))", re.M | re.S)
COMMENTED = r"(?P<comment>(?:^[ \t]*///[^\n]*\n)*)(?:^[ \t]*#\[[^\n]*\n)*"
FIELD = re.compile(COMMENTED + r"^    pub(?:\(crate\))? (?P<name>\w+): [^\n]+,\n", re.M)
CONST = re.compile(
    COMMENTED + r"^[ \t]*(?:pub(?:\(crate\))? )?const (?P<name>[A-Z0-9_]+): (?P<type>.+?) =\s(?P<value>.+?);\n",
    re.M | re.S,
)

HEAD = """# Figures

Every number of golf that nothing derives stands once, in `core/src/figures/`, with its unit, its role and its source.
`docs/figures.py` writes this page from there. The roles are *published* or remembered (*from memory*), *fitted* to
something else, *computed* by other means, *exact* and, where there is no source, *common practice* or *chosen* here.
"""


@dataclass
class Figure:
    """A number, or a few that belong together; what its comment does not say is empty."""

    name: str
    value: str
    unit: str
    role: str
    meaning: str


@dataclass
class Group:
    """Figures of several things told alike: the fields of a struct, and the value of each by the name of a constant."""

    fields: list[Figure]
    kinds: list[Figure]
    values: dict[str, dict[str, str]]


def paragraphs(comment: str) -> list[str]:
    """The paragraphs of a comment, each in one line."""
    lines = [line.strip()[3:].strip() for line in comment.splitlines()]
    return [" ".join(part.split()) for part in "\n".join(lines).split("\n\n") if part.strip()]


def constant(found: re.Match) -> Figure:
    """A constant with what its comment says."""
    *meaning, last = paragraphs(found["comment"]) or [""]
    told = LAST.fullmatch(last)
    unit, role = (told["unit"] or "", told["role"]) if told else ("", "")
    return Figure(found["name"], found["value"], unit, role, " ".join(meaning))


def field(found: re.Match) -> Figure:
    """A field of a struct: its role is that of the constants."""
    *meaning, unit = paragraphs(found["comment"]) or [""]
    return Figure(found["name"], "", unit.removesuffix("."), "", " ".join(meaning))


def figures(text: str) -> tuple[list[Figure], list[Group]]:
    """The figures of a file, in order: constants by themselves, and those of a struct of the file."""
    structs = {name: Group([field(f) for f in FIELD.finditer(body)], [], {}) for name, body in STRUCT.findall(text)}
    alone = []
    for found in CONST.finditer(text):
        figure, group = constant(found), structs.get(found["type"])
        if group is None:
            alone.append(figure)
        else:
            group.kinds.append(figure)
            group.values[figure.name] = dict(VALUE.findall(figure.value))
    return alone, [group for group in structs.values() if group.kinds]


def files() -> list[Path]:
    """The files with figures, in the order of the page."""
    return sorted(path for path in SOURCES.glob("*.rs") if path.stem != "mod")


def shown(value: str) -> str:
    """A value as code; an array of several lines, line by line."""
    plain = re.sub(r"\b[a-z_]+\(", "(", value.replace("std::f64::consts::", ""))
    rows = plain.strip("[]\n").splitlines() if plain.startswith("[\n") else [" ".join(plain.split())]
    return "<br>".join(f"`{row.strip().removesuffix(',').replace('( ', '(').replace(', )', ')')}`" for row in rows)


def table(*rows: tuple[str, ...]) -> str:
    """A table whose first row is its head."""
    head, *body = rows
    lines = [head, ("---",) * len(head), *body]
    return "".join(f"| {' | '.join(cell.replace('|', '&#124;') for cell in line)} |\n" for line in lines)


def told(meaning: str) -> str:
    """A meaning without the links of Rust."""
    return re.sub(r"\[`([^`]+)`\](?:\([^)]*\))?", r"`\1`", meaning)


def section(path: Path) -> str:
    """The part of the page on a file."""
    text = path.read_text("utf-8")
    title, *more = paragraphs("".join(re.findall(r"^//!.*\n", text, re.M)))
    alone, groups = figures(text)
    parts = [f"## {title.removesuffix('.')}\n", *more, f"In `{path.relative_to(DOCS.parent).as_posix()}`."]
    if alone:
        rows = [(f"`{f.name}`", shown(f.value), f.unit, f.role, told(f.meaning)) for f in alone]
        parts.append(table(("figure", "value", "unit", "role and source", "meaning"), *rows))
    for group in groups:
        names = [kind.name for kind in group.kinds]
        rows = [
            (f"`{f.name}`", *(shown(group.values[name][f.name]) for name in names), f.unit, told(f.meaning))
            for f in group.fields
        ]
        parts.append(table(("figure", *(f"`{name}`" for name in names), "unit", "meaning"), *rows))
        rows = [(f"`{kind.name}`", told(kind.meaning), kind.role) for kind in group.kinds]
        parts.append(table(("of", "what it is", "role and source"), *rows))
    return "\n\n".join(part.strip() for part in parts)


def page() -> str:
    """The whole page."""
    return "\n\n".join([HEAD.strip(), *map(section, files())]) + "\n"


if __name__ == "__main__":
    PAGE.write_text(page(), "utf-8")
