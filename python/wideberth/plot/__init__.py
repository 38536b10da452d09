"""Pictures of holes, shots, scores, bags, aims and values, on matplotlib (the extra ``plot``).

Surfaces are told apart by tone, texture and outline as well as by hue, and colours keep apart in simulated protanopia,
deuteranopia and tritanopia. In grey print the words tell strokes apart, the dots do not. Every number shown was
computed by the core. Each function draws on the axes given, or on those of a new figure, and returns them.
"""

try:
    import matplotlib  # noqa: F401  (the first to need it, so that its absence is told here)
except ImportError as error:
    raise ImportError("pictures need matplotlib: pip install 'wideberth[plot]'") from error

from wideberth.plot.aim import plot_aim
from wideberth.plot.bag import plot_bag
from wideberth.plot.figure import save
from wideberth.plot.hole import plot_hole
from wideberth.plot.rounds import plot_practice, plot_rounds, plot_target
from wideberth.plot.scores import plot_scores
from wideberth.plot.shots import plot_shots
from wideberth.plot.theme import DARK, LIGHT, Look, Theme
from wideberth.plot.values import plot_values

__all__ = [
    "DARK",
    "LIGHT",
    "Look",
    "Theme",
    "plot_aim",
    "plot_bag",
    "plot_hole",
    "plot_practice",
    "plot_rounds",
    "plot_scores",
    "plot_shots",
    "plot_target",
    "plot_values",
    "save",
]
