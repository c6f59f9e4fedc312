/** What a squeezed handful of practice means to the judge, who takes a real one the same way. */
import type { Feel } from './practice-judge.ts';

const says: readonly (readonly [sentence: RegExp, feel: Feel])[] = [
  [/runs out/, 'pours'],
  [/No drop/, 'holds'],
  [/drops come/, 'drips'],
  [/crumbles/, 'crumbles'],
];

export function feelOf(told: string | undefined): Feel | undefined {
  return says.find(([sentence]) => told !== undefined && sentence.test(told))?.[1];
}
