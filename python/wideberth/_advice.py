"""The shot that a solution plays from a place, and what others would cost."""

from __future__ import annotations

from dataclasses import dataclass

from wideberth import _wideberth as core


@dataclass(frozen=True)
class Alternative:
    """Another shot than the best, and what it costs."""

    #: What it is called: a club, or the usual mistake that it is.
    name: str
    #: The shot as a coach tells it.
    words: str
    #: Strokes to hole out with it, penalties included.
    expected_strokes: float
    #: The chance of holing out in the strokes left, of a solution that plays for a score.
    chance: float | None
    #: What it costs next to the best shot: strokes, or the chance lost where only a chance is played for.
    cost: float

    __hash__ = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        return f"{self.words} ({self.name}, costs {self.cost:.3f})"


@dataclass(frozen=True)
class Advice:
    """The shot that a solution plays from a place, in words and numbers, with what others would cost."""

    #: Where the ball lies: (x, y), yards.
    where: tuple[float, float]
    #: How it lies.
    lie: str
    #: The club, or the stroke around the green.
    club: str
    #: The point aimed over, (x, y), yards: held off for wind and slopes.
    target: tuple[float, float]
    #: The carry meant, yards, as on level ground in still air.
    carry: float
    #: Where a solid strike without luck ends: (x, y), yards.
    finish: tuple[float, float]
    #: The shot as a coach tells it: club, aim, and where a solid ball ends.
    words: str
    #: The shot as an instruction of a plan, played just as it is told: over ``target``, for ``carry``.
    instruction: core.Instruction
    #: Strokes to hole out with it, penalties included.
    expected_strokes: float
    #: The chance of holing out in the strokes left, of a solution that plays for a score.
    chance: float | None
    #: The best shot with another club that a long look finds, if there is one. What is played is the choice stored with
    #: the solution: in a few places the long look finds a better one, which then costs less than nothing.
    runner_up: Alternative | None
    #: Usual mistakes that differ from the best shot: at the flag; the longest club.
    mistakes: tuple[Alternative, ...]
    #: What costs are told in: "strokes" or "chance".
    costs_are_in: str

    __hash__ = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        worth = f"{self.expected_strokes:.2f} strokes to hole out"
        if self.chance is not None:
            worth += f", {100 * self.chance:.1f} % in the strokes left"
        lines = [f"{self.words}: {worth}"]
        if self.runner_up:
            rank = "next best" if self.runner_up.cost >= 0 else "better by a long look"
            lines.append(f"  {rank}: {self.runner_up.words}, {self._cost(self.runner_up)}")
        lines.extend(f"  {mistake.name}: {mistake.words}, {self._cost(mistake)}" for mistake in self.mistakes)
        return "\n".join(lines)

    def _cost(self, other: Alternative) -> str:
        if self.costs_are_in == "chance":
            points = 100 * other.cost
            return "next to no chance lost" if abs(points) < 0.05 else f"{points:.1f} points of chance lost"
        return f"{other.cost:+.2f} strokes"
