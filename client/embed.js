// A quote form for other origins, as README.md shows. Attributes: key, units (us or si), service (else where the script
// is from). Each quote is an event "quote"; its detail is the answer of POST /v1/quotes.
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
td { text-align: start; padding: .3rem .5rem .3rem 0; border-bottom: 1px solid; vertical-align: top; }
td:first-child { text-align: end; white-space: nowrap; font-variant-numeric: tabular-nums; }
.sum, h2 { font-size: 1.25em; font-weight: 600; }
summary { padding: .7rem 0; }`;

  const make = (name, attributes = {}, ...inside) => {
    const element = Object.assign(document.createElement(name), attributes);
    element.append(...inside);
    return element;
  };
  const paragraph = (text, attributes) => text && make('p', attributes, text);

  // the service writes these
  const PHRASES = /* words embed- */ {};
  const TRAFFIC = /* words open-to- */ {};
  const DANGERS = /* words client-danger- */ {};
  const phrase = (code, gaps = {}) => PHRASES[`embed-${code}`].replace(/\{(\w+)\}/g, (_, name) => gaps[name]);

  class GaugerakeQuote extends HTMLElement {
    connectedCallback() {
      if (this.shadowRoot) return;
      this.lang = phrase('language');
      this.system = make('select', {required: true});
      this.area = make('input', {required: true, autocomplete: 'off', maxLength: 32});
      this.answer = make('div', {role: 'status'});
      this.form = make(
        'form',
        {noValidate: true},
        make('label', {}, phrase('floor-system'), this.system),
        make('label', {}, phrase(this.si ? 'area-si' : 'area-us'), this.area),
        make('button', {disabled: true}, phrase('quote-this-floor')),
      );
      this.form.onsubmit = (event) => this.quote(event);
      this.attachShadow({mode: 'open'}).append(make('style', {textContent: STYLE}), this.form, this.answer);
      this.list();
    }

    get si() {
      return this.getAttribute('units') === 'si';
    }
    get service() {
      return this.getAttribute('service') || home;
    }

    async ask(path, job) {
      const mine = (this.last = {});
      try {
        const response = await this.send(new URL(path, this.service), job);
        const body = await response.json();
        if (this.last !== mine) return null;
        if (response.ok) return body;
        this.refused(response, body);
      } catch {
        if (this.last === mine)
          this.trouble(phrase('not-reached'), phrase('tell-origin', {service: this.service, origin: location.origin}));
      }
      return null;
    }

    send(address, job) {
      // so a link is in its reader's language
      const headers = {'accept-language': phrase('language'), ...(job && {'content-type': 'application/json'})};
      if (this.getAttribute('key')) headers.authorization = `Bearer ${this.getAttribute('key')}`;
      address.searchParams.set('units', this.si ? 'si' : 'us');
      return fetch(address, {method: job ? 'POST' : 'GET', headers, body: JSON.stringify(job), credentials: 'omit'});
    }

    refused({status, headers}, {title, detail, errors = []}) {
      if (status === 401 || status === 403) return this.trouble(phrase('closed'), detail);
      const seconds = (this.wait = Number(headers.get('retry-after')));
      this.say(seconds ? phrase('try-later', {title, seconds}) : detail);
      errors.forEach((error) => this.mark(error));
    }

    // what to do is for the page's keeper
    trouble(text, todo) {
      this.say(text);
      console.error(todo);
    }

    async list() {
      const known = await this.ask('v1/systems');
      this.form.lastChild.disabled = !known;
      if (known) {
        this.system.replaceChildren(...known.systems.map((one) => make('option', {value: one.code}, one.name)));
        this.say('');
      } else if (this.wait) setTimeout(() => this.list(), this.wait * 1000);
    }

    async quote(event) {
      event.preventDefault();
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
      this.answer.replaceChildren(paragraph(text));
    }

    mark({pointer, detail, hint}) {
      const field = {system: this.system, rooms: this.area}[pointer?.split('/')[1]];
      if (!field) return;
      field.setAttribute('aria-invalid', 'true');
      field.after(make('span', {className: 'fault'}, `${detail} ${hint ?? ''}`));
      field.focus();
    }

    show({quantities, readiness, return_times: {returns}, cautions, token, catalogue}) {
      const invented = catalogue.invented && make('strong', {}, phrase('invented', {title: catalogue.title}));
      const link = token && make('a', {href: `${this.service}#quote=${token}`}, phrase('whole-quote'));
      this.answer.replaceChildren(
        ...[
          paragraph(invented),
          paragraph(sum(quantities), {className: 'sum'}),
          paragraph(readiness.summary),
          ...quantities.blockers.map(({text}) => paragraph(text)),
          load(quantities.order_lines),
          ...returns.slice(-1).map(longestWait),
          ...care(cautions),
          paragraph(link),
        ].filter(Boolean),
      );
    }
  }

  const sum = ({totals: {gross, currency, unpriced}, order_lines}) => {
    if (unpriced.length && unpriced.length === order_lines.length) return phrase('price-on-request');
    const amount = Number(gross).toLocaleString(phrase('locale'), {style: 'currency', currency});
    return unpriced.length ? phrase('sum-unpriced', {amount}) : amount;
  };

  const care = (cautions) => {
    // what harms people stays in sight
    const isSeen = ({code, everyday}) => !everyday || code === 'data-sheet-rules' || `client-danger-${code}` in DANGERS;
    const rest = cautions.filter((one) => !isSeen(one));
    const list = (some) => make('ul', {}, ...some.map(({text}) => make('li', {}, text)));
    const more = make('summary', {}, phrase('more-care', {count: rest.length}));
    return [
      make('h2', {}, phrase('take-care')),
      list(cautions.filter(isSeen)),
      rest.length && make('details', {}, more, list(rest)),
    ];
  };

  const load = (lines) => {
    const row = (line) =>
      make('tr', {}, make('td', {}, `${line.packs} ×`), make('td', {}, `${line.description} (${line.sku})`));
    return make('table', {}, make('caption', {}, phrase('to-load')), make('tbody', {}, ...lines.map(row)));
  };

  const longestWait = ({traffic: code, after}) => {
    const traffic = TRAFFIC[`open-to-${code}`] ?? code;
    return paragraph(phrase(after ? 'longest-wait' : 'no-wait', {traffic, hours: Math.ceil(after?.value)}));
  };

  customElements.define('gaugerake-quote', GaugerakeQuote);
}
