/** The table of measures as CSV (RFC 4180), a row per batch, units in the headings. */
import { measureKeys } from '../../../core/seasons/measure-keys.ts';
import type { ComparedBatch } from '../../../shared/contracts/seasons.ts';

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
    ...measureKeys.map((key) => plain(batch.measures[key])),
    plain(batch.measures.measuredFrac),
    plain(batch.measures.everyH),
    batch.measures.alarms.map(({ kind, count, hours }) => `${kind} ${count}x ${plain(hours)} h`).join('; '),
    batch.verdict?.verdict ?? '',
    batch.verdict?.why ?? '',
    batch.verdict?.note ?? '',
    batch.outcome ?? '',
  ]);
  return `${[heading, ...rows].map((row) => row.map(quoted).join(',')).join('\r\n')}\r\n`;
}

function plain(value: number | null): string {
  return value === null ? '' : String(Math.round(value * 1000) / 1000);
}

/** A cell that a spreadsheet would take for a formula is given a leading apostrophe; numbers are left alone. */
function quoted(cell: string | number): string {
  const text = String(cell);
  const safe = /^[=+\-@\t]/.test(text) && Number.isNaN(Number(text)) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
