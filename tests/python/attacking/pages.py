"""Pages and pictures of things whose names are markup."""

from __future__ import annotations

import functools
import html.parser
import json
import pathlib
import sys
import tempfile

import wideberth as wb

from attacking.things import PLAYER, Fault, refusal

MARKUP = [
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "\"><svg onload='alert(1)'>",
    "' onmouseover='alert(1)",
    "</title></style><script>1</script>",
    "{{ 7*7 }}{% raw %}",
    "]]><!-- -->&amp;&lt;",
    "javascript:alert(1)",
    "$\\alpha$ _{x",
]


class Elements(html.parser.HTMLParser):
    """What a browser would make of a page: its elements with their attributes, and its text."""

    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.elements, self.words = [], []

    def handle_starttag(self, tag, attrs):
        self.elements.append((tag, tuple(sorted(name for name, _ in attrs))))

    def handle_data(self, data):
        self.words.append(data)


def pages_of(name, folder):
    """Every page and picture of things that bear a name, as (what, text)."""
    bunker = wb.hazard(wb.along(110, left=12), name=name[:50])
    holes = [wb.Hole.sketch(par=3, length=length, name=name, water=[bunker]) for length in (120, 130)]
    player = wb.Player.from_json(json.dumps({**json.loads(PLAYER.to_json()), "name": name[:60]}))
    course = wb.Course(holes, name=name, attribution=name)
    plans = [wb.Plan(name[:60], [wb.at_pin()]), wb.Plan("other", [wb.leave(30)])]
    result = wb.compare(holes[0], player, plans, plays=40, seed=1)
    target = wb.break_score(course, player, 8, plays=200, cell=10)
    played = wb.play_rounds(course, player, plays=40)
    practice = wb.practice_gains(course, player, target=8, plays=2)
    report = wb.report(result, path=folder / "a.html", title=name)
    round_page = wb.report(target, path=folder / "b.html", title=name, played=played, practice=practice)
    for what, page in (("report", report), ("round", round_page)):
        yield what, page.read_text("utf-8")
    for what, axes in (
        ("picture of the hole", holes[0].plot(title=name)),
        ("picture of scores", result.plot(title=name)),
        ("picture of rounds", practice.plot(title=name)),
    ):
        wb.plot.save(axes, folder / "d.svg")
        yield what, (folder / "d.svg").read_text("utf-8")
    for what, shown in (("notebook", result), ("notebook", course), ("notebook", holes[0]), ("notebook", player)):
        yield what, shown._repr_html_()
    wb.pocket_card(target, path=folder / "sheet.pdf")
    wb.pocket_card(result, path=folder / "card.pdf")


@functools.cache
def plain_elements():
    with tempfile.TemporaryDirectory() as folder:
        return [elements(text) for _, text in pages_of("plain", pathlib.Path(folder))]


def elements(text):
    parser = Elements()
    parser.feed(text)
    return parser


def page(dice, folder):
    """A page whose names are markup has the elements of one whose names are plain, and shows the markup as text."""
    name = dice.choice(MARKUP) + dice.choice(["", " 1", "é"])
    try:
        found = refusal(lambda: list(pages_of(name, folder)))
    finally:
        sys.modules["matplotlib.pyplot"].close("all") if "matplotlib.pyplot" in sys.modules else None
    for plain, (what, text) in zip(plain_elements(), found, strict=True):
        made = elements(text)
        tags = {tag for tag, _ in made.elements} - {tag for tag, _ in plain.elements}
        odd = {at for _, names in made.elements for at in names} - {at for _, names in plain.elements for at in names}
        if (
            tags
            or any(at.startswith("on") for at in odd)
            or made.elements.count(("script", ())) != plain.elements.count(("script", ()))
        ):
            raise Fault(f"{what}: elements {tags}, attributes {odd} of the name {name!r}")
