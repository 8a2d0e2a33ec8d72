"""The form of the page that ``/docs`` shows: no script, no outside asset.

Its words are in English in every language, as the description that it shows: names, fields and codes are English, and
who reads them writes a program.
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
<html lang="en">
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
{{ api.info.description | prose }}
<p>To begin with: <a href="/docs/cart">a cart in twenty lines</a>. For programs:
<a href="/openapi.json">openapi.json</a>. For everybody: <a href="/">the page</a>.</p>
</header>
<nav aria-label="Parts">
<ul>
{% for tag in api.tags %}
<li><a href="#tag-{{ tag.name }}">{{ tag.name }}</a>: {{ tag.description }}</li>
{% endfor %}
<li><a href="#examples">Examples</a>: Jobs to begin with.</li>
<li><a href="#objects">Objects</a>: What is sent and answered, field by field.</li>
<li><a href="#problems">Problems</a>: What is refused, and how that is told.</li>
</ul>
</nav>
<main>
{% for tag in api.tags %}
<h2 id="tag-{{ tag.name }}">{{ tag.name }}</h2>
{% for path, item in api.paths.items() %}
{% for method, operation in item.items() if tag.name in operation.tags %}
<section aria-labelledby="{{ operation.operationId }}">
<h3 id="{{ operation.operationId }}">{{ operation.summary }}</h3>
<p class="address"><code>{{ method | upper }} {{ path }}</code></p>
{{ operation.description | prose }}
{% if operation.parameters %}
<div class="wide"><table>
<thead><tr><th scope="col">parameter</th><th scope="col">value</th><th scope="col">what it is</th></tr></thead>
<tbody>
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
<p>Takes {{ content.schema | kind }} as <code>{{ media }}</code>.</p>
{% endfor %}
{% endif %}
{% for media, content in operation.responses["200"].content.items() %}
<p>Answers {{ content.schema | kind }} as <code>{{ media }}</code>.</p>
{% endfor %}
<p>Otherwise: {% for status in operation.responses if status != "200" %}{{ ", " if not loop.first }}\
{% if status == "304" %}304{% else %}<a href="#status-{{ status }}">{{ status }}</a>{% endif %}{% endfor %}.</p>
<pre tabindex="0">{{ curls[operation.operationId] }}</pre>
<p><a href="/docs/{{ operation.operationId }}">The same in Python and TypeScript, a whole answer and a problem</a></p>
</section>
{% endfor %}
{% endfor %}
{% endfor %}
<h2 id="examples">Examples</h2>
{% for path, item in api.paths.items() if path == "/v1/readiness" %}
{% for name, example in item.post.requestBody.content["application/json"].examples.items() %}
<h3>{{ example.summary }}</h3>
<pre tabindex="0">{{ pretty(example.value) }}</pre>
{% endfor %}
{% endfor %}
<h2 id="objects">Objects</h2>
{% for name, schema in api.components.schemas.items() %}
<section aria-labelledby="{{ name }}">
<h3 id="{{ name }}">{{ name }}</h3>
{% if schema.description %}{{ schema.description | prose }}{% endif %}
{% if schema.properties %}
<div class="wide"><table>
<thead><tr><th scope="col">field</th><th scope="col">value</th><th scope="col">what it is</th></tr></thead>
<tbody>
{% for field, form in schema.properties.items() %}
<tr><th scope="row"><code>{{ field }}</code>{{ " (required)" if field in schema.required }}</th>
<td>{{ form | kind }}{{ " or null" if form | nullable and name not in asked }}</td>
<td>{{ form.description | inline }}</td></tr>
{% endfor %}
</tbody>
</table></div>
{% else %}
<p>{{ schema | kind }}</p>
{% endif %}
</section>
{% endfor %}
<h2 id="problems">Problems</h2>
<div class="wide"><table>
<thead><tr><th scope="col">status</th><th scope="col">when</th></tr></thead>
<tbody>
{% for status, (_, about) in statuses.items() %}
<tr id="status-{{ status }}"><th scope="row">{{ status }}</th><td>{{ about | inline }}</td></tr>
{% endfor %}
</tbody>
</table></div>
<p>Such as:</p>
<pre tabindex="0">{{ pretty(api.components.responses.NotUnderstood.content["application/problem+json"].example) }}</pre>
<div class="wide"><table>
<thead><tr><th scope="col">code</th><th scope="col">status</th><th scope="col">what it says</th></tr></thead>
<tbody>
{% for kind in kinds %}
<tr><th scope="row"><code>{{ kind.code }}</code></th><td>{{ kind.status }}</td><td>{{ kind.title() }}</td></tr>
{% endfor %}
</tbody>
</table></div>
</main>
</body>
</html>
"""
)

_SERVED = """\
<p>It runs as it stands where <code>./api/serve</code> serves the demonstration. Elsewhere, put the service's own
address and systems; where keys were made, send yours as <code>Authorization: Bearer</code>. The types of TypeScript
come from the description: <code>npx openapi-typescript {{ address }}/openapi.json --output description.ts</code>.</p>
"""

OPERATION = (
    _HEAD
    + """\
<h1>{{ operation.summary }}</h1>
<p class="address"><code>{{ operation.method | upper }} {{ operation.path }}</code></p>
{{ operation.description | prose }}
"""
    + _SERVED
    + """\
<p><a href="/docs#{{ operation.operationId }}">Its parameters and what it takes</a></p>
</header>
<main>
<h2 id="curl">curl</h2>
<pre tabindex="0">{{ shown.curl }}</pre>
<h2 id="python">Python</h2>
<pre tabindex="0">{{ shown.python }}</pre>
<h2 id="typescript">TypeScript</h2>
<pre tabindex="0">{{ shown.typescript }}</pre>
<h2 id="problem">A problem</h2>
<p>This one is refused:</p>
<pre tabindex="0">{{ shown.bad_curl }}</pre>
<pre tabindex="0">{{ shown.problem }}</pre>
<h2 id="answer">The whole answer</h2>
<p>What the samples above are answered, as <code>{{ shown.media_type }}</code>. A token is signed by the service that
made it: one that stands here opens nothing elsewhere.</p>
<pre class="folded">{{ shown.answer }}</pre>
</main>
</body>
</html>
"""
)

CART = (
    _HEAD
    + """\
<h1>A cart in twenty lines</h1>
<p>A job goes in; whole packs, their prices, what stands against the order and what to beware of come out. The cautions
belong to the answer: show them with it.</p>
"""
    + _SERVED
    + """\
<p><a href="/docs">All that can be asked</a></p>
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
