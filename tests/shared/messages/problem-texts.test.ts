/** Every sentence by which something is refused, made with sample parameters: none lacks a value, and each is a whole sentence. */
import { type MessageFormatElement, parse, TYPE } from '@formatjs/icu-messageformat-parser';
import { describe, expect, test } from 'vitest';
import { readTexts } from '../../../shared/messages/catalogues.ts';
import { plainReader } from '../../../shared/messages/format.ts';
import { type Message, verbatim } from '../../../shared/messages/message.ts';
import { plainSpaces, renderEnglish } from '../../../shared/messages/render.ts';

type Sample = Record<string, unknown>;

/** One for each choice that the text makes. */
function samplesOf(nodes: readonly MessageFormatElement[], so: Sample = {}): Sample[] {
  const choice = nodes.find((node) => (node.type === TYPE.select || node.type === TYPE.plural) && !(node.value in so));
  const plain: Sample = { ...so };
  for (const node of nodes)
    if (node.type === TYPE.argument && !(node.value in plain)) plain[node.value] = valueFor(node.value);
  if (choice === undefined || (choice.type !== TYPE.select && choice.type !== TYPE.plural)) return [plain];
  return Object.entries(choice.options).flatMap(([key, { value: inner }]) => {
    const chosen = choice.type === TYPE.plural ? (key === 'one' ? 1 : 5) : key;
    return samplesOf([...nodes.filter((node) => node !== choice), ...inner], { ...plain, [choice.value]: chosen });
  });
}

const valueFor = (name: string): unknown => {
  if (name.endsWith('Part')) return verbatim('a part');
  return /(Name|Text)$/.test(name) ? 'sample' : 7;
};

const isRefusal = (code: string) => /^(problem|field|import|password|label)\./.test(code);
/** Clauses, amounts and headings, which stand in others. */
const isPart = (code: string) => /^(problem\.(title|wait|in-field)|field\.amount|import\.column)\b/.test(code);

const enTexts = readTexts('en');

describe.each(Object.keys(enTexts).filter(isRefusal))('%s', (code) => {
  const samples = samplesOf(parse(enTexts[code] ?? '', { ignoreTag: true }));
  test.each(samples)('with %o', (params) => {
    const said = plainSpaces(renderEnglish({ code, params } as Message, plainReader(0)));
    expect(said).not.toBe(code);
    expect(said).not.toMatch(/undefined|\[object|NaN|\{(?!\d\})| {2}/);
    if (isPart(code)) expect(said).not.toBe('');
    else expect(said).toMatch(/^["A-Z].*[.!?]$/s);
  });
});
