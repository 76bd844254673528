"""Published variants of the maker's photos: right-way-up, sized, in sRGB, and nothing but pixels.

`read_photo` looks at a file without decoding it, `make_variants` makes what is published of
one photo, and `make_all` makes a whole book's photos at once and takes from a store what it keeps.
What cannot be used comes back as a `PhotoFault` in plain words; nothing here raises for a bad file.
"""

from saponary.draw.photos.facts import WIDTHS, PhotoFacts, PhotoFault, Variant
from saponary.draw.photos.many import make_all
from saponary.draw.photos.opening import read_photo
from saponary.draw.photos.publish import make_variants, variants_of

__all__ = [
    "WIDTHS",
    "PhotoFacts",
    "PhotoFault",
    "Variant",
    "make_all",
    "make_variants",
    "read_photo",
    "variants_of",
]
