import { expect, test } from 'vitest';
import { HubAnnouncer } from '../../../server/publish/hub-announcer.ts';
import { allParts, hubDevice } from '../../../server/publish/hub-device.ts';
import { pileState } from '../../../server/publish/pile-state.ts';
import { unseenPile } from '../../../server/services/views/unjudged-pile.ts';
import type { PileSummary } from '../../../shared/contracts/piles.ts';
import type { HubChoice } from '../../../shared/contracts/published.ts';
import { positions } from '../../../shared/names.ts';
import { hubDeviceTopic } from '../../../shared/published-topics.ts';
import type { PileRecord } from '../../../shared/store/journal.ts';
import { hasJinja, rendered } from '../../helpers/jinja.ts';
import { documentedDiscovery, documentedTopic } from './documented-discovery.ts';

const pile = { id: 'shed', siteId: 'saltmere-yard', name: 'Shed {{ 1 }}' } as PileRecord;
const parts = { root: 'piles', version: '1.0.0', publicUrl: 'https://farm.example/bran' };
const nowMs = Date.UTC(2031, 4, 1, 6);
const minuteMs = 60_000;
const at = new Date(nowMs).toISOString();
const all = { pile, places: positions, mayAcknowledge: true };
const seen: PileSummary = {
  ...unseenPile(pile, null),
  condition: 'It is warm, '.repeat(40).replaceAll(' ', '_'),
  positions: {
    core: { temperatureC: 41.52, at, silent: false, probe: 'p1' },
    edge: { temperatureC: 30, at, silent: true, probe: 'p2' },
  },
};

test('hubDevice() holds what is documented of device discovery, and nothing else', () => {
  expect(hubDeviceTopic('piles', 'shed')).toMatch(documentedTopic);
  for (const offered of [all, { pile, places: [], mayAcknowledge: false }]) {
    const withdrawn = offered.mayAcknowledge ? [] : ['core-temperature', 'acknowledge'];
    const config = documentedDiscovery.parse(JSON.parse(JSON.stringify(hubDevice(parts, offered, withdrawn))));
    const ids = Object.values(config.components).flatMap((one) => ('unique_id' in one ? [one.unique_id] : []));
    expect(new Set(ids).size).toBe(ids.length);
    expect(Object.keys(config.components).every((part) => allParts.includes(part))).toBe(true);
  }
  expect(Object.keys(hubDevice(parts, all).components)).toEqual(allParts);
});

test('documentedDiscovery refuses what is not documented', () => {
  const config = JSON.parse(JSON.stringify(hubDevice(parts, all)));
  const { origin: _, ...without } = config;
  const misspelt = { ...config, components: { x: { ...config.components.next, valuetemplate: 'x' } } };
  const unit = { ...config, components: { x: { ...config.components['core-temperature'], unit_of_measurement: '%' } } };
  for (const bad of [without, misspelt, unit]) expect(documentedDiscovery.safeParse(bad).success).toBe(false);
});

test.skipIf(!hasJinja)('hubDevice() has templates that a hub makes these states of', () => {
  const config = hubDevice(parts, all);
  const state = JSON.stringify(pileState(seen, nowMs));
  const sensors = Object.entries(config.components).filter(([part]) => part !== 'acknowledge');
  const templates = sensors.map(([, keys]) => (keys as { value_template: string }).value_template);
  const states = Object.fromEntries(rendered(templates, state, nowMs).map((said, i) => [sensors[i]?.[0], said]));
  expect(states).toMatchObject({
    'core-temperature': '41.52',
    'edge-temperature': 'None', // silent: what it said last is not how it is
    'air-temperature': 'None',
    moisture: 'None',
    warning: 'calm',
    'last-heard': at,
  });
  expect(states.condition).toHaveLength(255);
  const batch = {
    id: 'b',
    startedAt: at,
    progress: 1,
    phase: 'heating',
    phaseReason: '',
    moisture: { frac: 0.547, sdFrac: 0.03 },
  };
  const moist = JSON.stringify({ ...JSON.parse(state), batch });
  expect(rendered([(config.components.moisture as { value_template: string }).value_template], moist, nowMs)).toEqual([
    '55.0',
  ]);
});

/** Minutes since the state was worked out. */
const ages: [number, string][] = [
  [0, 'online'],
  [29.9, 'online'],
  [30, 'offline'],
  [60 * 24, 'offline'],
];
for (const [minutes, said] of ages) {
  test.skipIf(!hasJinja)(`a device whose state is ${minutes} min old is ${said}`, () => {
    const { availability_template } = hubDevice(parts, all);
    const state = JSON.stringify(pileState(seen, nowMs));
    expect(rendered([availability_template], state, nowMs + minutes * minuteMs)).toEqual([said]);
  });
}
test.skipIf(!hasJinja)('a device whose state was taken away is offline, and a press says when it was', () => {
  const { availability_template, components } = hubDevice(parts, all);
  expect(rendered([availability_template], '', nowMs)).toEqual(['offline']);
  const { command_template } = components.acknowledge as unknown as { command_template: string };
  const [press = ''] = rendered([command_template], '', nowMs);
  expect(Date.parse(JSON.parse(press).at)).toBe(nowMs);
});

function announcer(first: HubChoice | undefined) {
  let hub = first;
  const said: { topic: string; parts: string[] | null; bare: string[] }[] = [];
  const one = new HubAnnouncer({
    ...parts,
    choice: { hub: () => hub },
    say(_site, { topic, text, retain }) {
      expect(retain).toBe(true);
      const components = text === '' ? {} : documentedDiscovery.parse(JSON.parse(text)).components;
      const bare = Object.keys(components).filter((part) => Object.keys(components[part] ?? {}).length === 1);
      said.push({
        topic,
        bare,
        parts: text === '' ? null : Object.keys(components).filter((part) => !bare.includes(part)),
      });
    },
  });
  return {
    one,
    said,
    choose(next: HubChoice) {
      hub = next;
    },
  };
}

test('HubAnnouncer says nothing until somebody chose, and takes back once what is switched off', () => {
  const { one, said, choose } = announcer(undefined);
  one.follow(pile, seen);
  one.gone(pile);
  expect(said).toEqual([]);
  choose('off');
  one.follow(pile, seen);
  one.follow(pile, seen);
  expect(said).toEqual([{ topic: 'homeassistant/device/branhearth-piles-shed/config', parts: null, bare: [] }]);
});

test('HubAnnouncer offers no air of a neighbour: it was not measured at the pile', () => {
  const { one, said } = announcer('looks-on');
  const air = { temperatureC: 12, at, silent: false, probe: 'shade' };
  one.follow(pile, { positions: { air } });
  expect(said.at(-1)?.parts).toContain('air-temperature');
  one.follow(pile, { positions: { air: { ...air, ofPile: 'barn' } } });
  expect(said.at(-1)?.parts).not.toContain('air-temperature');
});

test('HubAnnouncer says a pile once while nothing changes, anew when forgotten, and withdraws a part that goes', () => {
  const { one, said, choose } = announcer('acknowledges');
  const last = () => said.at(-1)?.parts ?? [];
  one.follow(pile, seen);
  // What an earlier run had is not known: whatever it has not is withdrawn first.
  expect(said.map(({ bare }) => bare)).toEqual([['top-temperature', 'base-temperature', 'air-temperature'], []]);
  expect(last()).toEqual([
    'core-temperature',
    'edge-temperature',
    'moisture',
    'condition',
    'next',
    'warning',
    'last-heard',
    'acknowledge',
  ]);
  one.follow(pile, { positions: { ...seen.positions, core: { temperatureC: 50, silent: false } } });
  expect(said).toHaveLength(2);
  one.forget();
  one.follow(pile, seen);
  expect(said).toHaveLength(3);
  choose('looks-on');
  one.follow(pile, seen);
  expect(said.slice(3).map(({ bare }) => bare)).toEqual([['acknowledge'], []]);
  expect(last()).not.toContain('acknowledge');
  one.follow({ ...pile, name: 'Barn' }, seen);
  expect(said).toHaveLength(6);
  one.gone(pile);
  expect(said.at(-1)?.parts).toBeNull();
});
