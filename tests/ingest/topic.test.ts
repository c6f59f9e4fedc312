import { expect, test } from 'vitest';
import { createTopicReader, readTopic } from '../../ingest/decode/topic.ts';

const probe = { site: 'saltmere-yard', probe: 'p_1' };

test('readTopic() tells readings, status and bare values apart', () => {
  expect(readTopic('piles', 'piles/saltmere-yard/p_1/reading')).toEqual({ kind: 'reading', probe });
  expect(readTopic('piles', 'piles/saltmere-yard/p_1/status')).toEqual({ kind: 'status', probe });
  expect(readTopic('piles', 'piles/saltmere-yard/p_1/co2')).toEqual({ kind: 'value', probe, quantity: 'co2' });
});

test('readTopic() takes what lies outside the root as foreign', () => {
  for (const topic of [
    'garden/a/b/reading',
    'pilesx/a/b/reading',
    'piles',
    '/piles/a/b/reading',
    'PILES/a/b/reading',
    '',
  ]) {
    expect(readTopic('piles', topic)).toEqual({ kind: 'foreign' });
  }
});

const besideOurs: [string, object][] = [
  ['homeassistant/status', { kind: 'hub-status' }],
  ['piles-command/saltmere-yard/shed/acknowledge', { kind: 'acknowledge', site: 'saltmere-yard', pile: 'shed' }],
  ['piles-state/saltmere-yard/shed', { kind: 'own' }],
  ['piles-event/saltmere-yard/shed', { kind: 'own' }],
  ['homeassistant/device/branhearth-piles-shed/config', { kind: 'own' }],
  ['homeassistant/device/branhearth-others-shed/config', { kind: 'foreign' }],
  ['homeassistant/device/kitchen/config', { kind: 'foreign' }],
  ['others-command/saltmere-yard/shed/acknowledge', { kind: 'foreign' }],
];
for (const [topic, route] of besideOurs) {
  test(`readTopic() takes ${topic} as ${JSON.stringify(route)}`, () => {
    expect(readTopic('piles', topic)).toEqual(route);
  });
}

const misshapen = [
  'piles-command/saltmere-yard/shed',
  'piles-command/saltmere-yard/shed/shelve',
  'piles-command/saltmere-yard/shed/acknowledge/now',
  'piles-command/Yard/shed/acknowledge',
  'piles/',
  'piles/a/b',
  'piles/a/b/reading/more',
  'piles//b/reading',
  'piles/a//reading',
  'piles/A/b/reading',
  'piles/a/b c/reading',
  'piles/a/bé/reading',
  `piles/a/${'b'.repeat(65)}/reading`,
  'piles/a/b/Reading',
  'piles/a/b/pressure',
  'piles/a/b/toString',
  'piles/a/b/',
  'piles/../b/reading',
  'piles/a/b\u0000/reading',
];
for (const topic of misshapen) {
  test(`readTopic() refuses ${JSON.stringify(topic)}: topic-shape`, () => {
    expect(readTopic('piles', topic)).toMatchObject({ kind: 'misshapen', error: { reason: 'topic-shape' } });
  });
}

test('readTopic() takes names of 64 characters', () => {
  expect(readTopic('piles', `piles/a/${'b'.repeat(64)}/reading`).kind).toBe('reading');
});

test('createTopicReader() answers the same the second time, also after a flood of topics', () => {
  const topicOf = createTopicReader('piles');
  const first = topicOf('piles/saltmere-yard/p_1/reading');
  for (let index = 0; index < 25_000; index += 1) topicOf(`garden/${index}`);
  expect(topicOf('piles/saltmere-yard/p_1/reading')).toEqual(first);
});
