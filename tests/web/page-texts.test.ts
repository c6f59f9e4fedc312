import { expect, test } from 'vitest';
import { metric, type Reader } from '../../shared/messages/format.ts';
import type { Message } from '../../shared/messages/message.ts';
import { renderWhy } from '../../web/src/features/pile/why-render.ts';
import { renderPile } from '../../web/src/ui/format/render-pile.ts';
import { findingGallery, heatedTo } from '../helpers/finding-gallery.ts';

const reader: Reader = { language: 'en', timeZone: 'UTC', nowMs: 0, units: metric };
const findings = [...findingGallery(), ...(heatedTo(0).last?.findings ?? [])];
/** A message whose text the page has not is shown as its code. */
const isCode = (said: string) => /\b[a-z-]+\.[a-z-]+(\.[a-z0-9-]+)*\b/.test(said);

test('the list of warnings has the text of whatever a rule finds', () => {
  const said = findings
    .flatMap(({ seen, todo, caution }): (Message | null)[] => [seen, todo, caution])
    .map((one) => (one === null ? '' : renderPile(one, reader)));
  expect(said.filter(isCode)).toEqual([]);
});

test('the pages that say why have the text of what was seen and of every rule', () => {
  const said = findings.flatMap(({ seen, why }) => [renderWhy(seen, reader), renderWhy(why, reader)]);
  expect(said.filter(isCode)).toEqual([]);
});
