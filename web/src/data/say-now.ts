/** Sentences that are made once, outside of what is drawn anew with every change: why something was refused, beside its field. */
import type { Say } from '../../../shared/messages/message.ts';
import type { Render } from '../../../shared/messages/renderer.ts';
import { language } from './language.ts';
import { unitsNow } from './plan-units.ts';

export function sayNow(render: Render): Say {
  const reader = {
    language,
    timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    nowMs: Date.now(),
    units: unitsNow(),
  };
  return (said) => render(said, reader);
}
