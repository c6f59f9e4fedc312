import { expect, test } from 'vitest';
import { pileState } from '../../../server/publish/pile-state.ts';
import { unseenPile } from '../../../server/services/views/unjudged-pile.ts';
import type { AlarmSummary } from '../../../shared/contracts/piles.ts';
import { beginMs, branBatch, branPile } from '../../shared/store/journal-sample.ts';

const hot: AlarmSummary = {
  id: 'alarm-1',
  kind: 'self-heating',
  severity: 'danger',
  state: 'unacknowledged',
  since: '2031-03-30T00:00:00.000Z',
  position: null,
  seen: 'The core is at 83 °C: hot pockets are likely.',
  todo: 'Call the fire service before touching the heap.',
  by: null,
  caution: null,
  stands: true,
  suppressedBy: null,
  yieldsTo: null,
  shelvedUntil: null,
};

const rows: [what: string, alarm: Partial<AlarmSummary>, said: string][] = [
  ['stands', {}, 'danger'],
  ['stands and is acknowledged', { state: 'acknowledged' }, 'danger'],
  ['stands and is shelved', { state: 'shelved', shelvedUntil: '2031-03-30T02:00:00.000Z' }, 'danger'],
  ['stands and is out of service', { state: 'out-of-service' }, 'danger'],
  ['is explained by another', { suppressedBy: 'alarm-2' }, 'calm'],
  ['no longer stands', { state: 'returned-unacknowledged', stands: false }, 'calm'],
];
for (const [what, alarm, said] of rows) {
  test(`what programs are given of a pile whose warning ${what}: ${said}`, () => {
    const summary = { ...unseenPile(branPile, branBatch), alarms: [{ ...hot, ...alarm }] };
    expect(pileState(summary, beginMs).alarm).toBe(said);
  });
}
