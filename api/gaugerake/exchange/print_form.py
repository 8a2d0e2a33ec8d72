"""The form of the printed quote: black on white, no script, no outside asset.

Decisions:

* No letter is under 8 points, the cautions' neither. The first page holds what a buyer signs: which floor and for whom,
  the slab's verdict, the order, when traffic is back, and what to take care of by its title, with the cautions of this
  job. The cautions stand in full on a page of their own, which says whose they are; what is assumed follows them.
* So a job takes two pages, or more where it is long: nothing is written smaller.
* The heads of columns wrap: Spanish ones are longer, and a browser prints the whole of a page that is too wide in
  smaller letters.
"""

from gaugerake.exchange import plain_form

STYLE = (
    plain_form.STYLE
    + plain_form.numbered()
    + plain_form.SAFETY_STYLE
    + """
@page { margin: 8mm 11mm 12mm; }
body { max-width: 48rem; }
h1 { margin: 0; font-size: 1.5rem; }
h2 { margin: 0.8rem 0 0.2rem; font-size: 1rem; border-bottom: 1px solid #000; }
header { display: flex; gap: 1rem; justify-content: space-between; }
header img { width: 9rem; height: 9rem; }
th, td { padding: 0.1rem 0.6rem 0.1rem 0; }
th:last-child, td:last-child { padding-right: 0; }
tfoot th { font-weight: 400; text-align: right; }
tfoot tr:last-child > * { font-weight: 700; border-bottom: 0; }
@media screen and (max-width: 40rem) {
  header { flex-wrap: wrap; }
  dl { grid-template-columns: minmax(6rem, auto) 1fr; }
}
@media print {
  body { max-width: none; font-size: 8pt; line-height: 1.15; }
  h1 { font-size: 13pt; }
  h2 { font-size: 9pt; margin: 3pt 0 1pt; break-after: avoid; }
  p, li { orphans: 3; widows: 3; margin: 0.5pt 0; }
  dl, .first { margin: 2pt 0; }
  .first { padding: 1pt 5pt; border-width: 1pt; }
  .first p { margin: 0; }
  th, td { padding: 0.4pt 5pt 0.4pt 0; }
  header img { width: 24mm; height: 24mm; }
  thead th { vertical-align: bottom; }
  .pair:not(:has(.twice)) { display: grid; grid-template-columns: auto auto; gap: 0 14pt; }
  p:has(+ ul) { break-after: avoid; }
  thead .figure { white-space: normal; }
}
"""
)

TEMPLATE = (
    plain_form.HEAD
    + """<body>
<header>
<div>
<h1>{{ heading }}</h1>
<p>{{ paper.envelope.catalogue.title | figure }}</p>
<dl>
{% if answer.reference %}
<dt>{{ phrase("print-reference") }}</dt><dd>{{ answer.reference }}</dd>
{% endif %}
{% if paper.buyer %}
<dt>{{ phrase("print-buyer") }}</dt><dd>{{ paper.buyer }}</dd>
{% endif %}
{% if paper.issued %}
<dt>{{ phrase("print-issued") }}</dt><dd>{{ paper.issued }}</dd>
{% endif %}
{% if answer.valid_until %}
<dt>{{ phrase("print-prices-hold-until") }}</dt><dd>{{ answer.valid_until }}</dd>
{% endif %}
<dt>{{ phrase("print-system") }}</dt><dd>{{ paper.system | figure }}</dd>
<dt>{{ phrase("print-floor") }}</dt><dd>{{ floor }}</dd>
<dt>{{ phrase("print-catalogue-and-engine") }}</dt>
<dd>{{ paper.envelope.catalogue_revision[:12] }}, {{ paper.envelope.engine }}</dd>
</dl>
</div>
{% if qr %}
<img src="{{ qr }}" alt="{{ label("print-qr") }}" width="144" height="144">
{% endif %}
</header>
<main>
<div class="first">
{% for text in said_first %}
<p>{{ text }}</p>
{% endfor %}
<p>{{ orderable }}</p>
</div>

<h2>{{ phrase("print-slab", verdict=verdict) }}</h2>
<p>{{ answer.readiness.summary | figure }}</p>

<h2>{{ phrase("print-order") }}</h2>
<div class="wide"><table>
<thead><tr><th scope="col" class="figure">{{ phrase("print-head-packs") }}</th>
<th scope="col">{{ phrase("print-head-sku") }}</th>
<th scope="col">{{ phrase("print-head-description") }}</th>
<th scope="col" class="figure">{{ phrase("print-head-each-holds") }}</th>
<th scope="col" class="figure">{{ phrase("print-head-each") }}</th>
<th scope="col" class="figure">{{ order.totals.currency }}</th></tr></thead>
<tbody>
{% for line in order.order_lines %}
<tr><td class="figure">{{ line.packs }}</td><td>{{ line.sku }}</td><td>{{ line.description | figure }}
{%- if line.kit %}<br>{{ phrase("print-part-of-kit", kit=line.kit) }}{% endif %}</td>
<td class="figure">{{ line.contents | figure }}</td>
<td class="figure">{{ phrase("print-no-price") if line.unit_price is none else line.unit_price }}</td>
<td class="figure">{{ phrase("print-no-price") if line.amount is none else line.amount }}</td></tr>
{% else %}
<tr><td colspan="6">{{ phrase("print-nothing") }}</td></tr>
{% endfor %}
</tbody>
<tfoot>
{% for name, amount in sums %}
<tr><th scope="row" colspan="5">{{ name }}</th><td class="figure">{{ amount }}</td></tr>
{% endfor %}
</tfoot>
</table></div>
<p>{{ phrase("print-weight", weight=order.totals.weight | figure) }}
{{ phrase("print-shortage", percent="%.1f" | format(order.shortage_any * 100)) }}</p>

{% if times.returns %}
<h2>{{ phrase("print-traffic-returns") }}</h2>
<div class="wide"><table>
<thead><tr><th scope="col">{{ phrase("print-head-traffic") }}</th>
<th scope="col" class="figure">{{ phrase("print-head-at-the-latest") }}</th>
<th scope="col" class="figure">{{ phrase("print-head-from-the-start") }}</th></tr></thead>
<tbody>
{% for one in times.returns %}
<tr><th scope="row">{{ open_to(one.traffic) | figure }}</th><td class="figure">{{ one.latest | instant }}</td>
<td class="figure">{{ phrase("print-never") if one.after is none else one.after | figure }}</td></tr>
{% endfor %}
</tbody>
</table></div>
{% if times.deadline %}
<p>{{ phrase("print-asked-for", traffic=open_to(times.deadline.traffic), at=times.deadline.reopen_by | instant) }}
{% if times.deadline.met is not none %}
{{ phrase("print-in-time" if times.deadline.met else "print-not-in-time") }}
{% endif %}
{% if times.deadline.latest_start %}
{{ phrase("print-begin-by", at=times.deadline.latest_start | instant) }}
{% endif %}
</p>
{% endif %}
{% endif %}

<h2>{{ phrase("print-beware") }}</h2>
{% for text in in_brief %}
<p>{{ text }}</p>
{% endfor %}

<div class="pair">
<section>
<h2>{{ phrase("print-rooms") }}</h2>
<div class="wide"><table>
<thead><tr><th scope="col">{{ phrase("print-head-room") }}</th>
<th scope="col" class="figure">{{ phrase("print-head-net-area") }}</th>
<th scope="col" class="figure">{{ phrase("print-head-thickness") }}</th>
<th scope="col" class="figure">{{ phrase("print-head-keyways") }}</th>
{% if coved %}<th scope="col" class="figure">{{ phrase("print-head-cove") }}</th>{% endif %}</tr></thead>
<tbody>
{% for room in order.rooms %}
<tr><th scope="row">{{ room.name | figure }}</th><td class="figure">{{ room.area | figure }}</td>
<td class="figure">{{ room.thickness | figure }}</td><td class="figure">{{ room.keyway_length | figure }}</td>
{% if coved %}<td class="figure">{{ room.cove_length | figure }}</td>{% endif %}</tr>
{% endfor %}
</tbody>
</table></div>
</section>
{% if plan.pours %}
<section>
<h2>{{ phrase("print-pour") }}</h2>
<div class="wide"><table>
<thead><tr><th scope="col">{{ phrase("print-head-room") }}</th>
<th scope="col" class="figure">{{ phrase("print-head-mixes") }}</th>
<th scope="col" class="figure">{{ phrase("print-head-a-mix-covers") }}</th>
<th scope="col" class="figure">{{ phrase("print-head-a-mix-every") }}</th>
<th scope="col" class="figure">{{ phrase("print-head-wet-edge-needs") }}</th>
<th scope="col" class="figure">{{ phrase("print-head-open-time") }}</th></tr></thead>
<tbody>
{% for pour in plan.pours %}
{% set waits, stays_open = edge(pour) %}
<tr><th scope="row">{{ pour.room | figure }}</th><td class="figure">{{ pour.mixes }}</td>
<td class="figure">{{ pour.mix_area | figure }}</td><td class="figure">{{ pour.cadence | figure }}</td>
<td class="figure">{{ waits }}</td>
<td class="figure">{{ stays_open }}</td></tr>
{% endfor %}
</tbody>
</table></div>
</section>
{% endif %}
</div>
{% if plan.pours %}
<p>{{ phrase("print-edge-unknown" if plan.feasible is none else "print-edge-holds" if plan.feasible
else "print-edge-lost", cadence=plan.cadence | figure) }}</p>
{% if plan.remedies %}
<p>{{ phrase("print-pour-remedies-one" if plan.remedies | length == 1 else "print-pour-remedies-other") }}</p>
<ul>
{% for remedy in plan.remedies %}
<li>{{ remedy.text | figure }}</li>
{% endfor %}
</ul>
{% endif %}
{% endif %}

{% if to_do %}
<h2>{{ phrase("print-slab-work") }}</h2>
<ul>
{% for check in to_do %}
<li>{% for text in check | told %}{{ text | figure }} {% endfor %}</li>
{% endfor %}
</ul>
{% endif %}

{% if times.deadline and times.deadline.remedies %}
<h2>{{ phrase("print-deadline") }}</h2>
<p>{{ phrase("print-remedies-one" if times.deadline.remedies | length == 1 else "print-remedies-other") }}</p>
<ul>
{% for remedy in times.deadline.remedies %}
<li>{{ remedy.text | figure }}</li>
{% endfor %}
</ul>
{% endif %}

"""
    + plain_form.SAFETY
    + """</main>
</body>
</html>
"""
)
