/** What the positions in a pile are called, inside a sentence. */
import type { Position } from '../../../../shared/names.ts';
import { useMoundWords } from './use-mound-words.ts';

/** @example usePositionNames()('core') // => "core", or "centro" */
export function usePositionNames(): (position: Position) => string {
  const { text } = useMoundWords();
  return (position) => text('page-mound.place', { position });
}
