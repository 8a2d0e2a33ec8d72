"""A cart in twenty lines: a job in, whole packs out, and all that is to be said beside them."""

PYTHON = """\
import requests

job = {"system": "level-clear", "rooms": [{"name": "Floor", "shape": {"measured": {"area": "1200 sq ft"}}}]}
response = requests.post("http://127.0.0.1:8080/v1/quotes", json=job, timeout=30)
answer = response.json()
if not response.ok:  # a problem: each error says what to write instead, and at which field
    for error in answer["errors"]:
        print(error["pointer"], error["detail"], error["hint"])
    raise SystemExit(1)
order = answer["quantities"]
for line in order["order_lines"]:  # whole packs; money is text, never a float
    print(line["packs"], "x", line["sku"], line["description"], line["amount"])
print("Total:", order["totals"]["gross"], order["totals"]["currency"])
for sku in order["totals"]["unpriced"]:  # no sum holds these: ask before this is sold
    print("First: the price of", sku)
for blocker in order["blockers"]:  # none where order["orderable"]: ask before this is sold
    print("First:", blocker["text"])
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
for (const line of order.order_lines) console.log(line.packs, "x", line.sku, line.description, line.amount);
console.log("Total:", order.totals.gross, order.totals.currency);
for (const sku of order.totals.unpriced) console.log("First: the price of", sku);
for (const blocker of order.blockers) console.log("First:", blocker.text);
for (const caution of quote.cautions) console.log("Beware:", caution.text);
console.log("The same quote again:", `/v1/quotes/${quote.token}`);
"""
