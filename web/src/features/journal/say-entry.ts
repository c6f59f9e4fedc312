import { entryMessage } from '../../../../core/records/entry-message.ts';
import type { EntryFacts } from '../../../../shared/entry.ts';
import { entryTexts } from '../../../../shared/messages/made/en/entry.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { useSayMeasured } from '../../data/live/use-say-measured.ts';

const renderEntry = rendererOf(entryTexts);

/** One phrase for an entry. @example useSayEntry()({ kind: 'watered', amountL: 8 }) // => "Watered, 8 L" */
export function useSayEntry(): (what: EntryFacts) => string {
  const say = useSayMeasured(renderEntry);
  return (what) => say(entryMessage(what));
}
