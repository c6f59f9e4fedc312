/** An invented farm for the journal's tests. */

import type { Site } from '../../../shared/contracts/sites.ts';
import { verbatim } from '../../../shared/messages/message.ts';
import type {
  ActRecord,
  AlarmRecord,
  AlarmStepRecord,
  BatchRecord,
  EntryRecord,
  FlowRecord,
  LotRecord,
  PhotoRecord,
  PileRecord,
  UseRecord,
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
  machine: {
    state: 'unacknowledged',
    sinceMs: beginMs + 30 * hourMs,
    hold: { condition: 'raised', sinceMs: beginMs + 30 * hourMs },
    firstRaisedAtMs: beginMs + 30 * hourMs,
    severity: 'urgent',
    shelvedUntilMs: null,
  },
  words: { seen: verbatim('the core is at 52.0 °C'), todo: verbatim(''), byMs: null, caution: null },
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

export const smelt: EntryRecord = {
  id: 'entry-smelt',
  entryId: 'entry-smelt',
  version: 1,
  pileId: branPile.id,
  atMs: beginMs + 3 * hourMs,
  recordedAtMs: beginMs + 9 * hourMs,
  by: 'yard hand',
  note: 'by the wall',
  photoIds: ['photo-skin'],
  what: { kind: 'smell', smells: ['sour', 'sweet'] },
  reason: null,
  withdrawn: false,
};
export const smeltAgain: EntryRecord = {
  ...smelt,
  id: 'entry-smelt-2',
  version: 2,
  recordedAtMs: beginMs + 10 * hourMs,
  what: { kind: 'smell', smells: ['sweet'] },
  reason: 'the sour one was the other pile',
};
export const judged: EntryRecord = {
  ...smelt,
  id: 'entry-judged',
  entryId: 'entry-judged',
  atMs: beginMs + 90 * hourMs,
  recordedAtMs: beginMs + 90 * hourMs,
  note: null,
  photoIds: [],
  what: { kind: 'verdict', batchId: branBatch.id, verdict: 'usable', why: 'too-hot' },
};
export const skinPhoto: PhotoRecord = {
  id: 'photo-skin',
  digest: 'ab'.repeat(32),
  width: 1600,
  height: 1200,
  bytes: 123_456,
  keptAtMs: beginMs + 9 * hourMs,
};

export const oakLot: LotRecord = {
  id: 'lot-oak',
  name: 'Oak wood, March',
  createdAtMs: beginMs,
  storage: 'jar in the cool store',
  massKg: 2.5,
  volumeL: null,
  note: null,
  usedUp: false,
  facts: { kind: 'starter', collectedPlace: 'oak wood above the terrace', collectedAt: beginMs - 20 * hourMs },
};
export const branLot: LotRecord = {
  ...oakLot,
  id: 'lot-bran',
  name: 'Wheat bran',
  createdAtMs: beginMs + 1,
  facts: { kind: 'material', material: 'wheat-bran', supplier: 'Saltmere Mill', organic: 'certified' },
};
export const laidFrom: FlowRecord = {
  id: 'flow-1',
  from: { kind: 'lot', id: oakLot.id },
  to: { kind: 'batch', id: branBatch.id },
  way: 'input',
  atMs: beginMs,
  massKg: 0.02,
  volumeL: null,
  withdrawnAtMs: null,
};
export const bedUse: UseRecord = {
  id: 'use-1',
  batchId: branBatch.id,
  target: 'bed',
  place: 'Bed 3, upper terrace',
  atMs: beginMs + 100 * hourMs,
  massKg: 12,
  volumeL: null,
  areaM2: 40,
  by: 'yard hand',
  note: null,
};
export const usedOn: FlowRecord = {
  ...laidFrom,
  id: 'flow-2',
  from: { kind: 'batch', id: branBatch.id },
  to: { kind: 'use', id: bedUse.id },
  way: 'used',
  atMs: bedUse.atMs,
  massKg: 12,
};
