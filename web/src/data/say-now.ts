/** Sentences that are made once, outside of what is drawn anew with every change: why something was refused, beside its field. */
import { fallback } from '../../../shared/messages/language.ts';
import type { Say } from '../../../shared/messages/message.ts';
import type { Render } from '../../../shared/messages/renderer.ts';
import { otherLanguage, sayIn } from './language.ts';
import { unitsNow } from './plan-units.ts';

/** @param render What English says. */
export function sayNow(render: Render): Say {
  return sayIn(otherLanguage(), render, {
    language: fallback,
    timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    nowMs: Date.now(),
    units: unitsNow(),
  });
}
