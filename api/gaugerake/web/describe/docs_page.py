"""The form of the page that ``/docs`` shows: no script, no outside asset.

Titles, heads and links are in the reader's language, and so are the summaries of the operations, their tags and the
titles of the problems. The rest of the description is in English in every language, with its tables, and is marked so
for screen readers: its names, fields and codes are English, and who reads them writes a program. Where the page is not
in English, a line on it says so. ``openapi.json`` has one language, English, whoever asks for it: it is one file that
programs compare, and a summary in it is no answer to a reader.
A language that was asked for by ``lang`` goes on to the next page with the links.
"""

STYLE = """
:root { color-scheme: light dark; --ink: #1d2733; --paper: #fbfaf7; --line: #c9c4b8; --soft: #f0ede5; --link: #0b5a77; }
@media (prefers-color-scheme: dark) {
  :root { --ink: #e6e3db; --paper: #181c20; --line: #454b50; --soft: #23282d; --link: #86c8e0; }
}
body { margin: 0 auto; max-width: 62rem; padding: 1rem; font: 1rem/1.5 system-ui, sans-serif; }
body { color: var(--ink); background: var(--paper); }
a { color: var(--link); }
h2 { margin-top: 2.5rem; border-bottom: 1px solid var(--line); }
section { margin: 1.5rem 0; }
code, pre { font: 0.9em/1.45 ui-monospace, monospace; background: var(--soft); border-radius: 3px; }
code { padding: 0 0.2em; overflow-wrap: anywhere; }
pre { padding: 0.75rem; overflow-x: auto; }
div.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: 0.25rem 0.75rem 0.25rem 0; }
th, td { border-bottom: 1px solid var(--line); }
.address { font-weight: 600; }
.folded { white-space: pre-wrap; overflow-wrap: anywhere; }
"""

_HEAD = """<!doctype html>
<html lang="{{ language }}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{{ api.info.title }} {{ api.info.version }}: {{ title }}</title>
<style>{{ style }}</style>
</head>
<body>
<header>
"""

TEMPLATE = (
    _HEAD
    + """\
<h1>{{ api.info.title }} {{ api.info.version }}</h1>
{{ other_language }}
<div lang="en">{{ api.info.description | prose }}</div>
<p>{{ say("docs-where-to-go", cart=link("/docs/cart", "docs-a-cart"), page=link("/", "docs-the-page"),
          description=openapi) }}</p>
</header>
<nav aria-label="{{ say("docs-parts") }}">
<ul>
{% for tag in api.tags %}
<li><a href="#tag-{{ tag.name }}">{{ tag_name(tag) }}</a>: {{ tag_about(tag) }}</li>
{% endfor %}
<li><a href="#examples">{{ say("docs-examples") }}</a>: {{ say("docs-examples-about") }}</li>
<li><a href="#objects">{{ say("docs-objects") }}</a>: {{ say("docs-objects-about") }}</li>
<li><a href="#problems">{{ say("docs-problems") }}</a>: {{ say("docs-problems-about") }}</li>
</ul>
</nav>
<main>
{% for tag in api.tags %}
<h2 id="tag-{{ tag.name }}">{{ tag_name(tag) }}</h2>
{% for path, item in api.paths.items() %}
{% for method, operation in item.items() if tag.name in operation.tags %}
<section aria-labelledby="{{ operation.operationId }}">
<h3 id="{{ operation.operationId }}">{{ summary_of(operation) }}</h3>
<p class="address"><code>{{ method | upper }} {{ path }}</code></p>
<div lang="en">{{ operation.description | prose }}</div>
{% if operation.parameters %}
<div class="wide"><table>
{{ heads("docs-head-parameter", "docs-head-value", "docs-head-what-it-is") }}
<tbody lang="en">
{% for parameter in operation.parameters %}
<tr><th scope="row"><code>{{ parameter.name }}</code></th>
<td>{{ parameter.schema | kind }}</td>
<td>{{ parameter.description | inline }}</td></tr>
{% endfor %}
</tbody>
</table></div>
{% endif %}
{% if operation.requestBody %}
{% for media, content in operation.requestBody.content.items() %}
<p>{{ say("docs-takes", what=content.schema | kind, media=code(media)) }}</p>
{% endfor %}
{% endif %}
{% for media, content in operation.responses["200"].content.items() %}
<p>{{ say("docs-answers", what=content.schema | kind, media=code(media)) }}</p>
{% endfor %}
<p>{{ say("docs-otherwise", statuses=statuses_of(operation)) }}</p>
<pre tabindex="0">{{ curls[operation.operationId] }}</pre>
<p>{{ link("/docs/" + operation.operationId, "docs-more-of-it") }}</p>
</section>
{% endfor %}
{% endfor %}
{% endfor %}
<h2 id="examples">{{ say("docs-examples") }}</h2>
{% for path, item in api.paths.items() if path == "/v1/readiness" %}
{% for name, example in item.post.requestBody.content["application/json"].examples.items() %}
<h3 lang="en">{{ example.summary }}</h3>
<pre tabindex="0">{{ pretty(example.value) }}</pre>
{% endfor %}
{% endfor %}
<h2 id="objects">{{ say("docs-objects") }}</h2>
{% for name, schema in api.components.schemas.items() %}
<section aria-labelledby="{{ name }}">
<h3 id="{{ name }}">{{ name }}</h3>
{% if schema.description %}<div lang="en">{{ schema.description | prose }}</div>{% endif %}
{% if schema.properties %}
<div class="wide"><table>
{{ heads("docs-head-field", "docs-head-value", "docs-head-what-it-is") }}
<tbody lang="en">
{% for field, form in schema.properties.items() %}
<tr><th scope="row"><code>{{ field }}</code>{{ " (required)" if field in schema.required }}</th>
<td>{{ form | kind }}{{ " or null" if form | nullable and name not in asked }}</td>
<td>{{ form.description | inline }}</td></tr>
{% endfor %}
</tbody>
</table></div>
{% else %}
<p lang="en">{{ schema | kind }}</p>
{% endif %}
</section>
{% endfor %}
<h2 id="problems">{{ say("docs-problems") }}</h2>
<div class="wide"><table>
{{ heads("docs-head-status", "docs-head-when") }}
<tbody lang="en">
{% for status, (_, about) in statuses.items() %}
<tr id="status-{{ status }}"><th scope="row">{{ status }}</th><td>{{ about | inline }}</td></tr>
{% endfor %}
</tbody>
</table></div>
<p>{{ say("docs-such-as") }}</p>
<pre tabindex="0">{{ pretty(api.components.responses.NotUnderstood.content["application/problem+json"].example) }}</pre>
<div class="wide"><table>
{{ heads("docs-head-code", "docs-head-status", "docs-head-what-it-says") }}
<tbody>
{% for kind in kinds %}
<tr><th scope="row"><code>{{ kind.code }}</code></th><td>{{ kind.status }}</td><td>{{ kind.title(language) }}</td></tr>
{% endfor %}
</tbody>
</table></div>
</main>
</body>
</html>
"""
)

_SERVED = """\
<p>{{ say("docs-where-it-runs", command=code("./api/serve"), header=code("Authorization: Bearer"),
          types=code("npx openapi-typescript " + address + "/openapi.json --output description.ts")) }}</p>
"""

OPERATION = (
    _HEAD
    + """\
<h1>{{ summary_of(operation) }}</h1>
{{ other_language }}
<p class="address"><code>{{ operation.method | upper }} {{ operation.path }}</code></p>
<div lang="en">{{ operation.description | prose }}</div>
"""
    + _SERVED
    + """\
<p>{{ link("/docs", "docs-its-parameters", at=operation.operationId) }}</p>
</header>
<main>
<h2 id="curl">curl</h2>
<pre tabindex="0">{{ shown.curl }}</pre>
<h2 id="python">Python</h2>
<pre tabindex="0">{{ shown.python }}</pre>
<h2 id="typescript">TypeScript</h2>
<pre tabindex="0">{{ shown.typescript }}</pre>
<h2 id="problem">{{ say("docs-a-problem") }}</h2>
<p>{{ say("docs-this-is-refused") }}</p>
<pre tabindex="0">{{ shown.bad_curl }}</pre>
<pre tabindex="0">{{ shown.problem }}</pre>
<h2 id="answer">{{ say("docs-whole-answer") }}</h2>
<p>{{ say("docs-whole-answer-about", media=code(shown.media_type)) }}</p>
<pre class="folded">{{ shown.answer }}</pre>
</main>
</body>
</html>
"""
)

CART = (
    _HEAD
    + """\
<h1>{{ say("docs-cart") }}</h1>
{{ other_language }}
<p>{{ say("docs-cart-about") }}</p>
"""
    + _SERVED
    + """\
<p>{{ link("/docs", "docs-all") }}</p>
</header>
<main>
<h2 id="python">Python</h2>
<pre tabindex="0">{{ python }}</pre>
<h2 id="typescript">TypeScript</h2>
<pre tabindex="0">{{ typescript }}</pre>
</main>
</body>
</html>
"""
)
