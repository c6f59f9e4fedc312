/** Every number that stands at the top of a file of core says what it is: in a comment of its own, or in that of the group it begins. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { parseAst } from 'vite';
import { expect, test } from 'vitest';

/** 0, 1 and 2 count and halve; any other number was chosen by somebody. */
const speakForThemselves: readonly unknown[] = [0, 1, 2];
/** Values that are worked out, not written. */
const workedOut = /^(Arrow)?Function|^(Call|New)Expression$/;

interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [field: string]: unknown;
}
const isNode = (value: unknown): value is Node => typeof value === 'object' && value !== null && 'type' in value;
const childrenOf = (node: Node): Node[] => Object.values(node).flat().filter(isNode);

function holdsNumber(node: Node): boolean {
  if (node.type === 'Literal') return typeof node.value === 'number' && !speakForThemselves.includes(node.value);
  // What a thing is kept under is no value.
  if (node.type === 'Property') return isNode(node.value) && holdsNumber(node.value);
  return !workedOut.test(node.type) && childrenOf(node).some(holdsNumber);
}

/** @returns Where numbers stand without a word, as "name at line". */
function unsaidConstants(name: string, text: string): string[] {
  const statements = parseAst(text, { lang: 'ts' }).body as unknown as Node[];
  const lineOf = (position: number) => text.slice(0, position).split('\n').length;
  const lines = text.split('\n');
  let [isSaid, lastLine, lastEnd] = [false, -2, 0];
  return statements.flatMap((statement) => {
    const [first, last] = [lineOf(statement.start), lineOf(statement.end)];
    const whole = text.slice(lastEnd, statement.end) + (lines[last - 1] ?? '');
    const hasComment = /\/\*|\/\//.test(whole.replace(/'[^'\n]*'|`[^`]*`/g, ''));
    // Statements without a line between them are one group.
    isSaid = hasComment || (isSaid && first === lastLine + 1);
    [lastLine, lastEnd] = [last, text.indexOf('\n', statement.end)];
    const declared = isNode(statement.declaration) ? statement.declaration : statement;
    if (declared.type !== 'VariableDeclaration' || isSaid) return [];
    return childrenOf(declared)
      .filter((one) => isNode(one.init) && holdsNumber(one.init))
      .map((one) => `${isNode(one.id) ? String(one.id.name) : ''} at ${name}:${first}`);
  });
}

test.each([
  ['const stayH = 4;', ['stayH at a.ts:1']],
  ['/** How long [h]; our own choice. */\nconst stayH = 4;', []],
  ['/** Both [h]; our own choice. */\nconst stayH = 4;\nconst goH = 5;', []],
  ['/** This alone [h]. */\nconst stayH = 4;\n\nconst goH = 5;', ['goH at a.ts:4']],
  ['const stayH = 4; // hours', []],
  ['const stayH = 4; // hours\n\nconst goH = 5;', ['goH at a.ts:3']],
  ['const half = 1 / 2;', []],
  ['const named = { 5: half };', []],
  ['const table = { low: 3.5 };', ['table at a.ts:1']],
  ['const make = () => 7;', []],
])('%j: %j', (text, unsaid) => {
  expect(unsaidConstants('a.ts', text)).toEqual(unsaid);
});

test('core has no number that says nothing of itself', () => {
  const files = execFileSync('git', ['ls-files', 'core'], { encoding: 'utf8' }).split('\n');
  const unsaid = files
    .filter((name) => name.endsWith('.ts'))
    .flatMap((name) => unsaidConstants(name, readFileSync(name, 'utf8')));
  expect(unsaid).toEqual([]);
});
