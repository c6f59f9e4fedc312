/** The record of a batch on paper. */
import { isSilenced } from '../../../../core/alarms/standing.ts';
import { laidLines } from '../../../../core/records/laid-lines.ts';
import type { BatchRecordSheet } from '../../../../shared/contracts/records.ts';
import { message } from '../../../../shared/messages/message.ts';
import { plainEnglish } from '../../../../shared/messages/render.ts';
import type { WarningKind } from '../../../../shared/warning.ts';
import { dayWords, knownZone, timeWords } from '../../day-words.ts';
import { drawCurves } from './curve-drawing.ts';
import { drawEntries, drawPhotos } from './entry-drawing.ts';
import { Sheet } from './sheet.ts';

/** Within a line, as the pages name it. */
function conditionName(kind: WarningKind): string {
  const name = plainEnglish(message(`condition.${kind}.name`));
  return `${name.charAt(0).toLowerCase()}${name.slice(1)}`;
}

const organicWords = {
  certified: 'certified organic',
  'in-conversion': 'in conversion',
  'not-certified': 'not certified',
  unknown: 'organic status not asked',
} as const;

const kg = (massKg: number | null | undefined) => (massKg == null ? '' : `${Math.round(massKg * 1000) / 1000} kg`);
const litres = (volumeL: number | null | undefined) =>
  volumeL == null ? '' : `${Math.round(volumeL * 1000) / 1000} L`;
const amount = (massKg: number | null, volumeL: number | null) =>
  [kg(massKg), litres(volumeL)].filter(Boolean).join(', ') || 'not written down';

/** @param photos Small JPEGs by photo id; those missing are left out. */
export async function recordPdf(
  record: BatchRecordSheet,
  photos: ReadonlyMap<string, Buffer> = new Map(),
): Promise<Buffer> {
  const zone = knownZone(record.timeZone);
  const { batch } = record;
  const drawnUp = Date.parse(record.drawnUpAt);
  const sheet = new Sheet({
    title: `Record of ${batch.name}`,
    drawnUpAt: new Date(drawnUp),
    foot: `${batch.name}   ·   drawn up ${timeWords(drawnUp, zone)} (${zone}) by Branhearth ${record.version}`,
  });
  drawHead(sheet, record, zone);
  drawInputs(sheet, record, zone);
  sheet.heading('Temperature');
  drawCurves(sheet, record, zone);
  drawEntries(sheet, record, zone);
  drawPhotos(sheet, record, photos, zone);
  drawAlarms(sheet, record, zone);
  drawTimeTemperature(sheet, record, zone);
  drawReadiness(sheet, record, zone);
  drawUse(sheet, record, zone);
  sheet.heading('Cautions');
  sheet.list(record.cautions);
  if (sheet.lacked)
    sheet.paragraph('Signs drawn as □ are not in the font of this paper; the exports hold them.', { soft: true });
  return sheet.finish();
}

function drawHead(sheet: Sheet, { batch, siteName, timeTemperature }: BatchRecordSheet, zone: string): void {
  sheet.title(batch.name);
  const laid = `${batch.stage === 'bran' ? 'Bran stage' : 'Soil stage'}, laid ${timeWords(Date.parse(batch.startedAt), zone)} on ${batch.pileName}, ${siteName}`;
  const ended =
    batch.endedAt === null ? 'still lying there' : `${batch.ending} ${timeWords(Date.parse(batch.endedAt), zone)}`;
  sheet.paragraph(`${laid}; ${ended}. Times are in ${zone}.`, { soft: true });
  sheet.notice(timeTemperature.says);
  if (batch.reason) sheet.paragraph(`Given up because: ${batch.reason}`, { strong: true });
  if (batch.outcome) sheet.paragraph(`How it turned out: ${batch.outcome}`, { strong: true });
}

/** @example inWords('wheat-bran') // => 'wheat bran' */
function inWords(code: string): string {
  return code.replaceAll('-', ' ');
}

function drawInputs(sheet: Sheet, record: BatchRecordSheet, zone: string): void {
  const { batch } = record;
  sheet.heading('What was laid');
  const facts = laidLines({ ...record, stage: batch.stage }).map(({ what, given, assumed }) => [
    plainEnglish(what),
    given === null ? (assumed === null ? 'Not given' : `Not given; ${plainEnglish(assumed)}`) : plainEnglish(given),
  ]);
  sheet.table(
    [
      { heading: 'As laid', share: 1 },
      { heading: '', share: 3 },
    ],
    facts,
  );
  if (record.lots.length > 0) {
    const rows = record.lots.map(({ name, facts: lot, massKgIn, volumeLIn, storage }) => {
      const from =
        lot.kind === 'starter'
          ? [
              lot.collectedPlace && `collected at ${lot.collectedPlace}`,
              lot.collectedAt && dayWords(Date.parse(lot.collectedAt), zone),
              lot.sugar && `sugar: ${lot.sugar}`,
              storage,
            ]
          : [lot.supplier, lot.lotNumber && `lot ${lot.lotNumber}`, organicWords[lot.organic], lot.certificate];
      return [
        name,
        lot.kind === 'starter' ? 'starter' : inWords(lot.material),
        from.filter(Boolean).join(', '),
        amount(massKgIn, volumeLIn),
      ];
    });
    sheet.table(
      [
        { heading: 'Lot', share: 3 },
        { heading: 'What', share: 2 },
        { heading: 'From', share: 5 },
        { heading: 'Amount', share: 2 },
      ],
      rows,
    );
  }
  const batchesIn = batch.inputs.filter(({ from }) => from.kind === 'batch');
  for (const { name, way, massKg, volumeL } of batchesIn) {
    sheet.paragraph(`From the batch ${name} (${way}): ${amount(massKg, volumeL)}.`);
  }
  const before = record.ancestry.filter(({ step }) => step < -1);
  if (before.length > 0) {
    sheet.paragraph(`Before that: ${before.map(({ name, says }) => `${name} (${says})`).join('; ')}.`, { soft: true });
  }
}

function drawAlarms(sheet: Sheet, { alarms }: BatchRecordSheet, zone: string): void {
  sheet.heading('Alarms');
  if (alarms.length === 0) {
    sheet.paragraph('None was raised.');
    return;
  }
  const rows = alarms.map((alarm) => {
    const { since, kind, position, severity, seen, noted, steps } = alarm;
    const people = steps.filter(({ by }) => by !== null).map(({ by, arrow }) => `${arrow} by ${by}`);
    return [
      timeWords(Date.parse(since), zone),
      `${conditionName(kind)}${position ? ` (${position})` : ''}, ${severity}`,
      [seen, ...(noted ? [notedWords(noted, zone)] : []), ...people].join('; '),
      endWords(alarm, zone),
    ];
  });
  sheet.table(
    [
      { heading: 'Raised', share: 3 },
      { heading: 'What', share: 3 },
      { heading: 'Seen', share: 5 },
      { heading: 'Ended', share: 3 },
    ],
    rows,
  );
}

/** A shelf hides nothing here, and what has passed no longer stands, acknowledged or not. */
function endWords(alarm: BatchRecordSheet['alarms'][number], zone: string): string {
  if (alarm.stands) return isSilenced(alarm) ? `still stands, ${alarm.state.replaceAll('-', ' ')}` : 'still stands';
  const end = alarm.steps.findLast(({ to }) => to === 'normal' || to === 'returned-unacknowledged');
  const passed = end === undefined ? 'passed' : timeWords(Date.parse(end.at), zone);
  return alarm.state === 'normal' ? passed : `${passed}, ${alarm.state === 'shelved' ? 'shelved' : 'not acknowledged'}`;
}

function notedWords({ at, by }: NonNullable<BatchRecordSheet['alarms'][number]['noted']>, zone: string): string {
  const when = timeWords(Date.parse(at), zone);
  return by === null ? `noted ${when}` : `noted by ${by}, ${when}`;
}

function drawTimeTemperature(sheet: Sheet, { timeTemperature: facts, pastHeat }: BatchRecordSheet, zone: string): void {
  sheet.heading('Time at temperature');
  const highest =
    facts.highestC === null || facts.highestAt === null
      ? 'No temperature was measured inside it.'
      : `Highest reading ${Math.round(facts.highestC * 10) / 10} °C, ${timeWords(Date.parse(facts.highestAt), zone)}.`;
  const where = facts.position === null ? '' : ` Counted at the position "${facts.position}".`;
  sheet.paragraph(
    `${highest}${where} Measured for ${facts.measuredH} h; ${facts.unmeasuredH} h without readings. Turns logged: ${facts.turns}.`,
  );
  drawPastHeat(sheet, pastHeat, zone);
  sheet.table(
    [
      { heading: 'At or above', share: 1 },
      { heading: 'In all', share: 1 },
      { heading: 'Longest run', share: 1 },
    ],
    facts.hoursAtLeast.map(({ tempC, totalH, longestRunH }) => [`${tempC} °C`, `${totalH} h`, `${longestRunH} h`]),
  );
  sheet.paragraph('What composting rules ask, and what was measured here. Facts side by side, no verdict:', {
    soft: true,
  });
  sheet.table(
    [
      { heading: 'Rule', share: 4 },
      { heading: 'Asks', share: 4 },
      { heading: 'Measured here', share: 4 },
    ],
    facts.rules.map(({ rule, source, standing, asks, measured }) => [
      `${rule}\n${source}${standing === 'from memory' ? ' (from memory: look it up before relying on it)' : ''}`,
      asks,
      measured,
    ]),
    8,
  );
}

function drawPastHeat(sheet: Sheet, { actC, lossC, places, says }: BatchRecordSheet['pastHeat'], zone: string): void {
  if (says !== null) sheet.paragraph(says, { strong: true });
  if (places.length === 0) return;
  sheet.table(
    [
      { heading: 'Place', share: 1 },
      { heading: 'Hottest', share: 3 },
      { heading: `At ${actC} °C or more, where to act`, share: 3 },
      { heading: `At ${lossC} °C or more, where the culture is lost`, share: 3 },
    ],
    places.map(({ position, peakC, peakAt, actH, lossH }) => [
      position,
      `${peakC} °C, ${timeWords(Date.parse(peakAt), zone)}`,
      `${actH} h`,
      `${lossH} h`,
    ]),
  );
}

function drawReadiness(sheet: Sheet, { readiness }: BatchRecordSheet, zone: string): void {
  sheet.heading('Readiness');
  sheet.paragraph(readiness.says, { strong: true });
  sheet.list(readiness.signs.map(({ says, evidence }) => (evidence === 'missing' ? `Not known. ${says}` : says)));
  const { person } = readiness;
  if (person) {
    const note = person.note ? ` “${person.note}”` : '';
    sheet.paragraph(
      `${timeWords(Date.parse(person.at), zone)}, ${person.by ?? 'unnamed'}: smell ${person.smell}, look ${person.look}.${note}`,
    );
  }
}

function drawUse(sheet: Sheet, { batch }: BatchRecordSheet, zone: string): void {
  sheet.heading('Where it went');
  const onward = batch.outputs
    .filter(({ to }) => to.kind !== 'use')
    .map(({ name, way, at, massKg, volumeL }) => [
      dayWords(Date.parse(at), zone),
      `${way}: ${name}`,
      amount(massKg, volumeL),
      '',
    ]);
  const uses = batch.uses.map(({ at, target, place, massKg, volumeL, areaM2, rateKgPerM2, note }) => [
    dayWords(Date.parse(at), zone),
    `${target}: ${place}`,
    amount(massKg, volumeL),
    [areaM2 === null ? '' : `${areaM2} m²`, rateKgPerM2 === null ? '' : `${rateKgPerM2} kg/m²`, note ?? '']
      .filter(Boolean)
      .join(', '),
  ]);
  if (onward.length + uses.length === 0) sheet.paragraph('Nothing was written down.');
  else
    sheet.table(
      [
        { heading: 'Day', share: 2 },
        { heading: 'Where', share: 4 },
        { heading: 'Amount', share: 2 },
        { heading: 'More', share: 3 },
      ],
      [...onward, ...uses],
    );
  const { laidKg, outKg, restKg, remark } = batch.amounts;
  if (laidKg !== null || restKg !== null)
    sheet.paragraph(
      `Laid: ${kg(laidKg) || 'not given'}; taken ${kg(outKg) || 'not all written down'}; left ${restKg === 0 ? 'nothing' : kg(restKg) || 'not known'}.`,
    );
  if (remark) sheet.paragraph(remark, { soft: true });
}
