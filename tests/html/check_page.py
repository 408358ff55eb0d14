#!/usr/bin/env python3
"""Checks HTML pages with nothing but Python's standard library: check_page.py FILE...

What a validator and a screen reader's tester would ask first (HTML Living Standard; WCAG 2.2, success criteria 1.1.1,
1.3.1, 2.1.1, 2.4.2, 3.1.1), and what must never be in a report: scripts, requests, handlers. run.sh asks real ones.
check_page.py --trial breaks a good page in every way that is looked for, and fails when one goes unseen.
"""
import re
import sys
from html.parser import HTMLParser

VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}
FORBIDDEN = {"script", "iframe", "frame", "object", "embed", "link", "base", "form", "img", "video", "audio", "image", "use",
             "foreignobject", "animate", "set", "template", "noscript"}
FETCHING = {"src", "srcset", "href", "xlink:href", "action", "formaction", "data", "poster", "background", "ping"}
PARENTS = {"li": {"ul", "ol"}, "dt": {"dl", "div"}, "dd": {"dl", "div"}, "tr": {"thead", "tbody", "tfoot"}, "td": {"tr"},
           "th": {"tr"}, "caption": {"table"}, "summary": {"details"}}


class Page(HTMLParser):
    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.findings, self.open, self.ids, self.headings = [], [], set(), []
        self.counts, self.metas, self.texts = {}, [], {}
        self.doctype, self.tables = None, []

    def find(self, what):
        self.findings.append("line %d: %s" % (self.getpos()[0], what))

    def handle_decl(self, decl):
        self.doctype = decl

    def handle_startendtag(self, tag, attributes):
        self.handle_starttag(tag, attributes)
        if tag not in VOID:
            if not any(element == "svg" for element, _ in self.open):
                self.find("<%s/> closes itself" % tag)
            self.handle_endtag(tag)

    def handle_starttag(self, tag, attributes):
        names = dict(attributes)
        self.counts[tag] = self.counts.get(tag, 0) + 1
        inside_svg = any(element == "svg" for element, _ in self.open)
        if len(names) != len(attributes):
            self.find("<%s> has an attribute twice" % tag)
        if tag in FORBIDDEN or (tag == "a" and "href" in names):
            self.find("<%s> has no place in a report" % tag)
        for name, value in attributes:
            if name.startswith("on") or name in FETCHING:
                self.find("<%s %s> has no place in a report" % (tag, name))
            if re.search(r"javascript:|url\(|@import|expression\(", value or "", re.I) and name == "style":
                self.find("<%s style> fetches" % tag)
        if "id" in names:
            if names["id"] in self.ids:
                self.find("the id %s is there twice" % names["id"])
            self.ids.add(names["id"])
        if tag in PARENTS and (not self.open or self.open[-1][0] not in PARENTS[tag]):
            self.find("<%s> in <%s>" % (tag, self.open[-1][0] if self.open else "nothing"))
        if re.fullmatch("h[1-6]", tag):
            level = int(tag[1])
            if level > (self.headings[-1] if self.headings else 0) + 1:
                self.find("<%s> skips a level" % tag)
            self.headings.append(level)
        if tag == "svg" and not inside_svg and (names.get("role") != "img" or not names.get("aria-label")):
            self.find("a picture without role and words")
        if names.get("role") == "img" and not names.get("aria-label"):
            self.find("<%s role=img> without words" % tag)
        if "scroll" in (names.get("class") or "").split() and not (
                tag == "section" and names.get("tabindex") == "0" and names.get("aria-label")):
            self.find("a part that scrolls cannot be reached by keyboard")
        if tag == "table":
            self.tables.append({"head": 0, "rows": [], "named": "aria-label" in names})
        if self.tables and tag == "caption":
            self.tables[-1]["named"] = True
        if self.tables and tag == "tr":
            self.tables[-1]["rows"].append(0)
        if self.tables and tag in ("td", "th") and self.tables[-1]["rows"]:
            self.tables[-1]["rows"][-1] += int(names.get("colspan") or 1)
            if tag == "th":
                self.tables[-1]["head"] += 1
                if names.get("scope") not in ("col", "row"):
                    self.find("<th> without scope")
        if tag == "meta":
            self.metas.append(names)
            if (names.get("http-equiv") or "").lower() == "refresh":
                self.find("a page that sends elsewhere")
        if tag == "html" and not names.get("lang"):
            self.find("no language")
        if tag == "style" and not any("default-src 'none'" in (meta.get("content") or "") for meta in self.metas):
            self.find("style before the content-security policy")
        if tag not in VOID:
            self.open.append((tag, self.getpos()))

    def handle_endtag(self, tag):
        if tag in VOID or not self.open or self.open[-1][0] != tag:
            self.find("</%s> closes %s" % (tag, "<%s>" % self.open[-1][0] if self.open else "nothing"))
            return
        self.open.pop()
        if tag == "table":
            table = self.tables.pop()
            if not table["named"]:
                self.find("a table without a caption")
            if table["head"] == 0:
                self.find("a table without headers")
            if len(set(table["rows"])) > 1:
                self.find("a table with rows of different length")

    def handle_data(self, data):
        if self.open:
            tag = self.open[-1][0]
            if tag == "title" and any(element == "svg" for element, _ in self.open):
                return
            self.texts[tag] = self.texts.get(tag, "") + data
            if tag == "style" and re.search(r"url\(|@import|expression\(", data):
                self.find("style that fetches")

    def close(self):
        super().close()
        if (self.doctype or "").lower() != "doctype html":
            self.find("no <!DOCTYPE html>")
        for tag, (line, _) in self.open:
            self.find("<%s> of line %d is never closed" % (tag, line))
        for tag in ("html", "head", "body", "main", "h1"):
            if self.counts.get(tag, 0) != 1:
                self.find("%d <%s>" % (self.counts.get(tag, 0), tag))
        if not self.texts.get("title", "").strip():
            self.find("no title")
        if not any((meta.get("charset") or "").lower() == "utf-8" for meta in self.metas):
            self.find("no <meta charset>")
        if not any(meta.get("name") == "viewport" for meta in self.metas):
            self.find("no viewport for phones")
        policies = [meta.get("content") or "" for meta in self.metas
                    if (meta.get("http-equiv") or "").lower() == "content-security-policy"]
        if len(policies) != 1 or not policies[0].startswith("default-src 'none'") or "script-src" in policies[0]:
            self.find("no content-security policy that forbids everything")
        return self.findings


def findings_of(text):
    page = Page()
    page.feed(text)
    return page.close()


GOOD = """<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"/>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'"/>
<meta name="viewport" content="width=device-width"/><title>Lesson</title><style>p { margin: 0; }</style></head>
<body><main><h1>Robin</h1><h2>Shots</h2><ul><li id="a">one</li></ul>
<svg role="img" aria-label="a picture"><title>a picture</title><path d="M0 0"/></svg>
<section class="scroll" aria-label="Swings" tabindex="0"><table><caption>Swings</caption>
<thead><tr><th scope="col">Swing</th><th scope="col">Share</th></tr></thead>
<tbody><tr><th scope="row">1</th><td>73 %</td></tr></tbody></table></section></main></body></html>
"""
WORSE = [("<!DOCTYPE html>", ""), (' lang="en"', ""), ('<meta charset="utf-8"/>', ""), ("default-src 'none'", "default-src *"),
         ('name="viewport"', 'name="view"'), ("Lesson", ""), ("margin: 0", "background: url(x)"), ("<h1>Robin</h1>", ""),
         ("<h2>Shots</h2>", "<h3>Shots</h3>"), ("</li>", ""), ("<ul>", "<div>"), (' role="img"', ""), ('aria-label="a picture"', ""),
         (' tabindex="0"', ""), ("<caption>Swings</caption>", ""), (' scope="row"', ""), ("<td>73 %</td>", ""),
         ("<td>73 %</td>", "<td>73 %</td><td>4</td>"), ("</main>", ""), ("Robin", "<script>1</script>"),
         ("Robin", '<b onclick="1">Robin</b>'), ("Robin", "<img src=x>"), ("Robin", '<a href="x">Robin</a>'),
         ("Robin", '<b style="background:url(x)">Robin</b>'), ("Robin", '<b id="a">Robin</b>'), ("Robin", "<b/>"),
         ("Robin", '<b class="a" class="b">Robin</b>'), ("Robin", "</b>"),
         ("<title>Lesson", '<meta http-equiv="refresh" content="0"/><title>Lesson'),
         ('<thead><tr><th scope="col">Swing</th><th scope="col">Share</th></tr></thead>\n', ""),
         ("<main>", "<main><svg role=\"img\">x</svg>")]


def trial():
    if findings_of(GOOD):
        return ["the good page is refused: %s" % findings_of(GOOD)]
    unseen = []
    for good, bad in WORSE:
        if GOOD.count(good) < 1:
            unseen.append("%s is not on the good page" % good)
        page = GOOD.replace(good, bad, 1)
        if good.startswith("<thead"):
            page = page.replace('<th scope="row">1</th>', "<td>1</td>")
        if not findings_of(page):
            unseen.append("%s instead of %s goes unseen" % (bad, good))
    return unseen


def main(words):
    findings = trial() if words == ["--trial"] else []
    for file in words if words != ["--trial"] else []:
        with open(file, encoding="utf-8", newline="") as page:
            findings += ["%s, %s" % (file, finding) for finding in findings_of(page.read())]
    for finding in findings[:40]:
        print(finding, file=sys.stderr)
    return 1 if findings or not words else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
