/** What a batch was laid of: as given, from which lots, and what those came from. */
import { laidLines } from '../../../../core/records/laid-lines.ts';
import type { BatchRecordSheet } from '../../../../shared/contracts/records.ts';
import { type Message, message } from '../../../../shared/messages/message.ts';
import { lotMaterial, organicChoice } from '../../lineage/lot-words.ts';
import { amountMessage, noAmount, type Paper } from './paper.ts';

type Lot = BatchRecordSheet['lots'][number];

export function drawInputs(paper: Paper): void {
  const { sheet, say, record } = paper;
  const { batch } = record;
  sheet.heading(say(message('record.heading.laid')));
  const facts = laidLines({ ...record, stage: batch.stage }).map(({ what, given, assumed }) => [
    say(what),
    say(
      given ??
        (assumed === null ? message('record.not-given') : message('record.not-given-but', { assumedPart: assumed })),
    ),
  ]);
  sheet.table(
    [
      { heading: say(message('record.column.as-laid')), share: 1 },
      { heading: '', share: 3 },
    ],
    facts,
  );
  if (record.lots.length > 0) drawLots(paper);
  for (const { name, way, massKg, volumeL } of batch.inputs.filter(({ from }) => from.kind === 'batch')) {
    const amountPart = amountMessage(massKg, volumeL) ?? noAmount;
    sheet.paragraph(say(message('record.from-batch', { batchName: name, way, amountPart })));
  }
  const before = record.ancestry.filter(({ step }) => step < -1);
  if (before.length === 0) return;
  const beforeText = before.map(({ name, says }) => `${name} (${says})`).join('; ');
  sheet.paragraph(say(message('record.before', { beforeText })), { soft: true });
}

function drawLots({ sheet, say, record }: Paper): void {
  const rows = record.lots.map((lot) => [
    lot.name,
    say(lot.facts.kind === 'starter' ? message('record.starter') : lotMaterial(lot.facts.material)),
    whereFrom(lot)
      .map((part) => (typeof part === 'string' ? part : say(part)))
      .join(', '),
    say(amountMessage(lot.massKgIn, lot.volumeLIn) ?? noAmount),
  ]);
  sheet.table(
    [
      { heading: say(message('record.column.lot')), share: 3 },
      { heading: say(message('record.column.what')), share: 2 },
      { heading: say(message('record.column.from')), share: 5 },
      { heading: say(message('record.column.amount')), share: 2 },
    ],
    rows,
  );
}

function whereFrom({ facts, storage }: Lot): (Message | string)[] {
  const parts =
    facts.kind === 'starter'
      ? [
          facts.collectedPlace && message('record.lot.collected', { placeName: facts.collectedPlace }),
          facts.collectedAt && message('record.lot.day', { collectedDayMs: Date.parse(facts.collectedAt) }),
          facts.sugar && message('record.lot.sugar', { sugarName: facts.sugar }),
          storage,
        ]
      : [
          facts.supplier,
          facts.lotNumber && message('record.lot.number', { numberName: facts.lotNumber }),
          message('record.lot.organic', { organic: organicChoice[facts.organic] }),
          facts.certificate,
        ];
  return parts.filter((part): part is Message | string => part != null && part !== '');
}
