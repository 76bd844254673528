"""Pictures: the pour, charts, photos. Numbers and colours in, SVG or image bytes out."""
