import { expect, test } from 'vitest';
import type { PileSetup } from '../../../core/profiles/pile-setup.ts';
import { message } from '../../../shared/messages/message.ts';
import { msPerDay, msPerHour } from '../../../shared/units.ts';
import { Played, play, setupOf, startMs } from '../helpers.ts';

const atHour = (hour: number) => startMs + hour * msPerHour;
const warm = () => 40;

/** Core and air speak for twenty hours and then no more; looked at for two days. */
function fallsSilent(served: PileSetup['served'], spokeUntilH = 20): Played {
  const all = play(setupOf('bran', { ...(served && { served }) }), spokeUntilH, warm);
  all.lookUntil(startMs + 2 * msPerDay);
  return all;
}

const silent = ['probe-silent/air', 'probe-silent/core'];
const rows: [what: string, served: PileSetup['served'], raised: string[]][] = [
  ['nothing is known of what serves the pile', undefined, silent],
  ['both were given to it before they spoke', { core: startMs, air: startMs }, silent],
  ['both were given to it just as they last spoke', { core: atHour(20), air: atHour(20) }, silent],
  ['both were given to it after their last word', { core: atHour(20) + 1, air: atHour(20) + 1 }, []],
  ['only the air has a probe of its own', { air: startMs }, ['probe-silent/air']],
  ['it has no probe any more', {}, []],
];

for (const [what, served, raised] of rows) {
  test(`silence is raised of a probe that spoke for the pile it serves, and of no other: ${what}`, () => {
    const all = fallsSilent(served);
    const found = all.raised().filter((alarm) => alarm.startsWith('probe-silent'));
    expect(found.sort()).toEqual(raised);
  });
}

test('a pile whose probes were taken away says that none is there, and a hot core that nobody measures stays warned of', () => {
  const setup = setupOf('bran', { served: { core: startMs } });
  const hot = play(setup, 30, () => 55);
  expect(hot.stateOf('overheating')).toBe('unacknowledged');
  const bare = new Played(setupOf('bran', { served: {} }));
  Object.assign(bare.state, hot.state);
  bare.evaluate(atHour(31));
  expect(bare.finding('overheating').evidence).toBe('missing');
  expect(bare.finding('probe-silent', 'core')).toMatchObject({
    evidence: 'absent',
    seen: message('warnings.probe.seen.none'),
  });
  expect(bare.finding('probe-stuck', 'core').evidence).toBe('absent');
  expect(bare.say().condition).toBe('No probe is in this pile, so nobody can say how it is.');
});
