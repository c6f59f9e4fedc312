/** The table of measures as CSV (RFC 4180), a row per batch, units in the headings. */
import { measureKeys } from '../../../core/seasons/measure-keys.ts';
import type { ComparedBatch } from '../../../shared/contracts/seasons.ts';
import { csvLine } from '../records/export/csv.ts';

const headings: Record<(typeof measureKeys)[number], string> = {
  hoursTo40: 'hours to 40 °C [h]',
  peakC: 'peak [°C]',
  peakAfterH: 'peak after [h]',
  comfortH: 'in the comfortable band [h]',
  above50H: 'above 50 °C [h]',
  above60H: 'above 60 °C [h]',
  activityH: 'activity-hours [h]',
  degreeH: 'degree-hours above the air [K h]',
  depthM: 'depth [m]',
  moistureStartFrac: 'moisture at start, wet basis [-]',
  moistureEndFrac: 'moisture at end by the balance, wet basis [-]',
  waterL: 'water added [L]',
  turns: 'turns',
  alarmH: 'alarms stood [h]',
  readyDays: 'days to ready [d]',
  airMeanC: 'mean air [°C]',
};

const facts: readonly [heading: string, cell: (batch: ComparedBatch) => string | number][] = [
  ['batch', ({ id }) => id],
  ['name', ({ name }) => name],
  ['site', ({ siteName }) => siteName],
  ['pile', ({ pileName }) => pileName],
  ['stage', ({ stage }) => stage],
  ['season', ({ season }) => season.name],
  ['laid', ({ startedAt }) => startedAt],
  ['ended', ({ endedAt }) => endedAt ?? ''],
  ['ending', ({ ending }) => ending ?? ''],
  ['material', ({ material }) => material ?? ''],
  ['cover', ({ cover }) => cover ?? ''],
  ['starters', ({ starters }) => starters.map(({ name }) => name).join('; ')],
];

export function compareCsv(batches: readonly ComparedBatch[]): string {
  const heading = [
    ...facts.map(([name]) => name),
    ...measureKeys.map((key) => headings[key]),
    'measured share [-]',
    'value every [h]',
    'alarms',
    'verdict',
    'verdict because',
    'verdict in words',
    'outcome',
  ];
  const rows = batches.map((batch) => [
    ...facts.map(([, cell]) => cell(batch)),
    ...measureKeys.map((key) => rounded(batch.measures[key])),
    rounded(batch.measures.measuredFrac),
    rounded(batch.measures.everyH),
    batch.measures.alarms.map(({ kind, count, hours }) => `${kind} ${count}x ${rounded(hours) ?? ''} h`).join('; '),
    batch.verdict?.verdict ?? '',
    batch.verdict?.why ?? '',
    batch.verdict?.note ?? '',
    batch.outcome ?? '',
  ]);
  return [heading, ...rows].map(csvLine).join('');
}

const rounded = (value: number | null) => (value === null ? null : Math.round(value * 1000) / 1000);
