"""What the documentation tool cannot read by itself: compiled docstrings, and comments that document attributes.

The types of the compiled module stand in its stub, its docstrings in the module. Attributes are documented by comments
that begin with ``#:``. Names of types that only the stub knows are written out.
"""

import importlib
import inspect
import re
from collections.abc import Iterable
from pathlib import Path

import griffe

COMPILED = "wideberth._wideberth"


class Reader(griffe.Extension):
    """Completes what was read of the package."""

    def on_package(self, *, pkg: griffe.Module, **_: object) -> None:
        """Complete a package once it has been read as a whole."""
        if pkg.name != "wideberth":
            return
        compiled = pkg["_wideberth"]
        runtime = importlib.import_module(COMPILED)
        aliases = {
            name: written(member.value)
            for name, member in compiled.members.items()
            if name[0] == "_" and is_alias(member)
        }
        for item in everything(pkg):
            if item.path.startswith(COMPILED + "."):
                from_runtime(item, runtime)
            if isinstance(item, griffe.Class) and item.path.startswith(COMPILED + "."):
                show_how_it_is_made(item)
                show_overloaded(item)
            if isinstance(item, griffe.Function):
                item.overloads = None  # A function in Python has all of its signature itself.
            if isinstance(item, griffe.Attribute) and item.docstring is None:
                from_comment(item)
            if item.docstring:
                item.docstring.value = in_markdown(item.docstring.value)
            spell_out(item, aliases)


def everything(item: griffe.Object):
    """An object and all that it holds, aliases aside."""
    yield item
    for member in list(item.members.values()):
        if not member.is_alias:
            yield from everything(member)


def is_alias(member: griffe.Object | griffe.Alias) -> bool:
    """True for the name of a type in the stub."""
    return isinstance(member, griffe.Attribute) and str(member.annotation).endswith("TypeAlias")


def from_runtime(item: griffe.Object, runtime: object) -> None:
    """Take the docstring from the compiled module."""
    value = runtime
    for name in item.path.removeprefix(COMPILED + ".").split("."):
        value = inspect.getattr_static(value, name, None)
    text = inspect.getdoc(value) if value is not None else None
    if text and item.docstring is None and item.name[:2] != "__":
        item.docstring = docstring(text, item)


def from_comment(item: griffe.Attribute) -> None:
    """Take the comment above an attribute for its docstring."""
    if item.lineno is None or not isinstance(item.filepath, Path) or item.filepath.suffix != ".py":
        return
    lines = item.filepath.read_text("utf-8").splitlines()[: item.lineno - 1]
    comment = []
    while lines and (found := re.match(r"\s*#: ?(.*)", lines.pop())):
        comment.insert(0, found[1])
    if comment:
        item.docstring = docstring("\n".join(comment), item)


def docstring(text: str, item: griffe.Object) -> griffe.Docstring:
    """A docstring in the style of all others."""
    return griffe.Docstring(text, parent=item, parser=griffe.Parser.google)


def in_markdown(text: str) -> str:
    """Roles of the other markup language as code, and examples under the heading that the tool knows."""
    text = re.sub(r":(?:func|meth|class|attr|mod):`~?\.?([^`]+)`", r"`\1`", text)
    text = re.sub(r"^(    )(\w+(?:, \w+)+): ", told_together, text, flags=re.M)
    text = re.sub(r"^(Returns:\n +[^`:\n]*): ", r"\1&#58; ", text, flags=re.M)  # No type: those are in signatures.
    return re.sub(r"^Example:$", "Examples:", text, flags=re.M)


def told_together(found: re.Match[str]) -> str:
    """Arguments told in one entry, each in an entry of its own that leads to the last."""
    *others, last = found[2].split(", ")
    return "".join(f"{found[1]}{name}: with `{last}`.\n" for name in others) + f"{found[1]}{last}: "


def show_how_it_is_made(item: griffe.Class) -> None:
    """Give a compiled class the signature by which it is made; the tool looks for another name."""
    made = item.members.get("__new__")
    if isinstance(made, griffe.Function):
        made.name = "__init__"
        made.docstring = None
        made.returns = None
        item.members["__init__"] = made
        del item.members["__new__"]


def show_overloaded(item: griffe.Class) -> None:
    """Give a compiled class its methods that the stub only tells for one type of argument after the other."""
    for name, overloads in item.overloads.items():
        if not overloads:
            continue
        first = overloads[0]
        parameters = [
            griffe.Parameter(
                p.name, kind=p.kind, default=p.default, annotation=either(o.parameters[i] for o in overloads)
            )
            for i, p in enumerate(first.parameters)
        ]
        method = griffe.Function(name, lineno=first.lineno, endlineno=first.endlineno)
        method.parameters = griffe.Parameters(*parameters)
        method.returns = " | ".join(dict.fromkeys(written(o.returns) for o in overloads))
        item.set_member(name, method)
    item.overloads.clear()


def either(parameters: Iterable[griffe.Parameter]) -> str | None:
    """All types that a parameter may have."""
    types = dict.fromkeys(written(p.annotation) for p in parameters if p.annotation is not None)
    return " | ".join(types) or None


def spell_out(item: griffe.Object, aliases: dict[str, str]) -> None:
    """Write the types of a signature without names that only the stub knows."""
    if isinstance(item, griffe.Function):
        for parameter in item.parameters:
            parameter.annotation = spelt(parameter.annotation, aliases)
        item.returns = spelt(item.returns, aliases)
    elif isinstance(item, griffe.Attribute):
        item.annotation = spelt(item.annotation, aliases)


def spelt(annotation: object, aliases: dict[str, str]) -> str | None:
    """A type as a reader knows it."""
    if annotation is None:
        return None
    text = written(annotation)
    for _ in range(3):  # A name may stand for another.
        text = re.sub(r"\b_[A-Z]\w*", lambda found: aliases.get(found[0], found[0]), text)
    text = re.sub(r"^Final\[(.*)\]$", r"\1", text)  # How the stub tells what is read, and never set.
    # Long lists of names stand in the docstrings.
    text = re.sub(r"\bLiteral\[[^\[\]]*\]", lambda found: "str" if found[0].count(",") > 6 else found[0], text)
    text = re.sub(r"\bNDArray\[[^\[\]]*\]", "ndarray", text)
    for long, short in (("SupportsFloat | SupportsIndex", "float"), ("_Solved", "Solution"), ("core.", "")):
        text = text.replace(long, short)
    return text


def written(annotation: object) -> str:
    """A type as it stands in the code, without the module names come from."""
    return re.sub(r"\b(?:np|typing)\.", "", str(annotation))
