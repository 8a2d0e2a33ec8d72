// A shop in TypeScript, on types made from the description: compiled strictly, then run against the service.
import createClient from "openapi-fetch";
import type { components, paths } from "./description.js";
import job from "./job.json" with { type: "json" };

declare const process: { argv: string[]; stdout: { write(text: string): void } };

type Quote = components["schemas"]["QuoteAnswer"];
type Problem = components["schemas"]["Problem"];

const client = createClient<paths>({ baseUrl: process.argv[2] ?? "" });
const asked = job as unknown as components["schemas"]["Job"];
const least: components["schemas"]["Job"] = {
  system: "level-clear",
  rooms: [{ name: "Floor", shape: { measured: { area: "1200 sq ft" } } }],
};

async function quoted(body: components["schemas"]["Job"]): Promise<Quote | Problem> {
  const { data, error } = await client.POST("/v1/quotes", { body });
  return (data ?? error) as Quote | Problem; // a quote is a text too, where HTML or CSV is accepted
}

const quote = await quoted(asked);
const refused = await quoted({ ...asked, system: "levle-clear" });
if (!("fingerprint" in quote) || !("errors" in refused)) throw new Error(JSON.stringify([quote, refused]));
const inPart = await client.POST("/v1/quotes", { params: { query: { parts: ["order"] } }, body: least });
const { order } = inPart.data as Quote;
const opened = await client.GET("/v1/quotes/{token}", { params: { path: { token: quote.token ?? "" } } });
const again = opened.data as Quote;

process.stdout.write(
  JSON.stringify({
    gross: quote.quantities?.totals.gross,
    least: order?.totals.gross,
    cautions: quote.cautions.map((caution) => caution.code),
    pointers: refused.errors.map((error) => error.pointer),
    again: again.fingerprint,
  }),
);
