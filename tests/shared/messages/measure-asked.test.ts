import { expect, test } from 'vitest';
import warnings from '../../../shared/messages/en/warnings.json' with { type: 'json' };
import { asksToMeasure, isMeasureAsked } from '../../../shared/messages/measure-asked.ts';
import { message, paragraph, verbatim } from '../../../shared/messages/message.ts';

test('a warning that asks for a long-stem thermometer is known by its code, whichever it is', () => {
  const asking = Object.entries(warnings).filter(([, text]) => /measure[^.]*long-stem thermometer/i.test(text));
  expect(asking.map(([code]) => code).sort()).toEqual([...asksToMeasure].sort());
});

test('isMeasureAsked() looks into paragraphs and parts, and reads nothing into a text of a person', () => {
  expect(isMeasureAsked(paragraph(message('plain.nothing-to-do'), message('warnings.core.by-hand')))).toBe(true);
  expect(isMeasureAsked(message('plain.nothing-to-do'))).toBe(false);
  expect(isMeasureAsked(verbatim('Measure it with a long-stem thermometer.'))).toBe(false);
});
