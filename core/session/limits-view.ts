/** The limits a batch is judged by, each with where it comes from. */
import { type Message, message } from '../../shared/messages/message.ts';
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

interface LimitView {
  readonly value: number;
  readonly unit: string;
  readonly messages: { readonly origin: Message };
}

/** @param own Those that were set for this batch. */
export function limitsView(
  stage: Stage,
  own: Readonly<{ [name in keyof StageLimits]?: number | undefined }>,
): Record<string, LimitView> {
  const usual = stageLimits[stage];
  const names = Object.keys(limitUnits) as (keyof StageLimits)[];
  return Object.fromEntries(
    names.map((name) => [
      name,
      {
        value: own[name] ?? usual[name],
        unit: limitUnits[name],
        messages: { origin: own[name] === undefined ? limitOrigins[stage][name] : message('origin.set-for-batch') },
      },
    ]),
  );
}
