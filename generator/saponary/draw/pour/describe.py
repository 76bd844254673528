"""The drawing in words, for those who do not see it: the same pour, from the bottom up."""

from __future__ import annotations

from collections.abc import Sequence

from saponary.draw.pour.plan import volumes
from saponary.draw.pour.scene import DrawnPortion, Scene, When
from saponary.messages.message import Listed, Message, Number, Value, message
from saponary.quantity.rounding import to_decimals
from saponary.schema.pour import Bed, PourStep

LAYINGS = ("beds", "columns", "drops", "plops")
KEYS_BY_ID = {
    "picture.when.": ("fresh", "cured"),
    "picture.tool.": ("hanger", "comb", "skewer"),
    "picture.embeds.": ("round", "square", "diamond", "half-round", "star"),
    "picture.top.": ("flat", "peaks", "waves", "mound"),
}


def title(scene: Scene, when: When) -> Message:
    return message("picture.title", title=scene.title, when=message(f"picture.when.{when}"))


def percent(share: float) -> int:
    """A share in whole per cent, by the one rounding rule."""
    return int(to_decimals(100.0 * share, 0))


def described(scene: Scene) -> tuple[Message, ...]:
    """Sentences: the face, the shares, the steps."""
    return (_face(scene), _shares(scene.portions), *_steps(scene))


def _face(scene: Scene) -> Message:
    face = scene.face
    width, height = Number(face.width_mm), Number(face.height_mm, unit="mm")
    if face.top_view:
        return message("picture.from-above", width=width, height=height)
    if face.kind == "round":
        return message("picture.round", across=Number(face.width_mm, unit="mm"))
    return message("picture.cut", width=width, height=height)


def _shares(portions: Sequence[DrawnPortion]) -> Message:
    listed = tuple(
        message("picture.share", portion=spoken(name), percent=percent(share))
        for name, share in volumes(portions).items()
    )
    return message("picture.by-volume", portions=Listed(listed))


def _steps(scene: Scene) -> list[Message]:
    portions = {portion.name for portion in scene.portions}
    extras = {extra.id: extra.name for extra in scene.extras}
    out = [
        told
        for step in scene.steps
        if (told := _laid(step, portions) or _stirred(step) or _dressed(step, portions, extras)) is not None
    ]
    if not any(step.kind in LAYINGS for step in scene.steps) and len(portions) > 1:
        names = dict.fromkeys(portion.name for portion in scene.portions)
        out.insert(0, message("picture.level-beds", beds=_names(names)))
    if scene.top == "rough" and not any(step.kind == "top" for step in scene.steps):
        out.append(message("picture.rough"))
    return out


def _laid(step: PourStep, portions: set[str]) -> Message | None:
    """The sentence of a laying; none for one that lays nothing known."""
    if step.kind == "beds" and step.beds:
        beds = tuple(_bed(bed) for bed in step.beds if bed.of in portions)
        return message("picture.beds", beds=Listed(beds)) if beds else None
    if step.kind == "columns" and step.columns:
        names = [name for name in step.columns.of if name in portions]
        count = max(len(names), step.columns.count or 0)
        key = "picture.columns-leaning" if step.columns.tilt else "picture.columns"
        return message(key, count=count, portions=_names(names)) if names else None
    if step.kind == "drops" and step.drops and step.drops.into in portions:
        names = [name for name in step.drops.of if name in portions]
        key = "picture.drops" if len(names) < 2 else "picture.drops-in-rings"
        into, places = spoken(step.drops.into), message("picture.places", count=step.drops.count)
        return message(key, into=into, places=places, portions=_names(names)) if names else None
    if step.kind == "plops" and step.plops:
        names = [name for name in step.plops.of if name in portions]
        return message("picture.plops", portions=_names(names)) if names else None
    return None


def _bed(bed: Bed) -> Value:
    if not bed.slope:
        return spoken(bed.of)
    key = "picture.rising" if bed.slope > 0 else "picture.falling"
    return message(key, bed=spoken(bed.of), degrees=Number(abs(bed.slope)))


def _stirred(step: PourStep) -> Message | None:
    if step.kind != "swirl" or step.swirl is None:
        return None
    passes = message("picture.passes", count=step.swirl.passes)
    return message("picture.swirl", tool=message(f"picture.tool.{step.swirl.tool}"), passes=passes)


def _dressed(step: PourStep, portions: set[str], extras: dict[str, str]) -> Message | None:
    if step.kind == "line" and step.line and step.line.of in extras and step.line.over in portions:
        return message("picture.line", powder=extras[step.line.of], portion=spoken(step.line.over))
    if step.kind == "embeds" and step.embeds and step.embeds.of in extras:
        across = Number(step.embeds.across.millimetres, unit="mm")
        what = message(f"picture.embeds.{step.embeds.shape}", count=step.embeds.count)
        return message("picture.set-in", embeds=what, soap=extras[step.embeds.of], across=across)
    if step.kind == "top" and step.top:
        shape = message(f"picture.top.{step.top.shape}")
        if step.top.sprinkle in extras:
            return message("picture.top-sprinkled", top=shape, petals=extras[step.top.sprinkle])
        return message("picture.top-bare", top=shape)
    return None


def spoken(name: str) -> str:
    """A portion's name as it is said: its hyphens stand for spaces."""
    return name.replace("-", " ")


def _names(names: Sequence[str] | dict[str, None]) -> Listed:
    return Listed(tuple(spoken(name) for name in names))
