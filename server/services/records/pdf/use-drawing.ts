/** What came of a batch: other batches, beds, and what is left. */
import { type Message, message } from '../../../../shared/messages/message.ts';
import { amountMessage, dayMessage, type Paper } from './paper.ts';

export function drawUse({ sheet, say, record: { batch } }: Paper): void {
  const sayAmount = (massKg: number | null, volumeL: number | null) =>
    say(amountMessage(massKg, volumeL) ?? message('record.no-amount'));
  sheet.heading(say(message('record.heading.use')));
  const onward = batch.outputs
    .filter(({ to }) => to.kind !== 'use')
    .map(({ name, way, at, massKg, volumeL }) => [
      say(dayMessage(at)),
      say(message('record.went', { way, batchName: name })),
      sayAmount(massKg, volumeL),
      '',
    ]);
  const uses = batch.uses.map(({ at, target, place, massKg, volumeL, areaM2, rateKgPerM2, note }) => [
    say(dayMessage(at)),
    say(message('record.used', { target: target === 'given-away' ? 'given' : target, placeName: place })),
    sayAmount(massKg, volumeL),
    [
      ...(areaM2 === null ? [] : [say(message('record.area', { areaM2 }))]),
      ...(rateKgPerM2 === null ? [] : [say(message('record.rate', { rateKgM2: rateKgPerM2 }))]),
      ...(note ? [note] : []),
    ].join(', '),
  ]);
  if (onward.length + uses.length === 0) sheet.paragraph(say(message('record.nothing-written')));
  else
    sheet.table(
      [
        { heading: say(message('record.column.day')), share: 2 },
        { heading: say(message('record.column.where')), share: 4 },
        { heading: say(message('record.column.amount')), share: 2 },
        { heading: say(message('record.column.more')), share: 3 },
      ],
      [...onward, ...uses],
    );
  const { laidKg, outKg, restKg, remark } = batch.amounts;
  if (laidKg !== null || restKg !== null)
    sheet.paragraph(
      say(
        message('record.amounts', {
          laidPart: mass(laidKg, message('record.amount.not-given')),
          takenPart: mass(outKg, message('record.amount.not-all')),
          leftPart: restKg === 0 ? message('record.amount.nothing') : mass(restKg, message('record.amount.not-known')),
        }),
      ),
    );
  if (remark) sheet.paragraph(remark, { soft: true });
}

const mass = (massKg: number | null, otherwise: Message): Message => amountMessage(massKg, null) ?? otherwise;
