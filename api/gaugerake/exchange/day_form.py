"""The form of the printed day sheets: a page for all days, one of cautions, then one for each day, to write on.

No letter is under 8 points. What does not fit is written closer, or goes onto a second page, and never smaller.

A phone shows the sheets without the columns that are written on, as nobody writes there: what is left fits its width.
There a pour tells its layer beneath its room, and each of the days is a card, whose roles are written out: what is no
longer laid out as a table still is one.
"""

from gaugerake.exchange import plain_form

STYLE = (
    plain_form.STYLE
    + plain_form.numbered()
    + plain_form.SAFETY_STYLE
    + """
@page { margin: 8mm 11mm 12mm; }
body { max-width: 50rem; }
h1, h2 { margin: 0; font-size: 1.4rem; }
h3, .part { margin: 0.9rem 0 0.2rem; font-size: 1rem; border-bottom: 1px solid #000; }
.day { margin-top: 3rem; border-top: 3px solid #000; padding-top: 0.6rem; }
.large { font-size: 1.1rem; font-weight: 600; }
th, td { padding: 0.15rem 0.6rem 0.15rem 0; }
th { font-weight: 600; }
thead th { font-weight: 400; }
.blank { min-width: 4rem; border-left: 1px solid #000; border-bottom: 1px solid #000; }
.key { white-space: nowrap; }
.box { display: inline-block; width: 0.8em; height: 0.8em; border: 1px solid #000; }
.wide table { min-width: 36rem; }
.laid-here { display: none; font-weight: 400; }
@media screen and (max-width: 40rem) {
  .wide table { min-width: 0; font-size: 0.85rem; }
  .wide :is(th, td) { padding: 0.35rem 0.3rem 0.35rem 0; }
  .wide :is(.key, .figure) { white-space: normal; }
  h1, h2 { font-size: 1.25rem; }
  .days, .days tbody { display: block; }
  .days thead { position: absolute; left: -99em; }
  .days tr {
    display: grid; grid-template-columns: 1fr auto auto; gap: 0.15rem 0.4rem; padding: 0.5rem 0;
    border-bottom: 1px solid #bbb;
  }
  .days tbody tr > * { padding: 0; border: 0; font-size: 0.95rem; }
  .days td:nth-child(3)::before { content: "– "; }
  .days td:nth-child(4) { grid-column: 1 / -1; }
  .days [data-label]::before { content: attr(data-label) " "; }
  .days [data-label] { grid-area: 3 / 1; text-align: left; }
  .days td:last-child { grid-column: 1 / -1; text-align: right; }
  .write, .laid { display: none; }
  .laid-here { display: block; }
}
.marks { columns: 3 13rem; column-gap: 1.4rem; list-style: none; padding: 0; font-variant-numeric: tabular-nums; }
.marks li { break-inside: avoid; border-bottom: 1px solid #bbb; }
.lines { height: 4.5rem; border-bottom: 1px solid #000; }
@media print {
  body { max-width: none; font-size: 9pt; }
  h1, h2 { font-size: 14pt; }
  h3, .part { font-size: 9.5pt; margin: 6pt 0 1pt; break-after: avoid; }
  .large { font-size: 11pt; }
  .wide table { min-width: 0; }
  .day { break-before: page; margin: 0; border: 0; padding: 0; }
  th, td { padding: 1pt 6pt 1pt 0; }
  .readings tbody > tr > * { height: 15pt; vertical-align: bottom; }
  .pair:has(.bring) { display: grid; grid-template-columns: minmax(0, 1fr) minmax(12rem, auto); gap: 0 14pt; }
  thead .figure { white-space: normal; vertical-align: bottom; }
  .lines { height: 26pt; break-inside: avoid; }
  .full { font-size: 8pt; line-height: 1.1; }
  .full h3 { font-size: 8pt; margin-top: 3pt; }
  .full .large { font-size: 9.5pt; }
  .full p { margin: 1pt 0; }
  .full :is(th, td) { padding: 0 5pt 0 0; }
  .full .readings tbody > tr > * { height: 12pt; }
  .full .lines { height: 12pt; }
  .full .rooms { width: 45%; }
}
"""
)

TEMPLATE = (
    plain_form.HEAD
    + """<body>
<main>
<h1>{{ heading }}</h1>
<p>{{ paper.envelope.catalogue.title | figure }}</p>
<dl>
{% if sheet.reference %}
<dt>{{ phrase("print-reference") }}</dt><dd>{{ sheet.reference }}</dd>
{% endif %}
<dt>{{ phrase("print-system") }}</dt><dd>{{ paper.system | figure }}</dd>
<dt>{{ phrase("sheet-clock") }}</dt><dd>{{ paper.zone }}</dd>
<dt>{{ phrase("print-catalogue-and-engine") }}</dt>
<dd>{{ paper.envelope.catalogue_revision[:12] }}, {{ paper.envelope.engine }}</dd>
</dl>
<div class="first">
<p>{{ phrase("print-slab", verdict=phrase("verdict-" ~ sheet.slab)) }}</p>
{% for text in said_first %}
<p>{{ text }}</p>
{% endfor %}
</div>
<h2 class="part">{{ phrase("sheet-days") }}</h2>
{% if sheet.days %}
<div class="wide" tabindex="0" role="group" aria-label="{{ label("sheet-days") }}"><table class="days" role="table">
<thead role="rowgroup"><tr role="row"><th role="columnheader" scope="col">{{ phrase("sheet-head-day") }}</th>
<th role="columnheader" scope="col" class="figure">{{ phrase("sheet-head-from") }}</th>
<th role="columnheader" scope="col" class="figure">{{ phrase("sheet-head-until") }}</th>
<th role="columnheader" scope="col">{{ phrase("sheet-head-work") }}</th>
<th role="columnheader" scope="col" class="figure">{{ phrase("sheet-head-people") }}</th>
<th role="columnheader" scope="col" class="figure">{{ phrase("sheet-head-person-hours") }}</th></tr></thead>
<tbody role="rowgroup">
{% for day in sheet.days %}
<tr role="row"><th role="rowheader" scope="row" class="key">{{ day.date | day }}</th>
<td role="cell" class="figure">{{ day.from_ | clock(day.date) }}</td>
<td role="cell" class="figure">{{ day.until | clock(day.date) }}</td>
<td role="cell">{{ names(day) }}</td>
<td role="cell" class="figure" data-label="{{ label("sheet-head-people") }}">{{ day.people }}</td>
<td role="cell" class="figure" data-label="{{ label("sheet-head-person-hours") }}">\
{{ day.person_hours | worked }}</td></tr>
{% endfor %}
</tbody>
</table></div>
{% else %}
<p>{{ phrase("sheet-no-days") }}</p>
{% endif %}
<h2 class="part">{{ phrase("print-beware") }}</h2>
{% for text in in_brief %}
<p>{{ text }}</p>
{% endfor %}
"""
    + plain_form.SAFETY
    + """{% for day in sheet.days %}
<section class="day {{ density(day) }}">
<h2>{{ phrase("sheet-day", day=day.date | dated, number=loop.index, of=loop.length) }}</h2>
<p>{{ whose }}, {{ system }}</p>
<p class="large">{{ phrase("sheet-crew", begins=day.from_ | clock(day.date), ends=day.until | clock(day.date),
people=day.people, paid=day.person_hours | worked) }}</p>

<h3>{{ phrase("sheet-work") }}</h3>
<div class="wide" tabindex="0" role="group" aria-label="{{ label("sheet-work") }}"><table>
<thead><tr><th class="write" scope="col">{{ phrase("sheet-head-done") }}</th>
<th scope="col" class="figure">{{ phrase("sheet-head-from") }}</th>
<th scope="col" class="figure">{{ phrase("sheet-head-until") }}</th>
<th scope="col">{{ phrase("sheet-head-work") }}</th><th scope="col">{{ phrase("sheet-head-rooms") }}</th>
<th scope="col" class="figure">{{ phrase("sheet-head-hands") }}</th></tr></thead>
<tbody>
{% for step in day.steps[:most.steps] %}
<tr><td class="write"><span class="box"></span></td><td class="figure">{{ step.from_ | clock(day.date) }}</td>
<td class="figure">{{ step.until | clock(day.date) }}</td><th scope="row">{{ step.name | figure }}</th>
<td class="rooms">{{ step.rooms | rooms }}</td><td class="figure">{{ step.hands or "–" }}</td></tr>
{% endfor %}
</tbody>
</table></div>
{{ left_out(day, "steps") }}

<div class="pair">
{% if day.bring %}
<div class="bring">
<h3>{{ phrase("sheet-bring") }}</h3>
<div class="wide" tabindex="0" role="group" aria-label="{{ label("sheet-bring") }}"><table>
<thead><tr><th class="write" scope="col">{{ phrase("sheet-head-done") }}</th>
<th scope="col" class="figure">{{ phrase("print-head-packs") }}</th>
<th scope="col">{{ phrase("print-head-sku") }}</th>
<th scope="col">{{ phrase("print-head-description") }}</th></tr></thead>
<tbody>
{% for one in day.bring[:most.bring] %}
<tr><td class="write"><span class="box"></span></td><td class="figure">{{ one.packs }}</td>
<th scope="row" class="key">{{ one.sku }}</th>
<td>{{ one.description | figure }}</td></tr>
{% endfor %}
</tbody>
</table></div>
{{ left_out(day, "bring") }}
</div>
{% endif %}
<div>
{% if day.condition %}
<h3>{{ phrase("sheet-condition") }}</h3>
<div class="wide" tabindex="0" role="group" aria-label="{{ label("sheet-condition") }}"><table>
<thead><tr><th class="write" scope="col">{{ phrase("sheet-head-done") }}</th>
<th scope="col" class="figure">{{ phrase("print-head-packs") }}</th>
<th scope="col">{{ phrase("print-head-sku") }}</th>
<th scope="col" class="figure">{{ phrase("sheet-head-in-by") }}</th>
<th scope="col" class="figure">{{ phrase("sheet-head-mixed-at") }}</th></tr></thead>
<tbody>
{% for one in day.condition[:most.condition] %}
<tr><td class="write"><span class="box"></span></td><td class="figure">{{ one.packs }}</td>
<th scope="row" class="key">{{ one.sku }}</th>
<td class="figure">{{ one.by | clock(day.date) }}</td><td class="figure">{{ one.temperature | figure }}</td></tr>
{% endfor %}
</tbody>
</table></div>
{{ left_out(day, "condition") }}
{% endif %}
<h3 class="write">{{ phrase("sheet-notes") }}</h3>
<div class="lines write"></div>
</div>
</div>

{% if day.pour %}
<h3>{{ phrase("print-pour") }}</h3>
<div class="wide" tabindex="0" role="group" aria-label="{{ label("print-pour") }}"><table>
<thead><tr><th scope="col">{{ phrase("print-head-room") }}</th>
<th class="laid" scope="col">{{ phrase("sheet-head-layer") }}</th>
<th scope="col" class="figure">{{ phrase("sheet-head-first-mix") }}</th>
<th scope="col" class="figure">{{ phrase("sheet-head-last-mix") }}</th>
<th scope="col" class="figure">{{ phrase("sheet-head-from") }}</th>
<th scope="col" class="figure">{{ phrase("sheet-head-until") }}</th>
<th scope="col" class="figure">{{ phrase("print-head-a-mix-every") }}</th></tr></thead>
<tbody>
{% for one in day.pour[:most.pour] %}
<tr><th scope="row">{{ one.room | figure }}<span class="laid-here">{{ layer(one.layer) }}</span></th>
<td class="laid">{{ layer(one.layer) }}</td>
<td class="figure">{{ one.first_mix }}</td><td class="figure">{{ one.last_mix }}</td>
<td class="figure">{{ one.from_ | clock(day.date) }}</td><td class="figure">{{ one.until | clock(day.date) }}</td>
<td class="figure">{{ one.cadence | figure }}</td></tr>
{% endfor %}
</tbody>
</table></div>
{{ left_out(day, "pour") }}
{% for one, marks in marks_of(day) %}
<p>{{ phrase("sheet-marks", room=one.room | figure) }}</p>
<ul class="marks">
{% for mark in marks %}
<li>{{ mark }}</li>
{% endfor %}
</ul>
{% endfor %}
{% endif %}

{% if day.targets %}
<h3>{{ phrase("sheet-targets") }}</h3>
<div class="wide" tabindex="0" role="group" aria-label="{{ label("sheet-targets") }}"><table>
<thead><tr><th scope="col">{{ phrase("sheet-head-layer") }}</th>
<th scope="col">{{ phrase("print-head-sku") }}</th>
<th scope="col" class="figure">{{ phrase("sheet-head-wet-film") }}</th>
<th scope="col" class="figure">{{ phrase("sheet-head-a-pack-covers") }}</th>
<th class="write" scope="col">{{ phrase("sheet-head-film-seen") }}</th>
<th class="write" scope="col">{{ phrase("sheet-head-cover-seen") }}</th></tr></thead>
<tbody>
{% for one in day.targets[:most.targets] %}
<tr><th scope="row">{{ layer(one.layer) }}</th><td class="key">{{ one.sku }}</td>
<td class="figure">{{ one.wet_film | figure }}</td><td class="figure">{{ one.area_per_pack | figure }}</td>
<td class="blank write"></td><td class="blank write"></td></tr>
{% endfor %}
</tbody>
</table></div>
{{ left_out(day, "targets") }}
{% endif %}

<h3>{{ phrase("sheet-readings") }}</h3>
{% if sheet.least_spread %}
<p>{{ phrase("sheet-least-spread", spread=sheet.least_spread | figure) }}</p>
{% endif %}
<div class="wide" tabindex="0" role="group" aria-label="{{ label("sheet-readings") }}"><table class="readings">
<thead><tr><th scope="col" class="figure">{{ phrase("sheet-head-at") }}</th>
<th scope="col" class="figure">{{ phrase("sheet-head-planned-floor") }}</th>
<th class="write" scope="col">{{ phrase("sheet-head-floor") }}</th>
<th class="write" scope="col">{{ phrase("sheet-head-air") }}</th>
<th class="write" scope="col">{{ phrase("sheet-head-humidity") }}</th>
<th class="write" scope="col">{{ phrase("sheet-head-dew-point") }}</th>
<th class="write" scope="col">{{ phrase("sheet-head-spread") }}</th>
<th class="write" scope="col">{{ phrase("sheet-head-read-by") }}</th></tr></thead>
<tbody>
{% for one in day.readings[:most.readings] %}
<tr><th scope="row" class="figure">{{ one.at | clock(day.date) }}</th>
<td class="figure">{{ one.planned_floor | figure }}</td>
{% for _ in range(6) %}<td class="blank write"></td>{% endfor %}</tr>
{% endfor %}
</tbody>
</table></div>
{{ left_out(day, "readings") }}
</section>
{% endfor %}
</main>
</body>
</html>
"""
)
