/** Sentences that are made once, outside of what is drawn anew with every change: why something was refused, beside its field. */
import { fallback } from '../../../shared/messages/language.ts';
import type { Message, Say } from '../../../shared/messages/message.ts';
import type { Render } from '../../../shared/messages/renderer.ts';
import { otherLanguage } from './language.ts';
import { unitsNow } from './plan-units.ts';

/** @param render What English says, which is said where the language that is read lacks it. */
export function sayNow(render: Render): Say {
  const other = otherLanguage();
  const reader = {
    timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    nowMs: Date.now(),
    units: unitsNow(),
  };
  const isSaid = ({ code }: Message) => code === 'paragraph' || code === 'verbatim' || other?.texts[code] !== undefined;
  return (said) =>
    other && isSaid(said)
      ? other.render(said, { ...reader, language: other.language })
      : render(said, { ...reader, language: fallback });
}
