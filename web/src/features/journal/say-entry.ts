import { entryMessage } from '../../../../core/records/entry-message.ts';
import type { EntryFacts } from '../../../../shared/entry.ts';
import { entryTexts } from '../../../../shared/messages/made/en/entry.ts';
import { squeezeTexts } from '../../../../shared/messages/made/en/squeeze.ts';
import { verdictTexts } from '../../../../shared/messages/made/en/verdict.ts';
import type { Message } from '../../../../shared/messages/message.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { useSayMeasured } from '../../data/live/use-say-measured.ts';

const renderEntry = rendererOf({ ...entryTexts, ...squeezeTexts, ...verdictTexts });

/** One phrase for an entry that the server has, which knows of which stage its batch is. */
export function useSayWritten(): (entry: WrittenEntry) => string {
  const say = useSayMeasured(renderEntry);
  return ({ what, messages }) => say(messages?.says ?? entryMessage(what));
}

/** @example useSayHeld()(batch.verdict) // => "Judged good: it smelt good" */
export function useSayHeld(): (held: { readonly messages: { readonly says: Message } }) => string {
  const say = useSayMeasured(renderEntry);
  return ({ messages }) => say(messages.says);
}

interface WrittenEntry {
  readonly what: EntryFacts;
  readonly messages?: { readonly says: Message } | undefined;
}

/** One phrase for an entry. @example useSayEntry()({ kind: 'watered', amountL: 8 }) // => "Watered, 8 L" */
export function useSayEntry(): (what: EntryFacts) => string {
  const say = useSayMeasured(renderEntry);
  return (what) => say(entryMessage(what));
}
