/**
 * A journal with a row in every table that is read through the row schemas, and every way to damage one column of one row.
 */

import { createHash } from 'node:crypto';
import { unseenPile } from '../../../server/services/views/unjudged-pile.ts';
import { message as said } from '../../../shared/messages/message.ts';
import { preferencesSchema } from '../../../shared/notifications.ts';
import { keyColumns, type ReadTable } from '../../../shared/store/journal/row-schemas.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { oneValue } from '../../helpers/one-value.ts';
import { attempt, lease, message, notice } from './journal-notifications-contract.ts';
import {
  bedUse,
  beginMs,
  branBatch,
  branLot,
  branPile,
  hourMs,
  laidFrom,
  oakLot,
  raised,
  skinPhoto,
  smelt,
  soilBatch,
  soilPile,
  terrace,
  tooWarm,
  turned,
  usedOn,
  watered,
  yard,
} from './journal-sample.ts';

/** What the people of the journal hold, in clear; only its digests are kept. */
export const secrets = {
  session: 'the-cookie-that-Ada-carries'.padEnd(43, '-'),
  token: 'branhearth_of-the-weather-script'.padEnd(54, '-'),
  link: 'behind-the-hash-of-an-invitation'.padEnd(43, '-'),
} as const;
export const digestOf = (secret: string) => createHash('sha256').update(secret).digest('hex');

/** Ada is the only owner. */
async function fillPeople(journal: Journal): Promise<void> {
  const ada = { id: 'ada', name: 'Ada', nameKey: 'ada', passwordHash: '', createdAtMs: beginMs, language: null };
  const endsAtMs = beginMs + 9_000 * hourMs;
  const link = { id: 'link-1', personId: null, madeBy: 'Ada', madeById: null, madeAtMs: beginMs, endsAtMs };
  await journal.links.add({ ...link, digest: 'setup', kind: 'setup', role: 'owner' });
  await journal.people.join({ ...ada, role: 'owner' }, 'setup', beginMs);
  await journal.links.add({
    ...link,
    digest: digestOf(secrets.link),
    kind: 'invitation',
    role: 'owner',
    madeById: 'ada',
  });
  const hold = { personId: 'ada', madeAtMs: beginMs, endsAtMs };
  const digest = digestOf(secrets.session);
  const from = { address: '192.0.2.7', agent: 'a browser' };
  await journal.sessions.add({ ...hold, ...from, id: 'session-1', digest, seenAtMs: beginMs });
  const token = { name: 'weather script', scope: 'own', usedAtMs: null } as const;
  await journal.tokens.add({ ...hold, ...token, id: 'token-1', digest: digestOf(secrets.token) });
  await journal.attempts.take([{ key: 'somebody', delayMs: () => 0 }], beginMs + 39 * hourMs, hourMs);
  await journal.notifications.mailAddresses.ask('ada', 'ada@saltmere.example', beginMs);
  await journal.audit.add({
    id: 'audit-1',
    atMs: beginMs,
    personId: 'ada',
    personName: 'Ada',
    via: 'session',
    what: said('audit.did.laid-pile'),
    subject: branPile.id,
    address: null,
    before: null,
    after: { name: 'Bran bay' },
  });
}

/** What several processes tell each other through the journal. */
async function fillShared(journal: Journal): Promise<void> {
  await journal.leases.know([yard.id]);
  await journal.leases.beat('worker-1', 0, { sites: 1 });
  const view = { pileId: branPile.id, summary: unseenPile(branPile, branBatch), assessment: null, band: null };
  const lease = await journal.leases.take(yard.id, 'worker-1', 0);
  if (lease) await journal.views.keep(lease, [view]);
  await journal.commands.add({
    id: 'command-1',
    site: yard.id,
    pileId: branPile.id,
    command: { kind: 'reload' },
    askedMs: beginMs,
  });
}

/** Everything hangs on the bran pile; the soil pile is the other one. */
export async function fillEveryTable(journal: Journal): Promise<void> {
  await journal.sites.add(yard);
  await journal.sites.add(terrace);
  await journal.piles.add(branPile, branBatch);
  await journal.piles.add(soilPile, soilBatch);
  await journal.claims.claim({ site: yard.id, probe: 'p1', pileId: branPile.id, position: 'core', fromMs: beginMs });
  await journal.claims.claim({ site: terrace.id, probe: 'p2', pileId: soilPile.id, position: 'core', fromMs: beginMs });
  await journal.probes.setOnline(yard.id, 'p1', true, beginMs);
  await journal.photos.add(skinPhoto);
  await journal.entries.add(smelt);
  await journal.acts.add(turned);
  await journal.acts.add(watered);
  await journal.lineage.keep(
    {
      lots: [oakLot, branLot],
      uses: [bedUse],
      flows: [laidFrom, usedOn],
      names: [{ batchId: branBatch.id, name: 'First' }],
    },
    () => {},
  );
  const place = { pileId: branPile.id, batchId: branBatch.id, throughMs: beginMs + hourMs, state: {} };
  await journal.watch.keep({ alarms: [tooWarm], steps: [raised], watch: place, notices: [notice] });
  await journal.mappings.add({
    id: 'mapping-1',
    ...oneValue({
      filter: 'barn/+/t',
      pointer: '',
      quantity: 'temperature',
      unit: 'C',
      site: yard.id,
      probe: 'barn-{1}',
    }),
  });
  await journal.airAhead.keep({
    siteId: yard.id,
    source: 'somebody',
    issuedMs: beginMs,
    receivedMs: beginMs,
    points: [{ atMs: beginMs + hourMs, tempC: 12, humidityPct: 80 }],
  });
  await journal.probeKeys.add({
    id: 'key-1',
    name: 'Bran bay core',
    site: yard.id,
    probe: 'p1',
    foreign: [],
    hears: 'own',
    secretSha256: 'digest',
    mosquittoHash: 'hash',
    madeAtMs: beginMs,
    madeBy: null,
    revokedAtMs: null,
    revokedBy: null,
  });
  const { notifications } = journal;
  const messages = [message, { ...message, id: 'message-2', personId: 'bram', notBeforeMs: beginMs + 9_000 * hourMs }];
  const step = { alarmId: tooWarm.id, step: 0, atMs: beginMs };
  await notifications.notices.fanOut({ noticeId: notice.id, state: 'fanned-out', messages, step });
  await notifications.messages.take('email', beginMs, lease('one'), 9);
  await notifications.messages.attempted('one', {
    attempt,
    state: 'sent',
    reason: null,
    nextTryMs: 0,
    doneAtMs: beginMs,
  });
  await notifications.preferences.set('ada', preferencesSchema.parse({}));
  await notifications.devices.keep({
    id: 'device-1',
    personId: 'ada',
    endpoint: 'https://push.saltmere.example/1',
    p256dh: 'key',
    auth: 'secret',
    label: 'phone',
    addedAtMs: beginMs,
    madeWith: null,
    lastOkAtMs: null,
  });
  await notifications.escalations.set({ siteId: yard.id, personIds: ['ada'], afterMin: 20 });
  await notifications.links.add({
    digest: digestOf('behind a press on the message'),
    noticeId: notice.id,
    personId: 'ada',
    personName: 'Ada',
    channel: 'email',
    expiresAtMs: beginMs + 9_000 * hourMs,
    usedAtMs: null,
  });
  await fillPeople(journal);
  await fillShared(journal);
  await journal.settings.write('allowed-addresses', []);
  await journal.settings.write('season-names', { 'spring-2031': 'the dry spring' });
}

export interface Column {
  readonly table: string;
  readonly column: string;
  /** As declared: bigint, integer, double precision, text. */
  readonly type: string;
}

export interface Damage extends Column {
  readonly what: 'no JSON' | 'wrong shape' | 'wrong type' | 'absurd value';
  /** The value as SQL. */
  readonly value: string;
}

/** By which columns a row of the table is found. */
export const keyNames = (table: string): readonly string[] =>
  table === 'setting' ? ['key'] : keyColumns(table as ReadTable);

const numeric = /int|double|real/i;
/** By these a row is found; with another value it is another row. */
const isKey = ({ column }: Column) =>
  /(^|_)(id|key|digest)$/.test(column) || /^(site|probe|step|number|version|endpoint|newest)$/.test(column);

/** JSON columns, each with a value of the right shape that nobody can mean. */
const absurdJson: Readonly<Record<string, string>> = {
  'batch.recipe': '{"depthM":1e9}',
  'batch.limits': '{"actC":1e9}',
  'entry.photo_ids': '[7]',
  'entry.what': '{"kind":"smell","smells":[]}',
  'lot.facts': '{"kind":"starter","sugarRatio":-1}',
  'alarm.machine':
    '{"state":"unacknowledged","sinceMs":1e300,"hold":{"condition":"raised","sinceMs":0},"firstRaisedAtMs":0,"severity":"urgent","shelvedUntilMs":null}',
  'alarm.words': '{"seen":"","todo":"","byMs":1e300,"caution":null}',
  'broker_key.foreign_filters': '[null]',
  'notice.facts': '{"sinceMs":-1,"probeCount":-1,"pileNames":[]}',
  'notification_preferences.preferences': '{"remindEveryMin":-5}',
  'escalation.person_ids': '[{}]',
  'air_ahead.points': '[[-1,1e9,null]]',
  'worker.state': '{"sites":-1}',
  'pile_command.command': '{"kind":"handle"}',
};
const enumerated = new Set([
  'batch.stage',
  'claim.position',
  'entry.kind',
  'batch_story.ending',
  'use_of_batch.target',
  'flow.from_kind',
  'flow.to_kind',
  'flow.way',
  'alarm.kind',
  'alarm.position',
  'alarm.severity',
  'alarm.state',
  'alarm_step.from_state',
  'alarm_step.to_state',
  'broker_key.hears',
  'notice.about',
  'notice.answer',
  'notice.state',
  'message.channel',
  'message.state',
  'message_attempt.outcome',
  'notification_link.channel',
  'mail_address.standing',
  'person.role',
  'link.kind',
  'link.role',
  'api_token.scope',
  'audit.via',
]);

/** @param anyType Whether the database keeps any value in any column. */
export function damagesOf(columns: readonly Column[], anyType: boolean): Damage[] {
  return columns.flatMap((column): Damage[] => {
    const name = `${column.table}.${column.column}`;
    const damage = (what: Damage['what'], value: string): Damage => ({ ...column, what, value });
    if (isKey(column)) return [];
    if (numeric.test(column.type)) {
      // Beyond any time, mass or count; an integer of four bytes holds no more than this.
      const absurd = damage('absurd value', /bigint|double/i.test(column.type) ? '9000000000000000000' : '-2000000000');
      return anyType ? [damage('wrong type', `'rubbish'`), damage('absurd value', '-1e300')] : [absurd];
    }
    const absurd = absurdJson[name];
    if (absurd !== undefined) {
      return [
        damage('no JSON', `'{"cut'`),
        damage('wrong shape', `'[{"a":[]}]'`),
        damage('wrong type', `'"a text"'`),
        damage('absurd value', `'${absurd}'`),
      ];
    }
    if (enumerated.has(name)) return [damage('absurd value', `'nonsense'`)];
    return anyType ? [damage('wrong type', `x'00ff'`)] : [];
  });
}
