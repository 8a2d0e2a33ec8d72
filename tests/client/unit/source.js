// The sources of the page as TypeScript reads them.
import {readFileSync, readdirSync} from 'node:fs';
import {join} from 'node:path';
import {fileURLToPath} from 'node:url';
import ts from 'typescript';

export const CLIENT = fileURLToPath(new URL('../../../client/', import.meta.url));

/** A script as a tree. */
export function parsed(path, text) {
  return ts.createSourceFile(path, text, ts.ScriptTarget.ES2022, true);
}

/** Every script of the page, by its path in the client folder. */
export const scripts = readdirSync(CLIENT, {recursive: true})
  .filter((path) => path.endsWith('.js'))
  .map((path) => ({path, text: readFileSync(join(CLIENT, path), 'utf8')}))
  .map(({path, text}) => ({path, tree: parsed(path, text)}));

/** Every node of a tree. */
export function* nodesOf(tree) {
  yield tree;
  for (const child of tree.getChildren()) yield* nodesOf(child);
}

/** Where a node stands, as an editor says it. */
export function placeOf({path, tree}, node) {
  const {line} = tree.getLineAndCharacterOfPosition(node.getStart());
  return `${path}:${line + 1}`;
}
