// House rules of the page's scripts that no formatter and no type check asks for.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {test} from 'node:test';
import ts from 'typescript';
import {CLIENT, nodesOf, parsed, placeOf, scripts} from './source.js';

const MOST_LINES = 20;
const modules = scripts.filter(({path}) => path.startsWith('js/'));

/** What a rule finds in all scripts, by its place. */
const found = (sources, isWrong) =>
  sources.flatMap((source) =>
    [...nodesOf(source.tree)].filter((node) => isWrong(node, source)).map((node) => placeOf(source, node)),
  );

test('there are scripts to look at', () => {
  assert.ok(modules.length > 25);
});

test('a function is short', () => {
  const lines = (node, {tree}) =>
    tree.getLineAndCharacterOfPosition(node.getEnd()).line -
    tree.getLineAndCharacterOfPosition(node.getStart()).line +
    1;
  const isLong = (node, source) => ts.isFunctionLike(node) && lines(node, source) > MOST_LINES;
  assert.deepEqual(found(scripts, isLong), []);
});

test('no ternary stands in another', () => {
  const isNested = (node) => {
    if (!ts.isConditionalExpression(node)) return false;
    const inner = (part) =>
      ts.isConditionalExpression(part) || (ts.isParenthesizedExpression(part) && inner(part.expression));
    return [node.condition, node.whenTrue, node.whenFalse].some(inner);
  };
  assert.deepEqual(found(scripts, isNested), []);
});

test('what a module exports is described', () => {
  const isBare = (node) => {
    const isExported =
      ts.canHaveModifiers(node) && ts.getModifiers(node)?.some(({kind}) => kind === ts.SyntaxKind.ExportKeyword);
    return Boolean(isExported) && !ts.getJSDocCommentsAndTags(node).length;
  };
  assert.deepEqual(found(modules, isBare), []);
});

test('a view takes from the shared modules, and they from no view', () => {
  const shared = modules.filter(({path}) => path.startsWith('js/shared/'));
  const isOfAView = (node) => ts.isStringLiteral(node) && /\.\.\/(quote|slab)\/|^(quote|slab)\//.test(node.text);
  assert.ok(shared.length > 8);
  assert.deepEqual(found(shared, isOfAView), []);
});

// what is no English of ours: a header's scheme, a browser's own name, a style sheet, a selector, a unit that is sent
const NOT_READ = /^(Bearer |AbortError|\s*:host |\[data-row\], |sq ft$)/;
const SELECTED_BY = /^(find|findAll|nearest|matches|closest|querySelector|querySelectorAll|later|ownParts|wipe)$/;
const sheets = ['style.css', 'late.css', 'views.css'].map((name) => readFileSync(`${CLIENT}${name}`, 'utf8')).join('');
const classes = new Set(sheets.match(/(?<=\.)[a-z][\w-]*/g));

/** Whether a text is to be read by people: words apart, or a word that begins a sentence. */
function isEnglish(text) {
  if (
    NOT_READ.test(text) ||
    text
      .trim()
      .split(/\s+/)
      .every((word) => classes.has(word))
  )
    return false;
  return /[A-Za-z]{2,},? [A-Za-z]{2,}/.test(text) || /^\s*[A-Z][a-z]{2,}/.test(text);
}

/** Whether a text is a selector, a path or an attribute that nobody reads. */
function isForTheMachine(node) {
  const {parent} = node;
  if (ts.isCallExpression(parent)) return SELECTED_BY.test(parent.expression.name?.text ?? parent.expression.text);
  return ts.isPropertyAssignment(parent) && /^(class|d|viewBox|transform)$/.test(parent.name.text);
}

/** Whether a text is a child of an element, which people see whatever it says. */
function isChildOfElement(node) {
  const {parent} = node;
  const isBuilder = ts.isCallExpression(parent) && /^(el|svg)$/.test(parent.expression.text ?? '');
  return isBuilder && parent.arguments.indexOf(node) > 1 && /[A-Za-z]{2}/.test(node.text);
}

test('no word that a person reads stands in a script', () => {
  const isText = (node) =>
    ts.isStringLiteralLike(node) || ts.isTemplateHead(node) || ts.isTemplateMiddleOrTemplateTail(node);
  const isLeftIn = (node) => isText(node) && !isForTheMachine(node) && (isEnglish(node.text) || isChildOfElement(node));
  assert.deepEqual(found(scripts, isLeftIn), []);
});

test('English is told from code', () => {
  for (const text of ['Try again', 'Print', ' or so many', 'The server']) assert.ok(isEnglish(text), text);
  for (const text of ['cards captioned', 'v1/systems?units=', 'M0 0H28', 'small-length', ''])
    assert.ok(!isEnglish(text), text);
});

/** The tokens of a script, comments and blanks apart. */
function tokensOf(node) {
  if (ts.isJSDoc(node)) return [];
  return node.getChildCount() ? node.getChildren().flatMap(tokensOf) : [node.getText()].filter(Boolean);
}

test('a script means the same as it is sent, without its comments', () => {
  const sent = JSON.parse(readFileSync(process.env.SENT, 'utf8'));
  assert.deepEqual(Object.keys(sent).sort(), modules.map(({path}) => path).sort());
  for (const {path, tree} of modules) {
    const written = tokensOf(tree);
    assert.ok(written.length > 40, path);
    assert.deepEqual(tokensOf(parsed(path, sent[path])), written, path);
  }
});
