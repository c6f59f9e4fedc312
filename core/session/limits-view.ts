/** The limits a batch is judged by, each with where it comes from. */
import type { PileDetail } from '../../shared/contracts/piles.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import type { Stage } from '../../shared/names.ts';
import { limitOrigins, type StageLimits, stageLimits } from '../../shared/stage.ts';

const limitUnits: Record<keyof StageLimits, string> = {
  lengthMinH: 'h',
  lengthMaxH: 'h',
  comfortMinC: '°C',
  comfortMaxC: '°C',
  actC: '°C',
  lossC: '°C',
  moistureMinFrac: '-',
  moistureMaxFrac: '-',
  depthMinM: 'm',
  depthMaxM: 'm',
};

/** @param own Those that were set for this batch. */
export function limitsView(
  stage: Stage,
  own: Readonly<{ [name in keyof StageLimits]?: number | undefined }>,
): PileDetail['limits'] {
  const usual = stageLimits[stage];
  const names = Object.keys(limitUnits) as (keyof StageLimits)[];
  return Object.fromEntries(
    names.map((name) => [
      name,
      {
        value: own[name] ?? usual[name],
        unit: limitUnits[name],
        ...originView(own[name] === undefined ? limitOrigins[stage][name] : message('origin.set-for-batch')),
      },
    ]),
  );
}

const originView = (origin: Message) => ({ origin: plainEnglish(origin), messages: { origin } });
