"""A book's PDF put together of parts that were each set once and kept.

`internals` is the only place that knows how WeasyPrint and pydyf hold what they made. `read_part` takes a part
out of them as a `Fragment`, `stored` turns that into bytes and back, `plan` says on which page each begins,
`host` gives fonts and metadata, `graft` joins all in one file.
"""
