"""The form of the printed quote: black on white, one page for a usual job, no script, no outside asset."""

STYLE = """
@page { margin: 8mm 11mm; }
:root { color-scheme: only light; }
body { margin: 0 auto; max-width: 48rem; padding: 1rem; font: 0.9rem/1.35 system-ui, sans-serif; }
body { color: #000; background: #fff; }
h1 { margin: 0; font-size: 1.5rem; }
h2 { margin: 0.8rem 0 0.2rem; font-size: 1rem; border-bottom: 1px solid #000; }
p { margin: 0.2rem 0; }
header { display: flex; gap: 1rem; justify-content: space-between; }
header img { width: 9rem; height: 9rem; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: 0 0.75rem; margin: 0.3rem 0; }
dd { margin: 0; overflow-wrap: anywhere; }
.first { border: 2px solid #000; padding: 0.3rem 0.6rem; margin: 0.6rem 0; font-weight: 600; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: 0.1rem 0.6rem 0.1rem 0; border-bottom: 1px solid #bbb; }
th:last-child, td:last-child { padding-right: 0; }
.figure { text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums; }
thead th { border-bottom: 1px solid #000; }
tfoot th { font-weight: 400; text-align: right; }
tfoot tr:last-child > * { font-weight: 700; border-bottom: 0; }
.wide { overflow-x: auto; }
ul { margin: 0.2rem 0; padding-left: 1.1rem; }
.small { font-size: 0.75rem; line-height: 1.25; columns: 2 18rem; column-gap: 1.6rem; }
.small li { break-inside: avoid; }
@media print {
  body { padding: 0; max-width: none; font-size: 7.5pt; line-height: 1.2; }
  h1 { font-size: 12pt; }
  h2 { font-size: 8.5pt; margin: 3pt 0 1pt; break-after: avoid; }
  p { margin: 1pt 0; }
  dl, .first { margin: 2pt 0; }
  .first { padding: 1pt 5pt; border-width: 1pt; }
  .first p { margin: 0; }
  th, td { padding: 0.3pt 5pt 0.3pt 0; }
  header img { width: 26mm; height: 26mm; }
  .pair { display: grid; grid-template-columns: auto auto; gap: 0 12pt; }
  .pair th { white-space: nowrap; }
  .small { font-size: 6pt; line-height: 1.12; columns: 3; column-gap: 14pt; padding-left: 8pt; margin: 1pt 0; }
  tr { break-inside: avoid; }
}
"""

TEMPLATE = """<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex">
<title>Quote {{ paper.number }}</title>
<style>{{ style }}</style>
</head>
<body>
<header>
<div>
<h1>Quote {{ paper.number }}</h1>
<p>{{ paper.envelope.catalogue.title }}</p>
<dl>
{% if answer.reference %}
<dt>Reference</dt><dd>{{ answer.reference }}</dd>
{% endif %}
{% if paper.issued %}
<dt>Issued</dt><dd>{{ paper.issued }}</dd>
{% endif %}
{% if answer.valid_until %}
<dt>Prices hold until</dt><dd>{{ answer.valid_until }}</dd>
{% endif %}
<dt>System</dt><dd>{{ paper.system }}</dd>
<dt>Catalogue and engine</dt><dd>{{ paper.envelope.catalogue_revision[:12] }}, {{ paper.envelope.engine }}</dd>
</dl>
</div>
{% if qr %}
<img src="{{ qr }}" alt="QR code that opens this quote" width="144" height="144">
{% endif %}
</header>
<main>
<div class="first">
{% for text in paper.said_first %}
<p>{{ text }}</p>
{% endfor %}
<p>{{ "Orderable as it is." if order.orderable else "Not orderable as it is." }}</p>
</div>

<h2>Slab: {{ answer.readiness.verdict }}</h2>
<p>{{ answer.readiness.summary | figure }}</p>
{% if to_do %}
<ul>
{% for check in to_do %}
<li>{{ check.because | figure }} {{ check.do | figure }}</li>
{% endfor %}
</ul>
{% endif %}

<h2>Rooms</h2>
<div class="wide"><table>
<thead><tr><th scope="col">room</th><th scope="col" class="figure">net area</th>
<th scope="col" class="figure">thickness</th><th scope="col" class="figure">keyways</th>
{% if coved %}<th scope="col" class="figure">cove</th>{% endif %}</tr></thead>
<tbody>
{% for room in order.rooms %}
<tr><th scope="row">{{ room.name | figure }}</th><td class="figure">{{ room.area | figure }}</td>
<td class="figure">{{ room.thickness | figure }}</td><td class="figure">{{ room.keyway_length | figure }}</td>
{% if coved %}<td class="figure">{{ room.cove_length | figure }}</td>{% endif %}</tr>
{% endfor %}
</tbody>
</table></div>

<h2>Order</h2>
<div class="wide"><table>
<thead><tr><th scope="col" class="figure">packs</th><th scope="col">sku</th><th scope="col">description</th>
<th scope="col" class="figure">each holds</th><th scope="col" class="figure">each</th>
<th scope="col" class="figure">{{ order.totals.currency }}</th></tr></thead>
<tbody>
{% for line in order.order_lines %}
<tr><td class="figure">{{ line.packs }}</td><td>{{ line.sku }}</td><td>{{ line.description }}</td>
<td class="figure">{{ line.contents | figure }}</td>
<td class="figure">{{ "no price" if line.unit_price is none else line.unit_price }}</td>
<td class="figure">{{ "no price" if line.amount is none else line.amount }}</td></tr>
{% else %}
<tr><td colspan="6">Nothing: all that is needed is on hand.</td></tr>
{% endfor %}
</tbody>
<tfoot>
{% for name, amount in sums %}
<tr><th scope="row" colspan="5">{{ name }}</th><td class="figure">{{ amount }}</td></tr>
{% endfor %}
</tfoot>
</table></div>
<p>{{ order.totals.weight | figure }} in all. The chance that anything of it runs short is
{{ "%.1f" | format(order.shortage_any * 100) }} %.</p>

<div class="pair">
{% if plan.pours %}
<section>
<h2>Pour</h2>
<p>{% if plan.feasible is none %}No open time is stated, so nobody can say whether the wet edge holds;
{% else %}The wet edge {{ "holds" if plan.feasible else "does not hold" }};
{% endif %}one mix every {{ plan.cadence | figure }} in the slowest room.</p>
<div class="wide"><table>
<thead><tr><th scope="col">room</th><th scope="col" class="figure">mixes</th>
<th scope="col" class="figure">a mix covers</th><th scope="col" class="figure">a mix every</th>
<th scope="col" class="figure">wet edge needs</th><th scope="col" class="figure">open time</th></tr></thead>
<tbody>
{% for pour in plan.pours %}
<tr><th scope="row">{{ pour.room | figure }}</th><td class="figure">{{ pour.mixes }}</td>
<td class="figure">{{ pour.mix_area | figure }}</td><td class="figure">{{ pour.cadence | figure }}</td>
<td class="figure">{{ pour.needed | figure }}</td><td class="figure">{{ pour.open_time | figure }}</td></tr>
{% endfor %}
</tbody>
</table></div>
</section>
{% endif %}

{% if times.returns %}
<section>
<h2>Traffic returns</h2>
<div class="wide"><table>
<thead><tr><th scope="col">traffic</th><th scope="col" class="figure">at the latest</th>
<th scope="col" class="figure">from the start</th></tr></thead>
<tbody>
{% for one in times.returns %}
<tr><th scope="row">{{ one.traffic }}</th><td class="figure">{{ one.latest | instant }}</td>
<td class="figure">{{ "never under these temperatures" if one.after is none else one.after | figure }}</td></tr>
{% endfor %}
</tbody>
</table></div>
{% if times.deadline %}
<p>Asked for: {{ times.deadline.traffic }} by {{ times.deadline.reopen_by | instant }}.
{% if times.deadline.met is not none %}
{{ "In time." if times.deadline.met else "Not in time." }}
{% endif %}
{% if times.deadline.latest_start %}
Begin by {{ times.deadline.latest_start | instant }} at the latest.
{% endif %}
</p>
{% endif %}
</section>
{% endif %}
</div>

{% for title, notes in small %}
{% if notes %}
<h2>{{ title }}</h2>
<ul class="small">
{% for note in notes %}
<li>{{ note }}</li>
{% endfor %}
</ul>
{% endif %}
{% endfor %}
</main>
</body>
</html>
"""
