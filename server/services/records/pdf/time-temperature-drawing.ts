/** How long it was how hot, beside what composting rules ask. */
import { message } from '../../../../shared/messages/message.ts';
import type { Paper } from './paper.ts';

export function drawTimeTemperature(paper: Paper): void {
  const { sheet, say, record } = paper;
  const facts = record.timeTemperature;
  sheet.heading(say(message('record.heading.time')));
  sheet.paragraph(measuredWords(paper));
  drawPastHeat(paper);
  sheet.table(
    [
      { heading: say(message('record.column.at-least')), share: 1 },
      { heading: say(message('record.column.in-all')), share: 1 },
      { heading: say(message('record.column.longest')), share: 1 },
    ],
    facts.hoursAtLeast.map(({ tempC, totalH, longestRunH }) => [
      say(message('record.degrees', { tempC })),
      say(message('record.hours', { spanHours: totalH })),
      say(message('record.hours', { spanHours: longestRunH })),
    ]),
  );
  sheet.paragraph(say(message('record.rules')), { soft: true });
  sheet.table(
    [
      { heading: say(message('record.column.rule')), share: 4 },
      { heading: say(message('record.column.asks')), share: 4 },
      { heading: say(message('record.column.measured')), share: 4 },
    ],
    facts.rules.map(({ rule, source, standing, asks, measured, messages }) => [
      `${rule}\n${standing === 'seen' ? source : say(message('record.from-memory', { sourcePart: messages.source }))}`,
      asks,
      measured,
    ]),
    8,
  );
}

function measuredWords({ say, record: { timeTemperature } }: Paper): string {
  const { highestC, highestAt, position, measuredH, unmeasuredH, turns } = timeTemperature;
  return [
    highestC === null || highestAt === null
      ? message('record.no-temperature')
      : message('record.highest', { highestC, highestWhenMs: Date.parse(highestAt) }),
    ...(position === null ? [] : [message('record.counted-at', { position })]),
    message('record.measured', { measuredHours: measuredH, unmeasuredHours: unmeasuredH, turnsCount: turns }),
  ]
    .map(say)
    .join(' ');
}

function drawPastHeat({ sheet, say, record: { pastHeat } }: Paper): void {
  const { actC, lossC, places, says } = pastHeat;
  if (says !== null) sheet.paragraph(says, { strong: true });
  if (places.length === 0) return;
  sheet.table(
    [
      { heading: say(message('record.column.place')), share: 1 },
      { heading: say(message('record.column.hottest')), share: 3 },
      { heading: say(message('record.column.act', { actC })), share: 3 },
      { heading: say(message('record.column.loss', { lossC })), share: 3 },
    ],
    places.map(({ position, peakC, peakAt, actH, lossH }) => [
      say(message('record.place', { position })),
      say(message('record.hottest', { peakC, peakWhenMs: Date.parse(peakAt) })),
      say(message('record.hours', { spanHours: actH })),
      say(message('record.hours', { spanHours: lossH })),
    ]),
  );
}
