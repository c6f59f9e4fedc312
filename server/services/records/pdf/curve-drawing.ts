/** The temperatures of a batch as lines on paper, distinguished by dash and name, not by colour alone. */
import type { BatchRecordSheet } from '../../../../shared/contracts/records.ts';
import { message } from '../../../../shared/messages/message.ts';
import { type Position, positions } from '../../../../shared/names.ts';
import { msPerDay } from '../../../../shared/units.ts';
import { niceSteps, timeSteps } from './axis.ts';
import type { Paper } from './paper.ts';
import { ink, type Sheet, softInk } from './sheet.ts';

interface LineLook {
  readonly colour: string;
  readonly dash: readonly number[];
  readonly width: number;
}

const looks: Record<Position, LineLook> = {
  core: { colour: '#8f2708', dash: [], width: 1.4 },
  top: { colour: '#764700', dash: [5, 2], width: 0.9 },
  base: { colour: '#57500f', dash: [2, 2], width: 0.9 },
  edge: { colour: '#7d3358', dash: [7, 2, 1, 2], width: 0.9 },
  air: { colour: '#215a70', dash: [1, 2], width: 0.9 },
};

const height = 210;
const axisWidth = 34;
/** Of the chart with its heading. */
export const chartRoomPt = height + 110;

export function drawCurves({ sheet, say, record }: Paper): void {
  const { temperatureC, bucketMs, byHand } = record.curves;
  const all = [
    ...temperatureC.flatMap(({ points }) => points),
    ...byHand.map((one) => ({ min: one.temperatureC, max: one.temperatureC })),
  ];
  if (all.length === 0) {
    sheet.paragraph(say(message('record.no-curve')));
    return;
  }
  sheet.need(height + 60);
  const { doc } = sheet;
  const top = doc.y + 4;
  const [left, right] = [sheet.left + axisWidth, sheet.left + sheet.width - 8];
  const fromMs = Date.parse(record.batch.startedAt);
  const toMs = Math.max(
    fromMs + bucketMs,
    record.batch.endedAt ? Date.parse(record.batch.endedAt) : Date.parse(record.drawnUpAt),
  );
  const actC = record.limits.actC?.value;
  const temps = niceSteps(Math.min(...all.map(({ min }) => min)), Math.max(actC ?? 0, ...all.map(({ max }) => max)), 7);
  const [lowC, highC] = [temps[0] ?? 0, temps.at(-1) ?? 1];
  const x = (atMs: number) => left + ((atMs - fromMs) / (toMs - fromMs)) * (right - left);
  const y = (tempC: number) => top + height - ((tempC - lowC) / (highC - lowC)) * height;

  const plane = { x, y, top, left, right };
  drawGrid(sheet, plane, temps, timeSteps(fromMs, toMs, 6), say);
  if (actC !== undefined) drawActLine(sheet, plane, actC, say);
  drawLines(sheet, plane, record.curves);
  drawPoints(sheet, plane, byHand);
  drawActs(sheet, record, plane);
  drawNames(
    sheet,
    positions.filter((position) => [...temperatureC, ...byHand].some((one) => one.position === position)),
    left,
    top + height + 20,
    byHand.length > 0,
    say,
  );
  doc.x = sheet.left;
  doc.y = top + height + 36;
}

/** Where a time and a temperature are on the paper [pt]. */
interface Plane {
  readonly x: (atMs: number) => number;
  readonly y: (tempC: number) => number;
  readonly top: number;
  readonly left: number;
  readonly right: number;
}

function drawGrid(
  sheet: Sheet,
  { x, y, top, left, right }: Plane,
  temps: readonly number[],
  times: readonly number[],
  say: Paper['say'],
): void {
  const { doc, left: edge } = sheet;
  doc.lineWidth(0.4).fontSize(7.5);
  for (const tempC of temps) {
    doc.moveTo(left, y(tempC)).lineTo(right, y(tempC)).stroke('#cfd9d2');
    doc.fillColor(softInk);
    sheet.write(say(message('record.degrees', { tempC })), edge, y(tempC) - 4, {
      width: axisWidth - 5,
      align: 'right',
      lineBreak: false,
    });
  }
  const [first = 0, second = first] = times;
  const dayOrMoment = (atMs: number) =>
    second - first < msPerDay ? message('record.when', { atWhenMs: atMs }) : message('record.day', { onDayMs: atMs });
  let free = left;
  for (const atMs of times) {
    doc
      .moveTo(x(atMs), top + height)
      .lineTo(x(atMs), top + height + 4)
      .stroke(softInk);
    const text = say(dayOrMoment(atMs));
    const width = sheet.widthOf(text) + 1;
    const at = Math.min(Math.max(x(atMs) - width / 2, left), right - width);
    // Words that would stand over those before them are left out; the mark stays.
    if (at < free) continue;
    free = at + width + 6;
    doc.fillColor(softInk);
    sheet.write(text, at, top + height + 6, { width, lineBreak: false });
  }
}

function drawActLine(sheet: Sheet, { y, left, right }: Plane, actC: number, say: Paper['say']): void {
  const { doc } = sheet;
  doc.dash(4, { space: 3 }).lineWidth(0.7).moveTo(left, y(actC)).lineTo(right, y(actC)).stroke('#8f2708').undash();
  doc.fillColor('#8f2708');
  sheet.write(say(message('record.act-line', { actC })), right - 150, y(actC) - 10, {
    width: 148,
    align: 'right',
    lineBreak: false,
  });
}

function drawLines(
  { doc }: Sheet,
  { x, y, top, left, right }: Plane,
  { temperatureC, bucketMs }: BatchRecordSheet['curves'],
): void {
  doc
    .save()
    .rect(left, top, right - left, height)
    .clip();
  for (const { position, points } of temperatureC) {
    const { colour, dash, width } = looks[position];
    doc.lineWidth(width).lineJoin('round');
    if (dash.length > 0) doc.dash(dash[0] ?? 2, { space: dash[1] ?? 2 });
    let lastMs = Number.NEGATIVE_INFINITY;
    for (const { at, mean } of points) {
      const atMs = Date.parse(at) + bucketMs / 2;
      // A gap in the readings is a gap in the line.
      if (atMs - lastMs > Math.max(2.5 * bucketMs, 3 * 3_600_000)) doc.moveTo(x(atMs), y(mean));
      else doc.lineTo(x(atMs), y(mean));
      lastMs = atMs;
    }
    doc.stroke(colour).undash();
  }
  doc.restore();
}

/** What was measured by hand: a ring each. */
function drawPoints({ doc }: Sheet, { x, y }: Plane, byHand: BatchRecordSheet['curves']['byHand']): void {
  doc.lineWidth(1);
  for (const { position, at, temperatureC } of byHand)
    doc.circle(x(Date.parse(at)), y(temperatureC), 2).stroke(looks[position].colour);
}

const marks: Record<string, string> = { turned: 'T', watered: 'W', spread: 'S', heaped: 'H' };

/** A letter on a stem for each turn, watering, spreading and heaping. */
function drawActs(
  sheet: Sheet,
  { entries }: BatchRecordSheet,
  { x, top, left, right }: { x: (atMs: number) => number; top: number; left: number; right: number },
): void {
  const { doc } = sheet;
  doc.lineWidth(0.5).fontSize(7);
  let lastPlace = Number.NEGATIVE_INFINITY;
  let row = 0;
  for (const { what, at } of entries) {
    const mark = marks[what.kind];
    const place = x(Date.parse(at));
    if (mark === undefined || place < left || place > right) continue;
    // Letters of acts close together step down, so that each can be read.
    row = place - lastPlace < 9 ? (row + 1) % 5 : 0;
    lastPlace = place;
    const y = top + 2 + row * 9;
    doc
      .dash(1, { space: 3 })
      .moveTo(place, y + 9)
      .lineTo(place, top + height)
      .stroke(softInk)
      .undash();
    doc.fillColor(ink);
    sheet.write(mark, place - 5, y, { width: 10, align: 'center', lineBreak: false }, 'bold');
    doc.lineWidth(0.5);
  }
}

function drawNames(
  sheet: Sheet,
  shown: readonly Position[],
  left: number,
  y: number,
  hasPoints: boolean,
  say: Paper['say'],
): void {
  const { doc } = sheet;
  let x = left;
  for (const position of shown) {
    const { colour, dash, width } = looks[position];
    doc.lineWidth(width);
    if (dash.length > 0) doc.dash(dash[0] ?? 2, { space: dash[1] ?? 2 });
    doc
      .moveTo(x, y + 4)
      .lineTo(x + 22, y + 4)
      .stroke(colour)
      .undash();
    doc.fontSize(7.5).fillColor(ink);
    const named = say(message('record.place', { position }));
    sheet.write(named, x + 26, y, { lineBreak: false });
    x += Math.max(62, 36 + doc.widthOfString(named));
  }
  doc.fillColor(softInk);
  sheet.write(say(message('record.marks', { hasPoints })), x + 6, y, { lineBreak: false });
}
