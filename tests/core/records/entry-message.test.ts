import { expect, test } from 'vitest';
import { entryMessage } from '../../../core/records/entry-message.ts';
import { entryFactsSchema } from '../../../shared/entry.ts';
import { plainReader } from '../../../shared/messages/format.ts';
import { plainEnglish, plainSpaces, renderEnglish } from '../../../shared/messages/render.ts';

test.each([
  [{ kind: 'turned' }, 'Turned'],
  [{ kind: 'watered' }, 'Watered'],
  [{ kind: 'watered', amountL: 12.5 }, 'Watered, 12.5 L'],
  [{ kind: 'spread', depthM: 0.25 }, 'Spread thinner, to 25 cm'],
  [{ kind: 'heaped' }, 'Heaped up'],
  [{ kind: 'squeeze', feel: 'drips' }, 'Squeezed: holds together, two or three drops'],
  [{ kind: 'squeeze', feel: 'holds', place: 'all-through' }, 'Squeezed all through: holds together, no drop'],
  [{ kind: 'smell', smells: ['sweet', 'earthy', 'sour'] }, 'Smells sweet, earthy and sour'],
  [{ kind: 'growth', colour: 'other', otherColour: 'orange', place: 'skin' }, 'Growth, orange, on the skin'],
  [{ kind: 'growth', colour: 'other' }, 'Growth, another colour'],
  // Cornell Waste Management Institute: 10 g drying to 2.3 g is 77 %.
  [{ kind: 'sample', wetG: 10, dryG: 2.3 }, 'Weighed sample, 10 g wet, 2.3 g dry: moisture 77 %, wet basis'],
  [{ kind: 'readiness', smell: 'good', look: 'good', ready: true }, 'Found ready, smell good, look good'],
  [{ kind: 'verdict', batchId: 'b', verdict: 'lost', why: 'pests' }, 'Judged lost: pests got into it'],
  [{ kind: 'verdict', batchId: 'b', verdict: 'good' }, 'Judged good'],
] as const)('entryMessage() of %j', (what, says) =>
  expect(plainEnglish(entryMessage(entryFactsSchema.parse(what)))).toBe(says),
);

test('entryMessage() is read in inches: half an inch of rain is 12.7 mm', () => {
  const reader = plainReader(0, { temperature: 'F', mass: 'lb', volume: 'gal', length: 'ft' });
  expect(plainSpaces(renderEnglish(entryMessage({ kind: 'rained', rainMm: 12.7 }), reader))).toBe('Rain, 0.5 in');
});
