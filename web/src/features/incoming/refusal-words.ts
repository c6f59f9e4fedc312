import type { RefusalReason } from '../../../../shared/errors.ts';
import { refusalTexts } from '../../../../shared/messages/made/en/refusal.ts';
import { type Message, message } from '../../../../shared/messages/message.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';

export const renderRefusal = rendererOf(refusalTexts);

export function refusalName(reason: RefusalReason): Message {
  return message(`refusal.name.${reason}`);
}
