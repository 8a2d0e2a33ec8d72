// A small quote form for a page on another origin. The whole of it, to copy:
//
//   <script src="https://floors.example/embed.js" defer></script>
//   <gaugerake-quote key="gr_…"></gaugerake-quote>
//
// The key is one that was made for the page's origin; a service without keys names the origin in GAUGERAKE_ORIGINS.
// Attributes: key, units ("us" or "si"), service (where the script came from, unless said).
// Its language is the visitor's, English or Spanish; embed.js?lang=es makes it Spanish for everybody.
// Each quote is told to the page as an event named "quote", whose detail is the answer of POST /v1/quotes.
{
  const home = new URL('.', document.currentScript.src).href;

  const STYLE = `
    :host { display: block; max-width: 34rem; font: inherit; line-height: 1.4; }
    form { display: grid; gap: .75rem; border-top: 3px double; padding-top: .75rem; }
    label { display: grid; gap: .2rem; font-weight: 600; }
    input, select, button { font: inherit; padding: .45rem .5rem; min-height: 2.75rem; border: 1px solid; border-radius: 0;
      background: Field; color: FieldText; font-weight: 400; box-sizing: border-box; width: 100%; }
    button { background: CanvasText; color: Canvas; cursor: pointer; }
    :focus-visible { outline: 3px solid; outline-offset: 2px; }
    [aria-invalid=true] { border-width: 3px; }
    .fault { font-weight: 400; }
    .fault::before { content: "\\2192 "; }
    table { border-collapse: collapse; width: 100%; }
    caption { text-align: start; font-weight: 600; padding: .5rem 0; }
    th, td { text-align: start; padding: .3rem .5rem .3rem 0; border-bottom: 1px solid; vertical-align: top; }
    td:first-child { text-align: end; white-space: nowrap; font-variant-numeric: tabular-nums; }
    .sum { font-size: 1.25em; font-weight: 600; }`;

  const make = (name, attributes = {}, ...inside) => {
    const element = Object.assign(document.createElement(name), attributes);
    element.append(...inside);
    return element;
  };

  // the service writes its words in here, and what it calls the usual traffic
  const PHRASES = /* words embed- */ {};
  const TRAFFIC = /* words open-to- */ {};
  const phrase = (code, gaps = {}) => PHRASES[`embed-${code}`].replace(/\{(\w+)\}/g, (whole, name) => gaps[name]);

  // the parts of the job that this form asks for, by the pointers of a problem
  const FIELDS = {'/system': 'system', '/rooms': 'area'};

  class GaugerakeQuote extends HTMLElement {
    connectedCallback() {
      if (this.shadowRoot) return;
      this.lang = phrase('language');
      this.system = make('select', {id: 'system', required: true});
      this.area = make('input', {id: 'area', required: true, autocomplete: 'off', maxLength: 32});
      this.answer = make('div', {role: 'status'});
      this.form = this.makeForm();
      this.form.addEventListener('submit', (event) => {
        event.preventDefault();
        this.quote();
      });
      this.attachShadow({mode: 'open'}).append(make('style', {textContent: STYLE}), this.form, this.answer);
      this.list();
    }

    makeForm() {
      const area = phrase(this.si ? 'area-si' : 'area-us');
      return make(
        'form',
        {noValidate: true},
        make('label', {htmlFor: 'system'}, phrase('floor-system'), this.system),
        make('label', {htmlFor: 'area'}, area, this.area),
        make('button', {type: 'submit', disabled: true}, phrase('quote-this-floor')),
      );
    }

    get si() {
      return this.getAttribute('units') === 'si';
    }
    get service() {
      return this.getAttribute('service') || home;
    }

    async ask(path, job) {
      try {
        const response = await this.send(path, job);
        const body = await response.json();
        if (response.ok) return body;
        this.refused(response, body);
      } catch {
        this.say(phrase('not-reached'));
      }
      return null;
    }

    send(path, job) {
      // as a header, so that each reads a link to the quote in their own language
      const headers = {'accept-language': phrase('language'), ...(job && {'content-type': 'application/json'})};
      if (this.getAttribute('key')) headers.authorization = `Bearer ${this.getAttribute('key')}`;
      const address = new URL(path, this.service);
      address.searchParams.set('units', this.si ? 'si' : 'us');
      const body = job && JSON.stringify(job);
      return fetch(address, {method: job ? 'POST' : 'GET', headers, body, credentials: 'omit'});
    }

    refused(response, body) {
      this.wait = Number(response.headers.get('retry-after'));
      this.say(this.wait ? phrase('try-later', {title: body.title, seconds: this.wait}) : body.detail);
      (body.errors || []).forEach((error) => this.mark(error));
    }

    async list() {
      const known = await this.ask('v1/systems');
      this.form.lastChild.disabled = !known;
      if (known) {
        this.system.replaceChildren(...known.systems.map((one) => make('option', {value: one.code}, one.name)));
        this.say('');
      } else if (this.wait) setTimeout(() => this.list(), this.wait * 1000);
    }

    async quote() {
      this.shadowRoot.querySelectorAll('.fault').forEach((fault) => fault.remove());
      for (const field of [this.system, this.area]) field.removeAttribute('aria-invalid');
      const typed = this.area.value.trim();
      const area = /^[\d.,\s]+$/.test(typed) ? `${typed} ${this.si ? 'm2' : 'ft2'}` : typed;
      this.say(phrase('working-it-out'));
      const body = await this.ask('v1/quotes', {system: this.system.value, rooms: [{shape: {measured: {area}}}]});
      if (!body) return;
      this.show(body);
      this.dispatchEvent(new CustomEvent('quote', {detail: body, bubbles: true, composed: true}));
    }

    say(text) {
      this.answer.replaceChildren(text && make('p', {}, text));
    }

    mark({pointer, detail, hint}) {
      const start = Object.keys(FIELDS).find((one) => pointer?.startsWith(one));
      const field = this[FIELDS[start]];
      if (!field) return;
      field.setAttribute('aria-invalid', 'true');
      field.after(make('span', {className: 'fault'}, `${detail} ${hint ?? ''}`));
      field.focus();
    }

    show({quantities, readiness, return_times: times, cautions, token, catalogue}) {
      const wait = longestWait(times.returns.at(-1));
      const invented = catalogue.invented && make('strong', {}, phrase('invented', {title: catalogue.title}));
      const link = token && make('a', {href: `${this.service}#quote=${token}`}, phrase('whole-quote'));
      this.answer.replaceChildren(
        ...[
          invented && make('p', {}, invented),
          make('p', {className: 'sum'}, sum(quantities)),
          make('p', {}, readiness.summary),
          ...quantities.blockers.map(({text}) => make('p', {}, text)),
          load(quantities.order_lines),
          wait && make('p', {}, wait),
          make('ul', {}, ...cautions.map(({text}) => make('li', {}, text))),
          link && make('p', {}, link),
        ].filter(Boolean),
      );
    }
  }

  const sum = ({totals, order_lines: lines}) => {
    const unpriced = lines.filter(({amount}) => amount === null).length;
    if (unpriced && unpriced === lines.length) return phrase('price-on-request');
    return phrase(unpriced ? 'sum-unpriced' : 'sum', {amount: totals.gross, currency: totals.currency});
  };

  const load = (lines) => {
    const row = (line) =>
      make('tr', {}, make('td', {}, `${line.packs} ×`), make('td', {}, `${line.description} (${line.sku})`));
    return make('table', {}, make('caption', {}, phrase('to-load')), make('tbody', {}, ...lines.map(row)));
  };

  const longestWait = (last) => {
    if (!last) return '';
    const {after} = last;
    const traffic = TRAFFIC[`open-to-${last.traffic}`] ?? last.traffic;
    return after ? phrase('longest-wait', {traffic, hours: Math.ceil(after.value)}) : phrase('no-wait', {traffic});
  };

  customElements.define('gaugerake-quote', GaugerakeQuote);
}
