"""The colours of the page, those of every picture: style sheets of custom properties, light and dark."""

from __future__ import annotations

from wideberth.plot.theme import DARK, LIGHT, Theme


def css() -> str:
    """The style sheet: as the reader's system asks, or as the page is told to."""
    dark = _properties(DARK)
    return (
        f":root{{color-scheme:light;{_properties(LIGHT)}}}\n"
        f"@media (prefers-color-scheme:dark){{:root:not([data-theme=light]){{color-scheme:dark;{dark}}}}}\n"
        f":root[data-theme=dark]{{color-scheme:dark;{dark}}}\n"
        + "".join(f".s-{name}{{fill:var(--s-{name})}}.e-{name}{{stroke:var(--e-{name})}}\n" for name in LIGHT.surfaces)
    )


def _properties(theme: Theme) -> str:
    plain = {name: getattr(theme, name) for name in ("paper", "ink", "muted", "faint", "accent", "plain")} | {
        "blow-up": theme.blow_up
    }
    plain |= {f"k{k}": colour for k, colour in enumerate(theme.strokes, start=1)}
    for name, surface in theme.surfaces.items():
        plain |= {f"s-{name}": surface.fill, f"e-{name}": surface.edge}
    return "".join(f"--{name}:{value};" for name, value in plain.items())
