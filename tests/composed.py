"""Sites as tests read them: a file is made when it is looked at, a drawing and a template once for a process."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path

from jinja2 import Environment

from saponary.assets import resources
from saponary.assets.store import Key, NoStore
from saponary.messages.speaker import Speaker, WeightUnit, speaker
from saponary.outputs.compose import composition
from saponary.outputs.page_kind import SiteFile
from saponary.outputs.templating import environment
from saponary.views.drawings import Drawings
from saponary.views.site import SiteInput


class Held(NoStore):
    """Keeps values in memory."""

    def __init__(self) -> None:
        self.values = dict[Key, bytes]()

    def recall(self, key: Key) -> bytes | None:
        return self.values.get(key)

    def keep(self, key: Key, value: bytes) -> None:
        self.values[key] = value

    def get(self, key: Key, make: Callable[[], bytes]) -> bytes:
        if key not in self.values:
            self.values[key] = make()
        return self.values[key]


_OF_TEXTS = dict[int, tuple[Speaker, Held, dict[tuple[Path, ...], Environment]]]()


def _of(said: Speaker) -> tuple[Speaker, Held, dict[tuple[Path, ...], Environment]]:
    """What is kept for one speaker, who is kept too; a test may put another in place of a language's own."""
    return _OF_TEXTS.setdefault(id(said), (said, Held(), {}))


def drawings(site: SiteInput) -> Drawings:
    """A site's drawings, of which those that a test of this process has asked for are there already."""
    settings = site.book.settings
    return Drawings(site, _of(speaker(settings.language, settings.units))[1])


_CARDS = Held()


def written(file: SiteFile) -> bytes:
    """A file's bytes; a card is drawn once for all tests of this process."""
    return file.write() if file.key is None else _CARDS.get(file.key(), file.write)


def spoken(templates: tuple[Path, ...], language: str = "en", units: WeightUnit = "g") -> Environment:
    """One for all tests, since reading templates takes longer than filling them. The folders must stay as they are."""
    said, _, made = _of(speaker(language, units))
    if templates not in made:
        made[templates] = environment(templates, said)
    return made[templates]


class Files(Mapping[str, bytes]):
    """The files of a site by their paths; each is made when it is first looked at."""

    def __init__(self, made: Iterable[SiteFile]) -> None:
        self._made = {file.path: file for file in made}
        self._bytes = dict[str, bytes]()

    def __getitem__(self, path: str) -> bytes:
        if path not in self._bytes:
            self._bytes[path] = written(self._made[path])
        return self._bytes[path]

    def __contains__(self, path: object) -> bool:
        return path in self._made

    def __iter__(self) -> Iterator[str]:
        return iter(self._made)

    def __len__(self) -> int:
        return len(self._made)


def composed(site: SiteInput, templates: Sequence[Path] = (), drawn: Drawings | None = None) -> Files:
    """The files of a site, by the standard templates unless a test has its own, which may change meanwhile."""
    wanted = tuple(templates) or (resources.templates(),)
    ours = None if templates else spoken(wanted, site.book.settings.language, site.book.settings.units)
    made = composition(site, wanted, drawn or drawings(site), ours)
    return Files(made.files)
