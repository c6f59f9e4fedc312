/** What was done to a pile, by name. */
import { type ActKind, actKindSchema } from '../../../../shared/contracts/domain/batch.ts';
import { entryTexts } from '../../../../shared/messages/made/en/entry.ts';
import { type Message, message } from '../../../../shared/messages/message.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { sayNow } from '../../data/say-now.ts';

const renderEntry = rendererOf(entryTexts);

/** @returns Its name as the journal has it; of what this page does not know, what it is called by the server. */
export function actName(kind: string): string {
  const known = actKindSchema.safeParse(kind);
  return known.success ? sayNow(renderEntry)(messageOf(known.data)) : kind;
}

function messageOf(kind: ActKind): Message {
  return kind === 'covered' ? message('entry.covered', { cover: 'other' }) : message(`entry.${kind}`);
}
