/** The record of a batch on paper, in the language of whoever asked for it. */
import type { BatchRecordSheet } from '../../../../shared/contracts/records.ts';
import type { Reader } from '../../../../shared/messages/format.ts';
import { inWordsOf } from '../../../../shared/messages/in-words.ts';
import { message } from '../../../../shared/messages/message.ts';
import { plainSpaces, render } from '../../../../shared/messages/render.ts';
import { knownZone } from '../../known-zone.ts';
import { drawAlarms } from './alarm-drawing.ts';
import { chartRoomPt, drawCurves } from './curve-drawing.ts';
import { drawEntries, drawPhotos } from './entry-drawing.ts';
import { drawInputs } from './input-drawing.ts';
import type { Paper } from './paper.ts';
import { Sheet } from './sheet.ts';
import { drawTimeTemperature } from './time-temperature-drawing.ts';
import { drawUse } from './use-drawing.ts';

/**
 * @param asked The language of whoever reads; units are metric and times the site's, as a record is read by others too.
 * @param photos Small JPEGs by photo id; those missing are left out.
 */
export async function recordPdf(
  asked: BatchRecordSheet,
  reader: Reader,
  photos: ReadonlyMap<string, Buffer> = new Map(),
): Promise<Buffer> {
  const zone = knownZone(asked.timeZone);
  const here = { ...reader, timeZone: zone };
  const record = inWordsOf(asked, here) as BatchRecordSheet;
  const say: Paper['say'] = (said) => plainSpaces(render(said, here));
  const { batch } = record;
  const drawnUp = Date.parse(record.drawnUpAt);
  const sheet = new Sheet({
    title: say(message('record.title', { batchName: batch.name })),
    language: reader.language,
    drawnUpAt: new Date(drawnUp),
    foot: say(
      message('record.foot', {
        batchName: batch.name,
        drawnWhenMs: drawnUp,
        zoneName: zone,
        versionText: record.version,
      }),
    ),
    page: (pageCount, pagesCount) => say(message('record.page', { pageCount, pagesCount })),
  });
  const paper: Paper = { sheet, say, record };
  drawHead(paper, zone);
  drawInputs(paper);
  sheet.heading(say(message('record.heading.temperature')), chartRoomPt);
  drawCurves(paper);
  drawEntries(paper);
  drawPhotos(paper, photos);
  drawAlarms(paper);
  drawTimeTemperature(paper);
  drawReadiness(paper);
  drawUse(paper);
  sheet.heading(say(message('record.heading.cautions')));
  sheet.list(record.cautions);
  if (sheet.lacked) sheet.paragraph(say(message('record.lacked')), { soft: true });
  return sheet.finish();
}

function drawHead({ sheet, say, record: { batch, siteName, timeTemperature } }: Paper, zoneName: string): void {
  sheet.title(batch.name);
  const { stage, pileName, endedAt, ending, reason, outcome, verdict } = batch;
  const endPart =
    endedAt === null
      ? message('record.still-lying')
      : message('record.ended', { ending: ending ?? 'other', endedWhenMs: Date.parse(endedAt) });
  const laidWhenMs = Date.parse(batch.startedAt);
  sheet.paragraph(say(message('record.laid', { stage, laidWhenMs, pileName, siteName, endPart, zoneName })), {
    soft: true,
  });
  sheet.notice(timeTemperature.says);
  if (reason) sheet.paragraph(say(message('record.given-up', { reasonText: reason })), { strong: true });
  if (verdict) {
    const { says } = verdict.messages;
    const judged = { verdictCapitalPart: says, hasNote: verdict.note !== null, noteText: verdict.note ?? '' };
    sheet.paragraph(say(message('record.verdict', judged)), { strong: true });
  } else if (endedAt !== null) sheet.paragraph(say(message('record.no-verdict')), { soft: true });
  if (outcome) sheet.paragraph(say(message('record.outcome', { outcomeText: outcome })), { strong: true });
}

function drawReadiness({ sheet, say, record: { readiness } }: Paper): void {
  sheet.heading(say(message('record.heading.readiness')));
  sheet.paragraph(readiness.says, { strong: true });
  sheet.list(
    readiness.signs.map(({ says, evidence, messages }) =>
      evidence === 'missing' ? say(message('record.not-known', { saysPart: messages.says })) : says,
    ),
  );
  const { person } = readiness;
  if (!person) return;
  const { at, by, smell, look, note } = person;
  const judged = { judgedWhenMs: Date.parse(at), isNamed: by !== null, byName: by ?? '', smell, look };
  sheet.paragraph(`${say(message('record.judged', judged))}${note ? ` “${note}”` : ''}`);
}
