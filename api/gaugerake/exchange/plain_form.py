"""What the printed forms have in common: the head of the page, plain black on white, and what a browser may do."""

from base64 import b64encode
from hashlib import sha256

from gaugerake.answers.show.reader import LANGUAGES
from gaugerake.answers.show.words import templates

STYLE = """
:root { color-scheme: only light; }
body { margin: 0 auto; padding: 1rem; font: 0.9rem/1.35 system-ui, sans-serif; color: #000; background: #fff; }
p { margin: 0.2rem 0; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: 0 0.75rem; margin: 0.3rem 0; }
dd { margin: 0; overflow-wrap: anywhere; }
.first { border: 2px solid #000; padding: 0.3rem 0.6rem; margin: 0.6rem 0; font-weight: 600; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; border-bottom: 1px solid #bbb; }
thead th { border-bottom: 1px solid #000; }
.figure { text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums; }
.wide { overflow-x: auto; }
ul { margin: 0.2rem 0; padding-left: 1.1rem; }
.small { font-size: 0.75rem; line-height: 1.25; columns: 2 18rem; column-gap: 1.6rem; }
.small li { break-inside: avoid; }
@media screen and (max-width: 40rem) {
  .small { font-size: 0.875rem; line-height: 1.35; }
  .small li { margin-bottom: 0.3rem; }
}
.twice > [lang] { display: block; font-size: 0.9em; font-style: italic; font-weight: 400; }
:is(p, li) > .twice { display: grid; grid-template-columns: 1fr 1fr; gap: 0 1rem; }
.small:has(.twice) { columns: 1 !important; }
:is(p, li) > .twice > [lang] { font-size: 1em; font-style: normal; font-weight: inherit; }
@media print {
  body { padding: 0; line-height: 1.2; }
  .twice > [lang] { font-size: 1em; }
  tr { break-inside: avoid; }
}
"""

SAFETY_STYLE = """
.safety { margin-top: 2rem; border-top: 3px double #000; padding-top: 0.6rem; }
.safety > h2 { border: 0; margin: 0; font-size: 1.5rem; }
.safety > h3 { margin: 0.6rem 0 0.2rem; font-size: 1rem; border-bottom: 1px solid #000; }
@media print {
  .safety { font-size: 8pt; line-height: 1.15; break-before: page; margin: 0; border: 0; padding: 0; }
  .safety > h2 { font-size: 13pt; }
  .safety > h3 { font-size: 9pt; margin: 3pt 0 1pt; break-after: avoid; }
  .small { font-size: 8pt; line-height: inherit; columns: 2; column-gap: 14pt; padding-left: 12pt; margin: 1pt 0; }
  .safety .small { line-height: 1.2; }
  .safety .small li { margin: 0 0 2pt; }
  .run:not(:has(.twice)) { columns: 1; padding: 0; break-inside: avoid; }
  .run:not(:has(.twice)) li { display: inline; }
}
"""
"""How the page of cautions looks: its letters are of 8 points, those of the assumptions behind it too."""

SAFETY = """<section class="safety">
<h2>{{ phrase("print-safety") }}</h2>
<p>{{ whose }}</p>
<p>{{ of_what }}</p>
{% for title, notes in cautions %}
{% if notes %}
<h3>{{ title }}</h3>
<ul class="small">
{% for note in notes %}
<li>{{ note }}</li>
{% endfor %}
</ul>
{% endif %}
{% endfor %}
</section>

{% if assumed %}
<h2 class="part">{{ phrase("print-assumed") }}</h2>
<ul class="small run">
{% for note in assumed %}
<li>{{ note }}</li>
{% endfor %}
</ul>
{% endif %}
"""
"""The page of cautions in full, which says whose they are; what is assumed follows them."""

HEAD = """<!doctype html>
<html lang="{{ paper.reader.language }}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex">
<title>{{ title }}</title>
<style>{{ style }}</style>
</head>
"""

TWICE = '<span class="twice"><span>{}</span><span lang="{}">{}</span></span>'
"""A text, and the same in a second language."""
BOTH = '<span class="both"><span>{}</span> / <span lang="{}">{}</span></span>'
"""A word, and the same in a second language, in one line."""


def numbered() -> str:
    """The style that counts the pages at their foot, in the language of the page."""
    known = {language: _counted(templates(language)["print-page"]) for language in LANGUAGES}
    words = "".join(f":root:lang({language}) {{ {said} }}\n" for language, said in known.items())
    return (
        f"\n{words}@page {{ @bottom-right {{ font: 8pt system-ui, sans-serif; content: "
        "var(--before) counter(page) var(--between) counter(pages) var(--after); } }\n"
    )


def _counted(template: str) -> str:
    """What stands round the two numbers, as properties of the style.

    >>> _counted("Page {page} of {pages}.")
    '--before: "Page "; --between: " of "; --after: ".";'
    """
    before, _, rest = template.partition("{page}")
    between, _, after = rest.partition("{pages}")
    return f'--before: "{before}"; --between: "{between}"; --after: "{after}";'


def policy(style: str, *, images: str = "") -> str:
    """What a browser may do with a page of this style; ``images`` says where its images come from, if it has any.

    >>> policy("").partition("; ")[0]
    "default-src 'none'"
    """
    digest = b64encode(sha256(style.encode()).digest()).decode()
    pictured = f"img-src {images}; " if images else ""
    return f"default-src 'none'; style-src 'sha256-{digest}'; {pictured}base-uri 'none'; frame-ancestors 'none'"
