// A client of openapi-generator for TypeScript's fetch: jobs of its types, and what it reads of the answers.
import { Configuration, JobFromJSON, type Job, ProblemFromJSON, QuotesApi, ResponseError } from "./floors/index";

declare const process: { argv: string[]; stdout: { write(text: string): void } };
declare const require: (name: string) => { readFileSync(file: string, encoding: string): string };

const [url, file] = process.argv.slice(2) as [string, string];
const document = JSON.parse(require("node:fs").readFileSync(file, "utf-8"));
const quotes = new QuotesApi(new Configuration({ basePath: url }));
const least: Job = { system: "level-clear", rooms: [{ name: "Floor", shape: { measured: { area: "1200 sq ft" } } }] };

async function used(): Promise<void> {
  const answers = [await quotes.makeQuote({ job: least }), await quotes.makeQuote({ job: JobFromJSON(document) })];
  const plain = await fetch(`${url}/v1/quotes`, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify(document),
  });
  const told = (await plain.json()) as { readiness: { checks: { measured: unknown }[] } };
  const measured = answers[1]?.readiness?.checks.map((check) => check.measured);
  if (JSON.stringify(measured) !== JSON.stringify(told.readiness.checks.map((check) => check.measured)))
    throw new Error(`what was measured is lost: ${JSON.stringify(measured)}`);
  const asked = await quotes.makeQuote({ job: least, parts: ["order", "readiness"] as never });
  if (asked.order?.totals.gross !== answers[0]?.quantities?.totals.gross) throw new Error("the order is another");
  const refused = await quotes.makeQuote({ job: { ...least, system: "levle-clear" } }).catch((error) => error);
  if (!(refused instanceof ResponseError)) throw new Error("nothing was refused");
  const problem = ProblemFromJSON(await refused.response.json());
  process.stdout.write(
    JSON.stringify({
      gross: answers.map((answer) => answer.quantities?.totals.gross),
      pointers: problem.errors.map((error) => error.pointer),
    }),
  );
}

void used();
