/**
 * tests/shared/store/journal-sample.ts: an invented farm for the journal's tests.
 */
import type { Site } from '../../../shared/api/sites.ts';
import type {
  ActRecord,
  AlarmRecord,
  AlarmStepRecord,
  BatchRecord,
  PileRecord,
} from '../../../shared/store/journal.ts';

export const hourMs = 3_600_000;
export const beginMs = Date.UTC(2031, 2, 30);

export const yard: Site = {
  id: 'saltmere-yard',
  name: 'Saltmere Yard',
  timeZone: 'Europe/Lisbon',
  latitude: 38.5,
  longitude: -8.9,
};
export const terrace: Site = {
  id: 'saltmere-terrace',
  name: 'Saltmere Terrace',
  timeZone: null,
  latitude: null,
  longitude: null,
};

export const branPile: PileRecord = {
  id: 'bran-bay',
  siteId: yard.id,
  name: 'Bran bay',
  createdAtMs: beginMs,
};
export const soilPile: PileRecord = {
  id: 'soil-bay',
  siteId: terrace.id,
  name: 'Soil bay',
  createdAtMs: beginMs + 1,
};

export const branBatch: BatchRecord = {
  id: 'bran-bay-1',
  pileId: branPile.id,
  stage: 'bran',
  startedAtMs: beginMs,
  endedAtMs: null,
  outcome: null,
  recipe: { material: 'wheat-bran', depthM: 0.3, massKg: 120, moistureFrac: 0.6, cover: 'breathable' },
  limits: { actC: 48 },
};
export const soilBatch: BatchRecord = {
  id: 'soil-bay-1',
  pileId: soilPile.id,
  stage: 'soil',
  startedAtMs: beginMs,
  endedAtMs: null,
  outcome: null,
  recipe: { material: 'soil-mix', depthM: 0.2, cover: 'closed' },
  limits: {},
};

export const turned: ActRecord = {
  id: 'act-1',
  pileId: branPile.id,
  kind: 'turned',
  atMs: beginMs + hourMs,
  note: null,
};
export const watered: ActRecord = {
  id: 'act-2',
  pileId: branPile.id,
  kind: 'watered',
  atMs: beginMs + 2 * hourMs,
  amountL: 8,
  note: 'edges only',
};

export const tooWarm: AlarmRecord = {
  id: 'alarm-1',
  pileId: branPile.id,
  kind: 'overheating',
  position: 'core',
  severity: 'urgent',
  state: 'unacknowledged',
  raisedAtMs: beginMs + 30 * hourMs,
  changedAtMs: beginMs + 30 * hourMs,
  closedAtMs: null,
  machine: '{"state":"unacknowledged"}',
  words: '{"seen":"the core is at 52.0 °C"}',
};

export const raised: AlarmStepRecord = {
  alarmId: tooWarm.id,
  atMs: tooWarm.raisedAtMs,
  from: 'normal',
  to: 'unacknowledged',
  arrow: 'held-long-enough',
  by: null,
  note: null,
};
