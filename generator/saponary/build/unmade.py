"""An edition's site of which a page is made when it is asked for: for a preview."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import NamedTuple

from saponary.assets.store import Store
from saponary.build.content import Bytes
from saponary.build.pages import Pages
from saponary.build.photos import Photos, shown
from saponary.build.proof import Proof
from saponary.build.shown import Shown
from saponary.build.site import Maker, cut_from
from saponary.schema.edition import Edition


class Unmade(NamedTuple):
    """An edition's site before any of its pages is made."""

    photos: Mapping[str, bytes]
    pages: Pages

    def file(self, path: str) -> bytes | None:
        """One file, by its path in the site. Raises BrokenTemplate."""
        if path in self.photos:
            return self.photos[path]
        file = self.pages.composed.file(path)
        return None if file is None else file.write()

    def let_go(self) -> None:
        """Make no more of them: what leads in circles is taken apart."""
        self.pages.composed.context.rows.let_go()


class LastShown(NamedTuple):
    """What each edition showed when it was looked at last, and the photos of them all."""

    editions: dict[str, Mapping[str, Shown]]
    photos: Photos


def unmade(
    proof: Proof,
    on: date,
    edition: Edition,
    store: Store,
    last: LastShown | None = None,
) -> Unmade:
    """An edition of a book without errors, as of a day, without PDFs. Raises Stopped where photos cannot be used.

    `last` is what was shown last, for whoever asks again and again; else the store keeps it.
    """
    whole, photo_files = cut_from(proof, on, store, [edition], None if last is None else last.photos)
    maker = Maker(proof, whole, photo_files, None, None, store, 1)
    site = maker.site(edition, None if last is None else last.editions)
    if last is None:
        maker.keep_shown([site])
    else:
        last.editions[edition.name] = maker.shown_by(site)
    photos = {name: photo_files[name] for name in shown(site.photos.values())}
    return Unmade(Bytes(photos), maker.pages(site, after_a_build=False))
