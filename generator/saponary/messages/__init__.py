"""Words by key: what a page or a sheet says around the maker's own words, in one language at a time.

Views yield `Message`s (a key and its values) and figures; a `Speaker` turns them into text.
The words themselves are data: one file a language in `tables/messages/`.
"""
