/**
 * What is said of a pile that cannot be judged as it should be. It never reads as if the pile were well.
 */
import type { PileTroubleCode } from '../../shared/pile-trouble.ts';

export interface TroubleFacts {
  readonly code: PileTroubleCode;
  /** Whether the pile is watched all the same. */
  readonly judged: boolean;
  /** How many records cannot be read. */
  readonly rowCount: number;
}

const byHand = 'Measure it by hand until then; it may be heating.';
const backup = 'Ask whoever keeps this installation to put a backup back';

export function sayTrouble({ code, judged, rowCount }: TroubleFacts): { says: string; todo: string } {
  const records = rowCount === 1 ? 'One of its records' : `${rowCount} of its records`;
  switch (code) {
    case 'batch-unreadable':
      return judged
        ? {
            says: 'What was laid here cannot be read in full, so this pile is judged by what is usual for its stage.',
            todo: `${backup}, or set its limits again.`,
          }
        : {
            says: 'Nobody is watching this pile: the record of its batch cannot be read.',
            todo: `${backup}. ${byHand}`,
          };
    case 'records-unreadable':
      return judged
        ? {
            says: `${records} cannot be read, so this pile is judged without ${rowCount === 1 ? 'it' : 'them'}.`,
            todo: `${backup}, or write down again what is missing.`,
          }
        : {
            says: `Nobody is watching this pile: ${rowCount === 1 ? 'one of its records' : `${rowCount} of its records`} cannot be read.`,
            todo: `${backup}. ${byHand}`,
          };
    case 'readings-unreadable':
      return {
        says: 'Nobody is watching this pile: its readings cannot be read.',
        todo: `It is tried again by itself. If it stays so, ask whoever keeps this installation. ${byHand}`,
      };
    case 'not-judged':
      return {
        says: 'Nobody is watching this pile: it cannot be judged just now.',
        todo: `It is tried again by itself. If it stays so, ask whoever keeps this installation. ${byHand}`,
      };
    case 'not-kept':
      return {
        says: 'This pile is watched, but what is seen of it cannot be written down just now.',
        todo: 'It is tried again by itself. See that the disk has room; warnings are sent all the same.',
      };
  }
}
