import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { covers, topicRights } from '../../ingest/auth/topic-rights.ts';
import { matchFilter } from '../../ingest/mapping/topic-filter.ts';
import type { KeyReach } from '../../shared/probe-key.ts';

const probe: KeyReach = { site: 'saltmere-yard', probe: 'p1', foreign: [], hears: 'own' };
const site: KeyReach = { ...probe, probe: null };
const mapped: KeyReach = { ...probe, foreign: ['garden/+/temp', '#'] };
const hub: KeyReach = {
  site: null,
  probe: null,
  foreign: ['homeassistant/status', 'piles-command/saltmere-yard/#'],
  hears: 'everything',
};
const lamp: KeyReach = { site: null, probe: null, foreign: [], hears: 'warnings' };
const logger: KeyReach = { ...lamp, hears: 'everything' };

const publishing: [string, KeyReach, string, boolean][] = [
  ['a probe key', probe, 'piles/saltmere-yard/p1/reading', true],
  ['a probe key', probe, 'piles/saltmere-yard/p1/status', true],
  ['a probe key', probe, 'piles/saltmere-yard/p1/temperature', true],
  ['a probe key', probe, 'piles/saltmere-yard/p1/', false],
  ['a probe key', probe, 'piles/saltmere-yard/p1', false],
  ['a probe key', probe, 'piles/saltmere-yard/p12/reading', false],
  ['a probe key', probe, 'piles/saltmere-yard/p2/reading', false],
  ['a probe key', probe, 'piles/oak-terrace/p1/reading', false],
  ['a probe key', probe, 'garden/bed/temp', false],
  ['a site key', site, 'piles/saltmere-yard/p2/reading', true],
  ['a site key', site, 'piles/saltmere-yard-2/p2/reading', false],
  ['a site key', site, 'piles/oak-terrace/p1/reading', false],
  ['a site key', site, 'tele/board/SENSOR', true],
  ['a site key', site, 'zigbee2mqtt/compost/core', true],
  ['a site key', site, 'garden/bed/temp', false],
  ['a probe key', probe, 'tele/board/SENSOR', false],
  ['a key that listens', logger, 'tele/board/SENSOR', false],
  ['a key with foreign topics', mapped, 'garden/bed/temp', true],
  ['a key with foreign topics', mapped, 'piles/oak-terrace/p1/reading', false], // not even by #
  ['a key with foreign topics', mapped, 'piles/saltmere-yard/p1/reading', true],
  ['a key that listens', lamp, 'piles/saltmere-yard/p1/reading', false],
  ['a key that listens', logger, 'garden/bed/temp', false],
  ['a site key', site, 'piles-state/saltmere-yard/shed', false],
  ['a probe key', probe, 'piles-event/saltmere-yard/shed', false],
  ['a site key', site, 'piles-command/saltmere-yard/shed/acknowledge', false],
  ['a key with foreign topics', mapped, 'piles-command/saltmere-yard/shed/acknowledge', false], // # means others
  ['a key that names commands', hub, 'piles-command/saltmere-yard/shed/acknowledge', true],
  ['a key that names commands', hub, 'piles-command/oak-terrace/shed/acknowledge', false],
  ['a key that names commands', hub, 'homeassistant/status', true],
];
for (const [who, reach, topic, may] of publishing) {
  test(`${who} ${may ? 'may' : 'may not'} publish on ${topic}`, () => {
    expect(topicRights(reach, 'piles').mayPublish(topic)).toBe(may);
  });
}

for (const topic of [
  'piles-state/saltmere-yard/shed',
  'piles-event/saltmere-yard/shed',
  'piles-command/saltmere-yard/shed/acknowledge',
  'homeassistant/device/branhearth-piles-shed/config',
]) {
  test(`what a site key says on ${topic} is not taken for a device's`, () => {
    expect(topicRights(site, 'piles').mayBeHeard(topic)).toBe(false);
    expect(topicRights(site, 'piles').mayBeHeard(`others-${topic}`)).toBe(true);
  });
}

const hearing: [string, KeyReach, string, boolean][] = [
  ['a probe key', probe, 'piles/saltmere-yard/p1/reading', true],
  ['a probe key', probe, 'piles/saltmere-yard/p1/#', true],
  ['a probe key', probe, 'piles/saltmere-yard/+/reading', false],
  ['a probe key', probe, 'piles/saltmere-yard/p2/reading', false],
  ['a probe key', probe, '#', false],
  ['a site key', site, 'piles/saltmere-yard/+/reading', true],
  ['a site key', site, 'piles/+/p1/reading', false],
  ['a site key', site, 'piles-state/saltmere-yard/#', true],
  ['a site key', site, 'piles-event/saltmere-yard/shed', true],
  ['a site key', site, 'piles-state/oak-terrace/#', false],
  ['a site key', site, 'piles-state/+/shed', false],
  ['a probe key', probe, 'piles-state/saltmere-yard/shed', false],
  ['a probe key', probe, 'piles-state/oak-terrace/#', false],
  ['a probe key', probe, 'piles-event/#', false],
  ['a lamp', lamp, 'piles-state/#', false],
  ['a key that hears everything', logger, 'piles-state/#', true],
  ['a lamp', lamp, 'piles/saltmere-yard/siren', true],
  ['a lamp', lamp, 'piles/+/lamp', true],
  ['a lamp', lamp, 'piles/#', false],
  ['a key that hears everything', logger, '#', true],
  ['a key that hears everything', logger, 'piles/+/+/reading', true],
  ['a key that hears everything', logger, '$SYS/#', false],
];
for (const [who, reach, filter, may] of hearing) {
  test(`${who} ${may ? 'may' : 'may not'} listen to ${filter}`, () => {
    expect(topicRights(reach, 'piles').mayHear(filter)).toBe(may);
  });
}

describe('covers()', () => {
  const level = fc.constantFrom('a', 'b', '', '$c');
  const topic = fc.array(level, { minLength: 1, maxLength: 4 }).map((levels) => levels.join('/'));
  const filter = fc
    .tuple(fc.array(fc.oneof(level, fc.constant('+')), { minLength: 1, maxLength: 4 }), fc.boolean())
    .map(([levels, deep]) => [...levels, ...(deep ? ['#'] : [])].join('/'));

  test('is true only when every topic of the narrow filter is one of the wide filter', () => {
    fc.assert(
      fc.property(filter, filter, topic, (wide, narrow, some) => {
        if (!covers(wide, narrow) || matchFilter(narrow, some) === undefined) return;
        expect(matchFilter(wide, some)).toBeDefined();
      }),
      { seed: 20310405, numRuns: 20_000 },
    );
  });

  test('a topic is covered by every filter that it matches', () => {
    fc.assert(
      fc.property(filter, topic, (wide, some) => {
        expect(covers(wide, some)).toBe(matchFilter(wide, some) !== undefined);
      }),
      { seed: 20310405, numRuns: 5_000 },
    );
  });
});
