"""A cart in twenty lines: a job in, whole packs out, and all that is to be said beside them.

Both programs print the same, money as people write it: TypeScript's own ``toLocaleString`` has the signs of currencies,
Python's ``locale`` only where the system has the language installed, so the program there writes the sign itself.
"""

PYTHON = """\
from decimal import Decimal

import requests

job = {"system": "level-clear", "rooms": [{"name": "Floor", "shape": {"measured": {"area": "1200 sq ft"}}}]}
response = requests.post("http://127.0.0.1:8080/v1/quotes", json=job, timeout=30)
answer = response.json()
if not response.ok:  # a problem: each error says what to write instead, and at which field
    raise SystemExit(" ".join(f"{error['pointer']} {error['detail']} {error['hint']}" for error in answer["errors"]))
order = answer["quantities"]
sign = {"USD": "$"}.get(order["totals"]["currency"], order["totals"]["currency"] + " ")
for line in order["order_lines"]:  # whole packs; money is text, never a float
    price = "no price" if line["amount"] is None else f"{sign}{Decimal(line['amount']):,}"
    print(line["packs"], "x", line["sku"], line["description"], price)
print("Total:", f"{sign}{Decimal(order['totals']['gross']):,}")
for first in [f"the price of {sku}" for sku in order["totals"]["unpriced"]] + [it["text"] for it in order["blockers"]]:
    print("First:", first)  # no sum holds an unpriced sku, and an order that may be placed has no blocker
for caution in answer["cautions"]:  # beside the cart: people can get hurt
    print("Beware:", caution["text"])
print("The same quote again:", f"/v1/quotes/{answer['token']}")
"""
TYPESCRIPT = """\
import createClient from "openapi-fetch";
import type { components, paths } from "./description.js"; // made by openapi-typescript from /openapi.json

type Json = "application/json" | "application/problem+json"; // else an answer's type is a string too: HTML, CSV, XML
const service = createClient<paths, Json>({ baseUrl: "http://127.0.0.1:8080" });
const rooms = [{ name: "Floor", shape: { measured: { area: "1200 sq ft" } } }];
const body: components["schemas"]["Job"] = { system: "level-clear", rooms };
const { data: quote, error: problem } = await service.POST("/v1/quotes", { body });
if (!quote) {
  throw new Error(problem.errors.map((error) => `${error.pointer} ${error.detail} ${error.hint}`).join(" "));
}
const order = quote.quantities!; // there unless `parts` left it out
const style = { style: "currency", currency: order.totals.currency } as const;
const money = (amount: string | null) => (amount ? Number(amount).toLocaleString("en-US", style) : "no price");
for (const line of order.order_lines) console.log(line.packs, "x", line.sku, line.description, money(line.amount));
console.log("Total:", money(order.totals.gross));
for (const sku of order.totals.unpriced) console.log("First: the price of", sku);
for (const blocker of order.blockers) console.log("First:", blocker.text);
for (const caution of quote.cautions) console.log("Beware:", caution.text);
console.log("The same quote again:", `/v1/quotes/${quote.token}`);
"""
