import { expect, test } from 'vitest';
import { badSmells, foundMessage, growthMessage } from '../../../core/by-hand/note-message.ts';
import type { NotedFacts } from '../../../core/profiles/noted.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';

test.each<[NotedFacts, string]>([
  [{ kind: 'squeeze', feel: 'crumbles' }, 'A squeezed handful crumbled when the hand opened.'],
  [
    { kind: 'squeeze', feel: 'holds', place: 'core' },
    'A squeezed handful from the core held together and gave no drop.',
  ],
  [
    { kind: 'squeeze', feel: 'drips', place: 'edge' },
    'A squeezed handful from the edge held together and gave two or three drops.',
  ],
  [
    { kind: 'squeeze', feel: 'pours', place: 'all-through' },
    'Water ran out of a squeezed handful from all through it.',
  ],
  [{ kind: 'sample', wetG: 100, dryG: 42 }, 'A weighed sample holds 58 % water.'],
  [{ kind: 'sample', wetG: 100 }, 'A weighed sample holds an unknown share of water.'],
  [{ kind: 'smell', smells: ['ammonia'] }, 'It smelt of ammonia.'],
  [{ kind: 'smell', smells: ['ammonia', 'earthy', 'rotten'] }, 'It smelt rotten and of ammonia.'],
  [{ kind: 'smell', smells: ['rotten', 'ammonia', 'sour'] }, 'It smelt rotten, sour and of ammonia.'],
  [{ kind: 'smell', smells: ['musty'] }, 'It smelt bad.'],
  [{ kind: 'growth', colour: 'black' }, 'Black growth.'],
  [
    { kind: 'growth', colour: 'green', place: 'all-through', amount: 'many' },
    'Green growth all through it, many patches.',
  ],
  [{ kind: 'growth', colour: 'other', otherColour: 'éclat orange', place: 'skin' }, 'Éclat orange growth on its skin.'],
  [{ kind: 'growth', colour: 'other', amount: 'few' }, 'Coloured growth, a few patches.'],
  [{ kind: 'readiness', smell: 'bad', look: 'doubtful', ready: false }, 'Its smell was judged bad, its look doubtful.'],
])('foundMessage() of %j says %s', (what, says) => {
  expect(plainEnglish(foundMessage(what))).toBe(says);
});

test('badSmells() says ammonia last, whatever was noted first, as a sentence needs it', () => {
  expect(badSmells(['ammonia', 'sour']).map((one) => plainEnglish(one))).toEqual(['sour', 'of ammonia']);
});

test('growthMessage() is a clause, for a sentence to go on from', () => {
  expect(plainEnglish(growthMessage({ colour: 'black', place: 'edge', amount: 'some' }))).toBe(
    'Black growth at its edge, some patches',
  );
});
