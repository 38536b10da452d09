"""Make the pictures of the README and of the docs: ``python docs/pictures.py [FOLDER]``, by default this folder.

Needs the extra ``plot``. The same version of wideberth and of Matplotlib makes the same files.
"""

import re
import shutil
import signal
import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import matplotlib as mpl

mpl.use("Agg")

import matplotlib.pyplot as plt
import wideberth as wb
from PIL import Image
from wideberth.cli import picture
from wideberth.plot import save

DATA = files("wideberth") / "data"


def pictures(folder: Path) -> None:
    """Make every picture."""
    bend = wb.Hole.from_geojson((DATA / "alder-bend.geojson").read_text("utf-8"))
    neck = wb.Hole.from_geojson((DATA / "plover-neck.geojson").read_text("utf-8"))
    pupil = wb.Player.from_json((DATA / "pupil.json").read_text("utf-8"))

    # What the command line draws.
    proposed = wb.suggest_plans(bend, pupil)
    ranked = wb.compare(bend, pupil, proposed, plays=20_000, seed=1)
    picture(ranked, proposed[0], folder / "alder-bend.png")
    keep(ranked.plot(most=6), folder / "scores.png")
    keep(neck.plot(), folder / "hole.png")
    keep(wb.compare(neck, pupil, wb.suggest_plans(neck, pupil), seed=1).best.plot_shots(), folder / "shots.png")
    keep(pupil.plot(), folder / "bag.png")
    keep(wb.aim_sweep(neck, pupil, aims=range(-30, 16, 3), plays=5_000, seed=1).plot(), folder / "aim.png")
    keep(wb.solve(bend, pupil).plot(), folder / "expected-strokes.png")
    keep(neck.plot(theme="dark"), folder / "hole-dark.png")
    lesson(folder)
    for path in sorted(folder.glob("*.png")):
        small(path)
        print(f"{path.name}: {path.stat().st_size / 1000:.0f} kB")


def lesson(folder: Path) -> None:
    """Show a lesson in a browser, on a wall and on a phone; needs the extra ``lesson``, Playwright and a Chromium."""
    from playwright.sync_api import sync_playwright

    words = [sys.executable, "-m", "wideberth", "lesson", "--no-browser", "--port", "0"]
    with (
        subprocess.Popen(words, stdout=subprocess.PIPE, text=True) as served,
        sync_playwright() as started,
    ):
        try:
            address = next(found.group() for line in served.stdout if (found := re.search(r"http://\S+/", line)))
            browser = started.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
            shown = "#shot=driver,22,207,1&kept=driver,48,209,1"
            for name, width, height, dense in (("wall", 1920, 1080, 1), ("phone", 375, 760, 2)):
                view = {"width": width, "height": height}
                page = browser.new_context(viewport=view, device_scale_factor=dense).new_page()
                page.goto(address + shown)
                page.wait_for_selector("body.sharp", timeout=120_000)
                page.screenshot(path=folder / f"lesson-{name}.png")
        finally:
            served.send_signal(signal.SIGINT)


def keep(ax: mpl.axes.Axes, path: Path) -> None:
    """Write a picture, and let go of it."""
    save(ax, path)
    plt.close("all")


def small(path: Path) -> None:
    """Write a PNG file again in no more than 128 colours; those of a page, which has many thin lines, in 256."""
    with Image.open(path) as image:
        page = path.name.startswith("lesson-")
        how = {"colors": 256, "method": Image.Quantize.FASTOCTREE} if page else {"colors": 128}
        few = image.convert("RGB").quantize(**how, dither=Image.Dither.NONE)
    few.save(path, optimize=True)


if __name__ == "__main__":
    target = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent
    target.mkdir(exist_ok=True, parents=True)
    pictures(target)
