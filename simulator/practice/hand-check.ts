/** What hand and nose find, without any probe. */
import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import { type SqueezeFeel, squeezeResult } from '../../shared/squeeze.ts';
import type { TruthRow } from './record.ts';

/** How bran of this moisture feels, on the scale of shared/squeeze.ts; the moistures that go with it are from memory. */
export function squeezed({ moistureFrac }: Pick<TruthRow, 'moistureFrac'>): SqueezeFeel {
  if (moistureFrac > 0.68) return 'pours';
  if (moistureFrac > 0.57) return 'drips';
  return moistureFrac > 0.48 ? 'holds' : 'crumbles';
}

/** @example squeezedMessage('crumbles') // => "Crumbles when the hand opens: too dry." */
export function squeezedMessage(feel: SqueezeFeel): Message {
  return message('practice.hand.squeezed', { resultPart: squeezeResult(feel, 'bran') });
}

export function lookedAndSmelled(row: TruthRow): Message {
  const top = row.layers[0]?.moistureFrac ?? 1;
  return paragraph(
    smelled(row),
    top < 0.42 ? message('practice.hand.dry-top') : null,
    row.workFrac > 0.85 && row.coreC - row.airC < 5 ? message('practice.hand.cool') : null,
  );
}

function smelled({ leastOxygenFrac, aliveFrac, workFrac }: TruthRow): Message {
  if (leastOxygenFrac < 0.01) return message('practice.hand.airless');
  if (aliveFrac < 0.5) return message('practice.hand.scorched');
  if (workFrac > 0.85) return message('practice.hand.white');
  return message(workFrac > 0.2 ? 'practice.hand.spreading' : 'practice.hand.fresh');
}
