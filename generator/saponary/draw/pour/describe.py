"""The drawing in words, for those who do not see it: the same pour, from the bottom up."""

from __future__ import annotations

from collections.abc import Sequence

from saponary.draw.pour.plan import volumes
from saponary.draw.pour.scene import DrawnPortion, Scene, When
from saponary.schema.pour import PourStep

TOOLS = {"hanger": "a hanger", "comb": "a comb", "skewer": "a skewer"}
LAYINGS = ("beds", "columns", "drops", "plops")
TIMES = {"fresh": "as poured", "cured": "as cured"}


def title(scene: Scene, when: When) -> str:
    return f"{scene.title}, {TIMES[when]}"


def percent(share: float) -> int:
    """A share in whole per cent, halves upward."""
    return int(share * 100 + 0.5)


def describe(scene: Scene) -> str:
    """Sentences: the face, the shares, the steps."""
    return " ".join([_face(scene), _shares(scene.portions), *_steps(scene)])


def _face(scene: Scene) -> str:
    face = scene.face
    size = f"{face.width_mm:.0f} by {face.height_mm:.0f} mm"
    if face.top_view:
        return f"The mould from above, {size}."
    if face.kind == "round":
        return f"The cut face of a round bar, {face.width_mm:.0f} mm across."
    return f"The cut face of a bar, {size}."


def _shares(portions: Sequence[DrawnPortion]) -> str:
    shares = volumes(portions)
    listed = _listed([f"{spoken(name)} {percent(share)} per cent" for name, share in shares.items()])
    return f"By volume: {listed}."


def _steps(scene: Scene) -> list[str]:
    portions = {portion.name for portion in scene.portions}
    extras = {extra.id: extra.name for extra in scene.extras}
    out = [text for step in scene.steps if (text := _step(step, portions, extras))]
    if not any(step.kind in LAYINGS for step in scene.steps) and len(portions) > 1:
        names = list(dict.fromkeys(spoken(portion.name) for portion in scene.portions))
        out.insert(0, f"Level beds from the bottom: {_listed(names)}.")
    return out


def _step(step: PourStep, portions: set[str], extras: dict[str, str]) -> str:
    """One sentence a step; nothing for a step the drawing leaves out."""
    if step.kind == "beds" and step.beds:
        beds = [spoken(bed.of) + _slope(bed.slope) for bed in step.beds if bed.of in portions]
        return f"Beds from the bottom: {_listed(beds)}." if beds else ""
    if step.kind == "columns" and step.columns:
        names = [spoken(name) for name in step.columns.of if name in portions]
        lean = " leaning" if step.columns.tilt else ""
        count = max(len(names), step.columns.count or 0)
        return f"{count}{lean} columns of {_listed(names)}." if names else ""
    if step.kind == "drops" and step.drops and step.drops.into in portions:
        names = [spoken(name) for name in step.drops.of if name in portions]
        where = "one place" if step.drops.count == 1 else f"{step.drops.count} places"
        rings = "" if len(names) < 2 else ", ring within ring"
        return f"Dropped into {spoken(step.drops.into)} in {where}{rings}: {_listed(names)}." if names else ""
    if step.kind == "plops" and step.plops:
        names = [spoken(name) for name in step.plops.of if name in portions]
        return f"Spoonfuls in turn of {_listed(names)}." if names else ""
    if step.kind == "swirl" and step.swirl:
        passes = "one pass" if step.swirl.passes == 1 else f"{step.swirl.passes} passes"
        return f"Swirled with {TOOLS[step.swirl.tool]}, {passes}."
    return _dressing(step, portions, extras)


def _dressing(step: PourStep, portions: set[str], extras: dict[str, str]) -> str:
    if step.kind == "line" and step.line and step.line.of in extras and step.line.over in portions:
        return f"A pencil line of {extras[step.line.of]} over {spoken(step.line.over)}."
    if step.kind == "embeds" and step.embeds and step.embeds.of in extras:
        what = f"{step.embeds.count} {step.embeds.shape} embed{'s' if step.embeds.count > 1 else ''}"
        return f"{what} of {extras[step.embeds.of]}, {step.embeds.across.millimetres:.0f} mm across."
    if step.kind == "top" and step.top:
        shape = {"flat": "Flat top", "peaks": "Top in peaks", "waves": "Top in waves", "mound": "Mounded top"}
        strewn = f", strewn with {extras[step.top.strewn]}" if step.top.strewn in extras else ""
        return f"{shape[step.top.shape]}{strewn}."
    return ""


def spoken(name: str) -> str:
    return name.replace("-", " ")


def _slope(slope: float) -> str:
    if not slope:
        return ""
    return f" (sloping {abs(slope):.0f} degrees, {'rising' if slope > 0 else 'falling'} to the right)"


def _listed(items: Sequence[str]) -> str:
    return items[0] if len(items) == 1 else ", ".join(items[:-1]) + " and " + items[-1]
