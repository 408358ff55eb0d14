#!/usr/bin/env python3
"""Writes names that nobody has, to make a page do what it should not: hostile_names.py COUNT FOLDER

One file a name, without a line end: name_000.txt and so on. Every script among them sets window.hit, and every address is of
the reserved domain example.invalid (RFC 2606), so that a test sees either.
"""
import itertools
import pathlib
import sys

THINGS = [
    "<script>window.hit=1</script>", "<img src=x onerror=window.hit=1>", "<svg onload=window.hit=1>",
    "<svg/onload=window.hit=1//", "<img src=//example.invalid/a.png>", "<link rel=stylesheet href=//example.invalid/a.css>",
    "<meta http-equiv=refresh content='0;url=//example.invalid'>", "<iframe src=javascript:parent.hit=1></iframe>",
    "<style>@import '//example.invalid/a.css';</style>", "<base href=//example.invalid/>",
    "<form action=//example.invalid><button autofocus onfocus=window.hit=1>", "<body onload=window.hit=1>",
    "onmouseover=window.hit=1 autofocus onfocus=window.hit=1 tabindex=1 ", "<details open ontoggle=window.hit=1>",
    "&#60;script&#62;window.hit=1&#60;/script&#62;", "&lt;script&gt;window.hit=1&lt;/script&gt;", "<!--", "<![CDATA[", "<plaintext>",
    "<math><mtext><table><mglyph><style><img src=x onerror=window.hit=1>", "<xmp>", "\u202eniboR\u202c \u2067", "W" * 300,
    "Robin\u200b\u0301\u0301\u0301\u0301\u0301\u0301 \U0001f3cc\ufe0f", "<a href=javascript:window.hit=1>Robin</a>\n\t\r\x0b\x1b[31m",
]
BEFORE = ["", "\">", "'>", "</title>", "</style>", "</text></svg>", "-->", "</p></main></body></html>"]

if __name__ == "__main__":
    count, folder = int(sys.argv[1]), pathlib.Path(sys.argv[2])
    folder.mkdir(parents=True, exist_ok=True)
    # Each thing once before any comes a second time, so that a short run has seen them all.
    names = [before + thing for shift in range(len(BEFORE))
             for before, thing in zip(itertools.islice(itertools.cycle(BEFORE), shift, None), THINGS)]
    assert len(set(names)) == len(names) and count <= len(names), (len(names), count)
    for place, name in enumerate(names[:count]):
        (folder / ("name_%03d.txt" % place)).write_bytes(name.encode("utf-8"))
