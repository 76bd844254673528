"""Published variants of the maker's photos: right-way-up, sized, in sRGB, and nothing but pixels.

`opening.read_photo` looks at a file without decoding it, `publish.make_variants` makes what is published of
one photo, and `many.make_all` makes a whole book's photos at once and takes from a store what it keeps. The
library of pictures is imported where a photo has to be looked at.
What cannot be used comes back as a `PhotoFault` in plain words; nothing here raises for a bad file.
"""
